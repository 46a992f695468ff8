"""The shot as a stiff initial-value problem: rates, guards, what each event does, and the loop. Knows no Python objects.

State: nine dynamic entries, then thirteen integrals, whose rates close the energy ledger and the mass balance. What holds
between two events (piston moving or home, ball seated, moving or gone, rubber gripping or slipping) is the *mode*.
"""

from __future__ import annotations

import math
from typing import Annotated

from stripdown.core.interior_ballistics.flows import (
    Constants,
    Port,
    barrel_heat_conductance,
    barrel_volume,
    cylinder_heat_conductance,
    cylinder_volume,
    enclosed_gas,
    flow_per_conductance,
    gap_conductance,
    holding_force,
    lip_force,
    moved_mass,
    moving_gas_share,
    moving_gas_share_slope,
    nub_force,
    outside_gas,
    port_conductance,
    seal_friction,
    spring_force,
)
from stripdown.core.numerics.compiled import compiled, compiled_apart
from stripdown.core.numerics.rows import Fields, Shape, Vector, row_dtype

# The state.
PISTON_TRAVEL = 0
PISTON_SPEED = 1
CYLINDER_MASS = 2
CYLINDER_ENERGY = 3
BARREL_MASS = 4
BARREL_ENERGY = 5
BALL_TRAVEL = 6
BALL_SPEED = 7
BALL_SPIN = 8
DYNAMIC = 9
# The integrals: losses in J, and the air lost to the outside in kg.
SEAL_WORK = 9
BORE_WORK = 10
HOP_WORK = 11
COLUMN_WORK = 12
JET_ENERGY = 13
CYLINDER_HEAT = 14
BARREL_HEAT = 15
LEAK_ENTHALPY = 16
PORT_ENTHALPY = 17
LIP_ENTHALPY = 18
ANNULUS_ENTHALPY = 19
MUZZLE_ENTHALPY = 20
MASS_LOST = 21
SIZE = 22

# Guards, numbered as the events of `result.EventKind`.
PISTON_LANDS = 0
PISTON_LIFTS = 1
PORT_EDGES = 2  # six of them
BALL_STARTS = 8
BALL_GRIPS = 9
BALL_SLIPS = 10
PATCH_ENDS = 11
BALL_LEAVES = 12
BALL_STOPS = 13
BALL_STARTS_AGAIN = 14
BALL_RETURNS = 15
GUARDS = 16
REST_SPEED = 1e-3  # m/s; a ball that moves the other way this fast has stopped
REST_TRAVEL = 1e-6  # m; and one that is this far behind its seat has returned to it
PISTON_RESTS = 16  # happens inside PISTON_LANDS, so it needs no guard

PISTON_MOVES = 0
PISTON_HOME = 1
PISTON_HELD = 2

BALL_SEATED = 0
BALL_MOVES = 1
BALL_STOPPED = 2
BALL_GONE = 3

HOP_OFF = 0
HOP_GRIPS = 1
HOP_SLIPS = 2


class Mode(Fields):
    """What holds between two events, and what the events have left behind."""

    piston: int
    ball: int
    hop: int
    direction: float  # of the ball: +1 to the muzzle
    slip: float  # sign of the slip under the mound
    edge_side: Annotated[Vector, Shape((6,))]  # +1 while the seal is short of the edge, -1 beyond, 0 without a port
    slam_loss: float  # J
    blast: float  # J
    landings: int
    rested: int
    turns: int


MODE = row_dtype(Mode)
FORCES = 6  # room that `rates`, `guards` and `act` need to pass the ball's forces on


@compiled
def ball_motion(c: Constants, mode: Mode, s: Vector, barrel_pressure: float, out: Vector) -> None:
    """Accelerations of the moving ball and the forces on it.

    Writes acceleration, spin acceleration, top friction, floor friction, lip force, column drag into ``out``.
    """
    travel = s[BALL_TRAVEL]
    speed = s[BALL_SPEED]
    ahead = c.travel - travel
    mass = moved_mass(c, travel, s[BARREL_MASS])
    column = c.column_drag_per_length * ahead * speed * abs(speed)
    lip = lip_force(c, travel) * mode.direction
    push = (barrel_pressure - c.ambient_pressure) * c.barrel_area - c.bore_friction * mode.direction - column - lip
    top = 0.0
    floor = 0.0
    if mode.hop != HOP_OFF:
        nub = nub_force(c, travel)
        floor = c.floor_friction * nub
        if mode.direction < 0.0:
            floor *= math.tanh((speed + c.ball_radius * s[BALL_SPIN]) / c.stiction_speed)
        if mode.hop == HOP_SLIPS:
            top = c.top_friction * nub * mode.slip
        else:
            # Rolling under the mound: the friction that keeps spin and speed together.
            leverage = mass * c.ball_radius * c.ball_radius / c.ball_inertia
            top = (push + floor * (leverage - 1.0)) / (leverage + 1.0)
    out[0] = (push - top - floor) / mass
    out[1] = c.ball_radius * (top - floor) / c.ball_inertia
    out[2] = top
    out[3] = floor
    out[4] = lip
    out[5] = column


