"""The key of the graph of checks, in the marks of the graph itself."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any, Final

import altair as alt

from stripdown.charts import themes
from stripdown.charts.standing_signs import MIDDLE, marks, sign_fields
from stripdown.charts.themes import Theme
from stripdown.procedures.standing import Standing

_LINE: Final = 1.75  # in font sizes, as are those below
_BELOW: Final = 0.8
_WORDS_AT: Final = 2.6
_SQUARE: Final = 0.95


KeyLines = Sequence[tuple[str, str]]
"""What each line explains (a standing, "line" or "box"), and its words."""
_STANDINGS = {one.value: one for one in Standing}


def key_height(lines: KeyLines, theme: Theme) -> float:
    """How tall the key is, in pixels."""
    return (math.ceil(len(lines) / 2) * _LINE + _BELOW) * theme.font_size


def key_layers(lines: KeyLines, theme: Theme) -> Iterator[alt.Chart]:
    """Draw the key at the top of the picture."""
    size = theme.font_size
    x, y = alt.X("x:Q", axis=None), alt.Y("y:Q", axis=None)
    half = math.ceil(len(lines) / 2)
    at = [(number // half * theme.width / 2.0, (number % half + 0.5) * _LINE * size) for number in range(len(lines))]
    placed = list(zip(lines, at, strict=True))
    signs = [_at(left + size, top, **sign_fields(_STANDINGS[of])) for (of, _), (left, top) in placed if of in _STANDINGS]
    words = [_at(left + _WORDS_AT * size, top + MIDDLE * theme.small, words=said) for (_, said), (left, top) in placed]
    strokes = [_at(left + 0.2 * size, top, x2=round(left + 1.8 * size, 2)) for (of, _), (left, top) in placed if of == "line"]
    boxes = [_at(left + size, top) for (of, _), (left, top) in placed if of == "box"]
    yield from marks(_rows(signs), x, y, theme)
    yield (
        _rows(words)
        .mark_text(align="left", baseline="alphabetic", fontSize=theme.small, color=themes.INK)
        .encode(x=x, y=y, text="words:N")
    )
    if strokes:
        yield _rows(strokes).mark_rule(color=themes.QUIET, strokeWidth=theme.line_width * 0.8).encode(x=x, x2="x2:Q", y=y)
    if boxes:
        yield tick_boxes(boxes, x, y, theme)


def tick_boxes(rows: list[dict[str, Any]], x: alt.X, y: alt.Y, theme: Theme) -> alt.Chart:
    """Empty boxes to tick."""
    drawn: alt.Chart = (
        _rows(rows)
        .mark_point(
            shape="square",
            size=(_SQUARE * theme.font_size) ** 2,
            stroke=themes.INK,
            strokeWidth=0.9,
            filled=True,
            fill="white",
            opacity=1,
        )
        .encode(x=x, y=y)
    )
    return drawn


def _at(x: float, y: float, **fields: Any) -> dict[str, Any]:
    return {"x": round(x, 2), "y": round(y, 2), **fields}


def _rows(values: list[dict[str, Any]]) -> alt.Chart:
    return alt.Chart(alt.InlineData(values=values))
