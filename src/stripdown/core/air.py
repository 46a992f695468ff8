"""Moist air of the day: density, gas constant, ratio of heat capacities, speed of sound.

Viscosity and conductivity, which kernels need, are laws in `stripdown.core.mechanics.gas_properties`.
"""

from __future__ import annotations

import math
from typing import Final

from stripdown.core.constants import AIR_MOLAR_MASS, VAPOUR_HEAT_CAPACITY, WATER_MOLAR_MASS, ZERO_CELSIUS
from stripdown.errors import OutOfRange, OutsideValidity
from stripdown.quantities import Q, check_value

_TEMPERATURE = Q("K", low=1, high=1e5, label="air temperature", shown="degC")
_PRESSURE = Q("Pa", low=1e-3, high=1e9, label="air pressure", shown="hPa")
_HUMIDITY = Q("1", low=0, high=1, label="relative humidity", shown="%")

_COLDEST: Final = ZERO_CELSIUS - 40.0
_WARMEST: Final = ZERO_CELSIUS + 50.0
_PERCENT: Final = 100.0
_HIGHEST_PRESSURE: Final = 1e6  # Pa; Z of the formula is within 4e-4 of lemmon_2000 up to here

# CIPM-2007; picard_2008, appendix A. The gas constant is the one of that paper, so that its own values come out.
_GAS_CONSTANT: Final = 8.314472  # J/(mol K)
_SATURATION: Final = (1.2378847e-5, -1.9121316e-2, 33.93711047, -6.3431645e3)  # K-2, K-1, 1, K
_ENHANCEMENT: Final = (1.00062, 3.14e-8, 5.6e-7)  # 1, Pa-1, K-2
_Z_DRY: Final = (1.58123e-6, -2.9331e-8, 1.1043e-10)  # K/Pa, 1/Pa, 1/(K Pa)
_Z_CROSS: Final = (5.707e-6, -2.051e-8)  # K/Pa, 1/Pa
_Z_VAPOUR: Final = (1.9898e-4, -2.376e-6)  # K/Pa, 1/Pa
_Z_SQUARE: Final = (1.83e-11, -0.765e-8)  # K2/Pa2


def air_density(*, temperature: float, pressure: float, relative_humidity: float) -> float:
    """Density of moist air by the CIPM-2007 equation, with 400 µmol/mol of carbon dioxide.

    Parameters
    ----------
    temperature
        Air temperature in K.
    pressure
        Air pressure in Pa, absolute, as the barometer at the place shows it (not reduced to sea level).
    relative_humidity
        Relative humidity as a fraction, 0 to 1.

    Returns
    -------
    float
        Density in kg/m3.

    Raises
    ------
    OutOfRange
        For impossible air, also when the vapour would press more than the whole air.
    OutsideValidity
        Outside -40 to 50 °C, or above 10 bar.

    Notes
    -----
    Its authors vouch for 15 to 27 °C and 600 to 1100 hPa, to 2.2e-5. Beyond, to the limits above, it agrees with the reference
    equation of state of dry air within 5e-4. Humidity below 0 °C is relative to supercooled water, as hygrometers show it.

    References
    ----------
    picard_2008, equation 1 and appendix A.
    """
    vapour = vapour_mole_fraction(temperature=temperature, pressure=pressure, relative_humidity=relative_humidity)
    compressibility = _compressibility(temperature, pressure, vapour)
    molar_mass = AIR_MOLAR_MASS * (1.0 - vapour) + WATER_MOLAR_MASS * vapour
    return pressure * molar_mass / (compressibility * _GAS_CONSTANT * temperature)


def vapour_mole_fraction(*, temperature: float, pressure: float, relative_humidity: float) -> float:
    """Mole fraction of water vapour in moist air.

    Parameters
    ----------
    temperature
        Air temperature in K.
    pressure
        Air pressure in Pa, absolute.
    relative_humidity
        Relative humidity as a fraction, 0 to 1.

    Returns
    -------
    float
        Mole fraction, 0 to 1.

    Raises
    ------
    OutOfRange
        For impossible air.
    OutsideValidity
        Outside -40 to 50 °C, or above 10 bar.

    References
    ----------
    picard_2008, appendix A.1.
    """
    _check_air(temperature, pressure, relative_humidity)
    celsius = temperature - ZERO_CELSIUS
    a, b, c, d = _SATURATION
    saturation = math.exp(a * temperature**2 + b * temperature + c + d / temperature)
    enhancement = _ENHANCEMENT[0] + _ENHANCEMENT[1] * pressure + _ENHANCEMENT[2] * celsius**2
    fraction = relative_humidity * enhancement * saturation / pressure
    if fraction <= 1.0:
        return fraction
    raise OutOfRange(
        f"pressure = {pressure:g} Pa is below that of the vapour alone at {celsius:.1f} °C and {relative_humidity:.0%} humidity.",
        field="pressure",
        value=pressure,
        unit="Pa",
        limits=(pressure * fraction, None),
        hint="Correct pressure, temperature or humidity: usual air pressure is 850 to 1040 hPa.",
    )


