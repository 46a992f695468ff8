"""The air of the day as a flight needs it, from what a field or a weather report tells."""

from __future__ import annotations

import math
from typing import Final

from stripdown.core.air import air_density, speed_of_sound
from stripdown.core.constants import AIR_HEAT_CAPACITY_RATIO, STANDARD_ATMOSPHERE, STANDARD_GRAVITY
from stripdown.core.exterior_ballistics.parameters import FlightAir
from stripdown.core.mechanics.gas_properties import sutherland_viscosity
from stripdown.errors import InputError
from stripdown.quantities import Q, check_value, leaves

_ALTITUDE = Q("m", low=-500, high=9000, label="height above the sea")
_GIVEN = {leaf.path: leaf.quantity for leaf in leaves(FlightAir) if leaf.quantity is not None}

STANDARD_TEMPERATURE: Final = 288.15  # K; us_standard_atmosphere_1976, sea level
_LAPSE: Final = 6.5e-3  # K/m, the same place, up to 11 km
_EARTH: Final = 6_356_766.0  # m, the radius for heights in the same place
_MOLAR_MASS: Final = 0.0289644  # kg/mol, the same place
_GAS_CONSTANT: Final = 8.31432  # J/(mol K), the one of that standard


def air_state(
    *,
    temperature: float = STANDARD_TEMPERATURE,
    pressure: float = STANDARD_ATMOSPHERE,
    relative_humidity: float = 0.0,
    altitude: float | None = None,
    density: float | None = None,
    viscosity: float | None = None,
) -> FlightAir:
    """Density, viscosity and speed of sound of the air that a ball flies through.

    Parameters
    ----------
    temperature
        In K.
    pressure
        In Pa, as the barometer at the place shows it, not reduced to sea level.
    relative_humidity
        As a fraction, 0 to 1.
    altitude
        Height above the sea in m, in place of a pressure: the standard atmosphere's pressure there, and its temperature if
        none is given.
    density
        In kg/m3; given, it wins.
    viscosity
        In Pa s; given, it wins.

    Returns
    -------
    FlightAir

    Raises
    ------
    InputError
        For a height and a pressure together.
    OutOfRange
        For impossible air.
    OutsideValidity
        Outside -40 to 50 °C.

    Notes
    -----
    Real moist air by CIPM-2007; a height alone gives the standard's own air, an ideal gas, 0.04 % lighter. From 0 °C dry to
    35 °C humid the density, and with it the drag, falls by 14 %.

    References
    ----------
    us_standard_atmosphere_1976; picard_2008.
    """
    is_standard = False
    if altitude is not None:
        if pressure != STANDARD_ATMOSPHERE:
            raise InputError(
                "There is a height and a pressure.",
                field="altitude",
                value=altitude,
                hint="Keep the pressure, if a barometer showed it.",
            )
        check_value("altitude", altitude, _ALTITUDE)
        there, pressure = standard_atmosphere(altitude)
        is_standard = temperature == STANDARD_TEMPERATURE and relative_humidity == 0.0
        temperature = there if temperature == STANDARD_TEMPERATURE else temperature
    day = {"temperature": temperature, "pressure": pressure, "relative_humidity": relative_humidity}
    found, sound = air_density(**day), speed_of_sound(**day)
    if is_standard:
        specific = _GAS_CONSTANT / _MOLAR_MASS
        found, sound = pressure / (specific * temperature), math.sqrt(AIR_HEAT_CAPACITY_RATIO * specific * temperature)
    if density is not None:
        check_value("density", density, _GIVEN["density"])
    if viscosity is not None:
        check_value("viscosity", viscosity, _GIVEN["viscosity"])
    return FlightAir(
        density=found if density is None else density,
        viscosity=float(sutherland_viscosity(temperature)) if viscosity is None else viscosity,
        speed_of_sound=sound,
    )


def standard_atmosphere(altitude: float) -> tuple[float, float]:
    """Temperature and pressure of the standard atmosphere below 11 km.

    Parameters
    ----------
    altitude
        Height above the sea in m.

    Returns
    -------
    float
        Temperature in K.
    float
        Pressure in Pa.

    References
    ----------
    us_standard_atmosphere_1976, equations 18, 23 and 33a.
    """
    height = _EARTH * altitude / (_EARTH + altitude)
    temperature = STANDARD_TEMPERATURE - _LAPSE * height
    power = STANDARD_GRAVITY * _MOLAR_MASS / (_GAS_CONSTANT * _LAPSE)
    return temperature, STANDARD_ATMOSPHERE * math.exp(power * math.log(temperature / STANDARD_TEMPERATURE))
