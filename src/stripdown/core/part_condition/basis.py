"""What a bench answer rests on: how well it is known, on whose word, where it holds, and what to beware of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

FootingWords = Literal["measured", "published", "derived", "estimate", "common practice, no source"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Basis:
    """What an answer rests on.

    Parameters
    ----------
    footing
        How well its law or limit is known; "derived" is reasoned here from stated laws, and stands in no source.
    source
        Key in the register of sources; empty for what has none.
    place
        Place in the source, or the reason for the figure.
    holds_for
        Range of validity, one sentence.
    caution
        What can make the answer wrong, or do harm; one or two sentences.
    """

    footing: FootingWords
    source: str = ""
    place: str
    holds_for: str
    caution: str
