"""The measured play of one gear against its float band, in whole nanometres."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from stripdown.core.shim_selection.stacks import FLOAT, GAP, GAP_UNCERTAINTY, LARGEST_GAP, ShimPack
from stripdown.core.shim_selection.tray import metres, millimetres, nanometres
from stripdown.errors import OutOfRange
from stripdown.quantities import check_value


@dataclass(frozen=True, slots=True, kw_only=True)
class Play:
    """Measured play and wanted float, all in nm.

    Parameters
    ----------
    gap
        Play without shims.
    uncertainty
        Of the play, either way.
    low, high
        Least and greatest float.
    """

    gap: int
    uncertainty: int
    low: int
    high: int

    @property
    def least_pack(self) -> int:
        """Thinnest total in nm that keeps the float under its greatest, whatever the true play."""
        return self.gap + self.uncertainty - self.high

    @property
    def most_pack(self) -> int:
        """Thickest total in nm that keeps the float over its least, whatever the true play."""
        return self.gap - self.uncertainty - self.low

    def miss(self, total: int) -> tuple[int, int]:
        """How far the float may leave the band.

        Parameters
        ----------
        total
            Of the shims in nm.

        Returns
        -------
        tuple of int
            Too tight by, too loose by, in nm; negative where there is room.
        """
        return total - self.most_pack, self.least_pack - total

    def off_centre(self, total: int) -> int:
        """Twice the distance of the float from the middle of the band.

        Parameters
        ----------
        total
            Of the shims in nm.

        Returns
        -------
        int
            In nm.
        """
        return abs(2 * (self.gap - total) - self.low - self.high)

    def pack(self, thicknesses: Iterable[float]) -> ShimPack:
        """Make the record of a pack.

        Parameters
        ----------
        thicknesses
            Of each shim in m, in any order.

        Returns
        -------
        ShimPack
            The thickest shim first.
        """
        ordered = tuple(sorted(thicknesses, reverse=True))
        return ShimPack(thicknesses=ordered, float_left=metres(self.gap - sum(map(nanometres, ordered))))

    def rejection(self) -> str | None:
        """Say why the measurement cannot be true.

        Returns
        -------
        str or None
            A sentence; None if it can be true.
        """
        if self.gap - self.uncertainty > nanometres(LARGEST_GAP):
            return (
                f"A play of {millimetres(self.gap)} is more than any stack of shims is meant for ({LARGEST_GAP * 1e3:g} mm): "
                "reject the measurement. Is the unit right, is a bearing out of its seat, is it the right gear?"
            )
        return None


def play_of(*, gap: float, gap_uncertainty: float, float_band: tuple[float, float]) -> Play:
    """Check a measured play and the float that is wanted.

    Parameters
    ----------
    gap
        Play without shims in m.
    gap_uncertainty
        Of the play in m, either way.
    float_band
        Least and greatest float in m.

    Returns
    -------
    Play

    Raises
    ------
    OutOfRange
        For what is no number, a play that is negative beyond its uncertainty, a negative uncertainty, a band upside down or below
        zero.
    """
    check_value("gap", gap, GAP)
    check_value("gap_uncertainty", gap_uncertainty, GAP_UNCERTAINTY)
    if gap + gap_uncertainty < 0.0:
        raise OutOfRange(
            f"a play of {gap * 1e3:g} mm is negative beyond its uncertainty of {gap_uncertainty * 1e3:g} mm: a gear that turns "
            "has some.",
            field="gap",
            value=gap,
            unit="m",
            limits=(0.0, GAP.high),
            hint="Measure again: were shims left in, was the shell closed, does the axle reach the bottom of its bearing?",
        )
    if len(float_band) != 2:
        raise OutOfRange(
            f"float_band = {float_band!r} is no band.", field="float_band", value=float_band, unit="m", hint="Give its two ends."
        )
    low, high = float_band
    if math.isfinite(low) and math.isfinite(high) and low > high:
        raise OutOfRange(
            f"float_band is upside down: from {low * 1e3:g} mm down to {high * 1e3:g} mm.",
            field="float_band",
            value=(low, high),
            unit="m",
            limits=(FLOAT.low, FLOAT.high),
            hint="Write the least float first.",
        )
    check_value("float_band", low, FLOAT)
    check_value("float_band", high, FLOAT)
    return Play(gap=nanometres(gap), uncertainty=nanometres(gap_uncertainty), low=nanometres(low), high=nanometres(high))