@compiled
def rates(c: Constants, mode: Mode, s: Vector, out: Vector, forces: Vector) -> None:
    """Time derivatives of the state and its integrals, and nothing else.

    Parameters
    ----------
    c, mode
        Rows of constants and mode.
    s
        State, shape (22,), SI.
    out
        Room for the rates, shape (22,), SI.
    forces
        Scratch, shape (6,), SI.
    """
    travel = s[PISTON_TRAVEL]
    piston_speed = s[PISTON_SPEED]
    ball_speed = s[BALL_SPEED] if mode.ball == BALL_MOVES else 0.0
    volume_2 = barrel_volume(c, s[BALL_TRAVEL])
    air_1 = enclosed_gas(c, s[CYLINDER_MASS], s[CYLINDER_ENERGY], cylinder_volume(c, travel))
    air_2 = enclosed_gas(c, s[BARREL_MASS], s[BARREL_ENERGY], volume_2)
    outside = outside_gas(c)

    # Passages: positive out of the volume named first.
    nozzle = c.nozzle_conductance * flow_per_conductance(c, c.nozzle, air_1, air_2)
    escape_1 = flow_per_conductance(c, c.leak, air_1, outside)
    escape_2 = flow_per_conductance(c, c.leak, air_2, outside)
    port = port_conductance(c, mode.edge_side, travel)
    front = front_conductance(c, mode, s[BALL_TRAVEL])
    flow_1 = (c.cylinder_leak + port) * escape_1
    if escape_1 < 0.0:
        flow_1 += c.vent * escape_1
    flow_2 = (c.lip + front) * escape_2

    # What each flow carries is that of the side it comes from; out of the barrel, the column's motion too.
    column_energy = 0.5 * c.gas_inertia * ball_speed * ball_speed
    enthalpy_outside = c.heat_capacity_pressure * outside.temperature
    enthalpy_1 = c.heat_capacity_pressure * air_1.temperature
    enthalpy_2 = c.heat_capacity_pressure * air_2.temperature + column_energy
    carried = enthalpy_1 if nozzle >= 0.0 else enthalpy_2
    carried_1 = enthalpy_1 if escape_1 >= 0.0 else enthalpy_outside
    carried_2 = enthalpy_2 if escape_2 >= 0.0 else enthalpy_outside

    # Mass of the two volumes, what of it is set in motion behind the ball, and what went outside.
    mass_rate_2 = nozzle - flow_2
    share_rate = moving_gas_share_slope(c, s[BALL_TRAVEL]) * ball_speed
    moving_rate = moving_gas_share(c, s[BALL_TRAVEL]) * mass_rate_2 + s[BARREL_MASS] * share_rate
    out[CYLINDER_MASS] = -flow_1 - nozzle
    out[BARREL_MASS] = mass_rate_2
    out[MASS_LOST] = flow_1 + flow_2

    # First law: enthalpy carried, work, heat; and what is set in motion must be brought to the column's energy.
    gas_speed = 0.5 * ball_speed
    if mode.ball == BALL_GONE:
        gas_speed = c.muzzle * escape_2 / (air_2.density * c.barrel_area)
    heat_1 = cylinder_heat_conductance(c, travel, piston_speed, air_1) * (air_1.temperature - c.wall_temperature)
    heat_2 = barrel_heat_conductance(c, gas_speed, volume_2, air_2) * (air_2.temperature - c.wall_temperature)
    out[CYLINDER_ENERGY] = -flow_1 * carried_1 - nozzle * carried + air_1.pressure * c.cylinder_area * piston_speed - heat_1
    work = air_2.pressure * c.barrel_area * ball_speed
    out[BARREL_ENERGY] = nozzle * carried - flow_2 * carried_2 - moving_rate * column_energy - work - heat_2

    _motion(c, mode, s, air_1.pressure, air_2.pressure, out, forces)

    # What leaves the ledger as heat and as blown-out air, over the datum of still ambient air.
    out[CYLINDER_HEAT] = heat_1
    out[BARREL_HEAT] = heat_2
    above_1 = max(escape_1, 0.0) * (enthalpy_1 - enthalpy_outside)
    above_2 = max(escape_2, 0.0) * (enthalpy_2 - enthalpy_outside)
    out[LEAK_ENTHALPY] = c.cylinder_leak * above_1
    out[PORT_ENTHALPY] = port * above_1
    out[LIP_ENTHALPY] = c.lip * above_2
    out[ANNULUS_ENTHALPY] = front * above_2 if mode.ball != BALL_GONE else 0.0
    out[MUZZLE_ENTHALPY] = front * above_2 if mode.ball == BALL_GONE else 0.0


