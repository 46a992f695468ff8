"""A figure held against a band: below it, inside it, or above it."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from stripdown.core.part_condition.basis import Basis


class BandPlace(enum.Enum):
    """Where a figure lies."""

    BELOW = "below the band"
    INSIDE = "inside the band"
    ABOVE = "above the band"


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """From where to where a figure is good, ends included, and who says so.

    Parameters
    ----------
    low
        Lower end in the unit of the figure; None for none.
    high
        Upper end in the unit of the figure; None for none.
    basis
        What the band rests on.
    """

    low: float | None
    high: float | None
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class AgainstBand:
    """A figure held against a band.

    Parameters
    ----------
    name
        What the figure is, in the words of the workshop.
    value
        The figure, a fraction.
    band
        What it is held against.
    """

    name: str
    value: float
    band: Band

    @property
    def place(self) -> BandPlace:
        """Where the figure lies."""
        if self.band.low is not None and self.value < self.band.low:
            return BandPlace.BELOW
        if self.band.high is not None and self.value > self.band.high:
            return BandPlace.ABOVE
        return BandPlace.INSIDE
