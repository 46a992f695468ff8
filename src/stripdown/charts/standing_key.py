"""The key of the graph of checks, in the marks of the graph itself."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

import altair as alt

from stripdown.charts import themes
from stripdown.charts.standing_signs import MIDDLE, SIGNS, marks, sign_fields
from stripdown.charts.themes import Theme
from stripdown.procedures.standing import Standing

_LINE: Final = 1.75  # in font sizes, as are those below
_BELOW: Final = 0.8
_WORDS_AT: Final = 2.6
_SQUARE: Final = 0.95


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyLine:
    """One line of the key."""

    words: str
    standing: Standing | None = None
    is_line: bool = False


def key_lines(standings: Iterable[Standing], *, has_lines: bool, has_broken_lines: bool, has_boxes: bool) -> tuple[KeyLine, ...]:
    """What the key says."""
    found = list(standings)
    lines = [
        KeyLine(standing=one, words=f"{one.value}: {sign.words} ({sum(other is one for other in found)})")
        for one, sign in SIGNS.items()
    ]
    if has_lines:
        broken = "; broken: the left one does not hold" if has_broken_lines else ""
        lines.append(KeyLine(words=f"right rests on left{broken}", is_line=True))
    if has_boxes:
        lines.append(KeyLine(words="to be made, or made again"))
    return tuple(lines)


def key_height(lines: Sequence[KeyLine], theme: Theme) -> float:
    """How tall the key is, in pixels."""
    return (math.ceil(len(lines) / 2) * _LINE + _BELOW) * theme.font_size


def key_layers(lines: Sequence[KeyLine], theme: Theme) -> Iterator[alt.Chart]:
    """Draw the key at the top of the picture."""
    size = theme.font_size
    x, y = alt.X("x:Q", axis=None), alt.Y("y:Q", axis=None)
    half = math.ceil(len(lines) / 2)
    at = [(number // half * theme.width / 2.0, (number % half + 0.5) * _LINE * size) for number in range(len(lines))]
    placed = list(zip(lines, at, strict=True))
    signs = [_at(left + size, top, **sign_fields(line.standing)) for line, (left, top) in placed if line.standing is not None]
    words = [_at(left + _WORDS_AT * size, top + MIDDLE * theme.small, words=line.words) for line, (left, top) in placed]
    strokes = [_at(left + 0.2 * size, top, x2=round(left + 1.8 * size, 2)) for line, (left, top) in placed if line.is_line]
    boxes = [_at(left + size, top) for line, (left, top) in placed if line.standing is None and not line.is_line]
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
