"""How air slows a ball between two points: enough of its flight to move a reading to the muzzle or to a legal measuring point."""

from __future__ import annotations

import math
from typing import Annotated, Any, Final

import numpy as np
from numpy.typing import NDArray

from stripdown.errors import OutsideValidity
from stripdown.quantities import Q, parameters

Array = NDArray[np.float64]

_HIGHEST_REYNOLDS: Final = 2e5
_LONGEST_STEP: Final = 0.25  # m; the error per metre is then below 1e-9 of the speed for any ball in use


@parameters
class BallFlight:
    """Ball and air, as far as they matter over the few metres to a chronograph."""

    ball_diameter: Annotated[
        float, Q("m", low=1e-4, high=0.2, usual=(0.00593, 0.00596), label="diameter of the ball", shown="mm")
    ] = 0.00595
    air_density: Annotated[float, Q("kg/m3", low=0.01, high=100, usual=(1.0, 1.4), label="density of the air")] = 1.2041
    air_viscosity: Annotated[float, Q("Pa s", low=1e-7, high=1e-3, usual=(1.6e-5, 2e-5), label="viscosity of the air")] = (
        1.8134e-5
    )
    drag_coefficient: Annotated[
        float | None, Q("1", low=0.01, high=5, usual=(0.38, 0.52), label="drag coefficient, if not by the law")
    ] = None
    drag_uncertainty: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=1,
            usual=(0.02, 0.15),
            label="standard uncertainty of the drag, share of it",
            shown="%",
            explain="Other published laws lie up to 17 % below this one at these speeds; the air of the day adds a few per cent.",
        ),
    ] = 0.09


AIR_AT_20_CELSIUS: Final = BallFlight()


def drag_coefficient_clift_gauvin(reynolds: Array) -> Array:
    """Drag coefficient of a smooth sphere.

    Parameters
    ----------
    reynolds
        Reynolds number with the diameter, up to 2e5.

    Returns
    -------
    array
        Drag coefficient on the cross-section, same shape.

    Notes
    -----
    ``24/Re·(1 + 0.15·Re^0.687) + 0.42/(1 + 42500·Re^-1.16)``, the original of 1970, without drag crisis and without
    Mach number: at 100 m/s the Mach number adds 2 %, at 170 m/s 6 %.

    References
    ----------
    clift_gauvin_1970.
    """
    return np.asarray(clift_gauvin(reynolds), dtype=np.float64)


def clift_gauvin(reynolds: Any) -> Any:
    """Drag coefficient by the law of Clift and Gauvin, of one number or of many; a kernel compiles it.

    Parameters
    ----------
    reynolds
        Reynolds number with the diameter, above zero.

    Returns
    -------
    float or array
        Drag coefficient, same shape.

    References
    ----------
    clift_gauvin_1970.
    """
    return 24.0 / reynolds * (1.0 + 0.15 * reynolds**0.687) + 0.42 / (1.0 + 42500.0 * reynolds**-1.16)


def slowing(speed: Array, *, ball_mass: float, flight: BallFlight) -> Array:
    """Share of its speed that a ball loses per metre.

    Parameters
    ----------
    speed
        In m/s, above zero.
    ball_mass
        In kg.
    flight
        Ball and air.

    Returns
    -------
    array
        In 1/m, same shape: ``rho·C_D·A/(2m)``.
    """
    area = 0.25 * math.pi * flight.ball_diameter**2
    factor = 0.5 * flight.air_density * area / ball_mass
    if flight.drag_coefficient is not None:
        return np.full_like(speed, factor * flight.drag_coefficient)
    return factor * drag_coefficient_clift_gauvin(speed * flight.air_density * flight.ball_diameter / flight.air_viscosity)


def fly(speed: Array, travel: float, *, ball_mass: float, flight: BallFlight) -> tuple[Array, Array]:
    """Carry speeds along a flat path.

    Parameters
    ----------
    speed
        In m/s, above zero.
    travel
        Distance in m; negative for the way back toward the muzzle.
    ball_mass
        In kg.
    flight
        Ball and air.

    Returns
    -------
    array
        Speed at the other end in m/s, same shape.
    array
        Time of flight in s, same shape, with the sign of `travel`.

    Raises
    ------
    OutsideValidity
        If a ball is so fast that the drag law does not hold.

    Notes
    -----
    ``d(ln v)/dx = -k(v)``, ``dt/dx = 1/v``, by the classical fourth-order step. With a constant coefficient it is
    ``v·exp(-k·x)``. Gravity is left out: over three metres it changes a speed by less than 1e-5.
    """
    if travel == 0.0:
        return speed, np.zeros_like(speed)
    steps = max(1, math.ceil(abs(travel) / _LONGEST_STEP))
    step = travel / steps
    log_speed, time = np.log(speed), np.zeros_like(speed)

    def rate(logarithm: Array) -> tuple[Array, Array]:
        now = np.exp(logarithm)
        return -slowing(now, ball_mass=ball_mass, flight=flight), 1.0 / now

    for _ in range(steps):
        a, ta = rate(log_speed)
        b, tb = rate(log_speed + 0.5 * step * a)
        c, tc = rate(log_speed + 0.5 * step * b)
        d, td = rate(log_speed + step * c)
        log_speed = log_speed + step / 6.0 * (a + 2.0 * b + 2.0 * c + d)
        time = time + step / 6.0 * (ta + 2.0 * tb + 2.0 * tc + td)
    _check_reynolds(max(float(np.max(speed)), float(np.exp(np.max(log_speed)))), flight)
    return np.asarray(np.exp(log_speed), dtype=np.float64), np.asarray(time, dtype=np.float64)


def _check_reynolds(fastest: float, flight: BallFlight) -> None:
    reynolds = fastest * flight.air_density * flight.ball_diameter / flight.air_viscosity
    if flight.drag_coefficient is None and not reynolds <= _HIGHEST_REYNOLDS:
        raise OutsideValidity(
            f"The drag of a smooth sphere is known up to a Reynolds number of {_HIGHEST_REYNOLDS:g}; "
            f"a ball of {flight.ball_diameter * 1000:g} mm at {fastest:.0f} m/s has {reynolds:.3g}.",
            model="Clift and Gauvin",
            quantity="reynolds",
            value=reynolds,
            limits=(0.0, _HIGHEST_REYNOLDS),
            reference="clift_gauvin_1970",
        )