@compiled
def _motion(
    c: Constants, mode: Mode, s: Vector, cylinder_pressure: float, barrel_pressure: float, out: Vector, forces: Vector
) -> None:
    """Rates of piston and ball, and of what resists them."""
    piston_speed = s[PISTON_SPEED]
    friction = seal_friction(c, piston_speed, cylinder_pressure)
    out[PISTON_TRAVEL] = piston_speed
    out[PISTON_SPEED] = 0.0
    if mode.piston == PISTON_MOVES:
        push = spring_force(c, s[PISTON_TRAVEL]) - (cylinder_pressure - c.ambient_pressure) * c.cylinder_area
        out[PISTON_SPEED] = (push - friction) / c.moving_mass
    out[SEAL_WORK] = friction * piston_speed

    ball_speed = s[BALL_SPEED]
    if mode.ball == BALL_MOVES:
        ball_motion(c, mode, s, barrel_pressure, forces)
        rolled = c.ball_radius * s[BALL_SPIN]
        out[BALL_TRAVEL] = ball_speed
        out[BALL_SPEED] = forces[0]
        out[BALL_SPIN] = forces[1]
        out[BORE_WORK] = c.bore_friction * mode.direction * ball_speed
        out[HOP_WORK] = forces[2] * (ball_speed - rolled) + forces[3] * (ball_speed + rolled) + forces[4] * ball_speed
        out[COLUMN_WORK] = forces[5] * ball_speed
        out[JET_ENERGY] = c.jet * ball_speed * ball_speed * ball_speed
    else:
        for i in range(BALL_TRAVEL, DYNAMIC):
            out[i] = 0.0
        for i in range(BORE_WORK, CYLINDER_HEAT):
            out[i] = 0.0


@compiled
def front_conductance(c: Constants, mode: Mode, ball_travel: float) -> float:
    """What lets air out to the front: nothing round a seated ball, else the gap that the lips leave, or the open muzzle."""
    if mode.ball == BALL_SEATED:
        return 0.0
    return c.muzzle if mode.ball == BALL_GONE else gap_conductance(c, ball_travel)


@compiled
def guards(c: Constants, mode: Mode, s: Vector, out: Vector, forces: Vector) -> None:
    """Numbers that are negative until their event; those that cannot happen in this mode are -1.

    Parameters
    ----------
    c, mode
        Rows of constants and mode.
    s
        State, shape (22,), SI.
    out
        Room for the guards, shape (16,): positions in m, speeds in m/s, forces in N.
    forces
        Scratch, shape (6,), SI.
    """
    for i in range(GUARDS):
        out[i] = -1.0
    travel = s[PISTON_TRAVEL]
    if mode.piston == PISTON_MOVES:
        out[PISTON_LANDS] = travel - c.stroke
    elif mode.piston == PISTON_HOME:
        pressure_1 = (c.heat_capacity_ratio - 1.0) * s[CYLINDER_ENERGY] / cylinder_volume(c, travel)
        lift = (pressure_1 - c.ambient_pressure) * c.cylinder_area
        out[PISTON_LIFTS] = lift - spring_force(c, travel) - c.seal_drag
    if mode.piston != PISTON_HELD:
        out[PORT_EDGES] = (travel - c.port_1.start) * mode.edge_side[0]
        out[PORT_EDGES + 1] = (travel - c.port_1.end) * mode.edge_side[1]
        out[PORT_EDGES + 2] = (travel - c.port_2.start) * mode.edge_side[2]
        out[PORT_EDGES + 3] = (travel - c.port_2.end) * mode.edge_side[3]
        out[PORT_EDGES + 4] = (travel - c.port_3.start) * mode.edge_side[4]
        out[PORT_EDGES + 5] = (travel - c.port_3.end) * mode.edge_side[5]
    if mode.ball == BALL_GONE:
        return
    travel = s[BALL_TRAVEL]
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, travel)
    push = (pressure_2 - c.ambient_pressure) * c.barrel_area
    if mode.ball == BALL_SEATED:
        out[BALL_STARTS] = push - holding_force(c, travel)
    elif mode.ball == BALL_STOPPED:
        out[BALL_STARTS_AGAIN] = abs(push) - holding_force(c, travel)
    else:
        out[BALL_LEAVES] = travel - c.travel
        # A guard that starts at zero cannot cross it: a ball sets out from rest and from its seat, so these start a trifle below.
        out[BALL_STOPS] = -s[BALL_SPEED] * mode.direction - REST_SPEED
        out[BALL_RETURNS] = -travel - REST_TRAVEL
        if mode.hop == HOP_GRIPS:
            ball_motion(c, mode, s, pressure_2, forces)
            out[BALL_SLIPS] = abs(forces[2]) - c.top_friction * nub_force(c, travel)
        elif mode.hop == HOP_SLIPS:
            out[BALL_GRIPS] = -mode.slip * (s[BALL_SPEED] - c.ball_radius * s[BALL_SPIN])
        if mode.hop != HOP_OFF:
            out[PATCH_ENDS] = travel - c.patch_length


