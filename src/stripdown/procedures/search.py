"""When no single opening will do: the cheapest sequence of all, found by search."""

from __future__ import annotations

import heapq
from collections.abc import Iterator
from dataclasses import dataclass, replace

from stripdown.errors import ProcedureError
from stripdown.procedures.needed import Needed, Situation, cures, first_remedy, needed_steps
from stripdown.procedures.order import order_of, precedence, shortest_circle
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.sequence import sequence
from stripdown.procedures.steps import Step, StepKind

MOST_STATES = 100_000


@dataclass(frozen=True, slots=True)
class _State:
    """A situation on the way, and the steps that a declared order no longer allows."""

    situation: Situation
    barred: frozenset[Step] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A sequence of steps.

    Parameters
    ----------
    steps
        In order.
    visited
        How many states were looked at.
    """

    steps: tuple[Step, ...]
    visited: int


def find_steps(procedure: Procedure, situation: Situation, *, most_states: int = MOST_STATES) -> Found:
    """The steps for a situation, in order: fewest makings first, then fewest moves.

    Parameters
    ----------
    procedure
        Procedures of the gun's variation.
    situation
        How the gun lies there and what is asked for.
    most_states
        How many states to look at before giving up.

    Returns
    -------
    Found

    Raises
    ------
    ProcedureError
        If there is no such sequence, with the shortest circle of steps each of which would have to come before the next.

    Notes
    -----
    Uniform-cost search over parts off, standing and work left, guided by the least set of steps that each state still needs. That
    set is contained in every way to finish, so it never overrates what is to come; and where its order has no circle it is itself
    the best way to finish, which ends the search. A request without circle therefore takes one state.
    """
    start = _State(situation)
    needed = needed_steps(procedure, situation)
    heap: list[tuple[tuple[int, int, int], int, _State, Needed, tuple[Step, ...], tuple[int, int]]] = []
    heapq.heappush(heap, ((needed.makings, needed.moves, 0), 0, start, needed, (), (0, 0)))
    done: set[_State] = set()
    pushed = 0
    while heap:
        _, _, state, needed, path, spent = heapq.heappop(heap)
        if state in done:
            continue
        done.add(state)
        if len(done) > most_states:
            message = (
                f"No order was found after {most_states} states. Ask for less at once: {_circle_words(procedure, situation)}"
            )
            raise ProcedureError(message)
        finish = sequence(procedure, order_of(procedure, needed))
        if finish is not None:
            return Found(steps=(*path, *finish), visited=len(done))
        for step in _next_steps(procedure, state, needed):
            then = _after(procedure, state, step)
            to_come = needed_steps(procedure, then.situation)
            if then in done or then.barred & to_come.steps:
                continue
            cost = (
                spent[0] + (step.kind is StepKind.MAKE),
                spent[1] + (step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}),
            )
            pushed += 1
            bound = (cost[0] + to_come.makings, cost[1] + to_come.moves, -len(path))
            heapq.heappush(heap, (bound, pushed, then, to_come, (*path, step), cost))
    raise ProcedureError(f"This cannot be done in any order: {_circle_words(procedure, situation)}")


def _next_steps(procedure: Procedure, state: _State, needed: Needed) -> Iterator[Step]:
    """Steps that may be done now, among those that are needed at all: others only spoil more."""
    now = state.situation
    sooner = {Step(StepKind.MAKE, check) for check in needed.served}  # where the reading as found would come too late to serve
    for step in sorted(needed.steps | sooner, key=lambda one: one.name):
        if step in state.barred or not procedure.off(step) <= now.off or procedure.on(step) & now.off:
            continue
        if (step.kind is StepKind.TAKE_OFF) == (step.key in now.off) and step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}:
            continue
        if step.kind is StepKind.MAKE and not _worth_making(procedure, step.key, now):
            continue
        if any(_destroys(procedure, step, check) for check in now.as_found if Step(StepKind.AS_FOUND, check) != step):
            continue
        if not any(order.then == step and _is_pending(order.first, now) for order in procedure.order):
            yield step


def _worth_making(procedure: Procedure, check: str, now: Situation) -> bool:
    if check in now.fresh or not set(procedure.rests_on(check)) <= now.fresh:
        return False
    if check not in now.failed:
        return True
    return first_remedy(procedure, check) is None and not any(cures(procedure, action, check) for action in now.work)


def _destroys(procedure: Procedure, step: Step, check: str) -> bool:
    is_way_in = step.kind is StepKind.TAKE_OFF and step.key in procedure.off(Step(StepKind.AS_FOUND, check))
    return check in procedure.spoils(step) and not is_way_in


def _is_pending(step: Step, now: Situation) -> bool:
    """Whether a step that happens once is still to come."""
    if step.kind is StepKind.DO:
        return step.key in now.work
    return step.kind is StepKind.AS_FOUND and step.key in now.as_found


def _after(procedure: Procedure, state: _State, step: Step) -> _State:
    now = state.situation
    spoiled = procedure.spoils(step)
    fresh, failed = now.fresh - spoiled, now.failed
    if step.kind is StepKind.DO:
        failed -= {check for check in spoiled if step.key in now.work or step.key == first_remedy(procedure, check)}
    is_reading = step.kind in {StepKind.MAKE, StepKind.AS_FOUND}
    if is_reading and (step.kind is StepKind.MAKE or step.key not in failed) and set(procedure.rests_on(step.key)) <= fresh:
        fresh, failed = fresh | {step.key}, failed - {step.key}
    off = now.off | {step.key} if step.kind is StepKind.TAKE_OFF else now.off
    situation = replace(
        now,
        off=off - {step.key} if step.kind is StepKind.PUT_BACK else off,
        fresh=fresh,
        failed=failed,
        work=now.work - {step.key} if step.kind is StepKind.DO else now.work,
        wanted=now.wanted | (procedure.release_list & spoiled),
        as_found=now.as_found - {step.key} if step.kind is StepKind.AS_FOUND else now.as_found,
    )
    return _State(situation, state.barred | {order.first for order in procedure.order if order.then == step})


def _circle_words(procedure: Procedure, situation: Situation) -> str:
    circle = shortest_circle(order_of(procedure, needed_steps(procedure, situation)))
    told = []
    for first, then in zip(circle, (*circle[1:], circle[0]), strict=True):
        reason = precedence(procedure, first, then)
        told.append(
            f'"{procedure.named(first)}" before "{procedure.named(then)}"' + (f" ({reason.words[:-1]})" if reason else "")
        )
    return "; ".join(told) + "." if told else "a declared order forbids it."
