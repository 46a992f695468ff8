"""The sign of each standing: a letter, a shape, a colour and a word, so that none has to stand alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

import altair as alt

from stripdown.charts import themes
from stripdown.charts.themes import Theme
from stripdown.procedures.standing import Standing
from stripdown.words.signs import SIGNS

MIDDLE: Final = 0.36
"""From the baseline of words to the middle of their capitals, in font sizes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """How the mark of a standing is drawn; its letter and words are those of every answer."""

    shape: str
    fill: str
    ink: str


# Dark, light, dark, white: apart in grey; where two are alike in grey, shape and letter differ.
MARKS: Mapping[Standing, Mark] = {
    Standing.FRESH: Mark(shape="circle", fill=themes.BALL, ink="white"),
    Standing.STALE: Mark(shape="diamond", fill=themes.PISTON, ink=themes.INK),
    Standing.FAILED: Mark(shape="square", fill=themes.LEAK, ink="white"),
    Standing.NEVER: Mark(shape="circle", fill="white", ink=themes.INK),
}


def sign_fields(standing: Standing) -> dict[str, Any]:
    """What a row of data needs for the mark of its standing."""
    return {"standing": standing.value, "letter": SIGNS[standing].letter}


def marks(base: alt.Chart, x: alt.X, y: alt.Y, theme: Theme) -> Iterator[alt.Chart]:
    """Mark and letter of the standing of each row."""
    size, names = theme.font_size, [one.value for one in MARKS]
    signs = MARKS.values()
    fill = alt.Fill("standing:N", legend=None, scale=alt.Scale(domain=names, range=[sign.fill for sign in signs]))
    shape = alt.Shape("standing:N", legend=None, scale=alt.Scale(domain=names, range=[sign.shape for sign in signs]))
    ink = alt.Color("standing:N", legend=None, scale=alt.Scale(domain=names, range=[sign.ink for sign in signs]))
    yield base.mark_point(size=1.9 * size**2, stroke=themes.INK, strokeWidth=0.6, opacity=1).encode(
        x=x, y=y, fill=fill, shape=shape
    )
    yield base.mark_text(baseline="middle", fontSize=theme.small, fontWeight=600).encode(x=x, y=y, text="letter:N", color=ink)