@compiled_apart
def act(c: Constants, mode: Mode, s: Vector, event: int, forces: Vector) -> float:
    """Do what an event does to mode and state.

    Parameters
    ----------
    c, mode
        Rows of constants and mode; the mode is changed.
    s
        State, shape (22,), SI; changed where something jumps.
    event
        Number of its guard.
    forces
        Scratch, shape (6,), SI.

    Returns
    -------
    float
        Longest step to go on with, in s.
    """
    if event == PISTON_LANDS:
        return _land(c, mode, s)
    if event == PISTON_LIFTS:
        mode.piston = PISTON_MOVES
        return 1e-6
    if PORT_EDGES <= event < BALL_STARTS:
        mode.edge_side[event - PORT_EDGES] *= -1.0
    elif event in (BALL_STARTS, BALL_STARTS_AGAIN):
        _start_ball(c, mode, s, forces)
        return 3e-5
    elif event == BALL_GRIPS and mode.hop == HOP_SLIPS:
        s[BALL_SPIN] = s[BALL_SPEED] / c.ball_radius
        _grip_or_slip(c, mode, s, forces)
    elif event == BALL_SLIPS and mode.hop == HOP_GRIPS:
        _grip_or_slip(c, mode, s, forces)
    elif event == PATCH_ENDS:
        mode.hop = HOP_OFF
    elif event == BALL_LEAVES:
        moving = c.gas_inertia * s[BARREL_MASS] * moving_gas_share(c, s[BALL_TRAVEL])
        mode.blast = 0.5 * moving * s[BALL_SPEED] ** 2
        mode.ball = BALL_GONE
        mode.hop = HOP_OFF
        return 1e-6
    elif event == BALL_STOPS and mode.ball == BALL_MOVES:
        _stop_ball(c, mode, s, forces)
    elif event == BALL_RETURNS and mode.ball == BALL_MOVES:
        _catch_ball(c, mode, s)
    return 1e30


@compiled
def _land(c: Constants, mode: Mode, s: Vector) -> float:
    """Piston on the head: rebound, or stay when the rebound is slow and the spring outweighs the air."""
    speed: float = s[PISTON_SPEED]
    rebound = c.restitution * speed
    s[PISTON_TRAVEL] = c.stroke
    mode.landings += 1
    pressure_1 = (c.heat_capacity_ratio - 1.0) * s[CYLINDER_ENERGY] / cylinder_volume(c, c.stroke)
    push: float = spring_force(c, c.stroke) - (pressure_1 - c.ambient_pressure) * c.cylinder_area
    if rebound < c.capture_speed and push > 0.0:
        rebound = 0.0
        mode.piston = PISTON_HOME
        mode.rested = 1
    s[PISTON_SPEED] = -rebound
    mode.slam_loss += 0.5 * c.moving_mass * (speed * speed - rebound * rebound)
    # A hop lasts 2·rebound/acceleration; begin well inside it so that its end cannot be stepped over, however short it is.
    inside = 0.1 * rebound * c.moving_mass / max(abs(push) + c.seal_drag, 1e-9)
    hops = mode.piston == PISTON_MOVES and push > 0.0
    # A piston at rest, or one that the air carries off, does not come back at once: there only no step at all would be wrong.
    return inside if hops else max(inside, 1e-7)


@compiled
def _start_ball(c: Constants, mode: Mode, s: Vector, forces: Vector) -> None:
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, s[BALL_TRAVEL])
    mode.direction = 1.0 if pressure_2 >= c.ambient_pressure else -1.0
    mode.ball = BALL_MOVES
    mode.hop = HOP_OFF
    if c.normal_force > 0.0 and s[BALL_TRAVEL] < c.patch_length:
        _grip_or_slip(c, mode, s, forces)


