"""How well is a figure known, and who says so?"""

from __future__ import annotations

import enum
from collections.abc import Mapping
from dataclasses import dataclass


class Standing(enum.Enum):
    """How well a figure is known."""

    MEASURED = "measured"
    PUBLISHED = "published"
    MAKERS_CLAIM = "makers_claim"
    ESTIMATE = "estimate"
    COMMON_PRACTICE = "common_practice"

    @property
    def words(self) -> str:
        """The standing as a reader sees it."""
        return _WORDS[self]


_WORDS: Mapping[Standing, str] = {
    Standing.MEASURED: "measured",
    Standing.PUBLISHED: "published",
    Standing.MAKERS_CLAIM: "maker's claim",
    Standing.ESTIMATE: "estimate",
    Standing.COMMON_PRACTICE: "common practice, no source",
}
NEEDS_SOURCE = frozenset({Standing.MEASURED, Standing.PUBLISHED, Standing.MAKERS_CLAIM})
"""Standings that mean nothing without a source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Provenance:
    """Where a figure comes from.

    Parameters
    ----------
    standing
        How well it is known.
    source
        Key of the source in the register; None for common practice and for estimates that rest on none.
    where
        Place in the source, or the reason for the figure.
    """

    standing: Standing
    source: str | None
    where: str
