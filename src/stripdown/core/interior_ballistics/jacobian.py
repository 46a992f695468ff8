"""The Jacobian of the shot's rates, by formula: what rate changes how fast with what entry of the state.

The laws speak of pressures and temperatures, the state holds masses and energies. So the columns are first written for
relative changes of the former, in the places of the latter; the chain rule then turns them, for all rows at once.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from stripdown.core.interior_ballistics.flows import (
    Constants,
    Gas,
    barrel_heat_conductance,
    barrel_volume,
    cylinder_heat_conductance,
    cylinder_volume,
    enclosed_gas,
    moved_mass,
    moving_gas_share,
    moving_gas_share_slope,
    nub_force,
    outside_gas,
    port_conductance,
    seal_friction,
)
from stripdown.core.interior_ballistics.kernel import (
    ANNULUS_ENTHALPY,
    BALL_GONE,
    BALL_MOVES,
    BALL_SEATED,
    BALL_SPEED,
    BALL_SPIN,
    BALL_TRAVEL,
    BARREL_ENERGY,
    BARREL_HEAT,
    BARREL_MASS,
    BORE_WORK,
    COLUMN_WORK,
    CYLINDER_ENERGY,
    CYLINDER_HEAT,
    CYLINDER_MASS,
    DYNAMIC,
    HOP_GRIPS,
    HOP_OFF,
    HOP_SLIPS,
    HOP_WORK,
    JET_ENERGY,
    LEAK_ENTHALPY,
    LIP_ENTHALPY,
    MASS_LOST,
    MUZZLE_ENTHALPY,
    PISTON_MOVES,
    PISTON_SPEED,
    PISTON_TRAVEL,
    PORT_ENTHALPY,
    SEAL_WORK,
    SIZE,
    Mode,
    ball_motion,
    front_conductance,
)
from stripdown.core.interior_ballistics.slopes import (
    FlowSlopes,
    barrel_heat_slopes,
    cylinder_heat_slopes,
    flow_slopes,
    gap_conductance_slope,
    lip_force_slope,
    nub_force_slope,
    port_conductance_slope,
    seal_friction_slopes,
)
from stripdown.core.numerics.compiled import compiled
from stripdown.core.numerics.rows import Vector

# Columns by ln T and ln p of each volume, until the chain rule has turned them into those by mass and by energy.
_TEMPERATURE_1 = CYLINDER_MASS
_PRESSURE_1 = CYLINDER_ENERGY
_TEMPERATURE_2 = BARREL_MASS
_PRESSURE_2 = BARREL_ENERGY


class Moment(NamedTuple):
    """What several columns need: the gases, the flows between them with their slopes, the ball's speed if it moves."""

    air_1: Gas
    air_2: Gas
    nozzle: FlowSlopes
    escape_1: FlowSlopes
    escape_2: FlowSlopes
    volume_2: float  # m3
    ball_speed: float  # m/s


@compiled
def jacobian(c: Constants, mode: Mode, s: Vector, out: Vector, forces: Vector) -> None:
    """Write the derivatives of `kernel.rates` by the dynamic entries of the state.

    Parameters
    ----------
    c, mode
        Rows of constants and mode.
    s
        State, shape (22,), SI.
    out
        Room, shape (9, 22), SI: ``out[j, i]`` is the derivative of rate i by entry j.
    forces
        Scratch, shape (6,), SI.
    """
    for j in range(DYNAMIC):
        for i in range(SIZE):
            out[j, i] = 0.0
    volume_2 = barrel_volume(c, s[BALL_TRAVEL])
    air_1 = enclosed_gas(c, s[CYLINDER_MASS], s[CYLINDER_ENERGY], cylinder_volume(c, s[PISTON_TRAVEL]))
    air_2 = enclosed_gas(c, s[BARREL_MASS], s[BARREL_ENERGY], volume_2)
    outside = outside_gas(c)
    now = Moment(
        air_1,
        air_2,
        flow_slopes(c, c.nozzle, air_1, air_2),
        flow_slopes(c, c.leak, air_1, outside),
        flow_slopes(c, c.leak, air_2, outside),
        volume_2,
        s[BALL_SPEED] if mode.ball == BALL_MOVES else 0.0,
    )
    _piston(c, mode, s, now, out)
    _cylinder_heat(c, s, now, out)
    _cylinder_escape(c, mode, s, now, out)
    _nozzle(c, now, out)
    _barrel_escape(c, mode, s, now, out)
    _barrel_heat(c, mode, now, out)
    if mode.ball == BALL_MOVES:
        out[_PRESSURE_2, BARREL_ENERGY] -= c.barrel_area * air_2.pressure * now.ball_speed
        out[BALL_SPEED, BARREL_ENERGY] -= c.barrel_area * air_2.pressure
    _turn(out, CYLINDER_MASS, PISTON_TRAVEL, c.cylinder_area / cylinder_volume(c, s[PISTON_TRAVEL]), s)
    _turn(out, BARREL_MASS, BALL_TRAVEL, -c.barrel_area / volume_2, s)
    if mode.ball == BALL_MOVES:
        _column(c, mode, s, now, out)
        _ball(c, mode, s, now, out, forces)


