"""Where does the ball of this gun go, how fast is it there, and between which paths do the published laws leave it?"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Final

import numpy as np
from numpy.typing import NDArray

from stripdown.bench.gun import Gun
from stripdown.core.exterior_ballistics import (
    DragLaw,
    Flight,
    FlightLaws,
    FlightParameters,
    LiftLaw,
    Passings,
    Sphere,
    Wind,
    integrate_flight,
)
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import SpeedAtPoint, reading_from_muzzle
from stripdown.errors import InputError, OutOfRange, OutsideValidity
from stripdown.quantities import Q, check, check_value, is_usual, leaves
from stripdown.studies.hop_setting import HopSetting, flattest_hop
from stripdown.studies.impact import Impact, study_impact
from stripdown.studies.lift import FittedLift, Sighting, fit_lift, with_lift
from stripdown.studies.muzzle import MuzzleState, Stance, muzzle_state

Array = NDArray[np.float64]

USUAL_DISTANCES: Final = (0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0)
USUAL_CHRONOGRAPHS: Final = (0.3, 1.0, 2.0)
CLIMB_QUESTIONED: Final = 1.0
"""A ball that climbs further over the line of its barrel than this, in m, is questioned: our own judgment, no source."""
FACTOR_QUESTIONED: Final = (0.2, 5.0)
"""Multipliers on the computed lift outside this say that spin, law or sighting is another than thought: our own judgment."""
BAND_DRAG: Final = (DragLaw.CLIFT_GAUVIN, DragLaw.MORRISON, DragLaw.BROWN_LAWLER)
BAND_LIFT: Final = (LiftLaw.LOTH, LiftLaw.TSUJI, LiftLaw.SAWICKI)
_BALL_MASS: Final = next(leaf.quantity for leaf in leaves(Sphere) if leaf.path == "mass" and leaf.quantity is not None)
_DISTANCE: Final = Q("m", low=0, high=300, usual=(0, 80), label="distance from the muzzle")
_DRAWN_TO: Final = 70.0  # m
_ENERGY: Final = Q("J", low=1e-4, high=100, label="energy")


@keeps_arrays
@dataclass(frozen=True, eq=False, kw_only=True, slots=True)
class Band:
    """Between which paths the published laws leave the ball; what was seen is kept by each of them.

    Parameters
    ----------
    distance
        From the muzzle, in m, shape (n,).
    low, high
        Height over the muzzle, in m, shape (n,); no number beyond the ground.
    slowest, fastest
        In m/s, shape (n,).
    laws
        Drag and lift law of each path; lift outside the range of its law.
    factors
        Multiplier on the lift of each, a pure number, shape (k,).
    left_out
        Laws that no multiplier brings to what was seen.
    """

    distance: Array
    low: Array
    high: Array
    slowest: Array
    fastest: Array
    laws: tuple[tuple[DragLaw, LiftLaw], ...]
    factors: Array
    left_out: tuple[tuple[DragLaw, LiftLaw], ...]

    def at(self, distance: float) -> tuple[float, float, float, float]:
        """Lowest, highest, slowest and fastest at one of its distances.

        Parameters
        ----------
        distance
            One of `distance`, in m.

        Returns
        -------
        tuple of float
            Heights in m, speeds in m/s.
        """
        place = int(np.searchsorted(self.distance, distance))
        return tuple(float(of[place]) for of in (self.low, self.high, self.slowest, self.fastest))  # type: ignore[return-value]


@dataclass(frozen=True, slots=True, kw_only=True)
class EnergyLevel:
    """Where the ball has come down to an energy.

    Parameters
    ----------
    energy
        In J.
    distance
        From the muzzle, in m; None if the ball lands with more.
    furthest
        With the law of the least drag, in m; None if it lands with more.
    """

    energy: Annotated[float, Q("J", label="energy")]
    distance: float | None
    furthest: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FlightStudy:
    """One ball of one gun, from the muzzle to the ground.

    Parameters
    ----------
    muzzle
        How it leaves.
    stance
        How the gun is held.
    lift
        Fitted, or the prior.
    path
        Its flight.
    passings
        The ball at the distances asked for.
    band
        What the laws leave open there.
    climb
        How far it rises over the line of its barrel, in m.
    levels
        Where it has come down to the energies asked for.
    readings
        What a chronograph shows at some distances.
    hop
        Setting for the flattest flight; None if it was not asked for.
    impact
        What it can hurt.
    questions
        Keys of what must be looked at again: ``"ball"``, ``"climbs"``, ``"factor"``, ``"sightings_too_near"``.
    """

    muzzle: MuzzleState
    stance: Stance
    lift: FittedLift
    path: Flight
    passings: Passings
    band: Band
    climb: Annotated[float, Q("m", label="rise over the line of the barrel")]
    levels: tuple[EnergyLevel, ...]
    readings: tuple[SpeedAtPoint, ...]
    hop: HopSetting | None
    impact: Impact
    questions: tuple[str, ...]

    @property
    def sight_line(self) -> tuple[float, float] | None:
        """Height over the muzzle of the sights' line at the muzzle, and its slope; None if they have no zero."""
        if self.stance.zero is None:
            return None
        there = self.path.along([self.stance.zero]).position[0, 2] - self.stance.muzzle_height
        return self.stance.sight_height, (there - self.stance.sight_height) / self.stance.zero


