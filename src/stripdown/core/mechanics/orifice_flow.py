"""Mass flow of gas through a passage: the exact isentropic law, the form of ISO 6358, and a smooth start from rest.

Every law is a *shape* between 0 and 1 that depends on the pressure ratio only, times the choked flow, which depends on the
upstream state only. Near equal pressures the laws' slope is infinite; there an odd cubic takes over that joins in value and
slope, as a real passage turns laminar.
"""

from __future__ import annotations

import math

from stripdown.core.numerics.compiled import compiled


@compiled
def choked_conductance(effective_area: float, gas_constant: float, heat_capacity_ratio: float) -> float:
    """Choked mass flow per upstream pressure, times the root of the upstream temperature.

    Parameters
    ----------
    effective_area
        Discharge coefficient times area, in m2.
    gas_constant
        Specific gas constant in J/(kg K).
    heat_capacity_ratio
        Ratio of heat capacities.

    Returns
    -------
    float
        In kg K^0.5/(s Pa): flow is this times upstream pressure over root of upstream temperature.

    References
    ----------
    fox_mcdonald, example 12.2.
    """
    exponent = 0.5 * (heat_capacity_ratio + 1.0) / (heat_capacity_ratio - 1.0)
    return float(effective_area * math.sqrt(heat_capacity_ratio / gas_constant) * (2.0 / (heat_capacity_ratio + 1.0)) ** exponent)


@compiled
def critical_pressure_ratio(heat_capacity_ratio: float) -> float:
    """Pressure ratio at and below which an ideal nozzle is choked; 0.5283 for air.

    Parameters
    ----------
    heat_capacity_ratio
        Ratio of heat capacities.

    Returns
    -------
    float
        Downstream over upstream pressure.
    """
    return float((2.0 / (heat_capacity_ratio + 1.0)) ** (heat_capacity_ratio / (heat_capacity_ratio - 1.0)))


@compiled
def flow_shape_iso6358(pressure_ratio: float, critical_ratio: float) -> float:
    """Flow as a part of the choked flow, after ISO 6358: a quarter ellipse.

    Parameters
    ----------
    pressure_ratio
        Downstream over upstream pressure, 0 to 1.
    critical_ratio
        Ratio at which the passage chokes.

    Returns
    -------
    float
        0 at equal pressures, 1 when choked.

    References
    ----------
    iso_6358_1, subsonic and choked flow.
    """
    if pressure_ratio <= critical_ratio:
        return 1.0
    part = (pressure_ratio - critical_ratio) / (1.0 - critical_ratio)
    return math.sqrt(max(1.0 - part * part, 0.0))


@compiled
def flow_shape_isentropic(pressure_ratio: float, heat_capacity_ratio: float) -> float:
    """Flow as a part of the choked flow through an ideal nozzle.

    Parameters
    ----------
    pressure_ratio
        Downstream over upstream pressure, 0 to 1.
    heat_capacity_ratio
        Ratio of heat capacities.

    Returns
    -------
    float
        0 at equal pressures, 1 when choked.
    """
    if pressure_ratio <= critical_pressure_ratio(heat_capacity_ratio):
        return 1.0
    inverse = 1.0 / heat_capacity_ratio
    bracket = pressure_ratio ** (2.0 * inverse) - pressure_ratio ** (1.0 + inverse)
    ideal = math.sqrt(max(2.0 * inverse / (1.0 - inverse) * bracket, 0.0))
    # The same bracket at the critical ratio, so that the shape reaches exactly one there.
    choked = (2.0 / (heat_capacity_ratio + 1.0)) ** (0.5 * (heat_capacity_ratio + 1.0) / (heat_capacity_ratio - 1.0))
    return float(ideal / choked)


@compiled
def flow_slope_iso6358(pressure_ratio: float, critical_ratio: float) -> float:
    """Slope of `flow_shape_iso6358` by the pressure ratio.

    Parameters
    ----------
    pressure_ratio
        Downstream over upstream pressure, 0 to below 1: at equal pressures the slope has no limit.
    critical_ratio
        Ratio at which the passage chokes.

    Returns
    -------
    float
        A ratio, zero when choked, else negative.
    """
    if pressure_ratio <= critical_ratio:
        return 0.0
    part = (pressure_ratio - critical_ratio) / (1.0 - critical_ratio)
    return -part / (math.sqrt(1.0 - part * part) * (1.0 - critical_ratio))


@compiled
def flow_slope_isentropic(pressure_ratio: float, heat_capacity_ratio: float) -> float:
    """Slope of `flow_shape_isentropic` by the pressure ratio.

    Parameters
    ----------
    pressure_ratio
        Downstream over upstream pressure, 0 to below 1: at equal pressures the slope has no limit.
    heat_capacity_ratio
        Ratio of heat capacities.

    Returns
    -------
    float
        A ratio, zero when choked, else negative.
    """
    if pressure_ratio <= critical_pressure_ratio(heat_capacity_ratio):
        return 0.0
    inverse = 1.0 / heat_capacity_ratio
    first = pressure_ratio ** (2.0 * inverse)
    second = pressure_ratio ** (1.0 + inverse)
    relative = (2.0 * inverse * first - (1.0 + inverse) * second) / (pressure_ratio * (first - second))
    return float(0.5 * relative * flow_shape_isentropic(pressure_ratio, heat_capacity_ratio))


@compiled
def isentropic_mass_flow(
    upstream_pressure: float,
    upstream_temperature: float,
    downstream_pressure: float,
    effective_area: float,
    gas_constant: float,
    heat_capacity_ratio: float,
) -> float:
    """Mass flow through an ideal nozzle, downstream pressure not above upstream.

    Parameters
    ----------
    upstream_pressure, downstream_pressure
        Absolute, in Pa.
    upstream_temperature
        In K.
    effective_area
        Discharge coefficient times area, in m2.
    gas_constant
        Specific gas constant in J/(kg K).
    heat_capacity_ratio
        Ratio of heat capacities.

    Returns
    -------
    float
        Mass flow in kg/s.
    """
    shape = flow_shape_isentropic(downstream_pressure / upstream_pressure, heat_capacity_ratio)
    conductance = choked_conductance(effective_area, gas_constant, heat_capacity_ratio)
    return conductance * upstream_pressure / math.sqrt(upstream_temperature) * shape


@compiled
def iso6358_mass_flow(
    upstream_pressure: float,
    upstream_temperature: float,
    downstream_pressure: float,
    choked_flow: float,
    critical_ratio: float,
) -> float:
    """Mass flow after ISO 6358, downstream pressure not above upstream.

    Parameters
    ----------
    upstream_pressure, downstream_pressure
        Absolute, in Pa.
    upstream_temperature
        In K.
    choked_flow
        Choked flow per upstream pressure times root of upstream temperature, in kg K^0.5/(s Pa).
    critical_ratio
        Ratio at which the passage chokes.

    Returns
    -------
    float
        Mass flow in kg/s.
    """
    shape = flow_shape_iso6358(downstream_pressure / upstream_pressure, critical_ratio)
    return choked_flow * upstream_pressure / math.sqrt(upstream_temperature) * shape
