"""What the calculators say to one job: which shims, how thick a pad, does each ring suit its gland."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.bench.shims import ShimSheet
from stripdown.core.part_condition.engagement import EngagementPad, engagement_pad
from stripdown.core.part_condition.o_ring_gland import OringGland, o_ring_gland
from stripdown.core.shim_selection import LostPlace, ShimSplit, choose_split, lost_places
from stripdown.errors import OutsideValidity
from stripdown.files.job_reckonings import RingInGland, ToReckon, WitnessMark


@dataclass(frozen=True, slots=True, kw_only=True)
class ReckonedShims:
    """Shims of a box.

    Parameters
    ----------
    sheet
        What was measured.
    split
        The answer.
    lost
        Old shims that are not back in their place; empty too while nothing is fitted.
    """

    sheet: ShimSheet
    split: ShimSplit
    lost: tuple[LostPlace, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReckonedPad:
    """A pad for the angle of engagement.

    Parameters
    ----------
    mark
        What was read.
    pad
        The answer; None if the mark says nothing of the angle.
    refused
        Why it does not; empty with an answer.
    """

    mark: WitnessMark
    pad: EngagementPad | None
    refused: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReckonedRing:
    """A ring in its gland.

    Parameters
    ----------
    ring
        What was measured.
    gland
        The answer.
    """

    ring: RingInGland
    gland: OringGland


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoned:
    """All answers of the calculators to one job.

    Parameters
    ----------
    shims
        Of the box; None if nobody asked.
    pad
        For the angle of engagement; None if nobody asked.
    rings
        One for each ring.
    """

    shims: ReckonedShims | None = None
    pad: ReckonedPad | None = None
    rings: tuple[ReckonedRing, ...] = ()

    @property
    def calculators(self) -> frozenset[str]:
        """Calculators that were asked, by the name that steps call them."""
        asked = (("shims", self.shims is not None), ("pad", self.pad is not None), ("seal gland", bool(self.rings)))
        return frozenset(name for name, was_asked in asked if was_asked)


def reckon(asked: ToReckon) -> Reckoned:
    """Ask the calculators what a job wants to know of them."""
    return Reckoned(
        shims=None if asked.shims is None else _shims(asked.shims),
        pad=None if asked.mark is None else _pad(asked.mark),
        rings=tuple(ReckonedRing(ring=ring, gland=_gland(ring)) for ring in asked.rings),
    )


def _shims(sheet: ShimSheet) -> ReckonedShims:
    return ReckonedShims(
        sheet=sheet,
        split=choose_split(seats=sheet.seats, clearances=sheet.clearances, stock=sheet.stock, most=sheet.most),
        lost=lost_places(sheet.old_shims, sheet.fitted_shims) if sheet.fitted_shims.shims else (),
    )


def _pad(mark: WitnessMark) -> ReckonedPad:
    try:
        pad = engagement_pad(
            witness_height=mark.witness_height,
            pressure_angle=mark.pressure_angle,
            module=mark.module,
            sector_teeth=mark.sector_teeth,
            is_edge_contact=mark.is_edge_contact,
        )
    except OutsideValidity as reason:
        return ReckonedPad(mark=mark, pad=None, refused=reason.message)
    return ReckonedPad(mark=mark, pad=pad)


def _gland(ring: RingInGland) -> OringGland:
    return o_ring_gland(
        cross_section=ring.cross_section,
        gland_depth=ring.gland_depth,
        gland_width=ring.gland_width,
        inner_diameter=ring.inner_diameter,
        gland_inner_diameter=ring.gland_inner_diameter,
        tolerance=ring.tolerance,
    )