@compiled
def _piston(c: Constants, mode: Mode, s: Vector, now: Moment, out: Vector) -> None:
    speed = s[PISTON_SPEED]
    push = now.air_1.pressure * c.cylinder_area
    by_speed, by_pressure = seal_friction_slopes(c, speed, now.air_1.pressure)
    out[PISTON_SPEED, PISTON_TRAVEL] = 1.0
    if mode.piston == PISTON_MOVES:
        out[PISTON_TRAVEL, PISTON_SPEED] = -c.spring_rate / c.moving_mass
        out[PISTON_SPEED, PISTON_SPEED] = -by_speed / c.moving_mass
        out[_PRESSURE_1, PISTON_SPEED] = -(push + by_pressure) / c.moving_mass
    out[PISTON_SPEED, SEAL_WORK] = seal_friction(c, speed, now.air_1.pressure) + speed * by_speed
    out[_PRESSURE_1, SEAL_WORK] = speed * by_pressure
    out[PISTON_SPEED, CYLINDER_ENERGY] = push
    out[_PRESSURE_1, CYLINDER_ENERGY] = push * speed


@compiled
def _cylinder_heat(c: Constants, s: Vector, now: Moment, out: Vector) -> None:
    conductance = cylinder_heat_conductance(c, s[PISTON_TRAVEL], s[PISTON_SPEED], now.air_1)
    slopes = cylinder_heat_slopes(c, s[PISTON_TRAVEL], s[PISTON_SPEED], now.air_1.temperature)
    heat = conductance * (now.air_1.temperature - c.wall_temperature)
    out[PISTON_TRAVEL, CYLINDER_HEAT] = heat * slopes.by_position
    out[PISTON_SPEED, CYLINDER_HEAT] = heat * slopes.by_speed
    out[_PRESSURE_1, CYLINDER_HEAT] = heat * slopes.by_pressure
    out[_TEMPERATURE_1, CYLINDER_HEAT] = heat * slopes.by_temperature + conductance * now.air_1.temperature
    for j in range(_PRESSURE_1 + 1):
        out[j, CYLINDER_ENERGY] -= out[j, CYLINDER_HEAT]


@compiled
def _cylinder_escape(c: Constants, mode: Mode, s: Vector, now: Moment, out: Vector) -> None:
    """Leak, port and vent: inwards the outside's enthalpy, outwards that of the air inside."""
    escape = now.escape_1
    port = port_conductance(c, mode.edge_side, s[PISTON_TRAVEL])
    by_travel = port_conductance_slope(c, mode.edge_side) * escape.flow
    conductance = c.cylinder_leak + port
    carried = c.heat_capacity_pressure * c.ambient_temperature
    if escape.flow >= 0.0:
        enthalpy = c.heat_capacity_pressure * now.air_1.temperature
        above = enthalpy - carried
        by_temperature = escape.by_temperature * above + escape.flow * enthalpy
        out[_PRESSURE_1, LEAK_ENTHALPY] = c.cylinder_leak * escape.by_pressure * above
        out[_TEMPERATURE_1, LEAK_ENTHALPY] = c.cylinder_leak * by_temperature
        out[PISTON_TRAVEL, PORT_ENTHALPY] = by_travel * above
        out[_PRESSURE_1, PORT_ENTHALPY] = port * escape.by_pressure * above
        out[_TEMPERATURE_1, PORT_ENTHALPY] = port * by_temperature
        out[_TEMPERATURE_1, CYLINDER_ENERGY] -= conductance * escape.flow * enthalpy
        carried = enthalpy
    else:
        conductance += c.vent
    _leave(out, PISTON_TRAVEL, CYLINDER_MASS, by_travel, carried)
    _leave(out, _PRESSURE_1, CYLINDER_MASS, conductance * escape.by_pressure, carried)
    _leave(out, _TEMPERATURE_1, CYLINDER_MASS, conductance * escape.by_temperature, carried)


