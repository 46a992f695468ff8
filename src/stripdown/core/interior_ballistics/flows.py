"""The laws of the shot, one small function each: passages, ports, volumes, friction, hop-up, heat.

Kernel, ledger and traces call these same functions. They read a row of *constants* (areas, conductances, masses), which
`prepare` works out once per shot from the row of parameters.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from stripdown.core.interior_ballistics.parameters import FlowLaw, HeatLaw, ShotParameters
from stripdown.core.mechanics.orifice_flow import choked_conductance, flow_shape_isentropic, flow_shape_iso6358
from stripdown.core.mechanics.wall_heat import (
    heat_transfer_coefficient_adair,
    heat_transfer_coefficient_dittus_boelter,
    heat_transfer_coefficient_hohenberg,
    heat_transfer_coefficient_woschni,
)
from stripdown.core.numerics.compiled import compiled, compiled_apart
from stripdown.core.numerics.rows import Fields, Vector, row_dtype
from stripdown.core.parts.cylinder import PortSlot

_ISENTROPIC = int(FlowLaw.ISENTROPIC)
_ADAIR = int(HeatLaw.ADAIR)
_WOSCHNI = int(HeatLaw.WOSCHNI)


class Passage(Fields):
    """How the flow through a passage depends on the pressure ratio; passages that share it differ in conductance only."""

    critical_ratio: float
    laminar_1: float  # odd polynomial near equal pressures
    laminar_3: float
    laminar_5: float


class Port(Fields):
    """One row of slots in the cylinder's wall, as the seal line passes it."""

    start: float  # m
    end: float  # m
    conductance_per_length: float  # kg K^½/(s Pa m)


class Constants(Fields):
    """What a shot's laws need, worked out once. A conductance is choked flow · √T / p, in kg K^½/(s Pa)."""

    cylinder_area: float  # m2
    cylinder_bore: float  # m
    cylinder_dead_volume: float  # m3
    stroke: float  # m
    spring_rate: float  # N/m
    drawn_compression: float  # m
    preload: float  # m
    moving_mass: float  # kg
    seal_drag: float  # N
    seal_pressure_friction: float  # N/Pa
    stiction_speed: float  # m/s
    restitution: float
    capture_speed: float  # m/s
    barrel_area: float  # m2
    barrel_bore: float  # m
    barrel_dead_volume: float  # m3
    travel: float  # m
    ball_mass: float  # kg
    ball_radius: float  # m
    ball_inertia: float  # kg m2
    bore_friction: float  # N
    break_away_force: float  # N
    break_away_length: float  # m
    normal_force: float  # N
    patch_length: float  # m
    top_friction: float
    floor_friction: float
    ambient_pressure: float  # Pa
    ambient_temperature: float  # K
    wall_temperature: float  # K
    gas_constant: float  # J/(kg K)
    heat_capacity_ratio: float
    heat_capacity_volume: float  # J/(kg K)
    heat_capacity_pressure: float  # J/(kg K)
    gas_inertia: float
    column_mass_per_length: float  # kg/m
    column_drag_per_length: float  # N s2/m3
    jet: float  # kg/m
    cylinder_heat: float
    barrel_heat: float
    heat_speed_floor: float  # m/s
    laminar_ratio: float
    flow_law: int
    heat_law: int
    one_volume: int
    nozzle: Passage
    leak: Passage  # to the outside: past seal and ball, through ports, vents and muzzle
    nozzle_conductance: float
    cylinder_leak: float
    vent: float
    lip: float
    annulus: float
    muzzle: float
    port_1: Port
    port_2: Port
    port_3: Port


CONSTANTS = row_dtype(Constants)


class Gas(NamedTuple):
    """Air on one side of a passage."""

    pressure: float  # Pa
    density: float  # kg/m3
    temperature: float  # K
    root: float  # of the temperature, K^½


@compiled_apart
def prepare(p: ShotParameters, c: Constants) -> None:
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
def _prepare_air(p: ShotParameters, c: Constants) -> None:
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
def _prepare_passages(p: ShotParameters, c: Constants) -> None:
    c.laminar_ratio = p.laws.laminar_ratio
    c.flow_law = p.laws.flow_law
    _prepare_shape(c, c.nozzle, p.nozzle.critical_ratio)
    _prepare_shape(c, c.leak, p.leaks.critical_ratio)
    leaks = p.leaks.piston_seal + p.leaks.head_ring + p.leaks.nozzle_tube
    gap = 0.25 * math.pi * max(p.barrel.bore**2 - p.ball.diameter**2, 0.0)
    vents = p.piston.vent_area if p.piston.vented != 0 else 0.0
    per_area = choked_conductance(1.0, c.gas_constant, c.heat_capacity_ratio)
    per_leak = per_area * p.leaks.discharge_coefficient
    c.nozzle_conductance = per_area * p.nozzle.discharge_coefficient * 0.25 * math.pi * p.nozzle.bore**2
    c.cylinder_leak = per_leak * leaks
    c.vent = per_leak * vents
    c.lip = per_leak * p.leaks.hop_lip
    c.annulus = per_area * p.laws.annulus_discharge * gap
    c.muzzle = per_area * p.laws.muzzle_discharge * c.barrel_area
    _prepare_port(p.cylinder.port_1, per_leak, c.port_1)
    _prepare_port(p.cylinder.port_2, per_leak, c.port_2)
    _prepare_port(p.cylinder.port_3, per_leak, c.port_3)


