"""The loop that answers the integrator's questions for a shot, notes what happened, and batches of shots. No Python objects."""

from __future__ import annotations

import math

import numpy as np

from stripdown.core.interior_ballistics.flows import (
    barrel_volume,
    cylinder_volume,
    holding_force,
    moving_gas_share,
    prepare,
)
from stripdown.core.interior_ballistics.kernel import (
    ANNULUS_ENTHALPY,
    BALL_GONE,
    BALL_LEAVES,
    BALL_MOVES,
    BALL_SEATED,
    BALL_SPEED,
    BALL_SPIN,
    BALL_STARTS,
    BALL_STOPPED,
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
    GUARDS,
    HOP_WORK,
    JET_ENERGY,
    LEAK_ENTHALPY,
    LIP_ENTHALPY,
    MUZZLE_ENTHALPY,
    PISTON_HELD,
    PISTON_HOME,
    PISTON_LANDS,
    PISTON_RESTS,
    PISTON_SPEED,
    PISTON_TRAVEL,
    PORT_ENTHALPY,
    SEAL_WORK,
    SIZE,
    act,
    guards,
    rates,
    start,
)
from stripdown.core.numerics import stiff
from stripdown.core.numerics.compiled import compiled

LEFT_MUZZLE = 0
STAYED_IN_BARREL = 1
DID_NOT_MOVE = 2
TIMED_OUT = 3
NO_BALL = 4

MOST_STEPS = 20_000
MOST_EVENTS = 400
MOST_TURNS = 100
SAMPLES_PER_STEP = 4
NEVER = -1.0

# What one shot leaves in a batch: times are NEVER (-1) where the event did not happen.
SUMMARY = np.dtype(
    [
        ("code", np.int64),
        ("outcome", np.int64),
        ("muzzle_speed", np.float64),
        ("backspin", np.float64),
        ("time_to_muzzle", np.float64),
        ("time_to_slam", np.float64),
        ("time_to_rest", np.float64),
        ("peak_pressure", np.float64),
        ("peak_temperature", np.float64),
        ("slam_speed", np.float64),
        ("gas_behind_ball", np.float64),
        ("pressure_behind_ball", np.float64),
        ("temperature_behind_ball", np.float64),
        ("initial_mass", np.float64),
        ("final_mass", np.float64),
        ("mass_lost", np.float64),
        # the ledger
        ("spring_work", np.float64),
        ("start_energy", np.float64),
        ("ball_flight", np.float64),
        ("ball_spin", np.float64),
        ("piston_motion", np.float64),
        ("slam", np.float64),
        ("seal_drag", np.float64),
        ("bore_friction", np.float64),
        ("hop_up", np.float64),
        ("air_ahead_drag", np.float64),
        ("air_ahead_motion", np.float64),
        ("blast", np.float64),
        ("cylinder_heat", np.float64),
        ("barrel_heat", np.float64),
        ("blown_out", np.float64),
        ("left_in_air", np.float64),
        ("leaked_at_cylinder", np.float64),
        ("leaked_at_port", np.float64),
        ("leaked_at_lip", np.float64),
        ("leaked_past_ball", np.float64),
        ("leaked_at_muzzle", np.float64),
        ("steps", np.int64),
        ("rejected", np.int64),
        ("evaluations", np.int64),
        ("end_time", np.float64),
    ],
    align=True,
)

# How a shot is to be run.
SETTINGS = np.dtype(
    [
        ("tolerance", np.float64),
        ("most_steps", np.int64),
        ("until_muzzle", np.int64),
        ("with_ball", np.int64),
        ("piston_held", np.int64),
        ("one_volume", np.int64),
        ("reservoir_pressure", np.float64),
        ("reservoir_temperature", np.float64),
    ],
    align=True,
)

