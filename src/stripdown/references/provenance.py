"""How well is a figure known, and who says so?"""

from __future__ import annotations

import enum
from collections.abc import Mapping
from dataclasses import dataclass


class Footing(enum.Enum):
    """How well a figure is known."""

    MEASURED = "measured"
    PUBLISHED = "published"
    MAKERS_CLAIM = "makers_claim"
    ESTIMATE = "estimate"
    COMMON_PRACTICE = "common_practice"

    @property
    def words(self) -> str:
        """The footing as a reader sees it."""
        return _WORDS[self]


_WORDS: Mapping[Footing, str] = {
    Footing.MEASURED: "measured",
    Footing.PUBLISHED: "published",
    Footing.MAKERS_CLAIM: "maker's claim",
    Footing.ESTIMATE: "estimate",
    Footing.COMMON_PRACTICE: "common practice, no source",
}
NEEDS_SOURCE = frozenset({Footing.MEASURED, Footing.PUBLISHED, Footing.MAKERS_CLAIM})
"""Standings that mean nothing without a source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Provenance:
    """Where a figure comes from."""

    footing: Footing
    source: str | None
    where: str
