"""From a layout of the graph of checks to marks on a sheet."""

from __future__ import annotations

import itertools
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import altair as alt

from stripdown.charts import themes
from stripdown.charts.layered_layout import Layout
from stripdown.charts.standing_key import tick_boxes
from stripdown.charts.standing_signs import MIDDLE, marks, sign_fields
from stripdown.charts.themes import Theme
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import CheckStanding, Standing

LETTER: Final = 0.53
"""Width of a letter in font sizes, on average and a little more."""
# In font sizes.
_PLACE_ROOM: Final = 7.8
_GAP: Final = 2.2  # between columns, for the lines
_SIGN_ROOM: Final = 2.0
_BOX_ROOM: Final = 1.5
_PAD: Final = 0.45
_LINE: Final = 1.2
_STEPS: Final = 12  # straight pieces of a bend


@dataclass(frozen=True, slots=True, kw_only=True)
class GraphMeasures:
    """Measures of the drawing, in pixels of its medium."""

    theme: Theme
    columns: int

    @property
    def box_width(self) -> float:
        """Width of a box."""
        size = self.theme.font_size
        return (self.theme.width - (_PLACE_ROOM - _GAP) * size) / self.columns - _GAP * size

    def left(self, column: int) -> float:
        """Left edge of a column."""
        size = self.theme.font_size
        return _PLACE_ROOM * size + column * (self.box_width + _GAP * size)

    def letters(self, *, has_box: bool) -> int:
        """How many letters a line in a box holds."""
        room = self.box_width - (_SIGN_ROOM + (_BOX_ROOM if has_box else _PAD)) * self.theme.font_size
        return max(6, int(room / (self.theme.small * LETTER)))


def box_height(lines: int, theme: Theme) -> float:
    """Height of a box."""
    return lines * _LINE * theme.small + 2.0 * _PAD * theme.font_size


