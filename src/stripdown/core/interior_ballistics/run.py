"""The loop that answers the integrator's questions for a shot, and batches of shots. No Python objects."""

from __future__ import annotations

import math

import numpy as np

from stripdown.core.interior_ballistics.flows import Constants, barrel_volume, cylinder_volume, holding_force, prepare
from stripdown.core.interior_ballistics.jacobian import jacobian
from stripdown.core.interior_ballistics.kernel import (
    BALL_GONE,
    BALL_MOVES,
    BALL_SEATED,
    BALL_SPEED,
    BALL_SPIN,
    BALL_STARTS,
    BALL_TRAVEL,
    BARREL_ENERGY,
    BARREL_MASS,
    CYLINDER_ENERGY,
    CYLINDER_MASS,
    DYNAMIC,
    FORCES,
    GUARDS,
    MASS_LOST,
    PISTON_HELD,
    PISTON_HOME,
    PISTON_RESTS,
    PISTON_SPEED,
    PISTON_TRAVEL,
    SEAL_WORK,
    SIZE,
    Mode,
    act,
    guards,
    rates,
    start,
)
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.summary import (
    NEVER,
    Settings,
    Summary,
    close_summary,
    note_event,
    note_peaks,
    open_summary,
)
from stripdown.core.numerics import stiff
from stripdown.core.numerics.compiled import compiled, compiled_apart
from stripdown.core.numerics.rows import Rows, Vector

# Errors of steps add up: each may be this share of what is promised for the shot.
_STEP_SHARE = 0.3
MOST_STEPS = 20_000
MOST_EVENTS = 400
MOST_TURNS = 100
SAMPLES_PER_STEP = 4
_FIRST_STEP = 1e-5  # s
IMPOSSIBLE = 8
"""Code of a shot whose state left what a gun can be; it stands beside those of `stiff`."""
_BESIDE = 1e-3  # of the stroke or the barrel: the integrator may stand so far beside an end


@compiled_apart
def begin_shot(p: ShotParameters, c: Constants, mode: Mode, work: stiff.Workspace, settings: Settings) -> None:
    """Work out the constants and fill mode and workspace for one shot: start state, scales, limits.

    Parameters
    ----------
    p
        Row of parameters.
    c, mode, work
        Rows to fill.
    settings
        Row of settings.
    """
    prepare(p, c)
    c.one_volume = settings.one_volume
    if settings.one_volume != 0:
        c.nozzle_conductance = 0.0
    start(c, mode, work.state, settings.piston_held, settings.with_ball, p.piston_start_speed)
    if settings.piston_held != 0:
        _fill_reservoir(c, work.state, settings)
    _set_scales(c, work, settings)
    work.own_jacobian = 1
    work.time = 0.0
    work.end_time = p.laws.longest_time
    work.tolerance = _STEP_SHARE * settings.tolerance
    work.most_steps = settings.most_steps
    stiff.begin(work, _FIRST_STEP)


@compiled
def _set_scales(c: Constants, work: stiff.Workspace, settings: Settings) -> None:
    """Sizes below which an entry of the state counts as small: parts of what the energy at hand could make of it."""
    energy = max(0.5 * c.spring_rate * (c.drawn_compression**2 - c.preload**2), 0.0)
    gas_1 = work.state[CYLINDER_ENERGY]
    gas_2 = work.state[BARREL_ENERGY]
    if settings.piston_held != 0:
        energy = gas_1 + gas_2
    fast = math.sqrt(2.0 * energy / c.moving_mass) if settings.piston_held == 0 else 1.0
    ball_fast = math.sqrt(2.0 * energy / (c.ball_mass + c.gas_inertia * (work.state[CYLINDER_MASS] + work.state[BARREL_MASS])))
    work.scale[PISTON_TRAVEL] = 0.2 * c.stroke + 1e-9
    work.scale[PISTON_SPEED] = 0.2 * fast + 1e-9
    work.scale[CYLINDER_MASS] = 0.1 * work.state[CYLINDER_MASS]
    work.scale[CYLINDER_ENERGY] = 0.1 * gas_1
    work.scale[BARREL_MASS] = 0.1 * work.state[BARREL_MASS] + 0.001 * work.state[CYLINDER_MASS]
    work.scale[BARREL_ENERGY] = 0.1 * gas_2 + 0.001 * gas_1
    work.scale[BALL_TRAVEL] = 0.1 * c.travel
    work.scale[BALL_SPEED] = 0.1 * ball_fast
    work.scale[BALL_SPIN] = 0.1 * ball_fast / c.ball_radius
    for i in range(DYNAMIC, SIZE):
        work.scale[i] = energy
    work.scale[MASS_LOST] = work.state[CYLINDER_MASS] + work.state[BARREL_MASS]


