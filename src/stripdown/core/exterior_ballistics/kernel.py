"""The rates of a flight, and the loop that follows it to a distance or to the ground. No Python objects."""

from __future__ import annotations

import math
from typing import Final

from stripdown.core.exterior_ballistics.drag import GREATEST_MACH, drag_of_law, mach_factor
from stripdown.core.exterior_ballistics.lift import lift_of_law
from stripdown.core.exterior_ballistics.parameters import FlightParameters
from stripdown.core.exterior_ballistics.spin_decay import decay_of_law
from stripdown.core.numerics.compiled import compiled, compiled_apart
from stripdown.core.numerics.dormand_prince import STAGES, aim, error_of, next_step, stage_state
from stripdown.core.numerics.rows import Fields, Rows, Vector, row_dtype

X, Y, Z, SPEED_X, SPEED_Y, SPEED_Z, SPIN = range(7)
"""The state: position, velocity, and the share of the spin that is left."""
SIZE: Final = 7

# How a flight ended.
ARRIVED = 0
LANDED = 1
NEVER_ARRIVES = 2
TOO_MANY_STEPS = 3
TOO_FAST = 4

LONGEST: Final = 120.0
"""Seconds after which a flight is given up: no ball stays up so long."""
MOST_STEPS: Final = 100_000
_FIRST_STEP: Final = 1e-3  # s
_LEAST_STEP: Final = 1e-12  # s
_AIMS: Final = 40  # corrections of a step that is to end on a plane
_ON_IT: Final = 1e-11  # m


class FlightEnd(Fields):
    """Where a flight was followed to, and what it met on the way."""

    code: int
    time: float
    x: float
    y: float
    z: float
    speed_x: float
    speed_y: float
    speed_z: float
    spin: float
    steps: int
    rejected: int
    evaluations: int
    greatest_reynolds: float
    least_reynolds: float
    greatest_spin_ratio: float
    greatest_mach: float


FLIGHT_END = row_dtype(FlightEnd)


@compiled
def _wind_growth(p: FlightParameters, z: float) -> float:
    """Wind at a height over that where it was measured; asked only where there is any."""
    if (p.wind.along == 0.0 and p.wind.across == 0.0) or p.wind.exponent == 0.0:
        return 1.0
    growth: float = (max(z, 0.0) / p.wind.height) ** p.wind.exponent
    return growth


@compiled
def rates(p: FlightParameters, s: Vector, out: Vector) -> None:
    """How fast position, velocity and spin change; nothing else."""
    growth = _wind_growth(p, s[Z])
    u = s[SPEED_X] - p.wind.along * growth
    v = s[SPEED_Y] - p.wind.across * growth
    w = s[SPEED_Z]
    speed = math.sqrt(u * u + v * v + w * w)
    out[X] = s[SPEED_X]
    out[Y] = s[SPEED_Y]
    out[Z] = s[SPEED_Z]
    out[SPEED_X] = 0.0
    out[SPEED_Y] = 0.0
    out[SPEED_Z] = -p.laws.gravity
    out[SPIN] = 0.0
    radius = 0.5 * p.ball.diameter
    a, b, c = p.launch.spin_x * s[SPIN], p.launch.spin_y * s[SPIN], p.launch.spin_z * s[SPIN]
    turning = math.sqrt(a * a + b * b + c * c)
    if turning > 0.0:
        lost = decay_of_law(
            p.laws.spin_decay, p.laws.spin_torque, p.air.density, p.air.viscosity, radius, p.ball.mass, speed, turning
        )
        out[SPIN] = -lost * s[SPIN]
    if speed == 0.0 or p.air.density == 0.0:
        return
    reynolds = p.air.density * speed * p.ball.diameter / p.air.viscosity
    drag = p.laws.drag_factor * drag_of_law(p.laws.drag, p.laws.drag_coefficient, reynolds)
    if p.laws.with_mach_factor != 0:
        drag *= mach_factor(reynolds, speed / p.air.speed_of_sound)
    push = 0.5 * p.air.density * math.pi * radius * radius / p.ball.mass
    out[SPEED_X] -= push * drag * speed * u
    out[SPEED_Y] -= push * drag * speed * v
    out[SPEED_Z] -= push * drag * speed * w
    # Magnus: along spin × velocity, by the part of the spin that stands across the velocity.
    lift_x, lift_y, lift_z = b * w - c * v, c * u - a * w, a * v - b * u
    across = math.sqrt(lift_x * lift_x + lift_y * lift_y + lift_z * lift_z)
    if across == 0.0 or p.laws.lift == 0:
        return
    lift = p.laws.lift_factor * lift_of_law(p.laws.lift, p.laws.lift_coefficient, radius * across / (speed * speed), reynolds)
    pull = push * lift * speed * speed / across
    out[SPEED_X] += pull * lift_x
    out[SPEED_Y] += pull * lift_y
    out[SPEED_Z] += pull * lift_z


