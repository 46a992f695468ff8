"""Words of several lines beside the rows of a chart, each heap of lines about the middle of its row."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping
from typing import Any, Literal

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme

_LINE = 1.2  # height of a line in font sizes


def wrapped(words: str, letters: int) -> list[str]:
    """Lines of at most so many letters; a longer word stays whole."""
    lines = [line for part in words.split("\n") for line in textwrap.wrap(part, letters, break_long_words=False)]
    return lines or [""]


def beside_rows(
    lines: Mapping[str, list[str]], row: alt.Y, *, at: float, align: Literal["left", "right"], theme: Theme, faint: frozenset[str]
) -> list[alt.Chart]:
    """Write lines beside rows."""
    field = row.shorthand.partition(":")[0]
    layers = []
    for count in sorted({len(found) for found in lines.values()}):
        here: list[dict[str, Any]] = [
            {field: name, "words": "\n".join(found), "strength": 0.6 if name in faint else 1.0}
            for name, found in lines.items()
            if len(found) == count
        ]
        base = alt.Chart(alt.InlineData(values=here)).mark_text(
            align=align,
            lineBreak="\n",
            lineHeight=theme.small * _LINE,
            dy=-theme.small * _LINE * (count - 1) / 2,
            fontSize=theme.small,
            color=themes.INK,
        )
        strength = alt.Opacity("strength:Q", scale=None)
        layers.append(base.encode(y=row, x=alt.value(at), text="words:N", opacity=strength))
    return layers