@compiled
def _fill_reservoir(c: Constants, s: Vector, settings: Settings) -> None:
    """Charge the reservoir: the cylinder's volume, or the barrel's own when both are one."""
    density = settings.reservoir_pressure / (c.gas_constant * settings.reservoir_temperature)
    specific = c.heat_capacity_volume * settings.reservoir_temperature
    s[CYLINDER_MASS] = density * cylinder_volume(c, 0.0)
    s[CYLINDER_ENERGY] = s[CYLINDER_MASS] * specific
    if settings.one_volume != 0:
        s[BARREL_MASS] = density * barrel_volume(c, 0.0)
        s[BARREL_ENERGY] = s[BARREL_MASS] * specific
    else:
        # Nothing can be empty: a vacuum behind the ball is a millionth of the reservoir's density.
        least = 1e-6 * density * barrel_volume(c, 0.0)
        if s[BARREL_MASS] < least:
            s[BARREL_MASS] = least
            s[BARREL_ENERGY] = least * specific


@compiled
def _is_over(c: Constants, mode: Mode, s: Vector) -> bool:
    """Nothing can move any more: piston home (or held), ball gone, or resting under too little pressure.

    A ball without friction swings on its cushion for ever; after so many turns it is left to it.
    """
    if mode.turns >= MOST_TURNS:
        return True
    if mode.piston != PISTON_HOME and mode.piston != PISTON_HELD:
        return False
    if mode.ball == BALL_GONE:
        return True
    if mode.ball == BALL_MOVES:
        return False
    pressure_1 = (c.heat_capacity_ratio - 1.0) * s[CYLINDER_ENERGY] / cylinder_volume(c, s[PISTON_TRAVEL])
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, s[BALL_TRAVEL])
    highest = max(pressure_1, pressure_2) if c.one_volume == 0 else pressure_2
    lowest = min(pressure_1, pressure_2) if c.one_volume == 0 else pressure_2
    hold = holding_force(c, s[BALL_TRAVEL])
    above = (highest - c.ambient_pressure) * c.barrel_area
    below = (c.ambient_pressure - lowest) * c.barrel_area
    return above <= hold and (mode.ball == BALL_SEATED or below <= hold)


@compiled
def _is_impossible(c: Constants, s: Vector) -> bool:
    """Whether a volume has no gas left or no room, or piston or ball stand where they cannot; also true of what is no number."""
    masses = s[CYLINDER_MASS] > 0.0 and s[BARREL_MASS] > 0.0
    energies = s[CYLINDER_ENERGY] > 0.0 and s[BARREL_ENERGY] > 0.0
    piston = -c.stroke < s[PISTON_TRAVEL] <= c.stroke * (1.0 + _BESIDE)
    ball = barrel_volume(c, s[BALL_TRAVEL]) > 0.0 and s[BALL_TRAVEL] <= c.travel * (1.0 + _BESIDE)
    return not (masses and energies and piston and ball)


@compiled
def _record(at: int, time: float, s: Vector, trace: Vector) -> int:
    trace[at, 0] = time
    for i in range(SIZE):
        trace[at, i + 1] = s[i]
    return at + 1


@compiled
def _record_step(at: int, work: stiff.Workspace, trace: Vector) -> int:
    for k in range(1, SAMPLES_PER_STEP):
        part = k / SAMPLES_PER_STEP
        stiff.interpolate(work, part, work.point)
        at = _record(at, work.old_time + part * (work.time - work.old_time), work.point, trace)
    return _record(at, work.time, work.state, trace)


@compiled
def _happen(happened: Vector, at: int, event: int, time: float) -> int:
    """Note an event while there is room; a piston that never stops bouncing must not stop the run."""
    if at < happened.shape[0]:
        happened[at, 0] = event
        happened[at, 1] = time
        return at + 1
    return at


