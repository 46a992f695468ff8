"""Stiff integration that stops exactly at events: a Rosenbrock method of order four, driven by questions.

The integrator owns one *workspace* (a structured row) and never calls the discipline. It asks: `advance` returns what it
wants next (rates at a point, guards at a point) or what happened (a step was accepted, an event was reached). The discipline
answers in the workspace and calls again. So one integrator serves every discipline without function arguments, which Numba
cannot keep in its cache, and without generated source.

Conventions. The state has ``n`` dynamic entries followed by ``q`` integrals, whose rates depend on the dynamic entries only:
the Jacobian has rows for both but columns for the dynamic ones, and the linear solve is of size ``n``. A *guard* is a number
that is negative until its event and reaches zero there; an inactive guard is any negative number. A step over which a guard
changes sign is cut there: its new end is the dense output at the event, and the guards that are not negative at that point
have *hit*. (Taking the shorter step anew instead was tried: half as many steps again for the same error.)

Method: RODAS of Hairer and Wanner (1996), six stages, L-stable, stiffly accurate, embedded error estimate, dense output of
order three. Jacobian by forward differences, columns that share no row taken together.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from stripdown.core.numerics.compiled import compiled
from stripdown.core.numerics.rows import Rows

# What `advance` returns.
WANTS_RATES = 0
WANTS_GUARDS = 1
STEP_ACCEPTED = 2
EVENT_REACHED = 3
END_REACHED = 4
TOO_MANY_STEPS = 5
STEP_TOO_SMALL = 6

# What the workspace was waiting for when `advance` last returned.
_RESTART = 0
_FIRST_RATES = 1
_FIRST_GUARDS = 2
_JACOBIAN = 3
_STAGE = 4
_END_GUARDS = 5
_DENSE_GUARDS = 6
_NEXT = 7

# Tableau in the transformed form of Hairer and Wanner, Solving Ordinary Differential Equations II, section IV.7 (RODAS).
_GAMMA = 0.25
_STAGES = 6
_POINT = np.zeros((_STAGES, _STAGES))
_POINT[1, 0] = 1.544
_POINT[2, :2] = (0.9466785280815826, 0.2557011698983284)
_POINT[3, :3] = (3.314825187068521, 2.896124015972201, 0.9986419139977817)
_POINT[4, :4] = (1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950)
_POINT[5, :5] = (*_POINT[4, :4], 1.0)
_COUPLING = np.zeros((_STAGES, _STAGES))
_COUPLING[1, 0] = -5.6688
_COUPLING[2, :2] = (-2.430093356833875, -0.2063599157091915)
_COUPLING[3, :3] = (-0.1073529058151375, -9.594562251023355, -20.47028614809616)
_COUPLING[4, :4] = (7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160)
_COUPLING[5, :5] = (8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054)
_DENSE = np.zeros((2, _STAGES))
_DENSE[0, :5] = (10.12623508344586, -7.487995877610167, -34.80091861555747, -7.992771707568823, 1.025137723295662)
_DENSE[1, :5] = (-0.6762803392801253, 6.087714651680015, 16.43084320892478, 24.76722511418386, -6.594389125716872)

_SAFETY = 0.9
_LARGEST_GROWTH = 5.0
_LARGEST_SHRINK = 0.2
_HOPELESS = 1e30
_DENSE_TRIALS = 60
_NARROWEST = 1e-14
# A step is cut on the far side of its event, within this part of the guard's size at the step's start, times tolerance.
_EVENT_PART = 0.5


def workspace(*, dynamic: int, integrals: int, guards: int) -> Rows:
    """Make an empty workspace.

    Parameters
    ----------
    dynamic
        Number of dynamic entries of the state.
    integrals
        Number of integrals that follow them.
    guards
        Number of guards.

    Returns
    -------
    numpy.ndarray
        Shape (1,), zeroed; its dtype carries the sizes, so machine code is made for them.
    """
    size = dynamic + integrals
    fields: list[tuple[str, type] | tuple[str, type, tuple[int, ...]]] = [
        # asked and answered
        ("point", np.float64, (size,)),
        ("slope", np.float64, (size,)),
        ("guard", np.float64, (guards,)),
        # where the integration stands
        ("time", np.float64),
        ("state", np.float64, (size,)),
        ("rate", np.float64, (size,)),
        ("hit", np.int64, (guards,)),
        # the step last accepted, for dense output
        ("old_time", np.float64),
        ("old_state", np.float64, (size,)),
        ("stage", np.float64, (_STAGES, size)),
        # settings
        ("end_time", np.float64),
        ("tolerance", np.float64),
        ("scale", np.float64, (size,)),
        ("most_steps", np.int64),
        ("colour", np.int64, (dynamic,)),
        ("pattern", np.float64, (dynamic, size)),
        # inner workings
        ("task", np.int64),
        ("count", np.int64),
        ("step", np.float64),
        ("next_step", np.float64),
        ("last_step", np.float64),
        ("last_error", np.float64),
        ("jacobian", np.float64, (dynamic, size)),  # by column, as are the factors: inner loops then run along memory
        ("shift", np.float64, (dynamic,)),
        ("factors", np.float64, (dynamic, dynamic)),
        ("pivot", np.int64, (dynamic,)),
        ("end_state", np.float64, (size,)),
        ("guard_start", np.float64, (guards,)),
        ("guard_end", np.float64, (guards,)),
        ("trial", np.int64),
        ("place", np.float64),
        ("low", np.float64),
        ("at_low", np.float64),
        ("high", np.float64),
        ("at_high", np.float64),
        ("side", np.int64),
        ("steps", np.int64),
        ("rejected", np.int64),
        ("evaluations", np.int64),
    ]
    return np.zeros(1, dtype=np.dtype(fields, align=True))


@compiled
def begin(work, first_step):  # type: ignore[no-untyped-def]
    """Prepare a workspace whose state, scale, settings and pattern have been filled in."""
    work.task = _RESTART
    work.next_step = first_step
    work.last_error = 0.0
    work.steps = 0
    work.rejected = 0
    work.evaluations = 0
    work.old_time = work.time
    for i in range(work.hit.shape[0]):
        work.hit[i] = 0


@compiled
def resume(work, first_step):  # type: ignore[no-untyped-def]
    """Go on after an event that changed the state or the equations, with a step of at most ``first_step``."""
    work.task = _RESTART
    work.last_error = 0.0
    work.next_step = min(work.next_step, first_step)


@compiled
def interpolate(work, part, out):  # type: ignore[no-untyped-def]
    """Write the state at ``part`` (0 to 1) of the last step, of which ``end_state`` or ``state`` is the end."""
    size = work.old_state.shape[0]
    rest = 1.0 - part
    for i in range(size):
        first = 0.0
        second = 0.0
        for j in range(5):
            first += _DENSE[0, j] * work.stage[j, i]
            second += _DENSE[1, j] * work.stage[j, i]
        out[i] = work.old_state[i] * rest + part * (work.end_state[i] + rest * (first + part * second))


@compiled
def advance(work):  # type: ignore[no-untyped-def]
    """Take the answer to the last question and go on to the next question or happening."""
    task = work.task
    if task == _STAGE:
        return _after_stage(work)
    if task == _JACOBIAN:
        return _after_jacobian_column(work)
    if task == _END_GUARDS:
        return _after_end_guards(work)
    if task == _NEXT:
        return _ask_rates_at_state(work)
    if task == _FIRST_RATES:
        return _after_first_rates(work)
    if task == _DENSE_GUARDS:
        return _after_dense_guards(work)
    if task == _FIRST_GUARDS:
        for i in range(work.guard.shape[0]):
            work.guard_start[i] = work.guard[i]
        return _ask_jacobian_column(work, 0)
    return _ask_rates_at_state(work)


@compiled
def _ask_rates_at_state(work):  # type: ignore[no-untyped-def]
    if work.time >= work.end_time:
        return END_REACHED
    if work.steps >= work.most_steps:
        return TOO_MANY_STEPS
    for i in range(work.state.shape[0]):
        work.point[i] = work.state[i]
    work.count = 1 if work.task == _RESTART else 0
    work.task = _FIRST_RATES
    work.evaluations += 1
    return WANTS_RATES


@compiled
def _after_first_rates(work):  # type: ignore[no-untyped-def]
    for i in range(work.state.shape[0]):
        work.rate[i] = work.slope[i]
    if work.count == 1:
        work.task = _FIRST_GUARDS
        return WANTS_GUARDS
    return _ask_jacobian_column(work, 0)


@compiled
def _ask_jacobian_column(work, colour):  # type: ignore[no-untyped-def]
    """Shift every dynamic entry of one colour; when there is none left, start the step."""
    dynamic = work.colour.shape[0]
    found = False
    for i in range(work.state.shape[0]):
        work.point[i] = work.state[i]
    for j in range(dynamic):
        if work.colour[j] == colour:
            found = True
            shifted = work.state[j] + 1.5e-8 * max(abs(work.state[j]), 0.01 * work.scale[j])
            work.shift[j] = shifted - work.state[j]
            work.point[j] = shifted
    if not found:
        work.step = min(work.next_step, work.end_time - work.time)
        return _start_step(work)
    work.task = _JACOBIAN
    work.count = colour
    work.evaluations += 1
    return WANTS_RATES


@compiled
def _after_jacobian_column(work):  # type: ignore[no-untyped-def]
    dynamic = work.colour.shape[0]
    for j in range(dynamic):
        if work.colour[j] == work.count:
            inverse = 1.0 / work.shift[j]
            for i in range(work.state.shape[0]):
                work.jacobian[j, i] = (work.slope[i] - work.rate[i]) * inverse * work.pattern[j, i]
    return _ask_jacobian_column(work, work.count + 1)


@compiled
def _start_step(work):  # type: ignore[no-untyped-def]
    """Factorise for this step length and solve the first stage, which needs no new rates."""
    if work.step <= 1e-15 * max(abs(work.time), 1e-6):
        return STEP_TOO_SMALL
    _factorise(work)
    for i in range(work.state.shape[0]):
        work.slope[i] = work.rate[i]
    _solve_stage(work, 0)
    return _ask_stage(work, 1)


@compiled
def _ask_stage(work, stage):  # type: ignore[no-untyped-def]
    size = work.state.shape[0]
    for i in range(size):
        work.point[i] = work.state[i]
    for j in range(stage):
        weight = _POINT[stage, j]
        for i in range(size):
            work.point[i] += weight * work.stage[j, i]
    work.task = _STAGE
    work.count = stage
    work.evaluations += 1
    return WANTS_RATES


@compiled
def _after_stage(work):  # type: ignore[no-untyped-def]
    stage = work.count
    _solve_stage(work, stage)
    if stage < _STAGES - 1:
        return _ask_stage(work, stage + 1)
    return _end_step(work)


@compiled
def _end_step(work):  # type: ignore[no-untyped-def]
    """Judge the step by its embedded error, which is the last stage; then look at the guards."""
    size = work.state.shape[0]
    worst = 0.0
    for i in range(size):
        work.end_state[i] = work.point[i] + work.stage[_STAGES - 1, i]
        # The point of the last stage is the comparison solution; adding that stage gives the step's end.
        weight = work.tolerance * (work.scale[i] + max(abs(work.state[i]), abs(work.end_state[i])))
        error = abs(work.stage[_STAGES - 1, i]) / weight
        if not error < _HOPELESS:  # also when it is not a number
            worst = _HOPELESS
        else:
            worst = max(worst, error)
    work.next_step = work.step * _step_growth(work, worst)
    if worst > 1.0:
        work.rejected += 1
        work.step = work.next_step
        return _start_step(work)
    for i in range(size):
        work.point[i] = work.end_state[i]
    work.task = _END_GUARDS
    return WANTS_GUARDS


@compiled
def _step_growth(work, error):  # type: ignore[no-untyped-def]
    """How much longer the next step may be: what this error allows, and what its trend foretells (Gustafsson)."""
    floored = max(error, 1e-6)
    growth = _SAFETY / floored**0.25
    if error <= 1.0:
        if work.last_error > 0.0:
            foretold = _SAFETY * work.step / work.last_step * (work.last_error / (floored * floored)) ** 0.25
            growth = min(growth, foretold)
        work.last_error = max(floored, 1e-2)
        work.last_step = work.step
    return min(max(growth, _LARGEST_SHRINK), _LARGEST_GROWTH)


@compiled
def _after_end_guards(work):  # type: ignore[no-untyped-def]
    crossed = False
    for i in range(work.guard.shape[0]):
        work.guard_end[i] = work.guard[i]
        crossing = work.guard_start[i] < 0.0 and work.guard[i] >= 0.0
        work.hit[i] = 1 if crossing else 0
        crossed = crossed or crossing
    if not crossed:
        return _accept(work)
    for i in range(work.state.shape[0]):
        work.old_state[i] = work.state[i]
    _open_bracket(work, 1.0, _beyond_aim(work))
    work.trial = 0
    return _ask_dense_guards(work)


@compiled
def _beyond_aim(work):  # type: ignore[no-untyped-def]
    """How far the foremost crossing guard is past the aim, each in units of its size at the step's start.

    The aim lies a trifle beyond the event, so that the step ends on its far side and the guard cannot hit again.
    """
    highest = -1.0
    for i in range(work.guard.shape[0]):
        if work.hit[i] != 0:
            highest = max(highest, work.guard[i] / -work.guard_start[i])
    return highest - 0.5 * _EVENT_PART * work.tolerance


@compiled
def _open_bracket(work, high, at_high):  # type: ignore[no-untyped-def]
    work.low = 0.0
    work.at_low = -1.0
    work.high = high
    work.at_high = max(at_high, 1e-300)
    work.side = 0


@compiled
def _place_in_bracket(work):  # type: ignore[no-untyped-def]
    """Where the crossing is expected inside the bracket, kept off its ends."""
    guess = work.low + (work.high - work.low) * (-work.at_low / (work.at_high - work.at_low))
    margin = 1e-3 * (work.high - work.low)
    return min(max(guess, work.low + margin), work.high - margin)


@compiled
def _narrow_bracket(work, value):  # type: ignore[no-untyped-def]
    """Illinois form of the false position: an end that is kept twice running loses half its weight."""
    if value < 0.0:
        work.low = work.place
        work.at_low = value
        if work.side == -1:
            work.at_high *= 0.5
        work.side = -1
    else:
        work.high = work.place
        work.at_high = value
        if work.side == 1:
            work.at_low *= 0.5
        work.side = 1


@compiled
def _ask_dense_guards(work):  # type: ignore[no-untyped-def]
    work.place = _place_in_bracket(work)
    interpolate(work, work.place, work.point)
    work.task = _DENSE_GUARDS
    return WANTS_GUARDS


@compiled
def _after_dense_guards(work):  # type: ignore[no-untyped-def]
    """Close in on the first event; then the dense output there is the step's new end."""
    value = _beyond_aim(work)
    work.trial += 1
    near = abs(value) <= 0.5 * _EVENT_PART * work.tolerance
    if not near and work.trial < _DENSE_TRIALS:
        _narrow_bracket(work, value)
        if work.high - work.low < _NARROWEST:
            # Rounding hides the crossing: take the far side of what is left, and no more trials.
            work.low = work.high
            work.trial = _DENSE_TRIALS
        return _ask_dense_guards(work)
    for i in range(work.guard.shape[0]):
        if work.guard[i] < 0.0:
            work.hit[i] = 0
    for i in range(work.state.shape[0]):
        work.end_state[i] = work.point[i]
    work.step *= work.place
    _accept(work)
    return EVENT_REACHED


