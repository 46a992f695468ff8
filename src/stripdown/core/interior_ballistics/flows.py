"""The laws of the shot, one small function each: passages, ports, volumes, friction, hop-up, heat.

Kernel, ledger and traces call these same functions. They read a row of *constants* (areas, conductances, masses), which
`prepare` works out once per shot from the row of parameters.
"""

from __future__ import annotations

import math

import numpy as np

from stripdown.core.interior_ballistics.parameters import FlowLaw, HeatLaw
from stripdown.core.mechanics.orifice_flow import choked_conductance, flow_shape_isentropic, flow_shape_iso6358
from stripdown.core.mechanics.wall_heat import (
    heat_transfer_coefficient_adair,
    heat_transfer_coefficient_dittus_boelter,
    heat_transfer_coefficient_hohenberg,
    heat_transfer_coefficient_woschni,
)
from stripdown.core.numerics.compiled import compiled

_ISENTROPIC = int(FlowLaw.ISENTROPIC)
_ADAIR = int(HeatLaw.ADAIR)
_WOSCHNI = int(HeatLaw.WOSCHNI)
_HOHENBERG = int(HeatLaw.HOHENBERG)

_PASSAGE = [
    ("conductance", np.float64),  # choked flow · √T / p, kg K^½/(s Pa)
    ("critical_ratio", np.float64),
    ("laminar_1", np.float64),  # odd polynomial near equal pressures
    ("laminar_3", np.float64),
    ("laminar_5", np.float64),
]
_PORT = [("start", np.float64), ("end", np.float64), ("conductance_per_length", np.float64)]

CONSTANTS = np.dtype(
    [
        ("cylinder_area", np.float64),
        ("cylinder_bore", np.float64),
        ("cylinder_dead_volume", np.float64),
        ("stroke", np.float64),
        ("spring_rate", np.float64),
        ("drawn_compression", np.float64),
        ("preload", np.float64),
        ("moving_mass", np.float64),
        ("seal_drag", np.float64),
        ("seal_pressure_friction", np.float64),
        ("stiction_speed", np.float64),
        ("restitution", np.float64),
        ("capture_speed", np.float64),
        ("barrel_area", np.float64),
        ("barrel_bore", np.float64),
        ("barrel_dead_volume", np.float64),
        ("travel", np.float64),
        ("ball_mass", np.float64),
        ("ball_radius", np.float64),
        ("ball_inertia", np.float64),
        ("bore_friction", np.float64),
        ("break_away_force", np.float64),
        ("break_away_length", np.float64),
        ("normal_force", np.float64),
        ("patch_length", np.float64),
        ("top_friction", np.float64),
        ("floor_friction", np.float64),
        ("ambient_pressure", np.float64),
        ("ambient_temperature", np.float64),
        ("wall_temperature", np.float64),
        ("gas_constant", np.float64),
        ("heat_capacity_ratio", np.float64),
        ("heat_capacity_volume", np.float64),
        ("heat_capacity_pressure", np.float64),
        ("gas_inertia", np.float64),
        ("column_mass_per_length", np.float64),
        ("column_drag_per_length", np.float64),
        ("jet", np.float64),
        ("cylinder_heat", np.float64),
        ("barrel_heat", np.float64),
        ("heat_speed_floor", np.float64),
        ("laminar_ratio", np.float64),
        ("flow_law", np.int64),
        ("heat_law", np.int64),
        ("one_volume", np.int64),
        ("nozzle", _PASSAGE),
        ("cylinder_leak", _PASSAGE),
        ("port", _PASSAGE),
        ("vent", _PASSAGE),
        ("lip", _PASSAGE),
        ("annulus", _PASSAGE),
        ("muzzle", _PASSAGE),
        ("port_1", _PORT),
        ("port_2", _PORT),
        ("port_3", _PORT),
    ],
    align=True,
)


