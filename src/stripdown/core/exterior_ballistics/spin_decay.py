"""How the air slows the spin of a sphere that flies, or that only turns."""

from __future__ import annotations

import math

from stripdown.core.exterior_ballistics.parameters import SpinDecayLaw
from stripdown.core.numerics.compiled import compiled
from stripdown.errors import InputError

SOLID_SPHERE = 0.4  # moment of inertia over m·a²
_CREEPING = 6.03
_LAMINAR = 20.37


@compiled
def cross_flow_decay(torque: float, density: float, radius: float, mass: float, speed: float) -> float:
    """Share of its spin that a sphere loses per second in a stream, which is the faster of the two.

    ``K·v`` with ``K = kT·density·A·a²/(2I)``: linear in the spin, as golf balls in a tunnel show.
    """
    area = math.pi * radius * radius
    return 0.5 * torque * density * area * radius * radius / (SOLID_SPHERE * mass * radius * radius) * speed


@compiled
def still_fluid_decay(density: float, viscosity: float, radius: float, mass: float, spin: float) -> float:
    """Share of its spin that a sphere loses per second in air at rest, by a laminar law beyond the range where it was tried."""
    turning = density * spin * radius * radius / viscosity  # Reynolds number of the spin
    if turning <= 0.0:
        return 0.0
    if turning < _CREEPING:
        torque = 8.0 * math.pi * viscosity * radius**3 * spin
    else:
        root = math.sqrt(turning)
        coefficient = 5.32 / root + 37.2 / turning if turning < _LAMINAR else 6.45 / root + 32.1 / turning
        torque = 0.5 * density * radius**5 * spin * spin * coefficient
    return torque / (SOLID_SPHERE * mass * radius * radius * spin)


@compiled
def decay_of_law(
    law: int, torque: float, density: float, viscosity: float, radius: float, mass: float, speed: float, spin: float
) -> float:
    """Share of the spin lost per second, by a law's number."""
    if law == 1:  # the numbers of `SpinDecayLaw`
        return cross_flow_decay(torque, density, radius, mass, speed)
    if law == 2:
        return still_fluid_decay(density, viscosity, radius, mass, spin)
    return 0.0


def spin_decay_law(law: str | SpinDecayLaw) -> SpinDecayLaw:
    """Find a law of spin decay by its name.

    Parameters
    ----------
    law
        Name in any case, or the law itself.

    Returns
    -------
    SpinDecayLaw

    Raises
    ------
    InputError
        For a name that is not known.
    """
    try:
        return SpinDecayLaw[law.upper()] if isinstance(law, str) else SpinDecayLaw(law)
    except (KeyError, ValueError):
        known = ", ".join(one.name.lower() for one in SpinDecayLaw)
        raise InputError(
            f'"{law}" is no law of spin decay.', field="spin_decay", value=str(law), hint=f"Known are {known}."
        ) from None