# Columns of the Jacobian that share no row carry one colour and are shifted together: piston travel with spin.
_COLOUR = np.array([0, 1, 2, 3, 4, 5, 6, 7, 0])
_PATTERN = np.zeros((DYNAMIC, SIZE))
_CYLINDER_ROWS = [CYLINDER_MASS, CYLINDER_ENERGY, CYLINDER_HEAT, LEAK_ENTHALPY, PORT_ENTHALPY]
_BARREL_ROWS = [BARREL_MASS, BARREL_ENERGY, BARREL_HEAT, LIP_ENTHALPY, ANNULUS_ENTHALPY, MUZZLE_ENTHALPY]
_EXCHANGED = [CYLINDER_MASS, CYLINDER_ENERGY, BARREL_MASS, BARREL_ENERGY]
_MASS_LOST = SIZE - 1
for _column, _rows in (
    (PISTON_TRAVEL, [PISTON_SPEED, *_CYLINDER_ROWS, *_EXCHANGED, SEAL_WORK, _MASS_LOST]),
    (PISTON_SPEED, [PISTON_TRAVEL, PISTON_SPEED, CYLINDER_ENERGY, CYLINDER_HEAT, SEAL_WORK]),
    (CYLINDER_MASS, [*_CYLINDER_ROWS, *_EXCHANGED, _MASS_LOST]),
    (CYLINDER_ENERGY, [PISTON_SPEED, *_CYLINDER_ROWS, *_EXCHANGED, SEAL_WORK, _MASS_LOST]),
    (BARREL_MASS, [*_BARREL_ROWS, *_EXCHANGED, BALL_SPEED, BALL_SPIN, HOP_WORK, _MASS_LOST]),
    (BARREL_ENERGY, [*_BARREL_ROWS, *_EXCHANGED, BALL_SPEED, BALL_SPIN, HOP_WORK, _MASS_LOST]),
    (BALL_TRAVEL, [*_BARREL_ROWS, *_EXCHANGED, BALL_SPEED, BALL_SPIN, HOP_WORK, COLUMN_WORK, _MASS_LOST]),
    (
        BALL_SPEED,
        [BALL_TRAVEL, BALL_SPEED, BALL_SPIN, CYLINDER_ENERGY, *_BARREL_ROWS, BORE_WORK, HOP_WORK, COLUMN_WORK, JET_ENERGY],
    ),
    (BALL_SPIN, [BALL_SPEED, BALL_SPIN, HOP_WORK]),
):
    _PATTERN[_column, _rows] = 1.0


@compiled
def begin_shot(p, c, mode, work, settings):  # type: ignore[no-untyped-def]
    """Work out the constants and fill mode and workspace for one shot: start state, scales, sparsity, limits."""
    prepare(p, c)
    c.one_volume = settings.one_volume
    if settings.one_volume != 0:
        c.nozzle.conductance = 0.0
    start(c, mode, work.state, settings.piston_held != 0, settings.with_ball != 0, p.piston_start_speed)
    if settings.piston_held != 0:
        _fill_reservoir(c, work.state, settings)
    for j in range(DYNAMIC):
        work.colour[j] = _COLOUR[j]
        for i in range(SIZE):
            work.pattern[j, i] = _PATTERN[j, i]
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
    work.scale[_MASS_LOST] = work.state[CYLINDER_MASS] + work.state[BARREL_MASS]
    work.time = 0.0
    work.end_time = p.laws.longest_time
    work.tolerance = settings.tolerance
    work.most_steps = settings.most_steps
    stiff.begin(work, 1e-6)


@compiled
def _fill_reservoir(c, s, settings):  # type: ignore[no-untyped-def]
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
def _pressure_and_temperature(c, s):  # type: ignore[no-untyped-def]
    pressure = (c.heat_capacity_ratio - 1.0) * s[CYLINDER_ENERGY] / cylinder_volume(c, s[PISTON_TRAVEL])
    return pressure, s[CYLINDER_ENERGY] / (s[CYLINDER_MASS] * c.heat_capacity_volume)