@compiled
def prepare(p, c):  # type: ignore[no-untyped-def]
    """Fill a row of constants from a row of parameters."""
    c.cylinder_area = 0.25 * math.pi * p.cylinder.bore**2
    c.cylinder_bore = p.cylinder.bore
    c.cylinder_dead_volume = p.cylinder.dead_volume
    c.stroke = p.cylinder.stroke
    c.spring_rate = p.spring.rate
    c.preload = p.spring.preload
    c.drawn_compression = p.spring.preload + p.cylinder.stroke
    c.moving_mass = p.piston.mass + p.piston.head_mass + p.spring.mass / 3.0
    c.seal_drag = p.piston.seal_drag
    c.seal_pressure_friction = p.piston.seal_pressure_friction * p.piston.seal_area
    c.stiction_speed = p.laws.stiction_speed
    c.restitution = p.cylinder_head.restitution
    c.capture_speed = p.cylinder_head.capture_speed
    c.barrel_area = 0.25 * math.pi * p.barrel.bore**2
    c.barrel_bore = p.barrel.bore
    c.barrel_dead_volume = p.nozzle.dead_volume
    c.travel = p.barrel.length - p.barrel.seat_depth
    c.ball_mass = p.ball.mass
    c.ball_radius = 0.5 * p.ball.diameter
    c.ball_inertia = 0.4 * p.ball.mass * c.ball_radius**2
    c.bore_friction = p.barrel.friction_force
    c.break_away_force = p.hop_up.break_away_force
    c.break_away_length = p.hop_up.break_away_length
    c.normal_force = p.hop_up.normal_force
    c.patch_length = p.hop_up.patch_length
    c.top_friction = p.hop_up.top_friction
    c.floor_friction = p.hop_up.floor_friction
    c.heat_speed_floor = p.laws.heat_speed_floor
    c.cylinder_heat = p.laws.cylinder_heat
    c.barrel_heat = p.laws.barrel_heat
    c.heat_law = p.laws.cylinder_heat_law
    _prepare_air(p, c)
    _prepare_passages(p, c)


@compiled
def _prepare_air(p, c):  # type: ignore[no-untyped-def]
    c.ambient_pressure = p.ambient.pressure
    c.ambient_temperature = p.ambient.temperature
    c.wall_temperature = p.ambient.wall_temperature
    c.gas_constant = p.ambient.gas_constant
    c.heat_capacity_ratio = p.ambient.heat_capacity_ratio
    c.heat_capacity_volume = p.ambient.gas_constant / (p.ambient.heat_capacity_ratio - 1.0)
    c.heat_capacity_pressure = c.heat_capacity_volume * p.ambient.heat_capacity_ratio
    c.gas_inertia = p.laws.gas_inertia
    density = p.ambient.pressure / (p.ambient.gas_constant * p.ambient.temperature)
    c.column_mass_per_length = p.laws.air_ahead_inertia * density * c.barrel_area
    c.column_drag_per_length = p.laws.air_ahead_friction / p.barrel.bore * 0.5 * density * c.barrel_area
    c.jet = 0.5 * c.column_mass_per_length


@compiled
def _prepare_passages(p, c):  # type: ignore[no-untyped-def]
    c.laminar_ratio = p.laws.laminar_ratio
    c.flow_law = p.laws.flow_law
    leak = p.leaks
    leak_area = leak.piston_seal + leak.head_ring + leak.nozzle_tube
    gap = 0.25 * math.pi * max(p.barrel.bore**2 - p.ball.diameter**2, 0.0)
    vent_area = p.piston.vent_area if p.piston.vented != 0 else 0.0
    nozzle_area = 0.25 * math.pi * p.nozzle.bore**2
    _prepare_passage(c, c.nozzle, p.nozzle.discharge_coefficient * nozzle_area, p.nozzle.critical_ratio)
    _prepare_passage(c, c.cylinder_leak, leak.discharge_coefficient * leak_area, leak.critical_ratio)
    _prepare_passage(c, c.port, leak.discharge_coefficient, leak.critical_ratio)
    _prepare_passage(c, c.vent, leak.discharge_coefficient * vent_area, leak.critical_ratio)
    _prepare_passage(c, c.lip, leak.discharge_coefficient * leak.hop_lip, leak.critical_ratio)
    _prepare_passage(c, c.annulus, p.laws.annulus_discharge * gap, leak.critical_ratio)
    _prepare_passage(c, c.muzzle, p.laws.muzzle_discharge * c.barrel_area, leak.critical_ratio)
    _prepare_port(p.cylinder.port_1, c.port, c.port_1)
    _prepare_port(p.cylinder.port_2, c.port, c.port_2)
    _prepare_port(p.cylinder.port_3, c.port, c.port_3)