@compiled
def _barrel_escape(c: Constants, mode: Mode, s: Vector, now: Moment, out: Vector) -> None:
    """Lips and front: inwards the outside's enthalpy, outwards that of the air inside with the column's energy."""
    escape = now.escape_2
    front = front_conductance(c, mode, s[BALL_TRAVEL])
    by_travel = 0.0
    if mode.ball != BALL_SEATED and mode.ball != BALL_GONE:
        by_travel = gap_conductance_slope(c, s[BALL_TRAVEL]) * escape.flow
    to_front = MUZZLE_ENTHALPY if mode.ball == BALL_GONE else ANNULUS_ENTHALPY
    conductance = c.lip + front
    carried = c.heat_capacity_pressure * c.ambient_temperature
    if escape.flow >= 0.0:
        enthalpy = c.heat_capacity_pressure * now.air_2.temperature
        above = enthalpy + 0.5 * c.gas_inertia * now.ball_speed * now.ball_speed - carried
        by_pressure = escape.by_pressure * above
        by_temperature = escape.by_temperature * above + escape.flow * enthalpy
        by_speed = escape.flow * c.gas_inertia * now.ball_speed
        out[_PRESSURE_2, LIP_ENTHALPY] = c.lip * by_pressure
        out[_TEMPERATURE_2, LIP_ENTHALPY] = c.lip * by_temperature
        out[BALL_SPEED, LIP_ENTHALPY] = c.lip * by_speed
        out[BALL_TRAVEL, to_front] = by_travel * above
        out[_PRESSURE_2, to_front] = front * by_pressure
        out[_TEMPERATURE_2, to_front] = front * by_temperature
        out[BALL_SPEED, to_front] = front * by_speed
        out[_TEMPERATURE_2, BARREL_ENERGY] -= conductance * escape.flow * enthalpy
        out[BALL_SPEED, BARREL_ENERGY] -= conductance * by_speed
        carried += above
    _leave(out, BALL_TRAVEL, BARREL_MASS, by_travel, carried)
    _leave(out, _PRESSURE_2, BARREL_MASS, conductance * escape.by_pressure, carried)
    _leave(out, _TEMPERATURE_2, BARREL_MASS, conductance * escape.by_temperature, carried)


@compiled
def _leave(out: Vector, column: int, mass: int, flow: float, carried: float) -> None:
    """Book the slope of a flow from a volume to the outside; the volume's energy stands next to its mass."""
    out[column, mass] -= flow
    out[column, MASS_LOST] += flow
    out[column, mass + 1] -= flow * carried


@compiled
def _nozzle(c: Constants, now: Moment, out: Vector) -> None:
    """Flow between the volumes, with the enthalpy of the side it comes from; from the barrel with the column's energy too."""
    nozzle = now.nozzle
    flow = c.nozzle_conductance * nozzle.flow
    if nozzle.flow >= 0.0:
        carried = c.heat_capacity_pressure * now.air_1.temperature
        _carry(out, _TEMPERATURE_1, flow * carried)
    else:
        enthalpy = c.heat_capacity_pressure * now.air_2.temperature
        carried = enthalpy + 0.5 * c.gas_inertia * now.ball_speed * now.ball_speed
        _carry(out, _TEMPERATURE_2, flow * enthalpy)
        _carry(out, BALL_SPEED, flow * c.gas_inertia * now.ball_speed)
    _pass(out, _PRESSURE_1, c.nozzle_conductance * nozzle.by_pressure, carried)
    _pass(out, _TEMPERATURE_1, c.nozzle_conductance * nozzle.by_temperature, carried)
    _pass(out, _PRESSURE_2, c.nozzle_conductance * nozzle.by_pressure_beyond, carried)
    _pass(out, _TEMPERATURE_2, c.nozzle_conductance * nozzle.by_temperature_beyond, carried)


