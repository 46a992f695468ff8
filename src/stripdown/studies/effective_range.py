"""How far does this gun hit a target of a size, with the group that it was seen to shoot?"""

from __future__ import annotations

import dataclasses
import functools
import math
from dataclasses import dataclass
from typing import Annotated, Final

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import quad
from scipy.stats import norm

from stripdown.bench.gun import Gun
from stripdown.core.exterior_ballistics import FlightParameters, Wind, integrate_fan, integrate_flight
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import InputError, OutOfRange, OutsideValidity
from stripdown.quantities import Q, check, check_value, parameters
from stripdown.studies.hop_setting import HopSetting, flattest_hop
from stripdown.studies.lift import FittedLift, Sighting, fit_lift, with_lift
from stripdown.studies.muzzle import MuzzleState, Stance, muzzle_state

Array = NDArray[np.float64]

USUAL_PLACES: Final = tuple(float(place) for place in range(5, 65, 5))
SHOTS: Final = 4000
_SHOWN: Final = 300
_SCATTER: Final = Q("m/s", low=0, high=50, usual=(0.1, 2), label="standard deviation of the muzzle speed")
_WANTED: Final = Q("1", low=0.01, high=0.99, label="share of shots that is to hit", shown="%")


@parameters
class Group:
    """A group on paper, as one measures it."""

    width: Annotated[float, Q("m", low=0, high=10, usual=(0.02, 0.5), label="width of the group", shown="mm")]
    height: Annotated[float, Q("m", low=0, high=10, usual=(0.02, 0.5), label="height of the group", shown="mm")]
    shots: Annotated[int, Q("1", low=3, high=200, usual=(5, 30), label="shots of the group")]
    distance: Annotated[float, Q("m", low=1, high=100, usual=(5, 40), label="distance of the group")]


@parameters
class Target:
    """A target: an ellipse of a width and a height."""

    width: Annotated[float, Q("m", low=0.005, high=10, usual=(0.05, 1), label="width of the target", shown="mm")] = 0.40
    height: Annotated[float, Q("m", low=0.005, high=10, usual=(0.05, 1), label="height of the target", shown="mm")] = 0.40


@dataclass(frozen=True, slots=True, kw_only=True)
class HitsAt:
    """Hits at one distance.

    Parameters
    ----------
    distance
        From the muzzle, in m.
    on_sight
        Share of shots that hit with the sights on the middle of the target.
    held_over
        Share that hits with the fall at that distance and the wind's drift allowed for.
    fall
        Mean height over the line of the sights, in m.
    drift
        Mean drift to the left, in m.
    spread_across, spread_up
        Standard deviations of the impacts, in m.
    """

    distance: Annotated[float, Q("m", label="distance from the muzzle")]
    on_sight: Annotated[float, Q("1", label="share of hits with the sights on the target", shown="%")]
    held_over: Annotated[float, Q("1", label="share of hits, held over", shown="%")]
    fall: Annotated[float, Q("m", label="height over the line of the sights", shown="cm")]
    drift: Annotated[float, Q("m", label="drift to the left", shown="cm")]
    spread_across: Annotated[float, Q("m", label="spread across, standard deviation", shown="cm")]
    spread_up: Annotated[float, Q("m", label="spread upward, standard deviation", shown="cm")]


@keeps_arrays
@dataclass(frozen=True, eq=False, kw_only=True, slots=True)
class RangeStudy:
    """A gun on a target.

    Parameters
    ----------
    muzzle
        How the ball leaves.
    stance
        How the gun is held; its sights with a zero.
    lift
        Fitted, or the prior.
    hop
        The flattest setting that was flown with; None if the present one was kept.
    target
        What is shot at.
    group
        As measured; None if none was.
    scatter
        Standard deviation of the muzzle speed, in m/s.
    spread_across, spread_up
        Standard deviation of the direction in which the ball leaves, in rad; None across where no group was measured.
    is_all_speed
        Whether the scatter of speed alone already gives the height of the group.
    wanted
        Share of shots that is to hit.
    hits
        By distance, as far as the ball flies.
    on_sight, held_over
        Furthest distance with as many hits, in m; None if not even the nearest has.
    shown_at
        Distance of the impacts that are kept, in m.
    impacts
        Across (to the left) and up from where the sights look, in m, shape (n, 2).
    """

    muzzle: MuzzleState
    stance: Stance
    lift: FittedLift
    hop: HopSetting | None
    target: Target
    group: Group | None
    scatter: float
    spread_across: float | None
    spread_up: float | None
    is_all_speed: bool
    wanted: float
    hits: tuple[HitsAt, ...]
    on_sight: float | None
    held_over: float | None
    shown_at: float
    impacts: Array