@compiled
def _grip_or_slip(c: Constants, mode: Mode, s: Vector, forces: Vector) -> None:
    """Let the mound grip if its friction can; else it slips towards the side that was too strong."""
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, s[BALL_TRAVEL])
    mode.hop = HOP_GRIPS
    ball_motion(c, mode, s, pressure_2, forces)
    if abs(forces[2]) >= c.top_friction * nub_force(c, s[BALL_TRAVEL]):
        mode.hop = HOP_SLIPS
        mode.slip = 1.0 if forces[2] >= 0.0 else -1.0


@compiled
def _stop_ball(c: Constants, mode: Mode, s: Vector, forces: Vector) -> None:
    """Ball at rest in the barrel: it stays, or the pressure difference takes it the other way at once."""
    s[BALL_SPEED] = 0.0
    mode.ball = BALL_STOPPED
    mode.hop = HOP_OFF
    mode.turns += 1
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, s[BALL_TRAVEL])
    push = (pressure_2 - c.ambient_pressure) * c.barrel_area
    if abs(push) > holding_force(c, s[BALL_TRAVEL]):
        _start_ball(c, mode, s, forces)


@compiled
def _catch_ball(c: Constants, mode: Mode, s: Vector) -> None:
    """Ball sucked back onto its seat: the rubber takes its energy, the gas keeps that of its own motion as heat."""
    squared = s[BALL_SPEED] ** 2
    s[HOP_WORK] += 0.5 * c.ball_mass * squared + 0.5 * c.ball_inertia * s[BALL_SPIN] ** 2
    s[JET_ENERGY] += 0.5 * c.column_mass_per_length * (c.travel - s[BALL_TRAVEL]) * squared
    s[BARREL_ENERGY] += 0.5 * c.gas_inertia * s[BARREL_MASS] * moving_gas_share(c, s[BALL_TRAVEL]) * squared
    s[BALL_SPEED] = 0.0
    s[BALL_SPIN] = 0.0
    s[BALL_TRAVEL] = 0.0
    mode.ball = BALL_SEATED
    mode.hop = HOP_OFF


@compiled
def start(c: Constants, mode: Mode, s: Vector, held: int, with_ball: int, piston_start_speed: float) -> None:
    """Both volumes at ambient pressure and wall temperature, piston drawn, ball on its seat (or none).

    Parameters
    ----------
    c, mode
        Rows of constants and mode; the mode is filled.
    s
        Room for the state, shape (22,), SI.
    held
        1 if the piston is held for good, else 0.
    with_ball
        1 if there is a ball, else 0.
    piston_start_speed
        In m/s.
    """
    for i in range(SIZE):
        s[i] = 0.0
    mode.piston = PISTON_HELD if held != 0 else PISTON_MOVES
    mode.ball = BALL_SEATED if with_ball != 0 else BALL_GONE
    mode.hop = HOP_OFF
    mode.direction = 1.0
    mode.slip = 1.0
    mode.slam_loss = 0.0
    mode.blast = 0.0
    mode.landings = 0
    mode.rested = 0
    mode.turns = 0
    s[PISTON_SPEED] = piston_start_speed
    if with_ball == 0:
        s[BALL_TRAVEL] = c.travel
    density = c.ambient_pressure / (c.gas_constant * c.wall_temperature)
    s[CYLINDER_MASS] = density * cylinder_volume(c, 0.0)
    s[BARREL_MASS] = density * barrel_volume(c, s[BALL_TRAVEL])
    s[CYLINDER_ENERGY] = s[CYLINDER_MASS] * c.heat_capacity_volume * c.wall_temperature
    s[BARREL_ENERGY] = s[BARREL_MASS] * c.heat_capacity_volume * c.wall_temperature
    _set_edges(c.port_1, mode, 0, piston_start_speed)
    _set_edges(c.port_2, mode, 2, piston_start_speed)
    _set_edges(c.port_3, mode, 4, piston_start_speed)


@compiled
def _set_edges(port: Port, mode: Mode, at: int, speed: float) -> None:
    """Both edges ahead of the drawn seal; a port that is not there has no edges.

    A start at the drawn seal is already reached, unless the piston goes back behind it first.
    """
    present = port.conductance_per_length > 0.0
    mode.edge_side[at] = 0.0 if not present else (1.0 if port.start > 0.0 or speed < 0.0 else -1.0)
    mode.edge_side[at + 1] = 0.0 if not present else (1.0 if port.end > 0.0 else -1.0)