def air_gas_constant(*, temperature: float, pressure: float, relative_humidity: float) -> float:
    """Specific gas constant that gives moist air its true density as an ideal gas, ``p / (rho T)``.

    Parameters
    ----------
    temperature
        Air temperature in K.
    pressure
        Air pressure in Pa, absolute.
    relative_humidity
        Relative humidity as a fraction, 0 to 1.

    Returns
    -------
    float
        Gas constant in J/(kg K).

    Raises
    ------
    OutOfRange
        For impossible air.
    OutsideValidity
        Outside -40 to 50 °C, or above 10 bar.

    References
    ----------
    picard_2008, equation 1.
    """
    return pressure / (temperature * air_density(temperature=temperature, pressure=pressure, relative_humidity=relative_humidity))


def air_heat_capacity_ratio(*, temperature: float, pressure: float, relative_humidity: float) -> float:
    """Ratio of heat capacities of moist air, as a mixture of two ideal gases.

    Parameters
    ----------
    temperature
        Air temperature in K.
    pressure
        Air pressure in Pa, absolute.
    relative_humidity
        Relative humidity as a fraction, 0 to 1.

    Returns
    -------
    float
        Ratio, 1.4 for dry air.

    Raises
    ------
    OutOfRange
        For impossible air.
    OutsideValidity
        Outside -40 to 50 °C, or above 10 bar.

    Notes
    -----
    Molar heat capacity over R: 3.5 for dry air, 4.04 for vapour. Saturated air of 30 °C comes to 1.397.
    """
    vapour = vapour_mole_fraction(temperature=temperature, pressure=pressure, relative_humidity=relative_humidity)
    heat_capacity = 3.5 * (1.0 - vapour) + VAPOUR_HEAT_CAPACITY * vapour
    return heat_capacity / (heat_capacity - 1.0)


def speed_of_sound(*, temperature: float, pressure: float, relative_humidity: float) -> float:
    """Speed of sound in moist air.

    Parameters
    ----------
    temperature
        Air temperature in K.
    pressure
        Air pressure in Pa, absolute.
    relative_humidity
        Relative humidity as a fraction, 0 to 1.

    Returns
    -------
    float
        Speed in m/s.

    Raises
    ------
    OutOfRange
        For impossible air.
    OutsideValidity
        Outside -40 to 50 °C, or above 10 bar.

    Notes
    -----
    ``c = sqrt(gamma p / rho)``: within 1e-3 of the reference equation of state at atmospheric pressure.

    References
    ----------
    us_standard_atmosphere_1976, section 1.3.10, with the density of moist air.
    """
    ratio = air_heat_capacity_ratio(temperature=temperature, pressure=pressure, relative_humidity=relative_humidity)
    density = air_density(temperature=temperature, pressure=pressure, relative_humidity=relative_humidity)
    return math.sqrt(ratio * pressure / density)


def _compressibility(temperature: float, pressure: float, vapour: float) -> float:
    celsius = temperature - ZERO_CELSIUS
    first = _Z_DRY[0] + _Z_DRY[1] * celsius + _Z_DRY[2] * celsius**2
    first += (_Z_CROSS[0] + _Z_CROSS[1] * celsius) * vapour
    first += (_Z_VAPOUR[0] + _Z_VAPOUR[1] * celsius) * vapour**2
    reduced = pressure / temperature
    return 1.0 - reduced * first + reduced**2 * (_Z_SQUARE[0] + _Z_SQUARE[1] * vapour**2)


def _check_air(temperature: float, pressure: float, relative_humidity: float) -> None:
    check_value("temperature", temperature, _TEMPERATURE)
    check_value("pressure", pressure, _PRESSURE)
    if 1.0 < relative_humidity <= _PERCENT:
        raise OutOfRange(
            f"relative_humidity = {relative_humidity:g} is above 1.",
            field="relative_humidity",
            value=relative_humidity,
            unit="1",
            limits=(0.0, 1.0),
            hint=f"It is a fraction: {relative_humidity:g} % is {relative_humidity / _PERCENT:g}.",
        )
    check_value("relative_humidity", relative_humidity, _HUMIDITY)
    for quantity, value, low, high in (
        ("temperature", temperature, _COLDEST, _WARMEST),
        ("pressure", pressure, 0.0, _HIGHEST_PRESSURE),
    ):
        if not low <= value <= high:
            unit = "K" if quantity == "temperature" else "Pa"
            raise OutsideValidity(
                f"The density of moist air is known from {low:g} to {high:g} {unit} of {quantity}; asked was {value:g} {unit}.",
                model="CIPM-2007",
                quantity=quantity,
                value=value,
                limits=(low, high),
                reference="picard_2008",
            )