def study_range(
    gun: Gun,
    *,
    rng: np.random.Generator,
    ball_mass: float | None = None,
    reading: float | None = None,
    read_at: float = 0.0,
    scatter: float | None = None,
    group: Group | None = None,
    target: Target | None = None,
    stance: Stance | None = None,
    sightings: tuple[Sighting, ...] = (),
    flattest_to: float | None = None,
    wind: Wind | None = None,
    wanted: float = 0.5,
    conditions: Conditions | None = None,
) -> RangeStudy:
    """Say to which distance a gun hits a target.

    Parameters
    ----------
    gun
        As loaded from its file.
    rng
        Where the shots' differences are drawn from.
    ball_mass
        Mass of the ball in kg; None for the file's.
    reading
        Mean reading of a chronograph in m/s; None for the predicted speed.
    read_at
        Distance of the chronograph from the muzzle, in m.
    scatter
        Standard deviation of the speed in m/s; None takes none.
    group
        As measured on paper; None leaves the scatter of speed alone, which spreads upward only.
    target
        None is 40 cm across.
    stance
        Height, elevation, sights; without a zero they are zeroed at 20 m.
    sightings
        What was seen of its flight; none leaves the lift at the prior.
    flattest_to
        Distance in m to which the hop-up is set for the flattest flight; None keeps the present setting.
    wind
        None for calm air.
    wanted
        Share of shots that is to hit.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    RangeStudy

    Raises
    ------
    InputError
        Without a scatter and without a group, if the ball does not leave, or the sightings cannot be fitted.
    OutOfRange
        For an impossible value.

    Notes
    -----
    Directions are normal and independent across and upward. Their standard deviation is the extent of the group over the mean
    extent of as many normal shots; upward, that which the speed explains is taken off. Between distances a straight line is
    drawn.
    """
    if group is None and not scatter:
        raise InputError(
            "Nothing tells how the shots differ, so no share of hits can be reckoned.",
            field="group",
            hint="Measure a group (width, height, shots, distance), or give the standard deviation of a string.",
        )
    check_value("scatter", scatter or 0.0, _SCATTER)
    check_value("wanted", wanted, _WANTED)
    shot_at, held = target or Target(), stance or Stance()
    for record in (shot_at, held, *(() if group is None else (group,))):
        check(record)
    held = held if held.zero is not None else dataclasses.replace(held, zero=20.0)
    leaves = muzzle_state(gun, ball_mass=ball_mass, reading=reading, read_at=read_at, conditions=conditions)
    level = leaves.launched(held, wind=wind)
    lift = fit_lift(level, sightings=sightings, elevation=held.elevation)
    parameters = with_lift(level, lift)
    hop = None if flattest_to is None else flattest_hop(parameters, to=flattest_to, sight_height=held.sight_height)
    parameters = parameters if hop is None else hop.parameters
    speed_scatter = scatter or 0.0
    across, up, is_all_speed = _directions(parameters, group, speed_scatter)
    tries = _Tries(
        parameters=parameters,
        speeds=1.0 + speed_scatter / leaves.speed * rng.standard_normal(SHOTS),
        across=(across or 0.0) * rng.standard_normal(SHOTS),
        up=(up or 0.0) * rng.standard_normal(SHOTS),
    )
    line = _sight_line(parameters, held)
    hits: list[HitsAt] = []
    kept, shown_at = np.zeros((0, 2)), 0.0
    for place in USUAL_PLACES:
        try:
            impacts = tries.at(place)
        except OutsideValidity:
            break
        off = impacts - np.array([0.0, line[0] + line[1] * place])
        if float(np.median(impacts[:, 1])) < -held.muzzle_height:
            break
        mean = off.mean(axis=0)
        found = HitsAt(
            distance=place,
            on_sight=_share(off, shot_at),
            held_over=_share(off - mean, shot_at),
            fall=float(mean[1]),
            drift=float(mean[0]),
            spread_across=float(off[:, 0].std()),
            spread_up=float(off[:, 1].std()),
        )
        if not hits or found.on_sight >= wanted:
            kept, shown_at = off[:_SHOWN], place
        hits.append(found)
    return RangeStudy(
        muzzle=leaves,
        stance=held,
        lift=lift,
        hop=hop,
        target=shot_at,
        group=group,
        scatter=speed_scatter,
        spread_across=across,
        spread_up=up,
        is_all_speed=is_all_speed,
        wanted=wanted,
        hits=tuple(hits),
        on_sight=_furthest([(one.distance, one.on_sight) for one in hits], wanted),
        held_over=_furthest([(one.distance, one.held_over) for one in hits], wanted),
        shown_at=shown_at,
        impacts=kept,
    )


