"""Mass flow through a hole from the pressures on its two sides, asked once and checked.

The laws themselves, as kernels use them, are in `stripdown.core.mechanics.orifice_flow`. Here they hold down to equal
pressures, without the laminar start that keeps an integration from stalling.
"""

from __future__ import annotations

import math

from stripdown.core.constants import AIR_GAS_CONSTANT, AIR_HEAT_CAPACITY_RATIO, ISO_6358_DENSITY, ISO_6358_TEMPERATURE
from stripdown.core.mechanics.orifice_flow import isentropic_mass_flow, iso6358_mass_flow
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

_PRESSURE = Q("Pa", low=0, high=1e9, label="absolute pressure", shown="bar")
_TEMPERATURE = Q("K", low=1, high=1e4, label="temperature", shown="degC")
_AREA = Q("m2", low=0, high=1e3, label="flow area", shown="mm2")
_DISCHARGE = Q("1", low=0, high=1, label="discharge coefficient")
_CONDUCTANCE = Q("m3/(s Pa)", low=0, high=1, label="sonic conductance")
_CRITICAL_RATIO = Q("1", low=0, high=0.999, label="critical pressure ratio")
_PRESSURE_RATIO = Q("1", low=0, high=1, label="downstream over upstream pressure")

# Sharp-edged orifice, powers 0 to 5 of the pressure ratio; perry_orifice, after Perry. The page had lost the signs; these
# are the only ones that give 0.84 for a jet into vacuum and 0.60 for equal pressures.
_PERRY = (0.8414, -0.1002, 0.8415, -3.9, 4.6001, -1.6827)


def mass_flow_rate(
    *,
    upstream_pressure: float,
    upstream_temperature: float,
    downstream_pressure: float,
    flow_area: float,
    discharge_coefficient: float = 1.0,
) -> float:
    """Mass flow of air through a hole by the exact law of the ideal nozzle, choked or not.

    Parameters
    ----------
    upstream_pressure
        Absolute pressure on the side the air comes from, in Pa.
    upstream_temperature
        Temperature there in K.
    downstream_pressure
        Absolute pressure on the other side in Pa, not above the upstream one.
    flow_area
        Narrowest area in m2.
    discharge_coefficient
        Flow divided by the ideal flow; 1 for the ideal nozzle.

    Returns
    -------
    float
        Mass flow in kg/s, from upstream to downstream.

    Raises
    ------
    OutOfRange
        For an impossible value, or a downstream pressure above the upstream one.

    Notes
    -----
    Ideal gas, ratio of heat capacities 1.4, gas constant 287.05 J/(kg K), air at rest upstream. Against the reference equation of
    state the choked flow is within 0.5 % up to 10 bar and 550 K.

    References
    ----------
    fox_mcdonald, example 12.2.
    """
    _check_sides(upstream_pressure, upstream_temperature, downstream_pressure)
    check_value("flow_area", flow_area, _AREA)
    check_value("discharge_coefficient", discharge_coefficient, _DISCHARGE)
    if downstream_pressure == upstream_pressure:
        return 0.0
    return float(
        isentropic_mass_flow(
            upstream_pressure,
            upstream_temperature,
            downstream_pressure,
            discharge_coefficient * flow_area,
            AIR_GAS_CONSTANT,
            AIR_HEAT_CAPACITY_RATIO,
        )
    )


def mass_flow_rate_iso6358(
    *,
    upstream_pressure: float,
    upstream_temperature: float,
    downstream_pressure: float,
    sonic_conductance: float,
    critical_ratio: float,
) -> float:
    """Mass flow of air through a pneumatic part by the two numbers of ISO 6358.

    Parameters
    ----------
    upstream_pressure
        Absolute pressure on the side the air comes from, in Pa.
    upstream_temperature
        Temperature there in K.
    downstream_pressure
        Absolute pressure on the other side in Pa, not above the upstream one.
    sonic_conductance
        Sonic conductance in m3/(s Pa): volume flow of reference air over upstream pressure, choked. 1 dm3/(s bar) is 1e-8.
    critical_ratio
        Pressure ratio at and below which the part is choked.

    Returns
    -------
    float
        Mass flow in kg/s, from upstream to downstream.

    Raises
    ------
    OutOfRange
        For an impossible value, or a downstream pressure above the upstream one.

    Notes
    -----
    Reference air: 293.15 K, 1 bar, 1.185 kg/m3. An ideal hole of 1 mm2 has a sonic conductance of 0.199e-8 m3/(s Pa).

    References
    ----------
    iso_6358_1, mass flow equation.
    """
    _check_sides(upstream_pressure, upstream_temperature, downstream_pressure)
    check_value("sonic_conductance", sonic_conductance, _CONDUCTANCE)
    check_value("critical_ratio", critical_ratio, _CRITICAL_RATIO)
    if downstream_pressure == upstream_pressure:
        return 0.0
    choked = sonic_conductance * ISO_6358_DENSITY * math.sqrt(ISO_6358_TEMPERATURE)
    return float(iso6358_mass_flow(upstream_pressure, upstream_temperature, downstream_pressure, choked, critical_ratio))


def sonic_conductance_of(*, effective_area: float) -> float:
    """Sonic conductance of a hole, by equal choked flow at reference temperature.

    Parameters
    ----------
    effective_area
        Discharge coefficient times area in m2.

    Returns
    -------
    float
        Sonic conductance in m3/(s Pa).

    Raises
    ------
    OutOfRange
        For an impossible area.

    References
    ----------
    iso_6358_1, definition of the sonic conductance.
    """
    check_value("effective_area", effective_area, _AREA)
    return (
        mass_flow_rate(
            upstream_pressure=1.0, upstream_temperature=ISO_6358_TEMPERATURE, downstream_pressure=0.0, flow_area=effective_area
        )
        / ISO_6358_DENSITY
    )


def discharge_coefficient_perry(pressure_ratio: float) -> float:
    """Discharge coefficient of a sharp-edged round hole for gas.

    Parameters
    ----------
    pressure_ratio
        Downstream over upstream absolute pressure, 0 to 1.

    Returns
    -------
    float
        Discharge coefficient, 0.60 near equal pressures to 0.84 into vacuum.

    Raises
    ------
    OutOfRange
        For a ratio outside 0 to 1.

    Notes
    -----
    A polynomial of degree five. Short tubes, as a drilled nozzle is, pass more: 0.81 to 0.84, with a rounded edge 0.92 to 0.93.

    References
    ----------
    perry_orifice, discharge coefficient; britannica_hydraulics, Weisbach's coefficients for air.
    """
    check_value("pressure_ratio", pressure_ratio, _PRESSURE_RATIO)
    value = 0.0
    for coefficient in reversed(_PERRY):
        value = value * pressure_ratio + coefficient
    return value


def _check_sides(upstream_pressure: float, upstream_temperature: float, downstream_pressure: float) -> None:
    check_value("upstream_pressure", upstream_pressure, _PRESSURE)
    check_value("upstream_temperature", upstream_temperature, _TEMPERATURE)
    check_value("downstream_pressure", downstream_pressure, _PRESSURE)
    if downstream_pressure <= upstream_pressure:
        return
    raise OutOfRange(
        f"downstream_pressure = {downstream_pressure:g} Pa is above upstream_pressure = {upstream_pressure:g} Pa.",
        field="downstream_pressure",
        value=downstream_pressure,
        unit="Pa",
        limits=(0.0, upstream_pressure),
        hint="Air flows from the higher pressure to the lower: give the higher one as upstream, with its temperature.",
    )
