"""Stiff integration that stops exactly at events: a Rosenbrock method of order four, driven by questions.

The integrator owns one *workspace* (a structured row) and never calls the discipline. It asks: `advance` returns what it
wants next (rates at a point, guards at a point, the Jacobian) or what happened (a step was accepted, an event was reached).
The discipline answers in the workspace and calls again. So one integrator serves every discipline without function
arguments, which Numba cannot keep in its cache, and without generated source.

Conventions. The state has dynamic entries followed by integrals, whose rates depend on the dynamic entries only: the Jacobian
has rows for both but columns for the dynamic ones. A *guard* is a number that is negative until its event and reaches zero
there; an inactive guard is any negative number. A step over which a guard changes sign is cut there: its new end is the dense
output at the event, and the guards that are not negative at that point have *hit*.
"""

from __future__ import annotations

import math

from stripdown.core.numerics.compiled import compiled
from stripdown.core.numerics.rodas import (
    factorise,
    finish_integrals,
    finish_step,
    interpolate,
    interpolate_dynamic,
    place_stage,
    solve_stage,
)
from stripdown.core.numerics.workspace import STAGES, Workspace, workspace

__all__ = ["Workspace", "advance", "begin", "interpolate", "resume", "workspace"]

# What `advance` returns.
WANTS_RATES = 0
WANTS_GUARDS = 1
STEP_ACCEPTED = 2
EVENT_REACHED = 3
END_REACHED = 4
TOO_MANY_STEPS = 5
STEP_TOO_SMALL = 6
WANTS_JACOBIAN = 7

# What the workspace was waiting for when `advance` last returned.
_RESTART = 0
_RATES = 1
_FIRST_GUARDS = 2
_JACOBIAN = 3
_DIFFERENCE = 4
_STAGE = 5
_END_GUARDS = 6
_DENSE_GUARDS = 7
_NEXT = 8

_SAFETY = 0.8
_LARGEST_GROWTH = 5.0
_LARGEST_SHRINK = 0.2
_HOPELESS = 1e30
_DENSE_TRIALS = 60
_NARROWEST = 1e-14
_ROUNDING = 1e-14
# A step is cut on the far side of its event, within this part of the guard's size at the step's start, times tolerance.
_EVENT_PART = 0.5


@compiled
def begin(work: Workspace, first_step: float) -> None:
    """Prepare a workspace whose state, scale and settings have been filled in.

    Parameters
    ----------
    work
        Workspace.
    first_step
        Length of the first step, in s.
    """
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
def resume(work: Workspace, first_step: float) -> None:
    """Go on after an event that changed the state or the equations.

    Parameters
    ----------
    work
        Workspace.
    first_step
        Longest first step, in s.
    """
    work.task = _RESTART
    work.last_error = 0.0
    work.next_step = min(work.next_step, first_step)


@compiled
def advance(work: Workspace) -> int:
    """Take the answer to the last question and go on to the next question or happening.

    Parameters
    ----------
    work
        Workspace.

    Returns
    -------
    int
        One of ``WANTS_RATES`` (of ``point``, into ``slope``), ``WANTS_GUARDS`` (of ``point``, into ``guard``),
        ``WANTS_JACOBIAN`` (of ``state``, into ``jacobian``), ``STEP_ACCEPTED``, ``EVENT_REACHED`` (``hit`` says which; act and
        `resume`), ``END_REACHED``, ``TOO_MANY_STEPS``, ``STEP_TOO_SMALL``.
    """
    task = work.task
    if task == _STAGE:
        return _after_stage(work)
    if task == _RATES:
        return _after_rates(work)
    if task == _JACOBIAN:
        return _begin_step(work)
    if task == _DIFFERENCE:
        return _after_difference(work)
    if task == _END_GUARDS:
        return _after_end_guards(work)
    if task == _DENSE_GUARDS:
        return _after_dense_guards(work)
    if task == _FIRST_GUARDS:
        for i in range(work.guard.shape[0]):
            work.guard_start[i] = work.guard[i]
    return _ask_rates_at_state(work)


@compiled
def _ask_rates_at_state(work: Workspace) -> int:
    """Begin a step; after a restart the guards come first."""
    if work.time >= work.end_time:
        return END_REACHED
    if work.steps >= work.most_steps:
        return TOO_MANY_STEPS
    for i in range(work.state.shape[0]):
        work.point[i] = work.state[i]
    if work.task == _RESTART:
        work.task = _FIRST_GUARDS
        return WANTS_GUARDS
    work.task = _RATES
    work.evaluations += 1
    return WANTS_RATES


@compiled
def _after_rates(work: Workspace) -> int:
    for i in range(work.state.shape[0]):
        work.rate[i] = work.slope[i]
    if work.own_jacobian == 0:
        return _ask_difference(work, 0)
    work.task = _JACOBIAN
    return WANTS_JACOBIAN


@compiled
def _ask_difference(work: Workspace, colour: int) -> int:
    """Shift every dynamic entry of one colour; when there is none left, begin the step."""
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
        return _begin_step(work)
    work.task = _DIFFERENCE
    work.count = colour
    work.evaluations += 1
    return WANTS_RATES


@compiled
def _after_difference(work: Workspace) -> int:
    dynamic = work.colour.shape[0]
    for j in range(dynamic):
        if work.colour[j] == work.count:
            inverse = 1.0 / work.shift[j]
            for i in range(work.state.shape[0]):
                work.jacobian[j, i] = (work.slope[i] - work.rate[i]) * inverse * work.pattern[j, i]
    return _ask_difference(work, work.count + 1)