@compiled
def _note_peaks(c, work, summary):  # type: ignore[no-untyped-def]
    """Keep the highest pressure and temperature in the cylinder; look inside a step only where a peak can be."""
    before, warm_before = _pressure_and_temperature(c, work.old_state)
    after, warm_after = _pressure_and_temperature(c, work.state)
    step = work.time - work.old_time
    volume = cylinder_volume(c, work.old_state[PISTON_TRAVEL])
    energy_rate = work.rate[CYLINDER_ENERGY] / work.old_state[CYLINDER_ENERGY]
    pressure_rise = step * before * (energy_rate + c.cylinder_area * work.old_state[PISTON_SPEED] / volume)
    warm_rise = step * warm_before * (energy_rate - work.rate[CYLINDER_MASS] / work.old_state[CYLINDER_MASS])
    peak = _parabola_peak(before, pressure_rise, after)
    warm_peak = _parabola_peak(warm_before, warm_rise, warm_after)
    if peak > max(before, after) and peak > 0.99 * summary.peak_pressure or (
        warm_peak > max(warm_before, warm_after) and warm_peak > 0.99 * summary.peak_temperature
    ):
        samples = 16
        for k in range(1, samples):
            stiff.interpolate(work, k / samples, work.point)
            inside, warm_inside = _pressure_and_temperature(c, work.point)
            summary.peak_pressure = max(summary.peak_pressure, inside)
            summary.peak_temperature = max(summary.peak_temperature, warm_inside)
    summary.peak_pressure = max(summary.peak_pressure, after)
    summary.peak_temperature = max(summary.peak_temperature, warm_after)


@compiled
def _parabola_peak(start_value, start_rise, end_value):  # type: ignore[no-untyped-def]
    """Height of the parabola with this start, initial rise and end, if its top lies inside."""
    bend = end_value - start_value - start_rise
    if start_rise > 0.0 and bend < 0.0 and start_rise < -2.0 * bend:
        return start_value - 0.25 * start_rise * start_rise / bend
    return max(start_value, end_value)


@compiled
def _note_event(c, mode, work, event, summary):  # type: ignore[no-untyped-def]
    """Take down what an event means for the summary, before it acts."""
    s = work.state
    if event == PISTON_LANDS:
        if summary.time_to_slam == NEVER:
            summary.time_to_slam = work.time
            summary.slam_speed = s[PISTON_SPEED]
    elif event == BALL_LEAVES:
        summary.time_to_muzzle = work.time
        summary.muzzle_speed = s[BALL_SPEED]
        summary.backspin = s[BALL_SPIN]
        summary.gas_behind_ball = s[BARREL_MASS]
        summary.pressure_behind_ball = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, s[BALL_TRAVEL])
        summary.temperature_behind_ball = s[BARREL_ENERGY] / (s[BARREL_MASS] * c.heat_capacity_volume)


@compiled
def _is_over(c, mode, s):  # type: ignore[no-untyped-def]
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
def _record(work, at, time, s, trace):  # type: ignore[no-untyped-def]
    trace[at, 0] = time
    for i in range(SIZE):
        trace[at, i + 1] = s[i]
    return at + 1


@compiled
def _happen(happened, at, event, time):  # type: ignore[no-untyped-def]
    """Note an event while there is room; a piston that never stops bouncing must not stop the run."""
    if at < happened.shape[0]:
        happened[at, 0] = event
        happened[at, 1] = time
        return at + 1
    return at


