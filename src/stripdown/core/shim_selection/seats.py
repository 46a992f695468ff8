"""Records of a gear train: where each gear may stand, how near two gears may come, and the shims that bring that about."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.core.shim_selection.stacks import CAUTION, GAP, GAP_UNCERTAINTY, HOLDS_FOR, SOURCE, ShimChoice, ShimmedGear
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

HEIGHT: Final = Q(
    "m",
    low=-5e-3,
    high=5e-3,
    usual=(0, 1.5e-3),
    label="height of the gear",
    shown="mm",
    explain="How far the middle of its float must stand to the right of where it stands pushed left without shims.",
)
HEIGHT_TOLERANCE: Final = Q(
    "m",
    low=0,
    high=5e-3,
    label="tolerance of the height",
    shown="mm",
    explain="How far from there the gear may come, wherever in its float it stands.",
)
CLEARANCE: Final = Q(
    "m",
    low=-5e-3,
    high=20e-3,
    label="clearance between two gears",
    shown="mm",
    explain="Between their facing sides with both pushed left without shims; negative if one must be lifted to pass the other.",
)
LEAST_CLEARANCE: Final = Q("m", low=0, high=5e-3, label="least clearance between two gears", shown="mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class GearSeat:
    """What was measured of one gear, and where it must stand.

    The sector gear's height is bound by rack, tappet pin and cut-off lever, the bevel gear's by the pinion (motor in, half the
    shell closed); the spur gear has none of its own and is bound by its clearances to both.

    Parameters
    ----------
    gear
        Which.
    gap
        Its play without shims in m.
    gap_uncertainty
        How far the true play may lie from it, in m.
    float_band
        Least and greatest float in m.
    height
        How far the middle of its float must stand to the right of where it stands pushed left without shims, in m; None if it may
        stand anywhere.
    height_tolerance
        How far from there it may come in m, wherever in its float it stands.
    """

    gear: ShimmedGear
    gap: Annotated[float, GAP]
    gap_uncertainty: Annotated[float, GAP_UNCERTAINTY]
    float_band: tuple[float, float]
    height: float | None = None
    height_tolerance: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GearClearance:
    """How near two gears come, side against side.

    Parameters
    ----------
    left
        Gear of which the right side faces the other.
    right
        Gear of which the left side faces the first.
    measured
        Between those sides in m, both gears pushed left without shims; negative if one must be lifted to pass the other.
    uncertainty
        How far the true clearance may lie from it, in m.
    least
        Least clearance that is wanted, in m, however the gears stand in their floats.
    """

    left: ShimmedGear
    right: ShimmedGear
    measured: Annotated[float, CLEARANCE]
    uncertainty: Annotated[float, GAP_UNCERTAINTY]
    least: Annotated[float, LEAST_CLEARANCE]

    @property
    def words(self) -> str:
        """The pair in words."""
        return f"clearance between {self.left.value} and {self.right.value} gear"


@dataclass(frozen=True, slots=True, kw_only=True)
class GearShims:
    """Shims of one gear by face, and where they let it stand.

    Parameters
    ----------
    gear
        Which.
    left
        Thickness in m of each shim on the face towards the left half of the shell.
    right
        The same on the other face, in m.
    float_left
        Float that they leave in m, if the play is as measured.
    middle
        Where the middle of that float lies, in m to the right of where the gear stands pushed left without shims.
    """

    gear: ShimmedGear
    left: tuple[float, ...]
    right: tuple[float, ...]
    float_left: float
    middle: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Unclosable:
    """Why no shims of any thickness satisfy everything that is asked of the gears.

    Parameters
    ----------
    facts
        Those that contradict each other, in words; without any one of them the rest could be met.
    short_by
        By how much they contradict each other, in m.
    closes_as_measured
        Whether they would agree if every measurement were exact.
    sentence
        What to do.
    """

    facts: tuple[str, ...]
    short_by: float
    closes_as_measured: bool
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimSplit:
    """Shims for all gears at once, out of one tray, split between their faces.

    Parameters
    ----------
    gears
        Shims of each gear, fewest in all, then the most centred; empty if the tray does not allow it.
    alone
        Each gear for itself, without regard to heights, clearances and to what the others take.
    unclosable
        Why no shims at all would do; None if some would.
    buy
        Thickness in m of each shim to buy, so that all gears can be shimmed: one way, not the cheapest.
    gears_after_buying
        What is fitted then.
    rejected
        Why a measurement cannot be true; None if all can.
    notes
        What else to know, one sentence each.
    is_proved
        Whether the whole search was done; if not, better shims may exist.
    nodes
        Count of steps of the search.
    footing
        How well the float bands are known.
    """

    alone: tuple[ShimChoice, ...]
    nodes: int
    footing: str
    gears: tuple[GearShims, ...] = ()
    unclosable: Unclosable | None = None
    buy: tuple[float, ...] = ()
    gears_after_buying: tuple[GearShims, ...] = ()
    rejected: str | None = None
    notes: tuple[str, ...] = ()
    is_proved: bool = True
    source: str = SOURCE
    holds_for: str = HOLDS_FOR
    caution: str = CAUTION


def check_train(seats: Sequence[GearSeat], clearances: Sequence[GearClearance]) -> None:
    """Refuse what is no gear train.

    Parameters
    ----------
    seats
        One for each gear.
    clearances
        Between gears that have a seat.

    Raises
    ------
    OutOfRange
        For no gear, a gear twice, a height without tolerance, a clearance of a gear to itself or to one that is not there, or an
        impossible length.
    """
    gears = [seat.gear for seat in seats]
    if not gears or len(set(gears)) < len(gears):
        raise OutOfRange(
            "No gear was given." if not gears else "A gear was given twice.",
            field="seats",
            value=[gear.value for gear in gears],
            hint="Give each gear of the box once: sector, spur, bevel.",
        )
    for seat in seats:
        _check_height(seat)
    for clearance in clearances:
        if clearance.left is clearance.right or not {clearance.left, clearance.right} <= set(gears):
            raise OutOfRange(
                f"The {clearance.words} is none of two gears that were measured.",
                field="clearances",
                value=(clearance.left.value, clearance.right.value),
                hint=f"Measured are {', '.join(gear.value for gear in gears)}.",
            )
        check_value(f"{clearance.words}, measured", clearance.measured, CLEARANCE)
        check_value(f"{clearance.words}, uncertainty", clearance.uncertainty, GAP_UNCERTAINTY)
        check_value(f"{clearance.words}, least", clearance.least, LEAST_CLEARANCE)


def _check_height(seat: GearSeat) -> None:
    if (seat.height is None) != (seat.height_tolerance is None):
        raise OutOfRange(
            f"The {seat.gear.value} gear has a height without tolerance, or a tolerance without height.",
            field=f"{seat.gear.value}.height_tolerance",
            value=seat.height_tolerance,
            unit="m",
            hint="Give both, or neither if it may stand anywhere.",
        )
    if seat.height is not None and seat.height_tolerance is not None:
        check_value(f"{seat.gear.value}.height", seat.height, HEIGHT)
        check_value(f"{seat.gear.value}.height_tolerance", seat.height_tolerance, HEIGHT_TOLERANCE)
