"""What the calculators answer: for each key a function from what is asked to what is found, and what that costs a gun."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from stripdown.bench.calculators import CALCULATORS, Asked, Touching
from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.bench.shims import ShimSheet
from stripdown.core.part_condition.compression_set import judge_compression_set
from stripdown.core.part_condition.corners import (
    SHARPEST,
    CornerGain,
    StressConcentration,
    corner_radius_gain,
    stress_concentration,
)
from stripdown.core.part_condition.engagement import engagement_pad
from stripdown.core.part_condition.hardness import compare_hardness
from stripdown.core.part_condition.o_ring_gland import o_ring_gland
from stripdown.core.part_condition.parameters import InnerCorner, LeakTests, LoadedTooth, PistonDrag, ScrewInBoss
from stripdown.core.part_condition.piston_ring import floating_ring
from stripdown.core.part_condition.teeth import ToothLoad, tooth_load
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shim_selection import (
    BearingEndPlay,
    LostPlace,
    ShimChoice,
    ShimSplit,
    bearing_end_play,
    choose_shims,
    choose_split,
    class_clearance,
    lost_places,
)
from stripdown.core.shim_selection.parameters import BearingClass, PlayOfGear
from stripdown.errors import InputError, OutOfRange, OutsideValidity
from stripdown.studies.rating_survey import RatingSurvey, survey_ratings
from stripdown.studies.ratings import Rating, rating
from stripdown.studies.screw_tightening import ScrewTightening, screw_tightening

if TYPE_CHECKING:
    from stripdown.core.part_condition.leak_found import LeakFound
    from stripdown.core.part_condition.leak_reading import LeakReading

_TIMED: Final = ("load", "distance", "duration", "bore", "drag")


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class Fired:
    """A gun that is fired with what was found, with which ball and on which day; without a gun only the day counts.

    Parameters
    ----------
    gun
        As loaded from its file; None if none is fired.
    ball_mass
        In kg; None for the file's.
    conditions
        The day.
    """

    gun: Gun | None = None
    ball_mass: float | None = None
    conditions: Conditions = dataclasses.field(default_factory=Conditions)


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class ShimsFound:
    """Shims for one gear or a whole box, and what stands beside them."""

    found: ShimChoice | ShimSplit
    sheet: ShimSheet | None = None
    lost: tuple[LostPlace, ...] | None = None
    end_plays: tuple[BearingEndPlay, BearingEndPlay] | None = None


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """What one calculator was asked and found, and what that costs a gun.

    Parameters
    ----------
    asked
        What it was asked.
    found
        The record of its answer; None if there is none.
    refused
        Why there is none; empty with an answer.
    cost
        What the answer costs a gun; None if none was fired.
    gun
        The gun that was fired.
    """

    asked: Asked
    found: Any
    refused: str = ""
    cost: Any = None
    gun: Gun | None = None

    @property
    def key(self) -> str:
        """Key of the calculator."""
        return self.asked.key


def calculate(asked: Asked, fired: Fired | None = None) -> Answered:
    """Ask one calculator; a gun has what nobody measured.

    Parameters
    ----------
    asked
        Key of the calculator and its record, in SI.
    fired
        The gun that has what was not measured, and the day.

    Returns
    -------
    Answered

    Raises
    ------
    InputError
        For an impossible value, or one that is missing.
    OutsideValidity
        For what the calculator cannot tell.
    """
    return Answered(asked=asked, found=_FOUND[asked.key](asked.record, Fired() if fired is None else fired))


def calculate_all(asked: Iterable[Asked]) -> tuple[Answered, ...]:
    """Ask the calculators what a job wants to know; what none can tell is an answer too."""
    return tuple(map(_calculated, asked))


def end_plays(asked: BearingClass) -> tuple[BearingEndPlay, BearingEndPlay] | None:
    """End play of one bearing at both ends of its class.

    Parameters
    ----------
    asked
        Class of its clearance, and the diameter of its balls in m.

    Returns
    -------
    pair of BearingEndPlay, or None
        At the least and the most clearance of the class; None if no class was named.

    Raises
    ------
    InputError
        For a class that is not known.
    """
    if asked.bearing is None:
        return None
    low, high = class_clearance(asked.bearing)
    return (
        bearing_end_play(radial_clearance=low, ball_diameter=asked.ball_diameter),
        bearing_end_play(radial_clearance=high, ball_diameter=asked.ball_diameter),
    )


def _calculated(asked: Asked) -> Answered:
    try:
        return calculate(asked)
    except OutsideValidity as reason:
        return Answered(asked=asked, found=None, refused=reason.message)


def _law(key: str, function: Callable[..., Any]) -> Callable[[Any, Fired], Any]:
    """A law that takes what its record holds by the same names."""
    return lambda asked, _: function(**_given(asked, leave_out=CALCULATORS[key].of_gun))


def _given(asked: Any, *, leave_out: tuple[str, ...] = ()) -> dict[str, Any]:
    """What was given, by name; what was not is left to the law."""
    values = {one.name: getattr(asked, one.name) for one in dataclasses.fields(asked) if one.name not in leave_out}
    return {name: value for name, value in values.items() if value is not None}


def _shims(asked: PlayOfGear | ShimSheet, _: Fired) -> ShimsFound:
    if isinstance(asked, ShimSheet):
        return ShimsFound(
            found=choose_split(seats=asked.seats, clearances=asked.clearances, stock=asked.stock, most=asked.most),
            sheet=asked,
            lost=lost_places(asked.old_shims, asked.fitted_shims) if asked.fitted_shims.shims else None,
        )
    gap, doubt = _play(asked)
    if not asked.stock:
        raise InputError("No shims are given.", field="stock", hint='Write for example "4 x 0.10 mm, 2 x 0.15 mm, 0.31 mm".')
    return ShimsFound(
        found=choose_shims(gap=gap, gap_uncertainty=doubt, float_band=asked.float_band, stock=asked.stock, most=asked.most)
    )


def _play(asked: PlayOfGear) -> tuple[float, float]:
    """Play and its uncertainty in m; two feelers bracket it."""
    go, no_go = asked.go, asked.no_go
    if asked.gap is not None and go is None and no_go is None:
        return asked.gap, asked.gap_uncertainty or 0.0
    if asked.gap is None and asked.gap_uncertainty is None and go is not None and no_go is not None:
        if go > no_go:
            raise OutOfRange(
                f"go = {go * 1e3:g} mm is thicker than no_go = {no_go * 1e3:g} mm.",
                field="go",
                value=go,
                unit="m",
                hint="The first is the thickest feeler that goes, the second the thinnest that does not.",
            )
        return (go + no_go) / 2.0, (no_go - go) / 2.0
    raise InputError(
        "The play is not given, or in two ways.",
        field="gap",
        hint="Give the play with its uncertainty, or the two feelers between which it lies, or the file of a box.",
    )


def _leak(asked: LeakTests, fired: Fired) -> LeakFound:
    # Only the laws of leaks are compiled: all other calculators answer at once.
    from stripdown.core.part_condition.gauge_leak import gauge_leak  # noqa: PLC0415
    from stripdown.core.part_condition.leak_found import find_leak  # noqa: PLC0415
    from stripdown.core.part_condition.timed_leak import timed_leak  # noqa: PLC0415

    air = {"temperature": fired.conditions.temperature, "ambient_pressure": fired.conditions.pressure}
    tests: list[LeakReading] = []
    if any(one is not None for one in (asked.load, asked.distance, asked.duration)):
        of_test = ("load_at_end", "trapped_length", "duration_uncertainty", *_TIMED)
        typed = {name: value for name, value in _given(asked).items() if name in of_test}
        given: dict[str, Any] = {**_of_the_gun(fired), **typed}
        missing = [name for name in _TIMED if name not in given]
        if missing:
            raise InputError(
                f"{', '.join(f'{name} is missing' for name in missing)}: a timed test needs each of them.",
                field=missing[0],
                hint="Bore and drag are taken from a gun's file, if one is given.",
            )
        tests.append(timed_leak(**given, **air))
    if asked.times:
        if asked.volume is None:
            raise InputError(
                "volume is missing: a gauge test needs it.", field="volume", hint="Hose and gauge included: fill it with water."
            )
        tests += gauge_leak(
            times=asked.times,
            overpressures=asked.overpressures,
            volume=asked.volume,
            reading_uncertainty=asked.reading_uncertainty,
            volume_uncertainty=asked.volume_uncertainty,
            **air,
        )
    if not tests:
        raise InputError(
            "Neither a timed nor a gauge test was given.",
            field="load",
            hint="Give load, way and time, or a volume and two or more readings of the gauge.",
        )
    return find_leak(readings=tests, shot_pressure=asked.shot_pressure)


def _of_the_gun(fired: Fired) -> dict[str, float]:
    if fired.gun is None:
        return {}
    parameters = complete(fired.gun, ball_mass=fired.ball_mass, conditions=fired.conditions).parameters
    return {"bore": parameters.cylinder.bore, "drag": parameters.piston.seal_drag}


def _drag(asked: PistonDrag, fired: Fired) -> PistonDrag:
    """Nothing but its price is to be found of a drag, and that takes a gun."""
    if fired.gun is None:
        raise InputError("There is no gun to fire with this drag.", field="gun", hint="Name its file.")
    return asked


def _corner(asked: InnerCorner, _: Fired) -> StressConcentration | CornerGain:
    step = 0.5 * asked.bar_width if asked.step is None else asked.step
    if asked.radius_before == 0.0:  # square: at least what the sharpest corner of the charts does
        asked = dataclasses.replace(asked, radius_before=SHARPEST * step)
    if asked.radius_after is not None:
        return corner_radius_gain(**_given(asked))
    return stress_concentration(
        full_width=asked.bar_width + 2.0 * step,
        net_width=asked.bar_width,
        radius=asked.radius_before,
        loading=asked.loading,
    )


def _screw(asked: ScrewInBoss, _: Fired) -> ScrewTightening:
    if asked.material is None and asked.engagement is not None:
        raise InputError(
            "material is missing: the engagement is of a boss.", field="material", hint="Name what the boss is made of."
        )
    return screw_tightening(**_given(asked))


def _tooth(asked: LoadedTooth, _: Fired) -> ToothLoad:
    given = _given(asked)
    counts = {name: float(given[name]) for name in ("tooth_count", "mate_tooth_count") if name in given}
    return tooth_load(**(given | counts))


def _rating(asked: Touching, _: Fired) -> Rating | RatingSurvey:
    how: dict[str, Any] = {"stressed": asked.stressed, "soaked": asked.soaked, "made_of": asked.made_of}
    return survey_ratings(asked.thing, **how) if asked.fluid is None else rating(asked.thing, asked.fluid, **how)


_FOUND: Final[Mapping[str, Callable[[Any, Fired], Any]]] = MappingProxyType(
    {
        "shims": _shims,
        "pad": _law("pad", engagement_pad),
        "gland": _law("gland", o_ring_gland),
        "ring": _law("ring", floating_ring),
        "compression_set": _law("compression_set", judge_compression_set),
        "hardness": _law("hardness", compare_hardness),
        "leak": _leak,
        "drag": _drag,
        "corner": _corner,
        "screw": _screw,
        "tooth": _tooth,
        "rating": _rating,
    }
)
ANSWERED: Final = frozenset(_FOUND)
"""Keys of the calculators that answer."""