@compiled
def run_shot(p, c, mode, work, settings, summary, trace, happened, forces):  # type: ignore[no-untyped-def]
    """Run one shot; return how many rows of ``trace`` and of ``happened`` (event, time) were filled.

    A trace of length 0 records nothing; one that is too short ends the shot with the code for too many steps.
    """
    begin_shot(p, c, mode, work, settings)
    _open_summary(c, work.state, summary)
    recorded = 0
    events = 0
    tracing = trace.shape[0] > 0
    if tracing:
        recorded = _record(work, recorded, 0.0, work.state, trace)
    if settings.piston_held == 0 and spring_cannot_move(c):
        mode.piston = PISTON_HOME
        work.state[PISTON_SPEED] = 0.0
        _close_summary(c, mode, work, settings, summary, stiff.END_REACHED)
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
        if code == stiff.WANTS_GUARDS:
            guards(c, mode, work.point, work.guard, forces)
            continue
        if code != stiff.STEP_ACCEPTED and code != stiff.EVENT_REACHED:
            break
        _note_peaks(c, work, summary)
        if tracing:
            if recorded + SAMPLES_PER_STEP + 1 >= trace.shape[0]:
                code = stiff.TOO_MANY_STEPS
                break
            step = work.time - work.old_time
            for k in range(1, SAMPLES_PER_STEP):
                part = k / SAMPLES_PER_STEP
                stiff.interpolate(work, part, work.point)
                recorded = _record(work, recorded, work.old_time + part * step, work.point, trace)
            recorded = _record(work, recorded, work.time, work.state, trace)
        if code == stiff.STEP_ACCEPTED:
            continue
        step_limit = 1e30
        for event in range(GUARDS):
            if work.hit[event] == 0:
                continue
            _note_event(c, mode, work, event, summary)
            step_limit = min(step_limit, act(c, mode, work.state, event, forces))
            events = _happen(happened, events, event, work.time)
        if mode.rested == 1:
            mode.rested = 2
            summary.time_to_rest = work.time
            events = _happen(happened, events, PISTON_RESTS, work.time)
        if tracing:
            recorded = _record(work, recorded, work.time, work.state, trace)
        if settings.until_muzzle != 0 and mode.ball == BALL_GONE:
            break
        if _is_over(c, mode, work.state):
            break
        stiff.resume(work, step_limit)
    _close_summary(c, mode, work, settings, summary, code)
    return recorded, events


@compiled
def spring_cannot_move(c):  # type: ignore[no-untyped-def]
    """Whether the ring holds the drawn piston against the spring."""
    return c.spring_rate * c.drawn_compression <= c.seal_drag


@compiled
def _is_free(c, mode, s):  # type: ignore[no-untyped-def]
    """Whether the seated ball is already pushed harder than it is held, or just so and the push is growing."""
    if mode.ball != BALL_SEATED:
        return False
    pressure_1 = (c.heat_capacity_ratio - 1.0) * s[CYLINDER_ENERGY] / cylinder_volume(c, s[PISTON_TRAVEL])
    pressure_2 = (c.heat_capacity_ratio - 1.0) * s[BARREL_ENERGY] / barrel_volume(c, s[BALL_TRAVEL])
    spare = (pressure_2 - c.ambient_pressure) * c.barrel_area - holding_force(c, s[BALL_TRAVEL])
    return spare > 0.0 or (spare == 0.0 and pressure_1 > pressure_2)


@compiled
def _open_summary(c, s, summary):  # type: ignore[no-untyped-def]
    summary.muzzle_speed = 0.0
    summary.backspin = 0.0
    summary.time_to_muzzle = NEVER
    summary.time_to_slam = NEVER
    summary.time_to_rest = NEVER
    summary.slam_speed = 0.0
    summary.gas_behind_ball = 0.0
    summary.pressure_behind_ball = 0.0
    summary.temperature_behind_ball = 0.0
    pressure, temperature = _pressure_and_temperature(c, s)
    summary.peak_pressure = pressure
    summary.peak_temperature = temperature
    summary.initial_mass = s[CYLINDER_MASS] + s[BARREL_MASS]
    # Kept until the end: what the air held at the start, over the datum.
    summary.left_in_air = -_air_energy(c, s)
    summary.start_energy = 0.5 * c.moving_mass * s[PISTON_SPEED] ** 2