def study_flight(
    gun: Gun,
    *,
    ball_mass: float | None = None,
    reading: float | None = None,
    read_at: float = 0.0,
    stance: Stance | None = None,
    sightings: Sequence[Sighting] = (),
    wind: Wind | None = None,
    distances: Sequence[float] = USUAL_DISTANCES,
    energies: Sequence[float] = (),
    chronographs: Sequence[float] = USUAL_CHRONOGRAPHS,
    flattest_to: float | None = None,
    hottest: float | None = None,
    mach: bool = False,
    conditions: Conditions | None = None,
) -> FlightStudy:
    """Follow a ball of a gun to the ground.

    Parameters
    ----------
    gun
        As loaded from its file.
    ball_mass
        Mass of the ball in kg; None for the file's.
    reading
        Mean reading of a chronograph in m/s; None for the predicted speed.
    read_at
        Distance of the chronograph from the muzzle, in m.
    stance
        Height, elevation, sights; None is a level barrel at 1.5 m.
    sightings
        What was seen of its flight; none leaves the lift at the prior.
    wind
        None for calm air.
    distances
        Where it is asked for, in m.
    energies
        Energies in J below which it is wanted to be.
    chronographs
        Distances in m at which a chronograph may stand.
    flattest_to
        Distance in m to which the hop-up is to be set for the flattest flight; None if that is not asked.
    hottest
        Highest energy in J that a string has shown with any ball and selector position; None for predictions.
    mach
        Whether the drag grows with the Mach number.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    FlightStudy

    Raises
    ------
    InputError
        If the ball does not leave, or the sightings cannot be fitted.
    OutOfRange
        For an impossible value, or a target behind the shooter.
    OutsideValidity
        Above Mach 0.9, or outside the range of a law.
    """
    held = stance or Stance()
    check(held)
    for distance in (*distances, *chronographs, *(() if flattest_to is None else (flattest_to,))):
        check_distance(distance)
    for energy in energies:
        check_value("energies", energy, _ENERGY)
    muzzle = muzzle_state(gun, ball_mass=ball_mass, reading=reading, read_at=read_at, conditions=conditions)
    level = muzzle.launched(held, laws=FlightLaws(with_mach_factor=mach), wind=wind)
    lift = fit_lift(level, sightings=sightings, elevation=held.elevation)
    parameters = with_lift(level, lift)
    path = integrate_flight(parameters)
    held = dataclasses.replace(held, elevation=lift.elevation)
    if held.zero is not None and held.zero > float(path.position[:, 0].max()):
        raise OutOfRange(
            f"zero = {held.zero:g} m: the ball is down after {float(path.position[-1, 0]):.0f} m.",
            field="zero",
            value=held.zero,
            unit="m",
            limits=(1.0, float(path.position[-1, 0])),
            hint="Zero the sights at a nearer distance.",
        )
    climb = _climb(path, lift.elevation)
    least = integrate_flight(_with_laws(parameters, DragLaw.MORRISON, parameters.laws.lift), extrapolate=True)
    return FlightStudy(
        muzzle=muzzle,
        stance=held,
        lift=lift,
        path=path,
        passings=path.along(distances),
        band=_band(level, lift, np.union1d(np.asarray(distances, dtype=np.float64), np.arange(0.0, _DRAWN_TO + 1.0))),
        climb=climb,
        levels=tuple(
            EnergyLevel(energy=energy, distance=_falls_to(path, energy), furthest=_falls_to(least, energy)) for energy in energies
        ),
        readings=tuple(
            reading_from_muzzle(muzzle.speed, ball_mass=muzzle.ball.mass, distance=place, flight=muzzle.flight)
            for place in chronographs
        ),
        hop=None if flattest_to is None else flattest_hop(parameters, to=flattest_to, sight_height=held.sight_height),
        impact=study_impact(muzzle, hottest=hottest, conditions=conditions),
        questions=tuple(_questions(muzzle, climb, lift)),
    )


