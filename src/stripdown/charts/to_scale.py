"""Drawings to scale: outlines, lines and words in millimetres, as large as the sheet allows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Literal

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A closed outline, or an open line without a fill."""

    name: str
    points: Sequence[Point]
    fill: str = ""
    stroke: str = themes.INK
    dashed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """Words at a place of a drawing."""

    text: str
    at: Point
    align: Literal["left", "center", "right"] = "left"


def to_scale(
    outlines: Sequence[Outline], words: Sequence[Words], *, low: Point, high: Point, theme: Theme, tallest: float = 1.0
) -> alt.LayerChart:
    """Draw outlines with one scale across and upwards."""
    across, upward = high[0] - low[0], high[1] - low[1]
    scale = min(theme.width / across, tallest * theme.panel_height / upward)
    x = alt.X("x:Q", axis=None, scale=alt.Scale(domain=[low[0], high[0]], nice=False, zero=False))
    y = alt.Y("y:Q", axis=None, scale=alt.Scale(domain=[low[1], high[1]], nice=False, zero=False))
    layers = [_outline(outline, x, y, theme) for outline in outlines]
    layers += [_written(group, x, y, theme) for group in _by_align(words)]
    return alt.LayerChart(layer=layers, width=round(across * scale, 2), height=round(upward * scale, 2))


def _outline(outline: Outline, x: alt.X, y: alt.Y, theme: Theme) -> alt.Chart:
    points = [*outline.points, outline.points[0]] if outline.fill else outline.points
    rows: list[dict[str, Any]] = [
        {"what": outline.name, "order": index, "x": round(across, 4), "y": round(upward, 4)}
        for index, (across, upward) in enumerate(points)
    ]
    look: dict[str, Any] = {"strokeCap": "butt", "strokeWidth": theme.line_width * 0.6 if outline.stroke else 0}
    if outline.fill:
        look |= {"filled": True, "fill": outline.fill, "fillOpacity": 1}
    if outline.stroke:
        look["stroke"] = outline.stroke
    if outline.dashed:
        look["strokeDash"] = [4, 3]
    chart = alt.Chart(alt.InlineData(values=rows)).mark_line(interpolate="linear", **look)
    drawn: alt.Chart = chart.encode(x=x, y=y, order="order:Q", tooltip=alt.Tooltip("what:N", title="this is"))
    return drawn


def _by_align(words: Sequence[Words]) -> list[list[Words]]:
    return [group for align in ("left", "center", "right") if (group := [word for word in words if word.align == align])]


def _written(words: Sequence[Words], x: alt.X, y: alt.Y, theme: Theme) -> alt.Chart:
    rows: list[dict[str, Any]] = [{"words": word.text, "x": round(word.at[0], 4), "y": round(word.at[1], 4)} for word in words]
    base = alt.Chart(alt.InlineData(values=rows)).mark_text(
        align=words[0].align, baseline="middle", fontSize=theme.small, color=themes.INK
    )
    written: alt.Chart = base.encode(x=x, y=y, text="words:N")
    return written
