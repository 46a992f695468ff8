"""The shot as a stiff initial-value problem: rates, guards, what each event does, and the loop. Knows no Python objects.

State: nine dynamic entries, then thirteen integrals, whose rates close the energy ledger and the mass balance. What holds
between two events (piston moving or home, ball seated, moving or gone, rubber gripping or slipping) is the *mode*.
"""

from __future__ import annotations

import math

import numpy as np

from stripdown.core.interior_ballistics.flows import (
    barrel_heat_flow,
    barrel_volume,
    cylinder_heat_flow,
    cylinder_volume,
    holding_force,
    lip_force,
    moving_gas_share,
    nub_force,
    passage_flow,
    port_conductance,
    seal_friction,
    spring_force,
)
from stripdown.core.numerics import stiff
from stripdown.core.numerics.compiled import compiled

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

MODE = np.dtype(
    [
        ("piston", np.int64),
        ("ball", np.int64),
        ("hop", np.int64),
        ("direction", np.float64),  # of the ball: +1 to the muzzle
        ("slip", np.float64),  # sign of the slip under the mound
        ("edge_side", np.float64, (6,)),  # +1 while the seal is short of the edge, -1 beyond, 0 without a port
        ("slam_loss", np.float64),
        ("blast", np.float64),
        ("landings", np.int64),
        ("rested", np.int64),
        ("turns", np.int64),
    ],
    align=True,
)


@compiled
def ball_motion(c, mode, s, barrel_pressure, out):  # type: ignore[no-untyped-def]
    """Accelerations of the moving ball and the forces on it.

    Writes acceleration, spin acceleration, top friction, floor friction, lip force, column drag into ``out``.
    """
    travel = s[BALL_TRAVEL]
    speed = s[BALL_SPEED]
    ahead = c.travel - travel
    mass = (
        c.ball_mass
        + c.gas_inertia * s[BARREL_MASS] * moving_gas_share(c, travel)
        + c.column_mass_per_length * ahead
    )
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
            leverage = c.ball_radius * c.ball_radius / c.ball_inertia
            top = (push / mass + floor * (leverage - 1.0 / mass)) / (leverage + 1.0 / mass)
    out[0] = (push - top - floor) / mass
    out[1] = c.ball_radius * (top - floor) / c.ball_inertia
    out[2] = top
    out[3] = floor
    out[4] = lip
    out[5] = column