@compiled_apart
def run_shot(
    p: ShotParameters,
    c: Constants,
    mode: Mode,
    work: stiff.Workspace,
    settings: Settings,
    summary: Summary,
    trace: Vector,
    happened: Vector,
    forces: Vector,
) -> tuple[int, int]:
    """Run one shot.

    Parameters
    ----------
    p, settings
        Rows of parameters and settings.
    c, mode, work, summary
        Rows to fill.
    trace
        Room for time and state, shape (n, 23), SI; with n = 0 nothing is recorded, and one that is too short ends the shot
        with the code for too many steps.
    happened
        Room for events and their times in s, shape (n, 2).
    forces
        Scratch, shape (6,), SI.

    Returns
    -------
    tuple of int
        How many rows of ``trace`` and of ``happened`` were filled.
    """
    begin_shot(p, c, mode, work, settings)
    open_summary(c, work.state, summary)
    recorded = 0
    events = 0
    tracing = trace.shape[0] > 0
    if tracing:
        recorded = _record(recorded, 0.0, work.state, trace)
    if settings.piston_held == 0 and _spring_cannot_move(c):
        mode.piston = PISTON_HOME
        # What the sector gear left in the piston is the ring's.
        work.state[SEAL_WORK] += 0.5 * c.moving_mass * work.state[PISTON_SPEED] ** 2
        work.state[PISTON_SPEED] = 0.0
        close_summary(c, mode, work, settings, summary)
        summary.code = stiff.END_REACHED
        summary.time_to_rest = NEVER
        return recorded, events
    if _is_free(c, mode, work.state):
        act(c, mode, work.state, BALL_STARTS, forces)
        events = _happen(happened, events, BALL_STARTS, 0.0)
    code = stiff.WANTS_RATES
    while True:
        code = stiff.advance(work)
        if code == stiff.WANTS_RATES:
            rates(c, mode, work.point, work.slope, forces)
            continue
        if code == stiff.WANTS_JACOBIAN:
            jacobian(c, mode, work.state, work.jacobian, forces)
            continue
        if code == stiff.WANTS_GUARDS:
            guards(c, mode, work.point, work.guard, forces)
            continue
        if code != stiff.STEP_ACCEPTED and code != stiff.EVENT_REACHED:
            break
        note_peaks(c, work, summary)
        if settings.piston_held == 0 and _is_impossible(c, work.state):
            code = IMPOSSIBLE
            break
        if tracing:
            if recorded + SAMPLES_PER_STEP + 1 >= trace.shape[0]:
                code = stiff.TOO_MANY_STEPS
                break
            recorded = _record_step(recorded, work, trace)
        if code == stiff.STEP_ACCEPTED:
            continue
        step_limit = 1e30
        for event in range(GUARDS):
            if work.hit[event] == 0:
                continue
            note_event(c, work, event, summary)
            step_limit = min(step_limit, act(c, mode, work.state, event, forces))
            events = _happen(happened, events, event, work.time)
        if mode.rested == 1:
            mode.rested = 2
            summary.time_to_rest = work.time
            events = _happen(happened, events, PISTON_RESTS, work.time)
        if tracing:
            recorded = _record(recorded, work.time, work.state, trace)
        if settings.until_muzzle != 0 and mode.ball == BALL_GONE:
            break
        if _is_over(c, mode, work.state):
            break
        stiff.resume(work, step_limit)
    close_summary(c, mode, work, settings, summary)
    summary.code = code
    return recorded, events


@compiled
def _spring_cannot_move(c: Constants) -> bool:
    """Whether the ring holds the drawn piston against the spring."""
    return c.spring_rate * c.drawn_compression <= c.seal_drag


@compiled
def _is_free(c: Constants, mode: Mode, s: Vector) -> bool:
    """Whether the seated ball is already pushed harder than it is held, or just so and the push is growing."""
    if mode.ball != BALL_SEATED:
        return False
    pressure_1 = (c.heat_capacity_ratio - 1.0) * s[CYLINDER_ENERGY] / cylinder_volume(c, s[PISTON_TRAVEL])
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, s[BALL_TRAVEL])
    spare: float = (pressure_2 - c.ambient_pressure) * c.barrel_area - holding_force(c, s[BALL_TRAVEL])
    return spare > 0.0 or (spare == 0.0 and pressure_1 > pressure_2)


@compiled
def run_shots(
    rows: Rows, settings: Rows, constants: Rows, modes: Rows, works: Rows, summaries: Rows, first: int, last: int
) -> None:
    """Run many shots without traces.

    Parameters
    ----------
    rows
        Parameters, shape (n,).
    settings
        Settings of them all, shape (1,).
    constants, modes, works
        Scratch of this thread, shape (1,).
    summaries
        Room for the figures, shape (n,).
    first, last
        Which rows to run: ``last`` is the first that is not.
    """
    trace = np.empty((0, SIZE + 1))
    happened = np.empty((0, 2))
    forces = np.empty(FORCES)
    for i in range(first, last):
        run_shot(rows[i], constants[0], modes[0], works[0], settings[0], summaries[i], trace, happened, forces)