@compiled
def _pass(out: Vector, column: int, flow: float, carried: float) -> None:
    """Book the slope of a flow from the cylinder to the barrel."""
    out[column, CYLINDER_MASS] -= flow
    out[column, BARREL_MASS] += flow
    _carry(out, column, flow * carried)


@compiled
def _carry(out: Vector, column: int, power: float) -> None:
    """Book the slope of the energy that a flow carries from the cylinder to the barrel."""
    out[column, CYLINDER_ENERGY] -= power
    out[column, BARREL_ENERGY] += power


@compiled
def _barrel_heat(c: Constants, mode: Mode, now: Moment, out: Vector) -> None:
    """Heat behind the ball; its gas speed is half the ball's, or with the ball gone that of the outflow."""
    air = now.air_2
    gas_speed = 0.5 * now.ball_speed
    outflow = c.muzzle / (air.density * c.barrel_area)
    if mode.ball == BALL_GONE:
        gas_speed = outflow * now.escape_2.flow
    conductance = barrel_heat_conductance(c, gas_speed, now.volume_2, air)
    slopes = barrel_heat_slopes(c, gas_speed, now.volume_2, air.temperature)
    heat = conductance * (air.temperature - c.wall_temperature)
    out[BALL_TRAVEL, BARREL_HEAT] = heat * slopes.by_position
    out[_PRESSURE_2, BARREL_HEAT] = heat * slopes.by_pressure
    out[_TEMPERATURE_2, BARREL_HEAT] = heat * slopes.by_temperature + conductance * air.temperature
    if mode.ball == BALL_GONE:
        by_pressure = outflow * now.escape_2.by_pressure - gas_speed
        by_temperature = outflow * now.escape_2.by_temperature + gas_speed
        out[_PRESSURE_2, BARREL_HEAT] += heat * slopes.by_speed * by_pressure
        out[_TEMPERATURE_2, BARREL_HEAT] += heat * slopes.by_speed * by_temperature
    elif mode.ball == BALL_MOVES:
        out[BALL_SPEED, BARREL_HEAT] = 0.5 * heat * slopes.by_speed
    for j in range(BARREL_MASS, BALL_SPIN):
        out[j, BARREL_ENERGY] -= out[j, BARREL_HEAT]


@compiled
def _turn(out: Vector, mass: int, position: int, squeeze: float, s: Vector) -> None:
    """Turn the columns of one volume: T goes as U/m, p as U/V, and V loses the part ``squeeze`` for each metre of travel."""
    by_energy = 1.0 / s[mass + 1]
    by_mass = -1.0 / s[mass]
    for i in range(SIZE):
        by_temperature = out[mass, i]
        by_pressure = out[mass + 1, i]
        out[position, i] += by_pressure * squeeze
        out[mass, i] = by_temperature * by_mass
        out[mass + 1, i] = (by_pressure + by_temperature) * by_energy


@compiled
def _column(c: Constants, mode: Mode, s: Vector, now: Moment, out: Vector) -> None:
    """What is set in motion behind the ball takes the column's energy out of the internal one."""
    speed = now.ball_speed
    energy = 0.5 * c.gas_inertia * speed * speed
    share = moving_gas_share(c, s[BALL_TRAVEL])
    slope = moving_gas_share_slope(c, s[BALL_TRAVEL])
    mass = s[BARREL_MASS]
    mass_rate = c.nozzle_conductance * now.nozzle.flow - (c.lip + front_conductance(c, mode, s[BALL_TRAVEL])) * now.escape_2.flow
    for j in range(DYNAMIC):
        out[j, BARREL_ENERGY] -= energy * share * out[j, BARREL_MASS]
    out[BARREL_MASS, BARREL_ENERGY] -= energy * slope * speed
    out[BALL_TRAVEL, BARREL_ENERGY] -= energy * slope * (mass_rate - 2.0 * mass * speed * c.barrel_area / now.volume_2)
    moving_rate = share * mass_rate + mass * slope * speed
    out[BALL_SPEED, BARREL_ENERGY] -= c.gas_inertia * speed * moving_rate + energy * mass * slope


