"""The figures of one shot, as they are taken down while it runs: one row each in a batch. No Python objects."""

from __future__ import annotations

from stripdown.core.interior_ballistics.flows import Constants, barrel_volume, cylinder_volume, moving_gas_share
from stripdown.core.interior_ballistics.kernel import (
    ANNULUS_ENTHALPY,
    BALL_GONE,
    BALL_LEAVES,
    BALL_MOVES,
    BALL_SPEED,
    BALL_SPIN,
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
    HOP_WORK,
    JET_ENERGY,
    LEAK_ENTHALPY,
    LIP_ENTHALPY,
    MASS_LOST,
    MUZZLE_ENTHALPY,
    PISTON_LANDS,
    PISTON_SPEED,
    PISTON_TRAVEL,
    PORT_ENTHALPY,
    SEAL_WORK,
    Mode,
)
from stripdown.core.numerics import stiff
from stripdown.core.numerics.compiled import compiled, compiled_apart
from stripdown.core.numerics.rows import Fields, Vector, row_dtype


class Settings(Fields):
    """How a shot is to be run."""

    tolerance: float
    most_steps: int
    until_muzzle: int
    with_ball: int
    piston_held: int
    one_volume: int
    reservoir_pressure: float  # Pa
    reservoir_temperature: float  # K


SETTINGS = row_dtype(Settings)

# Numbered as `result.Outcome`.
LEFT_MUZZLE = 0
STAYED_IN_BARREL = 1
DID_NOT_MOVE = 2
TIMED_OUT = 3
NO_BALL = 4

NEVER = -1.0  # the time of an event that did not happen
_CREEPS = 0.05  # m/s
_LOOKS_INSIDE = 16


class Summary(Fields):
    """What one shot leaves in a batch; times in s are `NEVER` where the event did not happen, the ledger is in J."""

    code: int
    outcome: int
    muzzle_speed: float
    backspin: float
    time_to_muzzle: float
    time_to_slam: float
    time_to_rest: float
    peak_pressure: float
    peak_temperature: float
    slam_speed: float
    gas_behind_ball: float
    pressure_behind_ball: float
    temperature_behind_ball: float
    initial_mass: float
    final_mass: float
    mass_lost: float
    # the ledger
    spring_work: float
    start_energy: float
    ball_flight: float
    ball_spin: float
    piston_motion: float
    slam: float
    seal_drag: float
    bore_friction: float
    hop_up: float
    air_ahead_drag: float
    air_ahead_motion: float
    blast: float
    cylinder_heat: float
    barrel_heat: float
    blown_out: float
    left_in_air: float
    leaked_at_cylinder: float
    leaked_at_port: float
    leaked_at_lip: float
    leaked_past_ball: float
    leaked_at_muzzle: float
    # the integration
    steps: int
    rejected: int
    evaluations: int
    end_time: float


SUMMARY = row_dtype(Summary)


@compiled_apart
def open_summary(c: Constants, s: Vector, summary: Summary) -> None:
    """Nothing has happened yet; what the air holds at the start is kept in its entry until the end."""
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


@compiled_apart
def note_peaks(c: Constants, work: stiff.Workspace, summary: Summary) -> None:
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
    pressed = peak > max(before, after) and peak > 0.99 * summary.peak_pressure
    warmed = warm_peak > max(warm_before, warm_after) and warm_peak > 0.99 * summary.peak_temperature
    if pressed or warmed:
        for k in range(1, _LOOKS_INSIDE):
            stiff.interpolate(work, k / _LOOKS_INSIDE, work.point)
            inside, warm_inside = _pressure_and_temperature(c, work.point)
            summary.peak_pressure = max(summary.peak_pressure, inside)
            summary.peak_temperature = max(summary.peak_temperature, warm_inside)
    summary.peak_pressure = max(summary.peak_pressure, after)
    summary.peak_temperature = max(summary.peak_temperature, warm_after)


@compiled
def note_event(c: Constants, work: stiff.Workspace, event: int, summary: Summary) -> None:
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


@compiled_apart
def close_summary(c: Constants, mode: Mode, work: stiff.Workspace, settings: Settings, summary: Summary) -> None:
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
    summary.blown_out = s[LEAK_ENTHALPY] + s[PORT_ENTHALPY] + s[LIP_ENTHALPY] + s[ANNULUS_ENTHALPY] + s[MUZZLE_ENTHALPY]
    summary.left_in_air += _air_energy(c, s)
    summary.final_mass = s[CYLINDER_MASS] + s[BARREL_MASS]
    summary.mass_lost = s[MASS_LOST]
    summary.steps = work.steps
    summary.rejected = work.rejected
    summary.evaluations = work.evaluations
    summary.end_time = work.time
    summary.outcome = _outcome(mode, s, settings)


@compiled
def _parabola_peak(start_value: float, start_rise: float, end_value: float) -> float:
    """Height of the parabola with this start, initial rise and end, if its top lies inside."""
    bend = end_value - start_value - start_rise
    if start_rise > 0.0 and bend < 0.0 and start_rise < -2.0 * bend:
        return start_value - 0.25 * start_rise * start_rise / bend
    return max(start_value, end_value)


@compiled
def _outcome(mode: Mode, s: Vector, settings: Settings) -> int:
    if settings.with_ball == 0:
        return NO_BALL
    if mode.ball == BALL_GONE:
        return LEFT_MUZZLE
    creeps = abs(s[PISTON_SPEED]) < _CREEPS
    if mode.ball == BALL_MOVES or not creeps:
        return TIMED_OUT
    return STAYED_IN_BARREL if mode.ball == BALL_STOPPED or s[BALL_TRAVEL] > 0.0 else DID_NOT_MOVE


@compiled
def _pressure_and_temperature(c: Constants, s: Vector) -> tuple[float, float]:
    pressure = (c.heat_capacity_ratio - 1.0) * s[CYLINDER_ENERGY] / cylinder_volume(c, s[PISTON_TRAVEL])
    return pressure, s[CYLINDER_ENERGY] / (s[CYLINDER_MASS] * c.heat_capacity_volume)


@compiled
def _air_energy(c: Constants, s: Vector) -> float:
    """Energy of the air inside over still ambient air: U + p_a V − m c_p T_a, both volumes, in J."""
    volume = cylinder_volume(c, s[PISTON_TRAVEL]) + barrel_volume(c, s[BALL_TRAVEL])
    mass: float = s[CYLINDER_MASS] + s[BARREL_MASS]
    inner: float = s[CYLINDER_ENERGY] + s[BARREL_ENERGY]
    return inner + c.ambient_pressure * volume - mass * c.heat_capacity_pressure * c.ambient_temperature
