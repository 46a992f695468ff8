"""How the laws of `flows` change with what they depend on: their derivatives, for the Jacobian.

Pressure and temperature count by their relative changes (``by_pressure`` is dy/d ln p): most laws are powers of them, and so
the chain rule to mass and energy needs neither. Lengths and speeds count by their own. All other arguments are held.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from stripdown.core.constants import CONDUCTIVITY_TEMPERATURE, SUTHERLAND_TEMPERATURE
from stripdown.core.interior_ballistics.flows import Constants, Gas, Passage, cylinder_volume, cylinder_wall_area, flow_shape
from stripdown.core.interior_ballistics.parameters import FlowLaw, HeatLaw
from stripdown.core.mechanics.orifice_flow import flow_slope_isentropic, flow_slope_iso6358
from stripdown.core.mechanics.wall_heat import HOHENBERG_SPEED
from stripdown.core.numerics.compiled import compiled
from stripdown.core.numerics.rows import Vector

_ISENTROPIC = int(FlowLaw.ISENTROPIC)
_ADAIR = int(HeatLaw.ADAIR)
_WOSCHNI = int(HeatLaw.WOSCHNI)


class FlowSlopes(NamedTuple):
    """A flow per conductance, and how it changes with the two gases."""

    flow: float
    by_pressure: float
    by_temperature: float
    by_pressure_beyond: float
    by_temperature_beyond: float


class HeatSlopes(NamedTuple):
    """How a heat conductance changes, relative to itself."""

    by_position: float
    by_speed: float
    by_pressure: float
    by_temperature: float


@compiled
def shape_slope(c: Constants, passage: Passage, pressure_ratio: float) -> float:
    """Slope of `flow_shape` by the pressure ratio."""
    if pressure_ratio > c.laminar_ratio:
        part = (1.0 - pressure_ratio) / (1.0 - c.laminar_ratio)
        square = part * part
        by_part = passage.laminar_1 + square * (3.0 * passage.laminar_3 + square * 5.0 * passage.laminar_5)
        return -by_part / (1.0 - c.laminar_ratio)
    if c.flow_law == _ISENTROPIC:
        return flow_slope_isentropic(pressure_ratio, c.heat_capacity_ratio)
    return flow_slope_iso6358(pressure_ratio, passage.critical_ratio)


@compiled
def flow_slopes(c: Constants, passage: Passage, inside: Gas, beyond: Gas) -> FlowSlopes:
    """`flow_per_conductance` with its slopes: of the two temperatures, only that upstream matters."""
    if inside.pressure >= beyond.pressure:
        if inside.pressure <= 0.0:
            return FlowSlopes(0.0, 0.0, 0.0, 0.0, 0.0)
        ratio = beyond.pressure / inside.pressure
        choked = inside.pressure / inside.root
        flow = choked * flow_shape(c, passage, ratio)
        by_ratio = choked * ratio * shape_slope(c, passage, ratio)
        return FlowSlopes(flow, flow - by_ratio, -0.5 * flow, by_ratio, 0.0)
    ratio = inside.pressure / beyond.pressure
    choked = beyond.pressure / beyond.root
    flow = -choked * flow_shape(c, passage, ratio)
    by_ratio = -choked * ratio * shape_slope(c, passage, ratio)
    return FlowSlopes(flow, by_ratio, 0.0, flow - by_ratio, -0.5 * flow)


@compiled
def port_conductance_slope(c: Constants, edge_side: Vector) -> float:
    """Slope of `port_conductance` by the piston's travel: that of the slots in which the seal line stands."""
    slope = 0.0
    if edge_side[0] < 0.0 and edge_side[1] >= 0.0:
        slope -= c.port_1.conductance_per_length
    if edge_side[2] < 0.0 and edge_side[3] >= 0.0:
        slope -= c.port_2.conductance_per_length
    if edge_side[4] < 0.0 and edge_side[5] >= 0.0:
        slope -= c.port_3.conductance_per_length
    return slope


@compiled
def seal_friction_slopes(c: Constants, piston_speed: float, cylinder_pressure: float) -> tuple[float, float]:
    """Slopes of `seal_friction` by speed and by pressure."""
    over = cylinder_pressure - c.ambient_pressure
    sign = math.tanh(piston_speed / c.stiction_speed)
    force = c.seal_drag + c.seal_pressure_friction * abs(over)
    by_pressure = c.seal_pressure_friction * sign * (cylinder_pressure if over >= 0.0 else -cylinder_pressure)
    return force * (1.0 - sign * sign) / c.stiction_speed, by_pressure


@compiled
def lip_contact_slope(c: Constants, ball_travel: float) -> float:
    """Slope of `lip_contact` by the ball's travel; on the seat, where a ball sets out, that of the way forwards."""
    if ball_travel >= c.break_away_length or ball_travel < 0.0:
        return 0.0
    rest = 1.0 - ball_travel / c.break_away_length
    return -3.0 * rest * rest / c.break_away_length


@compiled
def lip_force_slope(c: Constants, ball_travel: float) -> float:
    """Slope of `lip_force` by the ball's travel."""
    return c.break_away_force * lip_contact_slope(c, ball_travel)


@compiled
def gap_conductance_slope(c: Constants, ball_travel: float) -> float:
    """Slope of `gap_conductance` by the ball's travel."""
    return -c.annulus * lip_contact_slope(c, ball_travel)


@compiled
def nub_force_slope(c: Constants, ball_travel: float) -> float:
    """Slope of `nub_force` by the ball's travel."""
    return -2.0 * c.normal_force * ball_travel / (c.patch_length * c.patch_length)


@compiled
def cylinder_heat_slopes(c: Constants, piston_travel: float, piston_speed: float, temperature: float) -> HeatSlopes:
    """Slopes of `cylinder_heat_conductance`; density follows pressure and temperature."""
    square = piston_speed * piston_speed + c.heat_speed_floor * c.heat_speed_floor
    by_speed = 0.8 * piston_speed / square
    by_travel = -math.pi * c.cylinder_bore / cylinder_wall_area(c, piston_travel)
    if c.heat_law == _ADAIR:
        return HeatSlopes(by_travel, by_speed, 0.8, _pipe_slope_by_temperature(temperature))
    if c.heat_law == _WOSCHNI:
        return HeatSlopes(by_travel, by_speed, 0.8, -0.53)
    speed = math.sqrt(square)
    by_speed = 0.8 * piston_speed / (speed * (speed + HOHENBERG_SPEED))
    by_travel += 0.06 * c.cylinder_area / cylinder_volume(c, piston_travel)
    return HeatSlopes(by_travel, by_speed, 0.8, -0.4)


@compiled
def barrel_heat_slopes(c: Constants, gas_speed: float, volume: float, temperature: float) -> HeatSlopes:
    """Slopes of `barrel_heat_conductance`; density follows pressure and temperature."""
    by_speed = 0.8 * gas_speed / (gas_speed * gas_speed + c.heat_speed_floor * c.heat_speed_floor)
    return HeatSlopes(c.barrel_area / volume, by_speed, 0.8, _pipe_slope_by_temperature(temperature))


@compiled
def _pipe_slope_by_temperature(temperature: float) -> float:
    """Slope of k Re^0.8: conductivity and viscosity in Sutherland's form, density as 1/T."""
    conductivity = 1.5 - temperature / (temperature + CONDUCTIVITY_TEMPERATURE)
    viscosity = 1.5 - temperature / (temperature + SUTHERLAND_TEMPERATURE)
    return conductivity - 0.8 * (1.0 + viscosity)