@functools.cache
def mean_extent(shots: int) -> float:
    """Mean extent of so many normal shots over their standard deviation: the control-chart constant d2."""
    found, _ = quad(lambda x: 1.0 - norm.sf(x) ** shots - norm.cdf(x) ** shots, -10.0, 10.0, limit=200)
    return float(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tries:
    """Shots that differ in speed and direction, the same ones at every distance."""

    parameters: FlightParameters
    speeds: Array
    across: Array
    up: Array

    def at(self, place: float) -> Array:
        """Where they pass a distance: to the left, and up over the muzzle."""
        launch = self.parameters.launch
        speed = math.hypot(launch.speed_x, launch.speed_z)
        tilt = math.atan2(launch.speed_z, launch.speed_x)
        fan = integrate_fan(
            self.parameters,
            variations={
                "launch.speed_x": speed * self.speeds * np.cos(tilt + self.up) * np.cos(self.across),
                "launch.speed_y": speed * self.speeds * np.cos(tilt + self.up) * np.sin(self.across),
                "launch.speed_z": speed * self.speeds * np.sin(tilt + self.up),
            },
            until=place,
            extrapolate=True,
        )
        return np.asarray(fan.position[:, 1:] - np.array([0.0, launch.z]), dtype=np.float64)


def _directions(parameters: FlightParameters, group: Group | None, scatter: float) -> tuple[float | None, float | None, bool]:
    """Spread of the direction across and upward; what the speed explains of the height is taken off."""
    if group is None:
        return None, None, False
    extent = mean_extent(group.shots) * group.distance
    across, whole = group.width / extent, group.height / extent
    launch = parameters.launch
    speed = math.hypot(launch.speed_x, launch.speed_z)
    ends = []
    for sign in (-1.0, 1.0):
        share = 1.0 + sign * scatter / speed
        other = dataclasses.replace(launch, speed_x=launch.speed_x * share, speed_z=launch.speed_z * share)
        flight = integrate_flight(dataclasses.replace(parameters, launch=other), until=group.distance, extrapolate=True)
        ends.append(flight.end.position[2])
    by_speed = 0.5 * abs(ends[1] - ends[0]) / group.distance
    return across, math.sqrt(max(whole**2 - by_speed**2, 0.0)), by_speed >= whole


def _sight_line(parameters: FlightParameters, stance: Stance) -> tuple[float, float]:
    """Height over the muzzle and slope of a line of sight that meets the mean path at the zero."""
    zero = stance.zero or 0.0
    there = integrate_flight(parameters, until=zero, extrapolate=True).end.position[2] - parameters.launch.z
    if there < -stance.muzzle_height:
        raise OutOfRange(
            f"zero = {zero:g} m: the ball is down before.",
            field="zero",
            value=zero,
            unit="m",
            hint="Zero the sights at a nearer distance.",
        )
    return stance.sight_height, (there - stance.sight_height) / zero


def _share(off: Array, target: Target) -> float:
    return float(((off[:, 0] / (0.5 * target.width)) ** 2 + (off[:, 1] / (0.5 * target.height)) ** 2 <= 1.0).mean())


def _furthest(shares: list[tuple[float, float]], wanted: float) -> float | None:
    """Where the share last falls below what is wanted, between two distances by a straight line."""
    reached = [index for index, (_, share) in enumerate(shares) if share >= wanted]
    if not reached:
        return None
    place, share = shares[reached[-1]]
    if reached[-1] + 1 == len(shares):
        return place
    further, less = shares[reached[-1] + 1]
    return place + (further - place) * (share - wanted) / (share - less)