@compiled
def rates(c, mode, s, out, forces):  # type: ignore[no-untyped-def]
    """Time derivatives of the state and its integrals, and nothing else. ``forces`` is scratch of length six."""
    travel = s[PISTON_TRAVEL]
    piston_speed = s[PISTON_SPEED]
    volume_1 = cylinder_volume(c, travel)
    volume_2 = barrel_volume(c, s[BALL_TRAVEL])
    density_1 = s[CYLINDER_MASS] / volume_1
    density_2 = s[BARREL_MASS] / volume_2
    pressure_1 = (c.heat_capacity_ratio - 1.0) * s[CYLINDER_ENERGY] / volume_1
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / volume_2
    temperature_1 = pressure_1 / (density_1 * c.gas_constant)
    temperature_2 = pressure_2 / (density_2 * c.gas_constant)
    root_1 = math.sqrt(max(temperature_1, 1.0))
    root_2 = math.sqrt(max(temperature_2, 1.0))
    outside = c.ambient_pressure
    root_outside = math.sqrt(c.ambient_temperature)
    ball_speed = s[BALL_SPEED] if mode.ball == BALL_MOVES else 0.0

    # Passages: positive out of the volume named first.
    nozzle = passage_flow(c, c.nozzle, c.nozzle.conductance, pressure_1, root_1, pressure_2, root_2)
    leak = passage_flow(c, c.cylinder_leak, c.cylinder_leak.conductance, pressure_1, root_1, outside, root_outside)
    port = passage_flow(c, c.port, port_conductance(c, mode.edge_side, travel), pressure_1, root_1, outside, root_outside)
    vent = 0.0
    if pressure_1 < outside:
        vent = passage_flow(c, c.vent, c.vent.conductance, pressure_1, root_1, outside, root_outside)
    lip = passage_flow(c, c.lip, c.lip.conductance, pressure_2, root_2, outside, root_outside)
    annulus = 0.0
    muzzle = 0.0
    if mode.ball == BALL_GONE:
        muzzle = passage_flow(c, c.muzzle, c.muzzle.conductance, pressure_2, root_2, outside, root_outside)
    elif mode.ball != BALL_SEATED:
        annulus = passage_flow(c, c.annulus, c.annulus.conductance, pressure_2, root_2, outside, root_outside)

    # Enthalpies carried; each flow takes that of the side it comes from, the column's motion included.
    cp = c.heat_capacity_pressure
    column_energy = 0.5 * c.gas_inertia * ball_speed * ball_speed
    enthalpy_1 = cp * temperature_1
    enthalpy_2 = cp * temperature_2
    enthalpy_outside = cp * c.ambient_temperature
    nozzle_out = max(nozzle, 0.0)
    nozzle_back = max(-nozzle, 0.0)
    out_1 = max(leak, 0.0) + max(port, 0.0)
    in_1 = max(-leak, 0.0) + max(-port, 0.0) - vent
    out_2 = max(lip, 0.0) + max(annulus, 0.0) + max(muzzle, 0.0)
    in_2 = max(-lip, 0.0) + max(-annulus, 0.0) + max(-muzzle, 0.0)

    heat_1 = cylinder_heat_flow(c, travel, piston_speed, pressure_1, density_1, temperature_1)
    gas_speed = 0.5 * ball_speed
    if mode.ball == BALL_GONE:
        gas_speed = muzzle / (density_2 * c.barrel_area)
    heat_2 = barrel_heat_flow(c, gas_speed, volume_2, density_2, temperature_2)

    # Mass of the two volumes, and of what went outside.
    mass_rate_1 = in_1 - out_1 - nozzle
    mass_rate_2 = in_2 - out_2 + nozzle
    out[CYLINDER_MASS] = mass_rate_1
    out[BARREL_MASS] = mass_rate_2
    out[MASS_LOST] = out_1 + out_2 - in_1 - in_2

    # First law. What moves with the ball must be brought to the column's energy; what leaves takes it along.
    if c.one_volume == 0:
        brought_to_speed = (in_2 + nozzle_out) * column_energy
    else:
        swept = c.barrel_area * s[BALL_TRAVEL]
        share = swept / volume_2
        share_rate = c.barrel_area * c.barrel_dead_volume / (volume_2 * volume_2) * ball_speed
        moving_rate = share * mass_rate_2 + s[BARREL_MASS] * share_rate
        brought_to_speed = (moving_rate + out_2 + nozzle_back) * column_energy
    nozzle_enthalpy = nozzle_out * enthalpy_1 - nozzle_back * enthalpy_2
    out[CYLINDER_ENERGY] = (
        in_1 * enthalpy_outside
        - out_1 * enthalpy_1
        - nozzle_enthalpy
        + nozzle_back * column_energy
        + pressure_1 * c.cylinder_area * piston_speed
        - heat_1
    )
    out[BARREL_ENERGY] = (
        in_2 * enthalpy_outside
        - out_2 * enthalpy_2
        + nozzle_enthalpy
        - brought_to_speed
        - pressure_2 * c.barrel_area * ball_speed
        - heat_2
    )

    # Piston.
    friction = seal_friction(c, piston_speed, pressure_1)
    out[PISTON_TRAVEL] = piston_speed
    if mode.piston == PISTON_MOVES:
        push = spring_force(c, travel) - (pressure_1 - outside) * c.cylinder_area
        out[PISTON_SPEED] = (push - friction) / c.moving_mass
    else:
        out[PISTON_SPEED] = 0.0
    out[SEAL_WORK] = friction * piston_speed

    # Ball.
    if mode.ball == BALL_MOVES:
        ball_motion(c, mode, s, pressure_2, forces)
        rolled = c.ball_radius * s[BALL_SPIN]
        out[BALL_TRAVEL] = ball_speed
        out[BALL_SPEED] = forces[0]
        out[BALL_SPIN] = forces[1]
        out[BORE_WORK] = c.bore_friction * mode.direction * ball_speed
        out[HOP_WORK] = (
            forces[2] * (ball_speed - rolled) + forces[3] * (ball_speed + rolled) + forces[4] * ball_speed
        )
        out[COLUMN_WORK] = forces[5] * ball_speed
        out[JET_ENERGY] = c.jet * ball_speed * ball_speed * ball_speed
    else:
        for i in range(BALL_TRAVEL, DYNAMIC):
            out[i] = 0.0
        for i in range(BORE_WORK, CYLINDER_HEAT):
            out[i] = 0.0

    # What leaves the ledger as heat and as blown-out air, over the datum of still ambient air.
    out[CYLINDER_HEAT] = heat_1
    out[BARREL_HEAT] = heat_2
    above_1 = enthalpy_1 - enthalpy_outside
    above_2 = enthalpy_2 - enthalpy_outside + column_energy
    out[LEAK_ENTHALPY] = max(leak, 0.0) * above_1
    out[PORT_ENTHALPY] = max(port, 0.0) * above_1
    out[LIP_ENTHALPY] = max(lip, 0.0) * above_2
    out[ANNULUS_ENTHALPY] = max(annulus, 0.0) * above_2
    out[MUZZLE_ENTHALPY] = max(muzzle, 0.0) * above_2


@compiled
def guards(c, mode, s, out, forces):  # type: ignore[no-untyped-def]
    """Numbers that are negative until their event; those that cannot happen in this mode are -1."""
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
        out[BALL_STOPS] = -s[BALL_SPEED] * mode.direction
        if mode.direction < 0.0:
            out[BALL_RETURNS] = -travel
        if mode.hop == HOP_GRIPS:
            ball_motion(c, mode, s, pressure_2, forces)
            out[BALL_SLIPS] = abs(forces[2]) - c.top_friction * nub_force(c, travel)
        elif mode.hop == HOP_SLIPS:
            out[BALL_GRIPS] = -mode.slip * (s[BALL_SPEED] - c.ball_radius * s[BALL_SPIN])
        if mode.hop != HOP_OFF:
            out[PATCH_ENDS] = travel - c.patch_length