@compiled
def _accept(work):  # type: ignore[no-untyped-def]
    work.old_time = work.time
    work.time += work.step
    for i in range(work.state.shape[0]):
        work.old_state[i] = work.state[i]
        work.state[i] = work.end_state[i]
    for i in range(work.guard.shape[0]):
        work.guard_start[i] = work.guard[i]
    work.steps += 1
    work.task = _NEXT
    return STEP_ACCEPTED


@compiled
def _factorise(work):  # type: ignore[no-untyped-def]
    """Triangular factors of 1/(step·gamma) − Jacobian, dynamic part, with row exchanges; the diagonal is kept inverted."""
    dynamic = work.pivot.shape[0]
    diagonal = 1.0 / (_GAMMA * work.step)
    for j in range(dynamic):
        for i in range(dynamic):
            work.factors[j, i] = -work.jacobian[j, i]
        work.factors[j, j] += diagonal
    for k in range(dynamic):
        chosen = k
        largest = abs(work.factors[k, k])
        for i in range(k + 1, dynamic):
            if abs(work.factors[k, i]) > largest:
                largest = abs(work.factors[k, i])
                chosen = i
        work.pivot[k] = chosen
        if chosen != k:
            for j in range(dynamic):
                kept = work.factors[j, k]
                work.factors[j, k] = work.factors[j, chosen]
                work.factors[j, chosen] = kept
        inverse = 1.0 / work.factors[k, k]
        work.factors[k, k] = inverse
        for i in range(k + 1, dynamic):
            work.factors[k, i] *= inverse
        for j in range(k + 1, dynamic):
            factor = work.factors[j, k]
            if factor != 0.0:
                for i in range(k + 1, dynamic):
                    work.factors[j, i] -= factor * work.factors[k, i]


@compiled
def _solve_stage(work, stage):  # type: ignore[no-untyped-def]
    """Solve one stage: the dynamic part by the factors, the integrals by what follows from it."""
    size = work.state.shape[0]
    dynamic = work.pivot.shape[0]
    inverse_step = 1.0 / work.step
    solution = work.stage[stage]
    for i in range(size):
        solution[i] = work.slope[i]
    for j in range(stage):
        weight = _COUPLING[stage, j] * inverse_step
        for i in range(size):
            solution[i] += weight * work.stage[j, i]
    for k in range(dynamic):
        chosen = work.pivot[k]
        kept = solution[k]
        solution[k] = solution[chosen]
        solution[chosen] = kept
    for j in range(dynamic):
        known = solution[j]
        for i in range(j + 1, dynamic):
            solution[i] -= known * work.factors[j, i]
    for j in range(dynamic - 1, -1, -1):
        known = solution[j] * work.factors[j, j]
        solution[j] = known
        for i in range(j):
            solution[i] -= known * work.factors[j, i]
    for j in range(dynamic):
        known = solution[j]
        for i in range(dynamic, size):
            solution[i] += known * work.jacobian[j, i]
    for i in range(dynamic, size):
        solution[i] *= _GAMMA * work.step
