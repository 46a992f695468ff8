"""How strongly moving air heats or cools the wall of a cylinder or barrel: one published correlation per function.

Each returns a heat-transfer coefficient in W/(m2 K): heat flow is that times wetted area times gas temperature less wall
temperature. They were found for compressors, engines and steady pipe flow and disagree by a factor of up to fourteen for
the same gas, so a model must treat the coefficient as an estimate with a multiplier of its own.

A speed of zero gives no heat; a caller that wants some puts a floor under the speed. Kernels call these some ten thousand
times a shot: powers of several numbers are taken through one exponential.
"""

from __future__ import annotations

import math

from stripdown.core.constants import AIR_PRANDTL_NUMBER
from stripdown.core.mechanics.gas_properties import sutherland_viscosity, thermal_conductivity
from stripdown.core.numerics.compiled import compiled

# Constant powers of the Prandtl number, of units (1 bar = 1e5 Pa) and of the speed factor 2.28.
_ADAIR = 0.053 * AIR_PRANDTL_NUMBER**0.6
_PIPE = 0.023 * AIR_PRANDTL_NUMBER**0.3
_LOG_WOSCHNI = math.log(129.8) + 0.8 * math.log(2.28e-5)
_LOG_HOHENBERG = math.log(129.8) - 0.8 * math.log(1e5)
HOHENBERG_SPEED = 1.4  # m/s


@compiled
def heat_transfer_coefficient_adair(speed: float, length: float, density: float, temperature: float) -> float:
    """Heat-transfer coefficient in a compressor cylinder after Adair, Qvale and Pearson.

    Parameters
    ----------
    speed
        Speed of the gas, here of the piston, in m/s, not negative.
    length
        Hydraulic diameter, here the bore, in m.
    density
        Gas density in kg/m3.
    temperature
        Bulk gas temperature in K.

    Returns
    -------
    float
        Coefficient in W/(m2 K).

    Notes
    -----
    ``h = 0.053 (k/D) Re^0.8 Pr^0.6`` with Pr = 0.703. Found for reciprocating compressors; the lowest of the laws here.

    References
    ----------
    bell_2020_pdsim, table 2, row Adair et al. (1972).
    """
    reynolds = density * speed * length / sutherland_viscosity(temperature)
    return float(_ADAIR * thermal_conductivity(temperature) / length * reynolds**0.8)


@compiled
def heat_transfer_coefficient_woschni(speed: float, bore: float, pressure: float, temperature: float) -> float:
    """Heat-transfer coefficient in an engine cylinder during compression after Woschni.

    Parameters
    ----------
    speed
        Piston speed in m/s, not negative.
    bore
        Cylinder bore in m.
    pressure
        Gas pressure in Pa.
    temperature
        Bulk gas temperature in K.

    Returns
    -------
    float
        Coefficient in W/(m2 K).

    Notes
    -----
    ``h = 129.8 B^-0.2 p^0.8 T^-0.53 (2.28 v)^0.8`` with p in bar. Found for engines of some ten to a hundred times this volume.

    References
    ----------
    woschni_1967, compression stroke without combustion.
    """
    if speed <= 0.0:
        return 0.0
    return math.exp(_LOG_WOSCHNI + 0.8 * math.log(pressure * speed) - 0.2 * math.log(bore) - 0.53 * math.log(temperature))


@compiled
def heat_transfer_coefficient_hohenberg(speed: float, volume: float, pressure: float, temperature: float) -> float:
    """Heat-transfer coefficient in an engine cylinder after Hohenberg.

    Parameters
    ----------
    speed
        Piston speed in m/s, not negative.
    volume
        Gas volume in m3.
    pressure
        Gas pressure in Pa.
    temperature
        Bulk gas temperature in K.

    Returns
    -------
    float
        Coefficient in W/(m2 K), above zero even for a piston at rest.

    Notes
    -----
    ``h = 129.8 V^-0.06 p^0.8 T^-0.4 (v + 1.4)^0.8`` with p in bar.

    References
    ----------
    hohenberg_1979, final equation.
    """
    flow = pressure * (speed + HOHENBERG_SPEED)
    return math.exp(_LOG_HOHENBERG + 0.8 * math.log(flow) - 0.06 * math.log(volume) - 0.4 * math.log(temperature))


@compiled
def heat_transfer_coefficient_annand(speed: float, bore: float, density: float, temperature: float, factor: float) -> float:
    """Heat-transfer coefficient in an engine cylinder after Annand, without radiation.

    Parameters
    ----------
    speed
        Piston speed in m/s, not negative.
    bore
        Cylinder bore in m.
    density
        Gas density in kg/m3.
    temperature
        Bulk gas temperature in K.
    factor
        The law's own factor, 0.35 to 0.8 by the liveliness of the charge.

    Returns
    -------
    float
        Coefficient in W/(m2 K).

    Notes
    -----
    ``h = a (k/B) Re^0.7``. The range of the factor is that of fired engines: high for an air cylinder.

    References
    ----------
    annand_1963, convective term.
    """
    reynolds = density * speed * bore / sutherland_viscosity(temperature)
    return float(factor * thermal_conductivity(temperature) / bore * reynolds**0.7)


@compiled
def heat_transfer_coefficient_dittus_boelter(speed: float, bore: float, density: float, temperature: float) -> float:
    """Heat-transfer coefficient of air that cools in a pipe after Dittus and Boelter, for the barrel.

    Parameters
    ----------
    speed
        Mean speed of the gas in the pipe in m/s, not negative.
    bore
        Bore of the pipe in m.
    density
        Gas density in kg/m3.
    temperature
        Bulk gas temperature in K.

    Returns
    -------
    float
        Coefficient in W/(m2 K).

    Notes
    -----
    ``h = 0.023 (k/D) Re^0.8 Pr^0.3`` with Pr = 0.703. Holds for fully developed steady flow at Re above 10 000 and more than ten
    bores from the inlet; the flow behind a ball is neither steady nor developed, and the true value is probably higher.

    References
    ----------
    dittus_boelter_1930, as commonly quoted for cooling.
    """
    reynolds = density * speed * bore / sutherland_viscosity(temperature)
    return float(_PIPE * thermal_conductivity(temperature) / bore * reynolds**0.8)
