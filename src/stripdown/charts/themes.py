"""The look of every chart: one font, two sizes of sheet, colours that stay apart in grey and for the colour-blind."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stripdown.words.answer import Caption

FONT = "Inter"
FONT_STACK = f"{FONT}, sans-serif"

INK = "#1b1f23"
QUIET = "#59636e"
HAIRLINE = "#d5d9de"

# Lightness alternates (CIE L* in brackets), so that neighbours in a bar differ on a grey printer too; hues are taken so
# that they differ for red-green colour-blind eyes as well.
BALL = "#0d4a82"  # 30
PISTON = "#e0962e"  # 68
RUBBER = "#7a4a8c"  # 39
COLUMN = "#62aad6"  # 66
AIR = "#c3cad1"  # 81
LEAK = "#a3342c"  # 38
GAP = "#6b7580"  # 49
FIRST = BALL
SECOND = "#c2701c"  # 54


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """Sizes of a chart for one medium, in Vega's pixels (1/72 inch on paper)."""

    name: str
    width: int
    panel_height: int
    row_height: int
    font_size: float
    line_width: float
    point_size: int
    touch_size: int

    @property
    def small(self) -> float:
        """Size of secondary text."""
        return self.font_size * 0.9

    @property
    def axis_extent(self) -> float:
        """Room kept for the numbers and the title of a vertical axis, so that panels line up."""
        return self.font_size * 4

    def heading(self, title: str, lines: Sequence[str]) -> dict[str, Any]:
        """What stands above a picture, and what is read out where it cannot be seen."""
        return {
            "title": {"text": title, "subtitle": list(lines)},
            "description": ". ".join([title, *lines]),
            "config": self.config(),
        }

    def captioned(self, caption: Caption) -> dict[str, Any]:
        """The same from words; what is read out may say more than what is seen."""
        heading = self.heading(caption.title, caption.lines)
        return heading | ({"description": caption.description} if caption.description else {})

    def panel_title(self, words: str) -> dict[str, Any]:
        """Heading of one panel, above its plot."""
        return {"text": words, "fontSize": self.font_size, "fontWeight": 600, "frame": "group", "offset": self.font_size * 0.6}

    def config(self) -> dict[str, Any]:
        """Vega-Lite configuration that gives every chart this look."""
        text = {"font": FONT_STACK, "fontSize": self.font_size, "color": INK}
        return {
            "background": "white",
            "font": FONT_STACK,
            "padding": self.font_size * 0.8,
            "view": {"stroke": None},
            "text": text,
            "title": {
                "font": FONT_STACK,
                "fontSize": self.font_size * 1.25,
                "fontWeight": 600,
                "color": INK,
                "anchor": "start",
                "frame": "bounds",
                "offset": self.font_size,
                "subtitleFont": FONT_STACK,
                "subtitleFontSize": self.font_size,
                "subtitleColor": QUIET,
                "subtitlePadding": self.font_size * 0.4,
            },
            "axis": {
                "labelFont": FONT_STACK,
                "labelFontSize": self.small,
                "labelColor": QUIET,
                "labelPadding": self.font_size * 0.4,
                "titleFont": FONT_STACK,
                "titleFontSize": self.small,
                "titleFontWeight": 400,
                "titleColor": INK,
                "titlePadding": self.font_size * 0.6,
                "gridColor": HAIRLINE,
                "gridWidth": 0.6,
                "domainColor": QUIET,
                "tickColor": QUIET,
                "tickSize": self.font_size * 0.35,
            },
            "axisY": {"domain": False, "ticks": False},
            "legend": {
                "labelFont": FONT_STACK,
                "labelFontSize": self.font_size,
                "labelColor": INK,
                "orient": "top",
                "direction": "horizontal",
                "title": None,
                "symbolStrokeWidth": self.line_width * 1.3,
                "labelLimit": 0,
                "symbolType": "stroke",
                "symbolSize": self.font_size * 30,
                "offset": self.font_size * 0.5,
            },
            "line": {"strokeWidth": self.line_width, "strokeCap": "round", "strokeJoin": "round"},
        }


SCREEN = Theme(
    name="screen",
    width=760,
    panel_height=250,
    row_height=30,
    font_size=13,
    line_width=2.2,
    point_size=70,
    touch_size=1900,
)
# 165 mm wide, text of 8 points: between the margins of an A4 sheet.
PAPER = Theme(
    name="paper",
    width=468,
    panel_height=150,
    row_height=17,
    font_size=8,
    line_width=1.3,
    point_size=26,
    touch_size=0,
)
