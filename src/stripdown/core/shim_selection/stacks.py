"""Records of a shim's work: which gear and face, what a pack leaves, and what was chosen for a measured play."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.quantities import Q

GAP: Final = Q(
    "m",
    usual=(0, 1.5e-3),
    label="play without shims",
    shown="mm",
    explain="All of the gear's end play, no shim on either face, shell closed and screwed up, piston and spring out.",
)
GAP_UNCERTAINTY: Final = Q(
    "m",
    low=0,
    high=5e-3,
    usual=(0, 0.05e-3),
    label="uncertainty of the play",
    shown="mm",
    explain="How far the true play may lie from the measured one, either way; half of what parts the two feelers.",
)
FLOAT: Final = Q(
    "m",
    low=0,
    high=5e-3,
    usual=(0.02e-3, 0.4e-3),
    label="float",
    shown="mm",
    explain="End play that is left to the gear with its shims in.",
)
THICKNESS: Final = Q(
    "m",
    low=1e-6,
    high=10e-3,
    usual=(0.05e-3, 1e-3),
    label="thickness of the shim",
    shown="mm",
    explain="As the micrometer reads it, not as the bag says.",
)

USUAL_FLOAT: Final = (0.05e-3, 0.15e-3)  # m; common practice, no source
SHOP_THICKNESSES: Final = (0.10e-3, 0.15e-3, 0.20e-3, 0.30e-3, 0.50e-3)  # m; common practice, no source
LARGEST_GAP: Final = 5e-3  # m; judged here: about the width of a gear, so that no stack of shims is meant

FOOTING_OF_USUAL_FLOAT: Final = "common practice, no source"
FOOTING_OF_OTHER_FLOAT: Final = "as asked for"
SOURCE: Final = (
    "The sums are exact. The usual float of 0.05 to 0.15 mm and the shims that shops sell are common practice, no source; "
    "service manuals of larger gearboxes ask for 0.06 to 0.38 mm, each its own."
)
HOLDS_FOR: Final = (
    "A play up to 5 mm and a shell that does not give; bearings bonded and cured, and not changed afterwards. Play and float "
    "measured with the same push: ball bearings have end play of their own, of the order of the float."
)
CAUTION: Final = (
    "Battery out and spring out. Use what the micrometer reads: a shim sold as 0.5 mm may be 0.53 mm. Then close and screw up "
    "the shell, measure the float again, and turn every gear by hand before any power."
)


class ShimmedGear(enum.Enum):
    """Gear that takes shims."""

    SECTOR = "sector"
    SPUR = "spur"
    BEVEL = "bevel"


class GearFace(enum.Enum):
    """Face of a gear, named for the half of the shell that it looks at."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimPack:
    """Shims for one gear, both faces together.

    Parameters
    ----------
    thicknesses
        Of each shim in m, the thickest first; empty for no shims.
    float_left
        Float that they leave in m, if the play is as measured.
    """

    thicknesses: tuple[float, ...]
    float_left: float


@dataclass(frozen=True, slots=True, kw_only=True)
class NearestMiss:
    """The pack that comes closest, when none stays in the band.

    Parameters
    ----------
    pack
        The pack.
    too_tight
        By how much the float may fall short of the band in m, at the worst of the measurement; 0 if it cannot.
    too_loose
        By how much it may exceed the band in m, at the other end of the measurement; 0 if it cannot.
    """

    pack: ShimPack
    too_tight: float
    too_loose: float

    @property
    def by(self) -> float:
        """The larger of both misses, in m."""
        return max(self.too_tight, self.too_loose)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimChoice:
    """Which packs fit one gear, or why none does.

    Parameters
    ----------
    packs
        Packs whose float stays in the band wherever in its uncertainty the true play lies; fewest shims first, then the most
        centred.
    only_nominal
        Packs that fit if the play is exactly as measured, and may not if it is not; in the same order.
    nearest_miss
        The pack that comes closest, if `packs` is empty; None if the measurement is rejected.
    buy
        Thickness in m of each shim to buy, so that a pack fits; empty if one fits already or if no shim can help.
    pack_after_buying
        The pack that fits then.
    rejected
        Why the measurement cannot be true; None if it can.
    notes
        What else to know, one sentence each.
    gap
        Play without shims, as it was asked, in m.
    gap_uncertainty
        How far the true play may lie from it, in m.
    float_band
        Least and greatest float asked for, in m.
    most
        Most shims allowed.
    enough
        Least count of shims above `most` with which those at hand, or those that shops sell, would do; None where shims of the
        shops do already, or no count helps.
    is_cut
        Whether there are more packs than are listed.
    nodes
        Count of steps of the search.
    footing
        How well the float band is known.
    """

    packs: tuple[ShimPack, ...]
    only_nominal: tuple[ShimPack, ...]
    nearest_miss: NearestMiss | None
    buy: tuple[float, ...]
    pack_after_buying: ShimPack | None
    rejected: str | None
    notes: tuple[str, ...]
    gap: Annotated[float, GAP]
    gap_uncertainty: Annotated[float, GAP_UNCERTAINTY]
    float_band: tuple[float, float]
    most: int
    enough: int | None
    is_cut: bool
    nodes: int
    footing: str
    source: str = SOURCE
    holds_for: str = HOLDS_FOR
    caution: str = CAUTION
