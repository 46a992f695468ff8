"""From a chronograph's reading to the speed at the muzzle, and back."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from stripdown.core.mechanics.ball_drag import AIR_AT_20_CELSIUS, BallFlight, fly, slowing
from stripdown.core.parts.ball import Ball
from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ, Chronograph
from stripdown.core.shot_statistics.conditions import StringConditions
from stripdown.core.shot_statistics.distributions import Array
from stripdown.core.shot_statistics.moments import check_uncertainty
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check, check_value, leaves

_SPEED: Final = Q("m/s", low=1e-3, high=1e4, label="speed of the ball")
_ENERGY: Final = Q("J", low=1e-6, high=1e4, label="energy limit")
_DISTANCE: Final = next(leaf.quantity for leaf in leaves(StringConditions) if leaf.path == "distance")
_BALL_MASS: Final = next(leaf.quantity for leaf in leaves(Ball) if leaf.path == "mass")
_CORRECTIONS: Final = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedAtPoint:
    """A speed moved along the ball's path, with what is known of it.

    Parameters
    ----------
    speed
        In m/s, at `distance`.
    standard_uncertainty
        Of `speed`, in m/s: instrument, its distance, drag. Without the scatter of the gun.
    energy
        In J.
    energy_standard_uncertainty
        In J, with that of the ball's mass.
    distance
        From the muzzle, in m.
    ratio
        This speed over the speed it was made from.
    """

    speed: float
    standard_uncertainty: float
    energy: float
    energy_standard_uncertainty: float
    distance: float
    ratio: float


def muzzle_from_reading(
    reading: float,
    *,
    ball_mass: float,
    distance: float,
    chronograph: Chronograph = CHRONOGRAPH_AS_READ,
    flight: BallFlight = AIR_AT_20_CELSIUS,
    ball_mass_uncertainty: float = 0.0,
) -> SpeedAtPoint:
    """Speed at the muzzle from a chronograph's reading.

    Parameters
    ----------
    reading
        What the chronograph shows, in m/s.
    ball_mass
        In kg.
    distance
        From the muzzle to the middle between the screens, in m.
    chronograph
        Bias, uncertainty and spacing of the screens; without it readings are used as they stand.
    flight
        Diameter of the ball, and the air.
    ball_mass_uncertainty
        Standard uncertainty of the mass in kg.

    Returns
    -------
    SpeedAtPoint
        At the muzzle.

    Raises
    ------
    OutOfRange
        If a value is impossible, or the first screen would stand behind the muzzle.
    OutsideValidity
        If the ball is too fast for the drag law.

    Notes
    -----
    A two-screen chronograph shows the mean over its base, ``spacing / time``; the muzzle speed that gives this mean is
    found by iteration. Uncertainties are carried to first order: drag enters as ``ln(v0/v)·u(C_D)/C_D``.

    References
    ----------
    clift_gauvin_1970; jcgm_100, section 5.1.2.
    """
    true = reading - chronograph.bias
    speeds = move_speeds(np.array([true]), ball_mass=ball_mass, start=distance, end=0.0, chronograph=chronograph, flight=flight)
    muzzle = float(speeds[0])
    relative = relative_uncertainty_at(
        true, scatter=None, ratio=muzzle / true, ball_mass=ball_mass, chronograph=chronograph, flight=flight
    )
    energy, energy_uncertainty = _energy(muzzle, relative, ball_mass, ball_mass_uncertainty)
    return SpeedAtPoint(
        speed=muzzle,
        standard_uncertainty=relative * muzzle,
        energy=energy,
        energy_standard_uncertainty=energy_uncertainty,
        distance=0.0,
        ratio=muzzle / true,
    )


def reading_from_muzzle(
    speed: float,
    *,
    ball_mass: float,
    distance: float,
    chronograph: Chronograph = CHRONOGRAPH_AS_READ,
    flight: BallFlight = AIR_AT_20_CELSIUS,
    ball_mass_uncertainty: float = 0.0,
) -> SpeedAtPoint:
    """What a chronograph will show for a ball that leaves the muzzle with a known speed.

    Parameters
    ----------
    speed
        At the muzzle, in m/s.
    ball_mass
        In kg.
    distance
        From the muzzle to the middle between the screens, in m.
    chronograph
        Bias, uncertainty and spacing of the screens; without it readings are used as they stand.
    flight
        Diameter of the ball, and the air.
    ball_mass_uncertainty
        Standard uncertainty of the mass in kg.

    Returns
    -------
    SpeedAtPoint
        At the chronograph: its ``speed`` is the reading, bias included; its energy is the ball's, without the bias.

    Raises
    ------
    OutOfRange
        If a value is impossible, or the first screen would stand behind the muzzle.
    OutsideValidity
        If the ball is too fast for the drag law.

    References
    ----------
    clift_gauvin_1970; jcgm_100, section 5.1.2.
    """
    _check(speed, ball_mass, distance, chronograph)
    middle, _ = fly(np.array([speed]), distance, ball_mass=ball_mass, flight=flight)
    true = float(_mean_about(middle, ball_mass, chronograph, flight)[0])
    relative = relative_uncertainty_at(
        true, scatter=None, ratio=true / speed, ball_mass=ball_mass, chronograph=chronograph, flight=flight
    )
    energy, energy_uncertainty = _energy(true, relative, ball_mass, ball_mass_uncertainty)
    return SpeedAtPoint(
        speed=true + chronograph.bias,
        standard_uncertainty=relative * true,
        energy=energy,
        energy_standard_uncertainty=energy_uncertainty,
        distance=distance,
        ratio=true / speed,
    )


def energy_limit_at(
    energy: float,
    *,
    ball_mass: float,
    distance: float,
    measured_at: float = 0.0,
    flight: BallFlight = AIR_AT_20_CELSIUS,
    ball_mass_uncertainty: float = 0.0,
) -> SpeedAtPoint:
    """What an energy limit at one distance is at another, for one ball.

    Parameters
    ----------
    energy
        The limit, in J.
    ball_mass
        In kg.
    distance
        Where it is wanted, from the muzzle, in m.
    measured_at
        Where the limit holds, from the muzzle, in m.
    flight
        Diameter of the ball, and the air.
    ball_mass_uncertainty
        Standard uncertainty of the mass in kg.

    Returns
    -------
    SpeedAtPoint
        Speed and energy there of a ball that is just at the limit.

    Raises
    ------
    OutOfRange
        If a value is impossible.
    OutsideValidity
        If the ball is too fast for the drag law.

    Notes
    -----
    A limit at the muzzle is less at a chronograph that stands before it, and a limit that holds at a metre is more at the muzzle:
    for 0.20 g at 1 J about 8 % a metre, for 0.43 g half of that.

    References
    ----------
    clift_gauvin_1970; jcgm_100, section 5.1.2.
    """
    check_value("energy", energy, _ENERGY)
    check_ball_mass(ball_mass)
    check_distance(measured_at)
    speed = math.sqrt(2.0 * energy / ball_mass)
    _check(speed, ball_mass, distance, CHRONOGRAPH_AS_READ)
    moved = float(fly(np.array([speed]), distance - measured_at, ball_mass=ball_mass, flight=flight)[0][0])
    relative = abs(math.log(moved / speed)) * flight.drag_uncertainty
    there, uncertainty = _energy(moved, relative, ball_mass, ball_mass_uncertainty)
    return SpeedAtPoint(
        speed=moved,
        standard_uncertainty=relative * moved,
        energy=there,
        energy_standard_uncertainty=uncertainty,
        distance=distance,
        ratio=moved / speed,
    )


def move_speeds(
    speeds: Array, *, ball_mass: float, start: float, end: float, chronograph: Chronograph, flight: BallFlight
) -> Array:
    """Speeds at one distance from speeds that a chronograph measured at another.

    Parameters
    ----------
    speeds
        Readings without bias, in m/s.
    ball_mass
        In kg.
    start
        From the muzzle to the middle between the screens, in m.
    end
        Distance from the muzzle at which the speeds are wanted, in m.
    chronograph
        Spacing of its screens.
    flight
        Ball and air.

    Returns
    -------
    array
        In m/s, same shape.

    Raises
    ------
    OutOfRange
        If a value is impossible, or the first screen would stand behind the muzzle.
    OutsideValidity
        If a ball is too fast for the drag law.
    """
    for speed in speeds:
        _check(float(speed), ball_mass, start, chronograph)
    at_middle = speeds
    for _ in range(_CORRECTIONS):
        shown = _mean_about(at_middle, ball_mass, chronograph, flight)
        better = at_middle * speeds / shown
        settled = bool(np.max(np.abs(better / at_middle - 1.0)) < 1e-14)
        at_middle = better
        if settled:
            break
    return fly(at_middle, end - start, ball_mass=ball_mass, flight=flight)[0]


def relative_uncertainty_at(
    reading: float, *, scatter: float | None, ratio: float, ball_mass: float, chronograph: Chronograph, flight: BallFlight
) -> float:
    """Relative standard uncertainty common to all speeds of a string that was read here and moved there.

    Parameters
    ----------
    reading
        Mean reading without bias, in m/s.
    scatter
        Standard deviation of the readings in m/s; None for a single one.
    ratio
        Speed at the other end over the reading; 1 if it was not moved.
    ball_mass
        In kg.
    chronograph
        Its uncertainties.
    flight
        How well the drag is known.

    Returns
    -------
    float
        Share of the speed: instrument, drag over the way moved, and place of the instrument.
    """
    instrument = chronograph.common_uncertainty(reading, scatter) / reading
    drag = math.log(ratio) * flight.drag_uncertainty
    place = 0.0
    if chronograph.distance_uncertainty > 0.0:
        lost = float(slowing(np.array([reading]), ball_mass=ball_mass, flight=flight)[0])
        place = lost * chronograph.distance_uncertainty
    return math.hypot(instrument, drag, place)


def _mean_about(middle: Array, ball_mass: float, chronograph: Chronograph, flight: BallFlight) -> Array:
    """What two screens show for a ball of known speed midway between them."""
    half = 0.5 * chronograph.screen_spacing
    if half == 0.0:
        return middle
    _, to_first = fly(middle, -half, ball_mass=ball_mass, flight=flight)
    _, to_second = fly(middle, half, ball_mass=ball_mass, flight=flight)
    return np.asarray(chronograph.screen_spacing / (to_second - to_first), dtype=np.float64)


def _energy(speed: float, relative: float, ball_mass: float, ball_mass_uncertainty: float) -> tuple[float, float]:
    """Energy and its standard uncertainty."""
    energy = 0.5 * ball_mass * speed * speed
    check_uncertainty("ball_mass_uncertainty", ball_mass_uncertainty)
    return energy, energy * math.hypot(ball_mass_uncertainty / ball_mass, 2.0 * relative)


def _check(speed: float, ball_mass: float, distance: float, chronograph: Chronograph) -> None:
    check(chronograph)
    check_value("speed", speed, _SPEED)
    check_ball_mass(ball_mass)
    check_distance(distance)
    if distance > 0.0 and 0.5 * chronograph.screen_spacing > distance:
        raise OutOfRange(
            f"distance = {distance:g} m puts the first screen behind the muzzle.",
            field="distance",
            value=distance,
            unit="m",
            limits=(0.5 * chronograph.screen_spacing, None),
            hint=f"It is the distance to the middle between screens that stand {chronograph.screen_spacing:g} m apart.",
        )


def check_ball_mass(ball_mass: float) -> None:
    """Refuse an impossible mass of a ball.

    Parameters
    ----------
    ball_mass
        In kg.

    Raises
    ------
    OutOfRange
        If it is not above zero, or heavier than a kilogram.
    """
    assert _BALL_MASS is not None  # noqa: S101  narrows the type: a declared field
    check_value("ball_mass", ball_mass, _BALL_MASS)


def check_distance(distance: float) -> None:
    """Refuse an impossible distance of the chronograph.

    Parameters
    ----------
    distance
        In m.

    Raises
    ------
    OutOfRange
        If it is negative or beyond 100 m.
    """
    assert _DISTANCE is not None  # noqa: S101  narrows the type: a declared field
    check_value("distance", distance, _DISTANCE)
