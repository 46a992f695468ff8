"""What tests at one or two pressures say of a leak: a hole or a creeping gap, and how large it is when the gun shoots."""

from __future__ import annotations

import enum
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.core.mechanics.orifices import sonic_conductance_of
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.leak_reading import LeakReading, creeping_over_orifice
from stripdown.core.part_condition.parameters import LEAK_AREA, SHOT_PRESSURE, USUAL_SHOT_PRESSURE
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

_WIDTH: Final = 3.84  # fall of chi-square from its least that holds 95 %, one degree of freedom
_NORMAL: Final = 1.96  # its root: half width of 95 % in standard uncertainties
_MOSTLY_HOLE: Final = 0.25  # at shot pressure no more of the resistance than this is creeping: it may be called a hole
_STEPS: Final = 400
_CONTRADICTION: Final = "The readings contradict one another by more than their uncertainties allow: repeat one of them."

BASIS: Final = Basis(
    footing="derived",
    place="resistances of hole and gap add: 1/area = (1 - share)/hole + share (g shot / g test)/hole, g from Poiseuille's law; "
    "interval: all shares and areas within 3.84 of the least chi-square (95 %)",
    holds_for="One leak or several alike that do not change shape with pressure, from 0.02 bar over the air outside to a shot.",
    caution="A thin gap at 0.2 bar shows only a part of what it passes in a shot: with one pressure the interval is wide for "
    "that reason. A ring that seals or flips only in motion is seen by no static test: the chronograph has the last word.",
)


class LeakNature(enum.Enum):
    """How a leak grows with pressure."""

    HOLE = "like a hole: the same area at every pressure"
    CREEPING = "creeping through a thin gap: the area grows with pressure"
    CANNOT_TELL = "hole or creeping gap cannot be told apart: test at a second pressure, well away from the first"
    TIGHTENS = "tightens under pressure, or one reading is wrong: the area falls as pressure rises"


@dataclass(frozen=True, slots=True, kw_only=True)
class LeakFound:
    """A leak as it will be during the shot, with a 95 % interval.

    Parameters
    ----------
    leak_area
        Likeliest effective area at the pressure of the shot, in m2.
    shot_pressure
        Absolute, in Pa.
    nature
        How it grows with pressure.
    readings
        What it was found from.
    notes
        What to know, one sentence each, those of the readings included.
    basis
        What the answer rests on.
    """

    nature: LeakNature
    leak_area: Annotated[float, LEAK_AREA]
    least_area: Annotated[float, Q("m2", label="lower end of the leak area", shown="mm2")]
    greatest_area: Annotated[float, Q("m2", label="upper end of the leak area", shown="mm2")]
    sonic_conductance: Annotated[float, Q("m3/(s Pa)", label="sonic conductance, ISO 6358")]
    shot_pressure: Annotated[float, SHOT_PRESSURE]
    readings: tuple[LeakReading, ...]
    notes: tuple[str, ...]
    basis: Basis


def find_leak(*, readings: Sequence[LeakReading], shot_pressure: float = USUAL_SHOT_PRESSURE) -> LeakFound:
    """Tell a hole from a creeping gap, and bring the leak to the pressure of a shot.

    Parameters
    ----------
    readings
        From `timed_leak` and `gauge_leak`, of one and the same leak.
    shot_pressure
        Absolute pressure in the cylinder that matters, in Pa.

    Returns
    -------
    LeakFound
        Areas in m2 at that pressure: the likeliest, and the ends of a 95 % interval.

    Raises
    ------
    OutOfRange
        Without a reading, or for an impossible pressure.

    Notes
    -----
    One unknown share of the resistance at shot pressure is creeping, the rest is a hole. With one reading every share fits, and
    the interval spans all of them: the likeliest is then only the middle, on a logarithmic scale.
    """
    if not readings:
        raise OutOfRange("There is no reading.", field="readings", hint="Make a timed or a gauge test first.")
    check_value("shot_pressure", shot_pressure, SHOT_PRESSURE)
    growths = [_growth(reading, shot_pressure) for reading in readings]
    fits = [_fit(readings, growths, index / _STEPS) for index in range(_STEPS + 1)]
    least = min(fit.misfit for fit in fits)
    shares = [fit.share for fit in fits if fit.misfit <= least + _WIDTH]
    low, high = _ends(fits, least)
    best = min(fits, key=lambda fit: fit.misfit)
    contradicts = best.misfit > _greatest_misfit(len(readings))
    nature = _nature(shares, tightens=contradicts and best.share == 0.0)
    if nature is LeakNature.TIGHTENS:
        low, area, high = _from_the_highest(readings)
    else:
        # Where every share fits, what is likeliest is not known: the middle of a hole and a gap, on a logarithmic scale.
        area = best.area if len(shares) <= _STEPS else math.sqrt(fits[0].area * fits[-1].area)
    shared = max(reading.shared_relative_uncertainty for reading in readings)
    low, high = _widened(low, area, high, shared)
    return LeakFound(
        nature=nature,
        leak_area=area,
        least_area=low,
        greatest_area=high,
        sonic_conductance=sonic_conductance_of(effective_area=area),
        shot_pressure=shot_pressure,
        readings=tuple(readings),
        notes=(*dict.fromkeys(note for reading in readings for note in reading.notes), *((_CONTRADICTION,) * contradicts)),
        basis=BASIS,
    )