@compiled
def act(c, mode, s, event, forces):  # type: ignore[no-untyped-def]
    """Do what an event does to mode and state; return the longest step to go on with, in s."""
    if event == PISTON_LANDS:
        return _land(c, mode, s)
    if event == PISTON_LIFTS:
        mode.piston = PISTON_MOVES
        return 1e-6
    if PORT_EDGES <= event < BALL_STARTS:
        mode.edge_side[event - PORT_EDGES] *= -1.0
    elif event in (BALL_STARTS, BALL_STARTS_AGAIN):
        _start_ball(c, mode, s, forces)
        return 1e-5
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
def _land(c, mode, s):  # type: ignore[no-untyped-def]
    """Piston on the head: rebound, or stay when the rebound is slow and the spring outweighs the air."""
    speed = s[PISTON_SPEED]
    rebound = c.restitution * speed
    s[PISTON_TRAVEL] = c.stroke
    mode.landings += 1
    pressure_1 = (c.heat_capacity_ratio - 1.0) * s[CYLINDER_ENERGY] / cylinder_volume(c, c.stroke)
    push = spring_force(c, c.stroke) - (pressure_1 - c.ambient_pressure) * c.cylinder_area
    if rebound < c.capture_speed and push > 0.0:
        rebound = 0.0
        mode.piston = PISTON_HOME
        mode.rested = 1
    s[PISTON_SPEED] = -rebound
    mode.slam_loss += 0.5 * c.moving_mass * (speed * speed - rebound * rebound)
    # A hop lasts 2·rebound/acceleration; begin well inside it so that its end cannot be stepped over.
    return 0.1 * rebound * c.moving_mass / max(abs(push) + c.seal_drag, 1e-9) + 1e-7


@compiled
def _start_ball(c, mode, s, forces):  # type: ignore[no-untyped-def]
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, s[BALL_TRAVEL])
    mode.direction = 1.0 if pressure_2 >= c.ambient_pressure else -1.0
    mode.ball = BALL_MOVES
    mode.hop = HOP_OFF
    if c.normal_force > 0.0 and s[BALL_TRAVEL] < c.patch_length:
        _grip_or_slip(c, mode, s, forces)


@compiled
def _grip_or_slip(c, mode, s, forces):  # type: ignore[no-untyped-def]
    """Let the mound grip if its friction can; else it slips towards the side that was too strong."""
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, s[BALL_TRAVEL])
    mode.hop = HOP_GRIPS
    ball_motion(c, mode, s, pressure_2, forces)
    if abs(forces[2]) >= c.top_friction * nub_force(c, s[BALL_TRAVEL]):
        mode.hop = HOP_SLIPS
        mode.slip = 1.0 if forces[2] >= 0.0 else -1.0


@compiled
def _stop_ball(c, mode, s, forces):  # type: ignore[no-untyped-def]
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
def _catch_ball(c, mode, s):  # type: ignore[no-untyped-def]
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
def start(c, mode, s, held, with_ball, piston_start_speed):  # type: ignore[no-untyped-def]
    """Both volumes at ambient pressure and wall temperature, piston drawn, ball on its seat (or none)."""
    for i in range(SIZE):
        s[i] = 0.0
    mode.piston = PISTON_HELD if held else PISTON_MOVES
    mode.ball = BALL_SEATED if with_ball else BALL_GONE
    mode.hop = HOP_OFF
    mode.direction = 1.0
    mode.slip = 1.0
    mode.slam_loss = 0.0
    mode.blast = 0.0
    mode.landings = 0
    mode.rested = 0
    mode.turns = 0
    s[PISTON_SPEED] = piston_start_speed
    if not with_ball:
        s[BALL_TRAVEL] = c.travel
    density = c.ambient_pressure / (c.gas_constant * c.wall_temperature)
    s[CYLINDER_MASS] = density * cylinder_volume(c, 0.0)
    s[BARREL_MASS] = density * barrel_volume(c, s[BALL_TRAVEL])
    s[CYLINDER_ENERGY] = s[CYLINDER_MASS] * c.heat_capacity_volume * c.wall_temperature
    s[BARREL_ENERGY] = s[BARREL_MASS] * c.heat_capacity_volume * c.wall_temperature
    _set_edges(c.port_1, mode, 0)
    _set_edges(c.port_2, mode, 2)
    _set_edges(c.port_3, mode, 4)


@compiled
def _set_edges(port, mode, at):  # type: ignore[no-untyped-def]
    """Both edges ahead of the drawn seal, a start at the seal already reached; a port that is not there has no edges."""
    present = port.conductance_per_length > 0.0
    mode.edge_side[at] = 0.0 if not present else (1.0 if port.start > 0.0 else -1.0)
    mode.edge_side[at + 1] = 0.0 if not present else (1.0 if port.end > 0.0 else -1.0)