@compiled
def _prepare_passage(c, passage, effective_area, critical_ratio):  # type: ignore[no-untyped-def]
    """Conductance, and the odd polynomial that joins the law in value, slope and curvature at the laminar ratio.

    A joint without equal curvature costs the integrator a string of rejected steps each time a flow passes it.
    """
    passage.conductance = choked_conductance(effective_area, c.gas_constant, c.heat_capacity_ratio)
    passage.critical_ratio = critical_ratio
    # In s = (1 - ratio)/(1 - laminar ratio) the joint is at 1; differences are taken over a hundredth of that.
    step = 1e-2
    value = _law_shape(c, passage, 1.0)
    more = _law_shape(c, passage, 1.0 + step)
    less = _law_shape(c, passage, 1.0 - step)
    slope = (more - less) / (2.0 * step)
    curvature = (more - 2.0 * value + less) / (step * step)
    passage.laminar_5 = (curvature - 3.0 * (slope - value)) / 8.0
    passage.laminar_3 = 0.5 * (slope - value) - 2.0 * passage.laminar_5
    passage.laminar_1 = value - passage.laminar_3 - passage.laminar_5


@compiled
def _law_shape(c, passage, part):  # type: ignore[no-untyped-def]
    """The law itself at ``part`` of the way from equal pressures to the laminar ratio."""
    ratio = 1.0 - part * (1.0 - c.laminar_ratio)
    if c.flow_law == _ISENTROPIC:
        return flow_shape_isentropic(ratio, c.heat_capacity_ratio)
    return flow_shape_iso6358(ratio, passage.critical_ratio)


@compiled
def _prepare_port(slot, unit_passage, port):  # type: ignore[no-untyped-def]
    port.start = slot.start
    port.end = slot.start + slot.length
    port.conductance_per_length = unit_passage.conductance * slot.width * slot.count


@compiled
def flow_shape(c, passage, pressure_ratio):  # type: ignore[no-untyped-def]
    """Flow as a part of the choked flow, smooth through zero; ``pressure_ratio`` is downstream over upstream, at most 1."""
    if pressure_ratio > c.laminar_ratio:
        part = (1.0 - pressure_ratio) / (1.0 - c.laminar_ratio)
        square = part * part
        return part * (passage.laminar_1 + square * (passage.laminar_3 + square * passage.laminar_5))
    if c.flow_law == _ISENTROPIC:
        return flow_shape_isentropic(pressure_ratio, c.heat_capacity_ratio)
    return flow_shape_iso6358(pressure_ratio, passage.critical_ratio)


@compiled
def passage_flow(c, passage, conductance, pressure, root_temperature, other_pressure, other_root_temperature):  # type: ignore[no-untyped-def]
    """Mass flow out of the first side, in kg/s, negative inwards. Temperatures come as roots: they serve many passages."""
    if conductance == 0.0:
        return 0.0
    if pressure >= other_pressure:
        if pressure <= 0.0:
            return 0.0
        return conductance * pressure / root_temperature * flow_shape(c, passage, other_pressure / pressure)
    return -conductance * other_pressure / other_root_temperature * flow_shape(c, passage, pressure / other_pressure)


@compiled
def port_conductance(c, edge_side, piston_travel):  # type: ignore[no-untyped-def]
    """Conductance of what the seal line has not yet passed of all port slots.

    ``edge_side`` is +1 for each edge that still lies ahead of the seal, 0 for those of a port that is not there. Which edges those are changes only at events, so
    that a step which looks past an edge sees a smooth law.
    """
    return (
        _open_part(c.port_1, edge_side[0], edge_side[1], piston_travel)
        + _open_part(c.port_2, edge_side[2], edge_side[3], piston_travel)
        + _open_part(c.port_3, edge_side[4], edge_side[5], piston_travel)
    )


@compiled
def _open_part(port, start_side, end_side, piston_travel):  # type: ignore[no-untyped-def]
    if end_side < 0.0:
        return 0.0
    covered_to = port.start if start_side > 0.0 else piston_travel
    return port.conductance_per_length * (port.end - covered_to)


