"""Which backspin gives the flattest flight over a stretch, and how far does any hop setting keep a ball within a window?"""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass
from typing import Annotated, Final

import numpy as np
from numpy.typing import NDArray

from stripdown.core.exterior_ballistics import FlightParameters, integrate_flight
from stripdown.errors import InputError, OutsideValidity
from stripdown.quantities import Q
from stripdown.studies.lift import lift_over_weight

Array = NDArray[np.float64]

NEAR: Final = 5.0
"""From where on a flight is looked at, in m: nearer, the ball has yet to rise to the line of the sights."""
_STEP: Final = 0.5  # m
_FURTHEST: Final = 90.0  # m
_MOST_LIFT: Final = 5.0  # times the weight, at the muzzle
_HALVINGS: Final = 50
_STEEPEST: Final = 0.08  # rad
_FEW: Final = 31


@dataclass(frozen=True, slots=True, kw_only=True)
class HopSetting:
    """A backspin, and how flat the ball then flies.

    Parameters
    ----------
    backspin
        At the muzzle, in rad/s: as sure as the lift that it rests on.
    times_present
        Backspin over that of the present setting, a ratio.
    elevation
        Of the barrel to the line of the sights, in rad.
    deviation
        Greatest distance from the line of the sights between `NEAR` and `reach`, in m.
    reach
        To which distance, in m.
    over_weight
        Lift at the muzzle as a multiple of the ball's weight, a pure number.
    spin_ratio
        At the muzzle, a pure number.
    parameters
        The flight with that setting.
    """

    backspin: Annotated[float, Q("rad/s", label="backspin at the muzzle", shown="rpm")]
    times_present: Annotated[float, Q("1", label="backspin over that of the present setting")]
    elevation: Annotated[float, Q("rad", label="elevation to the line of the sights", shown="deg")]
    deviation: Annotated[float, Q("m", label="greatest distance from the line of the sights")]
    reach: Annotated[float, Q("m", label="reach")]
    over_weight: Annotated[float, Q("1", label="lift at the muzzle over the weight")]
    spin_ratio: Annotated[float, Q("1", label="spin ratio at the muzzle")]
    parameters: FlightParameters


def flattest_hop(parameters: FlightParameters, *, to: float, sight_height: float) -> HopSetting:
    """Backspin and elevation that keep a ball nearest to the line of the sights up to a distance.

    Parameters
    ----------
    parameters
        The flight with its present spin and its lift.
    to
        End of the stretch, in m.
    sight_height
        Of the sights over the barrel, in m.

    Returns
    -------
    HopSetting

    Raises
    ------
    InputError
        If the stretch is too short, the ball has no backspin to begin with, or gets nowhere near the end.
    """
    if to <= NEAR + _STEP:
        raise InputError(
            f"{to:g} m: a stretch for the flattest flight ends beyond {NEAR + _STEP:g} m.",
            field="flattest_to",
            value=to,
            hint="Name the distance up to which it shall fly flat.",
        )
    found = _searched(parameters, sight_height, to=to, window=None)
    if found is None:
        raise InputError(
            f"{to:g} m: no hop setting carries the ball so far.", field="flattest_to", value=to, hint="Name a nearer distance."
        )
    return found


def furthest_hop(parameters: FlightParameters, *, window: float, sight_height: float) -> HopSetting | None:
    """Backspin and elevation that keep a ball within a window about the line of the sights for as long as any do.

    Parameters
    ----------
    parameters
        The flight with its present spin and its lift.
    window
        Greatest distance from the line of the sights, in m.
    sight_height
        Of the sights over the barrel, in m.

    Returns
    -------
    HopSetting or None
        None if none keeps it there even over the first metres.
    """
    return _searched(parameters, sight_height, to=_FURTHEST, window=window)