@compiled
def _note(p: FlightParameters, s: Vector, end: FlightEnd) -> None:
    """Keep the greatest and least numbers that the laws were asked for."""
    growth = _wind_growth(p, s[Z])
    u, v, w = s[SPEED_X] - p.wind.along * growth, s[SPEED_Y] - p.wind.across * growth, s[SPEED_Z]
    speed = math.sqrt(u * u + v * v + w * w)
    reynolds = p.air.density * speed * p.ball.diameter / p.air.viscosity
    end.greatest_reynolds = max(end.greatest_reynolds, reynolds)
    end.least_reynolds = min(end.least_reynolds, reynolds)
    end.greatest_mach = max(end.greatest_mach, speed / p.air.speed_of_sound)
    a, b, c = p.launch.spin_x * s[SPIN], p.launch.spin_y * s[SPIN], p.launch.spin_z * s[SPIN]
    across = math.sqrt((b * w - c * v) ** 2 + (c * u - a * w) ** 2 + (a * v - b * u) ** 2)
    if speed > 0.0:
        end.greatest_spin_ratio = max(end.greatest_spin_ratio, 0.5 * p.ball.diameter * across / (speed * speed))


@compiled
def _stages(p: FlightParameters, state: Vector, work: Vector, step: float, end: FlightEnd) -> float:
    """Take the stages of one step; its error as the greatest of all components, in m, m/s and shares."""
    for stage in range(1, STAGES):
        stage_state(state, work, step, stage, work[STAGES])
        rates(p, work[STAGES], work[stage])
    end.evaluations += STAGES - 1
    worst = 0.0
    for i in range(SIZE):
        scale = 10.0 if SPEED_X <= i <= SPEED_Z else 1.0  # of a flight of metres at tens of m/s
        size = max(abs(state[i]), abs(work[STAGES, i]), scale)
        worst = max(worst, abs(error_of(work, step, i)) / size)
    return worst


@compiled
def _keep(at: int, time: float, s: Vector, rate: Vector, nodes: Vector) -> int:
    if at < nodes.shape[0]:
        nodes[at, 0] = time
        for i in range(SIZE):
            nodes[at, 1 + i] = s[i]
            nodes[at, 1 + SIZE + i] = rate[i]
    return at + 1


@compiled_apart
def fly(
    p: FlightParameters,
    tolerance: float,
    distance: float,
    to_ground: int,
    state: Vector,
    work: Vector,
    end: FlightEnd,
    nodes: Vector,
) -> int:
    """Follow a flight until it meets the plane at a distance, or the ground; the number of nodes that it passed.

    ``state`` has shape (7,), ``work`` (8, 7): seven stages and a place to look at; ``nodes`` (n, 15): time, state, rates, or
    (0, 15) to keep none.
    """
    state[X], state[Y], state[Z] = p.launch.x, p.launch.y, p.launch.z
    state[SPEED_X], state[SPEED_Y], state[SPEED_Z] = p.launch.speed_x, p.launch.speed_y, p.launch.speed_z
    state[SPIN] = 1.0
    rates(p, state, work[0])
    end.code = TOO_MANY_STEPS
    end.evaluations = 1
    end.steps = 0
    end.rejected = 0
    end.least_reynolds = math.inf
    end.greatest_reynolds = 0.0
    end.greatest_spin_ratio = 0.0
    end.greatest_mach = 0.0
    _note(p, state, end)
    time = 0.0
    kept = _keep(0, time, state, work[0], nodes)
    step = _FIRST_STEP
    aimed = 0
    low = high = off_low = off_high = 0.0
    while end.steps + end.rejected < MOST_STEPS:
        if end.greatest_mach > GREATEST_MACH:
            end.code = TOO_FAST
            break
        error = _stages(p, state, work, step, end) / tolerance
        if not error <= 1.0 and step > _LEAST_STEP:  # also where it is no number
            end.rejected += 1
            step = next_step(step, error) if error > 1.0 else 0.1 * step
            continue
        # How far the end of the step lies beyond the plane; one that would pass it is taken again, shorter, until it ends there.
        beyond = -work[STAGES, Z] if to_ground else work[STAGES, X] - distance
        before = -state[Z] if to_ground else state[X] - distance
        if (beyond > _ON_IT and before < 0.0) or aimed > 0:
            if aimed == 0:
                low, off_low = 0.0, before
            if abs(beyond) > _ON_IT and aimed < _AIMS:
                if beyond > 0.0:
                    high, off_high = step, beyond
                else:
                    low, off_low = step, beyond
                aimed += 1
                step = aim(low, off_low, high, off_high, aimed)
                continue
        crosses = before < 0.0 and beyond >= -_ON_IT
        time += step
        for i in range(SIZE):
            state[i] = work[STAGES, i]
            work[0, i] = work[STAGES - 1, i]
        if crosses:
            state[Z if to_ground else X] = 0.0 if to_ground else distance  # it is within `_ON_IT` of it
        end.steps += 1
        kept = _keep(kept, time, state, work[0], nodes)
        _note(p, state, end)
        if crosses:
            end.code = LANDED if to_ground else ARRIVED
            break
        if time > LONGEST:
            end.code = NEVER_ARRIVES
            break
        step = next_step(step, error)
        aimed = 0
    end.time = time
    end.x, end.y, end.z = state[X], state[Y], state[Z]
    end.speed_x, end.speed_y, end.speed_z, end.spin = state[SPEED_X], state[SPEED_Y], state[SPEED_Z], state[SPIN]
    return kept


@compiled_apart
def fly_many(
    rows: Rows, tolerance: float, distance: float, to_ground: int, work: Vector, ends: Rows, nodes: Vector, first: int, last: int
) -> None:
    """Follow many flights, one row each; ``work`` has shape (9, 7)."""
    for one in range(first, last):
        fly(rows[one], tolerance, distance, to_ground, work[8], work[:8], ends[one], nodes)