@compiled
def cylinder_volume(c, piston_travel):  # type: ignore[no-untyped-def]
    """Volume of air in the cylinder, in m3."""
    return c.cylinder_dead_volume + c.cylinder_area * (c.stroke - piston_travel)


@compiled
def barrel_volume(c, ball_travel):  # type: ignore[no-untyped-def]
    """Volume of air behind the ball, in m3."""
    return c.barrel_dead_volume + c.barrel_area * ball_travel


@compiled
def spring_force(c, piston_travel):  # type: ignore[no-untyped-def]
    """Push of the main spring on the piston, in N."""
    return c.spring_rate * (c.drawn_compression - piston_travel)


@compiled
def seal_friction(c, piston_speed, cylinder_pressure):  # type: ignore[no-untyped-def]
    """Friction of the ring on the cylinder, in N, against the motion."""
    pressed = c.seal_pressure_friction * abs(cylinder_pressure - c.ambient_pressure)
    return (c.seal_drag + pressed) * math.tanh(piston_speed / c.stiction_speed)


@compiled
def lip_force(c, ball_travel):  # type: ignore[no-untyped-def]
    """What the lips still hold of the ball, in N: falls smoothly to nothing over the break-away length."""
    if ball_travel >= c.break_away_length:
        return 0.0
    rest = 1.0 - ball_travel / c.break_away_length
    return c.break_away_force * rest * rest * rest


@compiled
def nub_force(c, ball_travel):  # type: ignore[no-untyped-def]
    """Force of the nub on a ball under the patch, in N: falls to nothing where the patch ends, which is an event."""
    part = ball_travel / c.patch_length
    return c.normal_force * (1.0 - part * part)


@compiled
def holding_force(c, ball_travel):  # type: ignore[no-untyped-def]
    """Push that a resting ball withstands, in N: lips, bore, and the nub with the ball rolling under it."""
    nub = max(nub_force(c, ball_travel), 0.0)
    return lip_force(c, ball_travel) + c.bore_friction + 2.0 * c.floor_friction * nub


@compiled
def moving_gas_share(c, ball_travel):  # type: ignore[no-untyped-def]
    """Share of the gas behind the ball that stands in the barrel and so moves with the ball."""
    if c.one_volume == 0:
        return 1.0
    swept = c.barrel_area * ball_travel
    return swept / (c.barrel_dead_volume + swept)


@compiled
def cylinder_heat_flow(c, piston_travel, piston_speed, pressure, density, temperature):  # type: ignore[no-untyped-def]
    """Heat from the air in the cylinder to its wall, faces included, in W."""
    if c.heat_law == 0 or c.cylinder_heat == 0.0:
        return 0.0
    speed = math.sqrt(piston_speed * piston_speed + c.heat_speed_floor * c.heat_speed_floor)
    if c.heat_law == _ADAIR:
        coefficient = heat_transfer_coefficient_adair(speed, c.cylinder_bore, density, temperature)
    elif c.heat_law == _WOSCHNI:
        coefficient = heat_transfer_coefficient_woschni(speed, c.cylinder_bore, pressure, temperature)
    else:
        coefficient = heat_transfer_coefficient_hohenberg(speed, cylinder_volume(c, piston_travel), pressure, temperature)
    area = 2.0 * c.cylinder_area + math.pi * c.cylinder_bore * max(c.stroke - piston_travel, 0.0)
    return c.cylinder_heat * coefficient * area * (temperature - c.wall_temperature)


@compiled
def barrel_heat_flow(c, gas_speed, volume, density, temperature):  # type: ignore[no-untyped-def]
    """Heat from the air behind the ball to the bore and the passage, in W; their area is that of a pipe of this volume."""
    if c.barrel_heat == 0.0:
        return 0.0
    speed = math.sqrt(gas_speed * gas_speed + c.heat_speed_floor * c.heat_speed_floor)
    coefficient = heat_transfer_coefficient_dittus_boelter(speed, c.barrel_bore, density, temperature)
    area = 4.0 * volume / c.barrel_bore
    return c.barrel_heat * coefficient * area * (temperature - c.wall_temperature)
