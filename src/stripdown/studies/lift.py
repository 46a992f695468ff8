"""How much does this ball lift: fitted to what the technician saw of its flight, not assumed?"""

from __future__ import annotations

import dataclasses
import enum
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Final

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares

from stripdown.core.exterior_ballistics import FlightParameters, integrate_flight, lift_coefficient
from stripdown.core.exterior_ballistics.lift import LIFT_RANGES
from stripdown.errors import InputError, OutsideValidity
from stripdown.quantities import Q, check_value

Array = NDArray[np.float64]

FLAT_DROP: Final = 0.10
"""How far below the muzzle a ball is that one no longer calls flat, in m: common practice, no source."""
SEEN_TO: Final = 0.05
"""Standard uncertainty of a height seen in the field, in m: an estimate."""
MOST_LIFT: Final = 8.0  # times the weight, at the muzzle
_TILTS: Final = np.radians(np.linspace(-2.0, 4.0, 13))
_FAR_OFF: Final = 10.0  # m: what a flight misses by that never gets there
_MISSED: Final = 0.02  # m: more than that is no fit
_SEEN_AT: Final = Q("m", low=1, high=150, usual=(5, 70), label="distance at which the ball was seen")
_SEEN_HEIGHT: Final = Q("m", low=-100, high=100, usual=(-2, 3), label="height of the ball over the muzzle")


class SightingKind(enum.Enum):
    """What was seen."""

    HEIGHT = "height at a distance"
    APEX = "highest point"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sighting:
    """One thing that was seen of a flight.

    Parameters
    ----------
    kind
        What was seen.
    height
        Over the level of the muzzle, in m; negative below it.
    distance
        From the muzzle, in m; None for the highest point.
    """

    kind: SightingKind
    height: Annotated[float, Q("m", label="height over the muzzle")]
    distance: float | None = None


def flat_to(distance: float, *, drop: float = FLAT_DROP) -> Sighting:
    """What "flat to about 35 m" is taken to mean.

    Parameters
    ----------
    distance
        From the muzzle, in m.
    drop
        How far below the muzzle the ball then is, in m.

    Returns
    -------
    Sighting
    """
    return Sighting(kind=SightingKind.HEIGHT, height=-drop, distance=distance)


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedLift:
    """The lift of a flight.

    Parameters
    ----------
    sightings
        What it was fitted to; without one it is the prior: the law at the shot's spin, an estimate.
    factor
        Multiplier on the law's lift.
    factor_uncertainty
        Standard uncertainty of the multiplier, as the sightings leave it, without that of the laws; None for a prior.
    elevation
        Of the barrel, in rad: as told, or fitted too.
    is_elevation_fitted
        Whether the elevation was found from the sightings.
    is_elevation_told
        Whether somebody told it; neither told nor found, the barrel is taken to be level.
    over_weight
        Lift at the muzzle as a multiple of the ball's weight, a pure number.
    misses
        What each sighting is missed by, in m.
    """

    sightings: tuple[Sighting, ...]
    factor: Annotated[float, Q("1", label="multiplier on the lift")]
    factor_uncertainty: float | None
    elevation: Annotated[float, Q("rad", label="elevation of the barrel", shown="deg")]
    is_elevation_fitted: bool
    is_elevation_told: bool
    over_weight: Annotated[float, Q("1", label="lift at the muzzle over the weight")]
    misses: tuple[float, ...]


def fit_lift(
    parameters: FlightParameters, *, sightings: Sequence[Sighting], elevation: float | None, near: FittedLift | None = None
) -> FittedLift:
    """Fit one multiplier on the lift to what was seen, and the elevation too if it is not known.

    Parameters
    ----------
    parameters
        The flight, with the spin and the law whose lift is multiplied.
    sightings
        What was seen; none keeps the prior.
    elevation
        Of the barrel, in rad; None if it is not known.
    near
        A fit with another law, from which to start.

    Returns
    -------
    FittedLift

    Raises
    ------
    InputError
        If the sightings cannot tell lift from elevation, the ball has no spin, or no lift explains what was seen.
    OutOfRange
        For an impossible height or distance.
    """
    for one in sightings:
        check_value("height", one.height, _SEEN_HEIGHT)
        if one.distance is not None:
            check_value("distance", one.distance, _SEEN_AT)
    unit = lift_over_weight(parameters)
    if not sightings:
        return _fitted(parameters, (), np.array([unit]), elevation, unit)
    if unit == 0.0:
        raise InputError(
            "The ball leaves without backspin, so no lift can be fitted to it.",
            field="hop_up.normal_force",
            hint="Give the hop-up a force in the gun's file.",
        )
    if elevation is None and len({(one.kind, one.distance) for one in sightings}) < 2:
        raise InputError(
            "One sighting cannot tell lift from elevation: a barrel that points up looks like a ball that climbs.",
            field="sightings",
            hint="Level the barrel and say so with its elevation, or tell a second thing that was seen of the same flight.",
        )
    task = _Task(parameters, tuple(sightings), elevation, unit)
    start = task.scanned() if near is None else np.array([near.over_weight, near.elevation][: task.unknowns])
    low, high = np.array([0.0, -0.5]), np.array([2.0 * MOST_LIFT, 1.0])
    found = least_squares(
        task.misses,
        np.clip(start, low[: task.unknowns] + 1e-9, high[: task.unknowns]),
        bounds=(low[: task.unknowns], high[: task.unknowns]),
        x_scale=np.array([0.1, 1e-3])[: task.unknowns],
        diff_step=1e-4,
        xtol=1e-10,
    )
    if len(sightings) == task.unknowns and float(np.abs(found.fun).max()) > _MISSED:
        raise InputError(
            f"No lift between none and {MOST_LIFT:g} times the ball's weight gives what was seen: it is missed by "
            f"{float(np.abs(found.fun).max()):.2g} m.",
            field="sightings",
            hint="Look again at the elevation, the speed and the ball; heights count from the level of the muzzle.",
        )
    return _fitted(parameters, tuple(sightings), found.x, elevation, unit, fit=(found.jac, found.fun))