@compiled
def _ball(c: Constants, mode: Mode, s: Vector, now: Moment, out: Vector, forces: Vector) -> None:
    """The moving ball: motion and losses by everything that changes push, moved mass or the mound's force."""
    speed = now.ball_speed
    travel = s[BALL_TRAVEL]
    ahead = c.travel - travel
    drag = c.column_drag_per_length * abs(speed)
    force = now.air_2.pressure * c.barrel_area
    lip_slope = lip_force_slope(c, travel) * mode.direction
    ball_motion(c, mode, s, now.air_2.pressure, forces)

    # The floor's friction: it follows the nub, and on the way back the sign of the slip, rounded off.
    floor_by_travel = 0.0
    floor_by_slip = 0.0
    if mode.hop != HOP_OFF:
        sign = 1.0
        if mode.direction < 0.0:
            sign = math.tanh((speed + c.ball_radius * s[BALL_SPIN]) / c.stiction_speed)
            floor_by_slip = c.floor_friction * nub_force(c, travel) * (1.0 - sign * sign) / c.stiction_speed
        floor_by_travel = c.floor_friction * nub_force_slope(c, travel) * sign

    push_by_travel = drag * speed - lip_slope - force * c.barrel_area / now.volume_2
    mass_by_travel = c.gas_inertia * s[BARREL_MASS] * moving_gas_share_slope(c, travel) - c.column_mass_per_length
    mass_by_mass = c.gas_inertia * moving_gas_share(c, travel)
    _respond(c, mode, s, BARREL_ENERGY, Change(force / s[BARREL_ENERGY], 0.0, 0.0), forces, out)
    _respond(c, mode, s, BARREL_MASS, Change(0.0, 0.0, mass_by_mass), forces, out)
    _respond(c, mode, s, BALL_TRAVEL, Change(push_by_travel, floor_by_travel, mass_by_travel), forces, out)
    _respond(c, mode, s, BALL_SPEED, Change(-2.0 * drag * ahead, floor_by_slip, 0.0), forces, out)
    _respond(c, mode, s, BALL_SPIN, Change(0.0, floor_by_slip * c.ball_radius, 0.0), forces, out)

    out[BALL_SPEED, BALL_TRAVEL] = 1.0
    out[BALL_SPEED, BORE_WORK] = c.bore_friction * mode.direction
    out[BALL_SPEED, JET_ENERGY] = 3.0 * c.jet * speed * speed
    out[BALL_TRAVEL, COLUMN_WORK] = -drag * speed * speed
    out[BALL_SPEED, COLUMN_WORK] = 3.0 * drag * ahead * speed
    out[BALL_TRAVEL, HOP_WORK] += lip_slope * speed
    out[BALL_SPEED, HOP_WORK] += forces[2] + forces[3] + forces[4]
    out[BALL_SPIN, HOP_WORK] += c.ball_radius * (forces[3] - forces[2])


class Change(NamedTuple):
    """What one entry of the state changes in the ball's balance of forces, for one unit of it."""

    push: float
    floor: float
    mass: float


@compiled
def _respond(c: Constants, mode: Mode, s: Vector, column: int, change: Change, forces: Vector, out: Vector) -> None:
    """Write one column of the ball's accelerations and of the hop-up's loss, the top friction following the rest."""
    mass = moved_mass(c, s[BALL_TRAVEL], s[BARREL_MASS])
    top = 0.0
    if mode.hop == HOP_SLIPS and column == BALL_TRAVEL:
        top = c.top_friction * nub_force_slope(c, s[BALL_TRAVEL]) * mode.slip
    elif mode.hop == HOP_GRIPS:
        per_mass = c.ball_radius * c.ball_radius / c.ball_inertia
        leverage = mass * per_mass
        more_mass = change.mass * per_mass
        top = (change.push + change.floor * (leverage - 1.0) + (forces[3] - forces[2]) * more_mass) / (leverage + 1.0)
    rolled = c.ball_radius * s[BALL_SPIN]
    out[column, BALL_SPEED] = (change.push - top - change.floor - forces[0] * change.mass) / mass
    out[column, BALL_SPIN] = c.ball_radius * (top - change.floor) / c.ball_inertia
    out[column, HOP_WORK] = top * (s[BALL_SPEED] - rolled) + change.floor * (s[BALL_SPEED] + rolled)