@compiled
def _begin_step(work: Workspace) -> int:
    work.step = min(work.next_step, work.end_time - work.time)
    return _try_step(work)


@compiled
def _try_step(work: Workspace) -> int:
    """Factorise for this step length and solve the first stage, which needs no new rates."""
    if work.step <= 1e-15 * max(abs(work.time), 1e-6):
        return STEP_TOO_SMALL
    factorise(work)
    solve_stage(work, 0, work.rate)
    return _ask_stage(work, 1)


@compiled
def _ask_stage(work: Workspace, stage: int) -> int:
    place_stage(work, stage)
    work.task = _STAGE
    work.count = stage
    work.evaluations += 1
    return WANTS_RATES


@compiled
def _after_stage(work: Workspace) -> int:
    stage = work.count
    solve_stage(work, stage, work.slope)
    if stage < STAGES - 1:
        return _ask_stage(work, stage + 1)
    return _judge_step(work)


@compiled
def _judge_step(work: Workspace) -> int:
    """Throw the step away if its embedded error is too large; else look at the guards at its end."""
    dynamic = work.shift.shape[0]
    size = work.state.shape[0]
    finish_step(work)
    worst = _worst_error(work, 0, dynamic)
    if worst <= 1.0:
        finish_integrals(work)
        worst = max(worst, _worst_error(work, dynamic, size))
    work.next_step = work.step * _step_growth(work, worst)
    if worst > 1.0:
        work.rejected += 1
        work.step = work.next_step
        return _try_step(work)
    for i in range(size):
        work.point[i] = work.end_state[i]
        work.old_state[i] = work.state[i]
    work.kept = 1.0
    work.task = _END_GUARDS
    return WANTS_GUARDS


@compiled
def _worst_error(work: Workspace, first: int, last: int) -> float:
    """Largest error of some entries, in units of what the tolerance allows."""
    worst = 0.0
    for i in range(first, last):
        error = abs(work.error[i]) / (work.scale[i] + max(abs(work.state[i]), abs(work.end_state[i])))
        if not error < _HOPELESS:  # also when it is not a number
            return _HOPELESS
        worst = max(worst, error)
    return worst / work.tolerance


@compiled
def _step_growth(work: Workspace, error: float) -> float:
    """How much longer the next step may be: what this error allows, and what its trend foretells (Gustafsson)."""
    floored = max(error, 1e-6)
    growth = _SAFETY / math.sqrt(math.sqrt(floored))
    if error <= 1.0:
        if work.last_error > 0.0:
            foretold = growth * work.step / work.last_step * math.sqrt(math.sqrt(work.last_error / floored))
            growth = min(growth, foretold)
        work.last_error = max(floored, 1e-2)
        work.last_step = work.step
    return min(max(growth, _LARGEST_SHRINK), _LARGEST_GROWTH)


@compiled
def _after_end_guards(work: Workspace) -> int:
    crossed = False
    for i in range(work.guard.shape[0]):
        crossing = work.guard_start[i] < 0.0 and work.guard[i] >= 0.0
        work.hit[i] = 1 if crossing else 0
        crossed = crossed or crossing
    if not crossed:
        return _accept(work)
    _open_bracket(work, _beyond_aim(work))
    return _ask_dense_guards(work)


@compiled
def _accept(work: Workspace) -> int:
    """Take the point, at which the guards have just been looked at, as the step's end."""
    work.old_time = work.time
    work.time += work.kept * work.step
    if abs(work.end_time - work.time) <= _ROUNDING * abs(work.end_time):
        work.time = work.end_time
    for i in range(work.state.shape[0]):
        work.state[i] = work.point[i]
    for i in range(work.guard.shape[0]):
        work.guard_start[i] = work.guard[i]
    work.steps += 1
    work.task = _NEXT
    return STEP_ACCEPTED


@compiled
def _beyond_aim(work: Workspace) -> float:
    """How far the foremost crossing guard is past the aim, each in units of its size at the step's start.

    The aim lies a trifle beyond the event, so that the step ends on its far side and the guard cannot hit again.
    """
    highest = -1.0
    for i in range(work.guard.shape[0]):
        if work.hit[i] != 0:
            highest = max(highest, work.guard[i] / -work.guard_start[i])
    return highest - 0.5 * _EVENT_PART * work.tolerance


@compiled
def _open_bracket(work: Workspace, at_high: float) -> None:
    work.low = 0.0
    work.at_low = -1.0
    work.high = 1.0
    work.at_high = max(at_high, 1e-300)
    work.side = 0
    work.trial = 0


@compiled
def _place_in_bracket(work: Workspace) -> float:
    """Where the crossing is expected inside the bracket, kept off its ends."""
    guess = work.low + (work.high - work.low) * (-work.at_low / (work.at_high - work.at_low))
    margin = 1e-3 * (work.high - work.low)
    return min(max(guess, work.low + margin), work.high - margin)


@compiled
def _narrow_bracket(work: Workspace, value: float) -> None:
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
def _ask_dense_guards(work: Workspace) -> int:
    work.place = _place_in_bracket(work)
    interpolate_dynamic(work, work.place, work.point)
    work.task = _DENSE_GUARDS
    return WANTS_GUARDS


@compiled
def _after_dense_guards(work: Workspace) -> int:
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
    interpolate(work, work.place, work.point)
    work.kept = work.place
    _accept(work)
    return EVENT_REACHED