@dataclass(frozen=True, slots=True, kw_only=True)
class GraphDrawing:
    """What is drawn, and where."""

    procedure: Procedure
    standings: Mapping[str, CheckStanding]
    signs: Mapping[str, Standing]
    layout: Layout
    measures: GraphMeasures
    lines: Mapping[str, tuple[list[str], list[str]]]
    head: float
    to_make: frozenset[str]

    def layers(self) -> Iterator[alt.Chart]:
        """The layers of the picture, the hindmost first."""
        theme = self.measures.theme
        bottom = round(self.head + self.layout.height, 1)
        x = alt.X("x:Q", axis=None, scale=alt.Scale(domain=[0, theme.width], nice=False, zero=False))
        y = alt.Y("y:Q", axis=None, scale=alt.Scale(domain=[bottom, 0], nice=False, zero=False))
        size = theme.font_size
        yield _rows(self._bands()).mark_rule(color=themes.HAIRLINE, strokeWidth=0.8).encode(x=x, x2="x2:Q", y=y)
        words: dict[str, Any] = {"align": "left", "baseline": "alphabetic", "fontSize": theme.small}
        yield _rows(self._places()).mark_text(**words, color=themes.QUIET, fontWeight=600).encode(x=x, y=y, text="words:N")
        if self.layout.lines:
            dash = alt.Scale(domain=[False, True], range=[[1, 0], [3, 2]])
            lines = _rows(self._lines()).mark_line(interpolate="linear", strokeWidth=theme.line_width * 0.8, color=themes.QUIET)
            dashes = alt.StrokeDash("broken:N", legend=None, scale=dash)
            yield lines.encode(x=x, y=y, order="order:Q", detail="line:N", strokeDash=dashes)
        boxes = _rows(list(self._boxes())).mark_rect(fill="white", stroke=themes.QUIET, strokeWidth=0.7, cornerRadius=0.35 * size)
        told = [alt.Tooltip(f"{name}:N") for name in ("check", "stands", "why", "about")]
        yield boxes.encode(x=x, x2="x2:Q", y=y, y2="y2:Q", tooltip=told)
        yield from marks(_rows(list(self._signs())), x, y, theme)
        yield _rows(self._names(0)).mark_text(**words, color=themes.INK).encode(x=x, y=y, text="words:N")
        parts = self._names(1)
        if parts:
            yield _rows(parts).mark_text(**words, color=themes.QUIET).encode(x=x, y=y, text="words:N")
        ticks = list(self._ticks())
        if ticks:
            yield tick_boxes(ticks, x, y, theme)

    def _bands(self) -> list[dict[str, Any]]:
        return [{"x": 0, "x2": self.measures.theme.width, "y": self._down(top)} for top, _ in self.layout.bands.values()]

    def _places(self) -> list[dict[str, Any]]:
        theme = self.measures.theme
        letters = int((_PLACE_ROOM - 0.6) * theme.font_size / (theme.small * LETTER * 1.06))  # half-bold letters are wider
        rows = []
        for place, (top, bottom) in self.layout.bands.items():
            words = textwrap.wrap(self.procedure.places.get(place, place), letters, break_on_hyphens=False)
            rows += self._written(words, x=0.0, top=(top + bottom) / 2.0 - len(words) * _LINE * theme.small / 2.0)
        return rows

    def _lines(self) -> list[dict[str, Any]]:
        rows: list[dict[str, Any]] = []
        for (first, then), stops in self.layout.lines.items():
            points: list[tuple[float, float]] = []
            for (column, height), (next_column, next_height) in itertools.pairwise(stops):
                start = self.measures.left(column) + self.measures.box_width
                points += _bend((start, height), (self.measures.left(next_column), next_height))
            broken = self.signs[first] is not Standing.FRESH
            rows += [
                {"line": f"{first} {then}", "order": order, "x": round(x, 2), "y": self._down(y), "broken": broken}
                for order, (x, y) in enumerate(points)
            ]
        return rows

    def _boxes(self) -> Iterator[dict[str, Any]]:
        for key, placed in self.layout.nodes.items():
            left, check = self.measures.left(placed.column), self.procedure.checks[key]
            yield {
                "key": key,
                "x": round(left, 2),
                "x2": round(left + self.measures.box_width, 2),
                "y": self._down(placed.middle - placed.height / 2.0),
                "y2": self._down(placed.middle + placed.height / 2.0),
                "check": check.name,
                "stands": self.signs[key].value,
                "why": self.standings[key].reason if key in self.standings else "",
                "about": ", ".join(self.procedure.parts[part].name for part in check.about if part in self.procedure.parts),
            }

    def _signs(self) -> Iterator[dict[str, Any]]:
        for key, placed in self.layout.nodes.items():
            x = self.measures.left(placed.column) + _SIGN_ROOM / 2.0 * self.measures.theme.font_size
            yield {"x": round(x, 2), "y": self._down(placed.middle), **sign_fields(self.signs[key])}

    def _names(self, which: int) -> list[dict[str, Any]]:
        theme = self.measures.theme
        rows = []
        for key, placed in self.layout.nodes.items():
            x = self.measures.left(placed.column) + _SIGN_ROOM * theme.font_size
            top = placed.middle - placed.height / 2.0 + _PAD * theme.font_size
            above = len(self.lines[key][0]) if which else 0
            rows += self._written(self.lines[key][which], x=x, top=top + above * _LINE * theme.small)
        return rows

    def _ticks(self) -> Iterator[dict[str, Any]]:
        for key, placed in self.layout.nodes.items():
            if key in self.to_make:
                right = self.measures.left(placed.column) + self.measures.box_width
                yield {"x": round(right - _BOX_ROOM / 2.0 * self.measures.theme.font_size, 2), "y": self._down(placed.middle)}

    def _written(self, lines: Sequence[str], *, x: float, top: float) -> list[dict[str, Any]]:
        """Lines of words below one another, each with its baseline."""
        small = self.measures.theme.small
        first = top + (_LINE / 2.0 + MIDDLE) * small
        return [
            {"words": words, "x": round(x, 2), "y": self._down(first + number * _LINE * small)}
            for number, words in enumerate(lines)
        ]

    def _down(self, height: float) -> float:
        return round(self.head + height, 2)


def _bend(start: tuple[float, float], end: tuple[float, float]) -> list[tuple[float, float]]:
    """From one point to another, level at both ends."""
    return [
        (start[0] + share * (end[0] - start[0]), start[1] + share**2 * (3.0 - 2.0 * share) * (end[1] - start[1]))
        for share in (step / _STEPS for step in range(_STEPS + 1))
    ]


def _rows(values: list[dict[str, Any]]) -> alt.Chart:
    return alt.Chart(alt.InlineData(values=values))