def check_distance(distance: float) -> None:
    """Refuse a target behind the shooter."""
    if distance < 0.0:
        raise OutOfRange(
            f"{distance:g} m is behind the shooter.",
            field="distances",
            value=distance,
            unit="m",
            limits=(0.0, _DISTANCE.high),
            hint="Distances count from the muzzle, forward.",
        )
    check_value("distances", distance, _DISTANCE)


def _with_laws(parameters: FlightParameters, drag: DragLaw, lift: LiftLaw) -> FlightParameters:
    return dataclasses.replace(parameters, laws=dataclasses.replace(parameters.laws, drag=drag, lift=lift))


def _band(level: FlightParameters, lift: FittedLift, distances: Array) -> Band:
    """Each pair of laws, brought to what was seen by its own multiplier."""
    laws, factors, left_out, paths = [], [], [], []
    known = None if lift.is_elevation_fitted else lift.elevation
    for pair in ((drag, up) for drag in BAND_DRAG for up in BAND_LIFT):
        other = _with_laws(level, *pair)
        try:
            own = fit_lift(other, sightings=lift.sightings, elevation=known, near=lift if lift.sightings else None)
            flight = integrate_flight(with_lift(other, own), extrapolate=True)
        except (InputError, OutsideValidity):
            left_out.append(pair)
            continue
        laws.append(pair)
        factors.append(own.factor)
        paths.append(flight.along(distances))
    heights = np.array([path.position[:, 2] - level.launch.z for path in paths])
    heights = np.where(np.isnan(heights), -level.launch.z, heights)
    down = np.all(heights <= -level.launch.z, axis=0)
    speeds = np.array([path.speed for path in paths])
    nowhere = np.all(np.isnan(speeds), axis=0)
    speeds[:, nowhere] = 0.0
    return Band(
        distance=distances,
        low=np.where(down, np.nan, heights.min(axis=0)),
        high=np.where(down, np.nan, heights.max(axis=0)),
        slowest=np.where(nowhere, np.nan, np.nanmin(speeds, axis=0)),
        fastest=np.where(nowhere, np.nan, np.nanmax(speeds, axis=0)),
        laws=tuple(laws),
        factors=np.array(factors, dtype=np.float64),
        left_out=tuple(left_out),
    )


def _climb(path: Flight, elevation: float) -> float:
    start = path.position[0]
    rise = path.position[:, 2] - start[2] - (path.position[:, 0] - start[0]) * math.tan(elevation)
    return max(float(rise.max()), 0.0)


def _falls_to(path: Flight, energy: float) -> float | None:
    try:
        return path.at_energy(energy).position[0]
    except OutOfRange:
        return 0.0 if path.energy(path.at_time(0.0)) <= energy else None


def _questions(muzzle: MuzzleState, climb: float, lift: FittedLift) -> list[str]:
    found = [] if is_usual(muzzle.ball.mass, _BALL_MASS) else ["ball"]
    if climb > CLIMB_QUESTIONED:
        found.append("climbs")
    if lift.sightings and not FACTOR_QUESTIONED[0] <= lift.factor <= FACTOR_QUESTIONED[1]:
        found.append("factor")
    if lift.factor_uncertainty is not None and lift.factor_uncertainty > 0.5 * abs(lift.factor):
        found.append("sightings_too_near")
    return found