@compiled
def _prepare_shape(c: Constants, passage: Passage, critical_ratio: float) -> None:
    """Find the odd polynomial that joins the law in value, slope and curvature at the laminar ratio.

    A joint without equal curvature costs the integrator a string of rejected steps each time a flow passes it.
    """
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
def _law_shape(c: Constants, passage: Passage, part: float) -> float:
    """The law itself at ``part`` of the way from equal pressures to the laminar ratio."""
    ratio = 1.0 - part * (1.0 - c.laminar_ratio)
    if c.flow_law == _ISENTROPIC:
        return flow_shape_isentropic(ratio, c.heat_capacity_ratio)
    return flow_shape_iso6358(ratio, passage.critical_ratio)


@compiled
def _prepare_port(slot: PortSlot, conductance_per_area: float, port: Port) -> None:
    port.start = slot.start
    port.end = slot.start + slot.length
    port.conductance_per_length = conductance_per_area * slot.width * slot.count


@compiled
def enclosed_gas(c: Constants, mass: float, energy: float, volume: float) -> Gas:
    """State of the air in a volume, from mass and internal energy; no trial step of the integrator makes it colder than 1 K."""
    temperature = max(energy / (mass * c.heat_capacity_volume), 1.0)
    pressure = (c.heat_capacity_ratio - 1.0) * energy / volume
    return Gas(pressure, mass / volume, temperature, math.sqrt(temperature))


@compiled
def outside_gas(c: Constants) -> Gas:
    """State of the air outside."""
    density = c.ambient_pressure / (c.gas_constant * c.ambient_temperature)
    return Gas(c.ambient_pressure, density, c.ambient_temperature, math.sqrt(c.ambient_temperature))


@compiled
def flow_shape(c: Constants, passage: Passage, pressure_ratio: float) -> float:
    """Flow as a part of the choked flow, smooth through zero; ``pressure_ratio`` is downstream over upstream, at most 1."""
    if pressure_ratio > c.laminar_ratio:
        part = (1.0 - pressure_ratio) / (1.0 - c.laminar_ratio)
        square = part * part
        return part * (passage.laminar_1 + square * (passage.laminar_3 + square * passage.laminar_5))
    if c.flow_law == _ISENTROPIC:
        return flow_shape_isentropic(pressure_ratio, c.heat_capacity_ratio)
    return flow_shape_iso6358(pressure_ratio, passage.critical_ratio)


@compiled
def flow_per_conductance(c: Constants, passage: Passage, inside: Gas, beyond: Gas) -> float:
    """Mass flow out of the first side for each unit of conductance, in Pa/K^½, negative inwards."""
    if inside.pressure >= beyond.pressure:
        if inside.pressure <= 0.0:
            return 0.0
        return inside.pressure / inside.root * flow_shape(c, passage, beyond.pressure / inside.pressure)
    return -beyond.pressure / beyond.root * flow_shape(c, passage, inside.pressure / beyond.pressure)


@compiled
def port_conductance(c: Constants, edge_side: Vector, piston_travel: float) -> float:
    """Conductance of what the seal line has not yet passed of all port slots.

    ``edge_side`` is +1 for each edge that still lies ahead of the seal, 0 for those of a port that is not there. Which edges
    those are changes only at events, so that a step which looks past an edge sees a smooth law.
    """
    return (
        _open_part(c.port_1, edge_side[0], edge_side[1], piston_travel)
        + _open_part(c.port_2, edge_side[2], edge_side[3], piston_travel)
        + _open_part(c.port_3, edge_side[4], edge_side[5], piston_travel)
    )


@compiled
def _open_part(port: Port, start_side: float, end_side: float, piston_travel: float) -> float:
    if end_side < 0.0:
        return 0.0
    covered_to = port.start if start_side > 0.0 else piston_travel
    return port.conductance_per_length * (port.end - covered_to)


@compiled
def cylinder_volume(c: Constants, piston_travel: float) -> float:
    """Volume of air in the cylinder, in m3."""
    return c.cylinder_dead_volume + c.cylinder_area * (c.stroke - piston_travel)


@compiled
def barrel_volume(c: Constants, ball_travel: float) -> float:
    """Volume of air behind the ball, in m3."""
    return c.barrel_dead_volume + c.barrel_area * ball_travel