def with_lift(parameters: FlightParameters, lift: FittedLift) -> FlightParameters:
    """The same flight with a lift and the elevation that belongs to it."""
    return _tilted(parameters, lift.factor, lift.elevation)


def lift_over_weight(parameters: FlightParameters) -> float:
    """Lift at the muzzle over the weight of the ball, for a multiplier of one."""
    launch, ball, laws = parameters.launch, parameters.ball, parameters.laws
    speed = math.hypot(launch.speed_x, launch.speed_y, launch.speed_z)
    spin = math.hypot(launch.spin_x, launch.spin_y, launch.spin_z)
    if spin == 0.0 or laws.lift not in LIFT_RANGES:
        return 0.0
    reynolds = parameters.air.density * speed * ball.diameter / parameters.air.viscosity
    ratio = 0.5 * ball.diameter * spin / speed
    lift = lift_coefficient(ratio, law=laws.lift, reynolds=reynolds, extrapolate=True)
    push = 0.5 * parameters.air.density * math.pi * (0.5 * ball.diameter * speed) ** 2
    return push * lift / (ball.mass * laws.gravity)


@dataclass(frozen=True, slots=True)
class _Task:
    parameters: FlightParameters
    sightings: tuple[Sighting, ...]
    elevation: float | None
    unit: float

    @property
    def unknowns(self) -> int:
        return 1 if self.elevation is not None else 2

    def misses(self, at: Array) -> Array:
        """What each sighting is missed by, in m."""
        tilt = self.elevation if self.elevation is not None else float(at[1])
        flown = _tilted(self.parameters, float(at[0]) / self.unit, tilt)
        return np.array([_seen(flown, one) - one.height for one in self.sightings])

    def scanned(self) -> Array:
        """A place from which the nearest minimum is the lowest."""
        lifts = np.linspace(0.0, MOST_LIFT, 33)
        tilts = [self.elevation] if self.elevation is not None else list(_TILTS)
        places = [np.array([lift, tilt][: self.unknowns]) for tilt in tilts for lift in lifts]
        return min(places, key=lambda place: float((self.misses(place) ** 2).sum()))


def _seen(parameters: FlightParameters, sighting: Sighting) -> float:
    """Height over the muzzle that a flight has where one looked."""
    try:
        if sighting.distance is None:
            return integrate_flight(parameters, extrapolate=True, tolerance=1e-7).apex.position[2] - parameters.launch.z
        flight = integrate_flight(parameters, until=sighting.distance, extrapolate=True, tolerance=1e-7)
    except OutsideValidity:
        return -_FAR_OFF
    return flight.end.position[2] - parameters.launch.z


def _tilted(parameters: FlightParameters, factor: float, elevation: float) -> FlightParameters:
    launch = parameters.launch
    speed = math.hypot(launch.speed_x, launch.speed_y, launch.speed_z)
    return dataclasses.replace(
        parameters,
        launch=dataclasses.replace(launch, speed_x=speed * math.cos(elevation), speed_z=speed * math.sin(elevation)),
        laws=dataclasses.replace(parameters.laws, lift_factor=factor),
    )


def _fitted(
    parameters: FlightParameters,
    sightings: tuple[Sighting, ...],
    found: Array,
    elevation: float | None,
    unit: float,
    *,
    fit: tuple[Array, Array] | None = None,
) -> FittedLift:
    uncertainty = None
    is_tilted = elevation is None and fit is not None
    if fit is not None:
        inverse = np.linalg.pinv(fit[0].T @ fit[0])
        uncertainty = SEEN_TO * math.sqrt(float(inverse[0, 0])) / unit
    return FittedLift(
        sightings=sightings,
        factor=parameters.laws.lift_factor if fit is None else float(found[0]) / unit,
        factor_uncertainty=uncertainty,
        elevation=float(found[1]) if is_tilted else elevation or 0.0,
        is_elevation_fitted=is_tilted,
        is_elevation_told=elevation is not None,
        over_weight=float(found[0]),
        misses=() if fit is None else tuple(float(one) for one in fit[1]),
    )