def _greatest_misfit(count: int) -> float:
    """Chi-square that honest readings exceed one time in twenty, by Wilson and Hilferty; one number is always fitted."""
    if count < 2:
        return math.inf
    spread = 2.0 / (9.0 * (count - 1))
    return (count - 1) * (1.0 - spread + 1.645 * math.sqrt(spread)) ** 3


@dataclass(frozen=True, slots=True)
class _Fit:
    """Best area for one share of creeping resistance, how well it fits, and how sharply."""

    share: float
    area: float
    misfit: float
    weight: float


def _growth(reading: LeakReading, shot_pressure: float) -> float:
    """How much more of a creeping gap than of a hole a shot sees, as against this test."""
    air = {"temperature": reading.temperature, "ambient_pressure": reading.ambient_pressure}
    there = max(shot_pressure, 1.05 * reading.ambient_pressure)
    return creeping_over_orifice(pressure=there, **air) / creeping_over_orifice(pressure=reading.pressure, **air)


def _fit(readings: Sequence[LeakReading], growths: Sequence[float], share: float) -> _Fit:
    parts = [1.0 / (1.0 - share + share * growth) for growth in growths]
    weights = [max(reading.standard_uncertainty, 1e-3 * reading.leak_area, 1e-15) ** -2 for reading in readings]
    squares = math.fsum(weight * part**2 for weight, part in zip(weights, parts, strict=True))
    rows = list(zip(readings, parts, weights, strict=True))
    area = math.fsum(weight * part * reading.leak_area for reading, part, weight in rows) / squares
    misfit = math.fsum(weight * (reading.leak_area - area * part) ** 2 for reading, part, weight in rows)
    return _Fit(share, area, misfit, squares)


def _ends(fits: Sequence[_Fit], least: float) -> tuple[float, float]:
    lows, highs = [], []
    for fit in fits:
        spare = _WIDTH - (fit.misfit - least)
        if spare >= 0.0:
            half = math.sqrt(spare / fit.weight)
            lows.append(fit.area - half)
            highs.append(fit.area + half)
    return max(min(lows), 0.0), max(highs)


def _nature(shares: Sequence[float], *, tightens: bool) -> LeakNature:
    if tightens:
        return LeakNature.TIGHTENS
    if shares[0] > 0.0:
        return LeakNature.CREEPING
    return LeakNature.HOLE if shares[-1] <= _MOSTLY_HOLE else LeakNature.CANNOT_TELL


def _from_the_highest(readings: Sequence[LeakReading]) -> tuple[float, float, float]:
    """A leak that tightens is no larger in a shot than at the highest pressure it was tested at."""
    highest = max(readings, key=lambda reading: reading.pressure)
    return 0.0, highest.leak_area, highest.leak_area + _NORMAL * highest.standard_uncertainty


def _widened(low: float, area: float, high: float, shared: float) -> tuple[float, float]:
    """Add what shifts all readings alike, such as a volume read wrongly."""
    reach = _NORMAL * shared * area
    return max(area - math.hypot(area - low, reach), 0.0), area + math.hypot(high - area, reach)