def _searched(parameters: FlightParameters, sight_height: float, *, to: float, window: float | None) -> HopSetting | None:
    """Over a grid of settings, then over finer ones about the best; the tilt that is best for each is found exactly."""
    unit = lift_over_weight(parameters) * parameters.laws.lift_factor
    if unit <= 0.0:
        raise InputError(
            "The ball leaves without backspin or lift, so there is no hop setting to look for.",
            field="hop_up.normal_force",
            hint="Give the hop-up a force in the gun's file.",
        )
    stretch = np.arange(NEAR, to + 0.5 * _STEP, _STEP)
    low, high = 0.0, _MOST_LIFT / unit
    best = None
    for _ in range(3):
        scales = np.linspace(low, high, _FEW)
        heights = np.array([_heights(parameters, float(scale), stretch) for scale in scales]) - sight_height
        last = len(stretch) if window is None else _last_within(heights, stretch, window)
        if last == 0:
            return None
        deviation, tilts = _flattest(heights[:, :last], stretch[:last])
        place = int(np.argmin(deviation))
        if not math.isfinite(deviation[place]):
            return None
        best = (float(scales[place]), float(tilts[place]), float(deviation[place]), float(stretch[last - 1]))
        step = scales[1] - scales[0]
        low, high = max(0.0, scales[place] - 1.5 * step), scales[place] + 1.5 * step
    assert best is not None  # noqa: S101  narrows: the loop runs
    scale, tilt, off, reach = best
    flown = _set(parameters, scale, tilt)
    speed = math.hypot(flown.launch.speed_x, flown.launch.speed_z)
    spin = abs(flown.launch.spin_y)
    return HopSetting(
        backspin=spin,
        times_present=scale,
        elevation=tilt,
        deviation=off,
        reach=reach,
        over_weight=lift_over_weight(flown) * flown.laws.lift_factor,
        spin_ratio=0.5 * flown.ball.diameter * spin / speed,
        parameters=flown,
    )


def _last_within(heights: Array, stretch: Array, window: float) -> int:
    """How many of the places can be passed within a window; more are never easier."""
    low, high = 0, len(stretch)
    while low < high:
        middle = (low + high + 1) // 2
        fits = float(_flattest(heights[:, :middle], stretch[:middle])[0].min()) <= window
        low, high = (middle, high) if fits else (low, middle - 1)
    return low


def _flattest(heights: Array, stretch: Array) -> tuple[Array, Array]:
    """For each row the slope that, added, leaves the least greatest distance from zero; that distance, and the slope."""
    reached = ~np.isnan(heights).any(axis=1)
    low, high = np.full(len(heights), -_STEEPEST), np.full(len(heights), _STEEPEST)

    def off(slope: Array) -> Array:
        return np.asarray(np.abs(heights + slope[:, None] * stretch).max(axis=1), dtype=np.float64)

    for _ in range(_HALVINGS):
        first, second = low + (high - low) / 3.0, high - (high - low) / 3.0
        nearer = off(first) < off(second)
        low, high = np.where(nearer, low, first), np.where(nearer, second, high)
    slope = 0.5 * (low + high)
    return np.where(reached, off(slope), np.inf), slope


def _heights(parameters: FlightParameters, scale: float, stretch: Array) -> Array:
    """Heights over the muzzle of a level shot with so many times the present spin, whatever the ground."""
    level = _set(parameters, scale, 0.0)
    try:
        flight = integrate_flight(level, until=float(stretch[-1]), extrapolate=True, tolerance=1e-6)
    except OutsideValidity:
        flight = integrate_flight(level, extrapolate=True, tolerance=1e-6)
    return np.asarray(flight.along(stretch).position[:, 2] - parameters.launch.z, dtype=np.float64)


def _set(parameters: FlightParameters, scale: float, elevation: float) -> FlightParameters:
    launch = parameters.launch
    speed = math.hypot(launch.speed_x, launch.speed_z)
    return dataclasses.replace(
        parameters,
        launch=dataclasses.replace(
            launch, speed_x=speed * math.cos(elevation), speed_z=speed * math.sin(elevation), spin_y=launch.spin_y * scale
        ),
    )