@compiled
def spring_force(c: Constants, piston_travel: float) -> float:
    """Push of the main spring on the piston, in N."""
    return c.spring_rate * (c.drawn_compression - piston_travel)


@compiled
def seal_friction(c: Constants, piston_speed: float, cylinder_pressure: float) -> float:
    """Friction of the ring on the cylinder, in N, against the motion."""
    pressed = c.seal_pressure_friction * abs(cylinder_pressure - c.ambient_pressure)
    return (c.seal_drag + pressed) * math.tanh(piston_speed / c.stiction_speed)


@compiled
def lip_contact(c: Constants, ball_travel: float) -> float:
    """Share of their hold on the ball that the lips still have: all on the seat, smoothly none at the break-away length."""
    if ball_travel >= c.break_away_length:
        return 0.0
    if ball_travel <= 0.0:
        return 1.0
    rest = 1.0 - ball_travel / c.break_away_length
    return rest * rest * rest


@compiled
def lip_force(c: Constants, ball_travel: float) -> float:
    """What the lips still hold of the ball, in N."""
    return c.break_away_force * lip_contact(c, ball_travel)


@compiled
def gap_conductance(c: Constants, ball_travel: float) -> float:
    """Conductance of the gap round the ball: what the lips no longer hold they no longer seal."""
    return c.annulus * (1.0 - lip_contact(c, ball_travel))


@compiled
def nub_force(c: Constants, ball_travel: float) -> float:
    """Force of the nub on a ball under the patch, in N: falls to nothing where the patch ends, which is an event."""
    part = ball_travel / c.patch_length
    return c.normal_force * (1.0 - part * part)


@compiled
def holding_force(c: Constants, ball_travel: float) -> float:
    """Push that a resting ball withstands, in N: lips, bore, and the nub with the ball rolling under it."""
    nub = max(nub_force(c, ball_travel), 0.0)
    return lip_force(c, ball_travel) + c.bore_friction + 2.0 * c.floor_friction * nub


@compiled
def moving_gas_share(c: Constants, ball_travel: float) -> float:
    """Share of the gas behind the ball that stands in the barrel and so moves with the ball."""
    if c.one_volume == 0:
        return 1.0
    return c.barrel_area * ball_travel / barrel_volume(c, ball_travel)


@compiled
def moving_gas_share_slope(c: Constants, ball_travel: float) -> float:
    """How that share grows with the ball's travel, in 1/m."""
    if c.one_volume == 0:
        return 0.0
    volume = barrel_volume(c, ball_travel)
    return c.barrel_area * c.barrel_dead_volume / (volume * volume)


@compiled
def moved_mass(c: Constants, ball_travel: float, barrel_mass: float) -> float:
    """Mass that the pressure behind the ball sets in motion, in kg: the ball, its share of the air behind, the air ahead."""
    behind = c.gas_inertia * barrel_mass * moving_gas_share(c, ball_travel)
    return c.ball_mass + behind + c.column_mass_per_length * (c.travel - ball_travel)


@compiled
def cylinder_heat_conductance(c: Constants, piston_travel: float, piston_speed: float, air: Gas) -> float:
    """Heat from the air in the cylinder to its wall, faces included, for each kelvin between them, in W/K."""
    if c.heat_law == 0 or c.cylinder_heat == 0.0:
        return 0.0
    speed = math.sqrt(piston_speed * piston_speed + c.heat_speed_floor * c.heat_speed_floor)
    if c.heat_law == _ADAIR:
        coefficient = heat_transfer_coefficient_adair(speed, c.cylinder_bore, air.density, air.temperature)
    elif c.heat_law == _WOSCHNI:
        coefficient = heat_transfer_coefficient_woschni(speed, c.cylinder_bore, air.pressure, air.temperature)
    else:
        volume = cylinder_volume(c, piston_travel)
        coefficient = heat_transfer_coefficient_hohenberg(speed, volume, air.pressure, air.temperature)
    return c.cylinder_heat * coefficient * cylinder_wall_area(c, piston_travel)


@compiled
def cylinder_wall_area(c: Constants, piston_travel: float) -> float:
    """Both faces and the wall between them, in m2."""
    return 2.0 * c.cylinder_area + math.pi * c.cylinder_bore * max(c.stroke - piston_travel, 0.0)


@compiled
def barrel_heat_conductance(c: Constants, gas_speed: float, volume: float, air: Gas) -> float:
    """Heat from the air behind the ball to bore and passage, whose area is that of a pipe of this volume, in W/K."""
    if c.barrel_heat == 0.0:
        return 0.0
    speed = math.sqrt(gas_speed * gas_speed + c.heat_speed_floor * c.heat_speed_floor)
    coefficient = heat_transfer_coefficient_dittus_boelter(speed, c.barrel_bore, air.density, air.temperature)
    return c.barrel_heat * coefficient * 4.0 * volume / c.barrel_bore
