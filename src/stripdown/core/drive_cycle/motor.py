"""A brushed motor at a steady load, and how warm it gets: closed forms."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.errors import InputError, OutOfRange
from stripdown.quantities import Q, check_value

COPPER: Final = 0.00393  # 1/K, growth of resistance from 20 °C; standard annealed copper
_VOLTAGE = Q("V", low=0, high=1e4, label="voltage")
_RESISTANCE = Q("ohm", low=1e-9, high=1e9, label="resistance")
_CONSTANT = Q("V s", low=1e-9, high=1e6, label="back-EMF constant")
_CURRENT = Q("A", low=0, high=1e6, label="current without load")
_TORQUE = Q("N m", low=0, high=1e9, label="torque")
_POWER = Q("W", low=0, high=1e9, label="heat")
_TIME = Q("s", low=0, high=1e9, label="time")
_PATH = Q("K/W", low=0, high=1e6, label="thermal resistance")
_STORE = Q("J/K", low=1e-9, high=1e9, label="heat capacity")


@dataclass(frozen=True, slots=True, kw_only=True)
class OperatingPoint:
    """A motor at a steady load."""

    current: Annotated[float, Q("A", label="current")]
    speed: Annotated[float, Q("rad/s", label="speed")]
    torque: Annotated[float, Q("N m", label="torque at the shaft")]
    efficiency: Annotated[float, Q("1", label="efficiency", shown="%")]
    heat: Annotated[float, Q("W", label="heat")]
    stalled: bool


def motor_operating_point(
    *, voltage: float, resistance: float, back_emf_constant: float, no_load_current: float, load_torque: float
) -> OperatingPoint:
    """Current, speed, efficiency and heat of a brushed motor under a steady torque.

    Parameters
    ----------
    voltage
        At the terminals, in V.
    resistance
        Of the winding through the brushes, in ohm.
    back_emf_constant
        In V s, the same number in N m/A.
    no_load_current
        In A; its torque is friction.
    load_torque
        At the shaft, in N m.

    Returns
    -------
    OperatingPoint
        Stalled, with no speed, if the load is more than the motor bears.

    Raises
    ------
    OutOfRange
        For an impossible value, or a current without load that the voltage cannot drive.

    Notes
    -----
    ``V = IR + kω``, ``T = k(I − I0)``: steady, no inductance, friction that does not grow with the speed.

    References
    ----------
    fitzgerald, chapter 7.
    """
    for name, value, quantity in (
        ("voltage", voltage, _VOLTAGE),
        ("resistance", resistance, _RESISTANCE),
        ("back_emf_constant", back_emf_constant, _CONSTANT),
        ("no_load_current", no_load_current, _CURRENT),
        ("load_torque", load_torque, _TORQUE),
    ):
        check_value(name, value, quantity)
    stall = voltage / resistance
    if no_load_current >= stall > 0.0:
        raise OutOfRange(
            f"no_load_current = {no_load_current:g} A is not below {stall:g} A, which is all that {voltage:g} V drive through "
            f"{resistance:g} ohm.",
            field="no_load_current",
            value=no_load_current,
            unit="A",
            limits=(0.0, stall),
            hint="One of voltage, resistance and current without load is wrong.",
        )
    current = no_load_current + load_torque / back_emf_constant
    if current >= stall:
        torque = max(0.0, back_emf_constant * (stall - no_load_current))
        return OperatingPoint(current=stall, speed=0.0, torque=torque, efficiency=0.0, heat=voltage * stall, stalled=True)
    speed = (voltage - current * resistance) / back_emf_constant
    given = voltage * current
    useful = load_torque * speed
    return OperatingPoint(
        current=current,
        speed=speed,
        torque=load_torque,
        efficiency=useful / given if given > 0.0 else 0.0,
        heat=given - useful,
        stalled=False,
    )


def winding_temperature(
    pattern: Sequence[tuple[float, float]],
    *,
    winding_heat_capacity: float,
    housing_heat_capacity: float,
    winding_to_housing: float,
    housing_to_air: float,
    air_temperature: float = 293.15,
    winding_start: float | None = None,
    housing_start: float | None = None,
) -> tuple[float, float]:
    """Temperatures of winding and housing after a pattern of heating and rest.

    Parameters
    ----------
    pattern
        Heat in W and for how long in s, one pair after the other; shape (n, 2).
    winding_heat_capacity
        In J/K.
    housing_heat_capacity
        In J/K.
    winding_to_housing
        Thermal resistance in K/W.
    housing_to_air
        Thermal resistance in K/W.
    air_temperature
        In K.
    winding_start
        In K; None for the air's.
    housing_start
        In K; None for the air's.

    Returns
    -------
    float
        Temperature of the winding at the end in K.
    float
        Temperature of the housing at the end in K.

    Raises
    ------
    OutOfRange
        For an impossible value.
    InputError
        For a pattern that is no pairs.

    Notes
    -----
    Two stores of heat and two ways: exact for steps of constant heat. The growth of resistance with temperature is the caller's.
    """
    for name, value, quantity in (
        ("winding_heat_capacity", winding_heat_capacity, _STORE),
        ("housing_heat_capacity", housing_heat_capacity, _STORE),
        ("winding_to_housing", winding_to_housing, _PATH),
        ("housing_to_air", housing_to_air, _PATH),
    ):
        check_value(name, value, quantity)
    winding = (air_temperature if winding_start is None else winding_start) - air_temperature
    housing = (air_temperature if housing_start is None else housing_start) - air_temperature
    # u' = (P - (u - v)/R1)/C1, v' = ((u - v)/R1 - v/R2)/C2: two rates and two shapes.
    a, b = 1.0 / (winding_heat_capacity * winding_to_housing), 1.0 / (housing_heat_capacity * winding_to_housing)
    c = b + 1.0 / (housing_heat_capacity * housing_to_air)
    middle, apart = 0.5 * (a + c), math.sqrt(0.25 * (a - c) ** 2 + a * b)
    rates = (middle - apart, middle + apart)
    for one in pattern:
        try:
            power, duration = one
        except (TypeError, ValueError):
            raise InputError(
                f"{one!r} is no pair of heat and time.", field="pattern", hint="Write (heat in W, time in s)."
            ) from None
        check_value("heat", power, _POWER)
        check_value("duration", duration, _TIME)
        settled = (power * (winding_to_housing + housing_to_air), power * housing_to_air)
        off = (winding - settled[0], housing - settled[1])
        # Shapes: for a rate s the housing lies at (1 - s/a) of the winding.
        shape = tuple(1.0 - rate / a for rate in rates)
        second = (off[1] - shape[0] * off[0]) / (shape[1] - shape[0])
        first = off[0] - second
        fast, slow = first * math.exp(-rates[0] * duration), second * math.exp(-rates[1] * duration)
        winding = settled[0] + fast + slow
        housing = settled[1] + shape[0] * fast + shape[1] * slow
    return air_temperature + winding, air_temperature + housing