@compiled
def _air_energy(c, s):  # type: ignore[no-untyped-def]
    """Energy of the air inside over still ambient air: U + p_a V − m c_p T_a, both volumes, in J."""
    volume = cylinder_volume(c, s[PISTON_TRAVEL]) + barrel_volume(c, s[BALL_TRAVEL])
    mass = s[CYLINDER_MASS] + s[BARREL_MASS]
    inner = s[CYLINDER_ENERGY] + s[BARREL_ENERGY]
    return inner + c.ambient_pressure * volume - mass * c.heat_capacity_pressure * c.ambient_temperature


@compiled
def _close_summary(c, mode, work, settings, summary, code):  # type: ignore[no-untyped-def]
    """Outcome, ledger and counts from the last state."""
    s = work.state
    ahead = c.travel - s[BALL_TRAVEL]
    squared = s[BALL_SPEED] ** 2
    compression = c.drawn_compression - s[PISTON_TRAVEL]
    summary.spring_work = 0.5 * c.spring_rate * (c.drawn_compression**2 - compression**2)
    summary.ball_flight = 0.5 * c.ball_mass * squared
    summary.ball_spin = 0.5 * c.ball_inertia * s[BALL_SPIN] ** 2
    summary.piston_motion = 0.5 * c.moving_mass * s[PISTON_SPEED] ** 2
    summary.slam = mode.slam_loss
    summary.seal_drag = s[SEAL_WORK]
    summary.bore_friction = s[BORE_WORK]
    summary.hop_up = s[HOP_WORK]
    summary.air_ahead_drag = s[COLUMN_WORK]
    summary.air_ahead_motion = s[JET_ENERGY]
    summary.blast = mode.blast
    if mode.ball != BALL_GONE:
        summary.air_ahead_motion += 0.5 * c.column_mass_per_length * ahead * squared
        summary.blast = 0.5 * c.gas_inertia * s[BARREL_MASS] * moving_gas_share(c, s[BALL_TRAVEL]) * squared
    summary.cylinder_heat = s[CYLINDER_HEAT]
    summary.barrel_heat = s[BARREL_HEAT]
    summary.leaked_at_cylinder = s[LEAK_ENTHALPY]
    summary.leaked_at_port = s[PORT_ENTHALPY]
    summary.leaked_at_lip = s[LIP_ENTHALPY]
    summary.leaked_past_ball = s[ANNULUS_ENTHALPY]
    summary.leaked_at_muzzle = s[MUZZLE_ENTHALPY]
    summary.blown_out = (
        s[LEAK_ENTHALPY] + s[PORT_ENTHALPY] + s[LIP_ENTHALPY] + s[ANNULUS_ENTHALPY] + s[MUZZLE_ENTHALPY]
    )
    summary.left_in_air += _air_energy(c, s)
    summary.final_mass = s[CYLINDER_MASS] + s[BARREL_MASS]
    summary.mass_lost = s[_MASS_LOST]
    summary.steps = work.steps
    summary.rejected = work.rejected
    summary.evaluations = work.evaluations
    summary.end_time = work.time
    summary.code = code
    summary.outcome = _outcome(mode, s, settings)


@compiled
def _outcome(mode, s, settings):  # type: ignore[no-untyped-def]
    if settings.with_ball == 0:
        return NO_BALL
    if mode.ball == BALL_GONE:
        return LEFT_MUZZLE
    creeps = abs(s[PISTON_SPEED]) < 0.05
    if mode.ball == BALL_MOVES or not creeps:
        return TIMED_OUT
    return STAYED_IN_BARREL if mode.ball == BALL_STOPPED or s[BALL_TRAVEL] > 0.0 else DID_NOT_MOVE


@compiled
def run_shots(rows, settings, constants, modes, works, summaries, first, last):  # type: ignore[no-untyped-def]
    """Run the shots of rows ``first`` to ``last`` without traces, on one thread's own scratch (one row each)."""
    trace = np.empty((0, SIZE + 1))
    happened = np.empty((0, 2))
    forces = np.empty(6)
    for i in range(first, last):
        run_shot(rows[i], constants[0], modes[0], works[0], settings[0], summaries[i], trace, happened, forces)
