"""When no single opening will do: the cheapest sequence of all, found by search."""

from __future__ import annotations

import heapq
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

from stripdown.errors import ProcedureError
from stripdown.procedures.needed import Needed, Situation, cures, first_remedy, needed_steps
from stripdown.procedures.order import around_circles, last_order_of, order_of, precedence, shortest_circle
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.sequence import sequence
from stripdown.procedures.steps import Step, StepKind

MOST_STATES = 5_000  # of a gun of full size about twenty seconds; what a search can open takes tens


@dataclass(frozen=True, slots=True)
class _State:
    """A situation on the way, and the steps that a declared order no longer allows."""

    situation: Situation
    barred: frozenset[Step] = frozenset()


class _Branch(NamedTuple):
    """A way that was begun: what it costs at least, and in which order it was begun; then where it leads."""

    bound: tuple[int, int, int]
    number: int
    state: _State
    needed: Needed
    path: tuple[Step, ...]
    spent: tuple[int, int]

    def extended(self, step: Step, state: _State, needed: Needed, number: int) -> _Branch:
        """The same way with one more step: of equal bounds the longer way is tried first."""
        makings = self.spent[0] + (step.kind is StepKind.MAKE)
        moves = self.spent[1] + (step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK})
        bound = (makings + needed.makings, moves + needed.moves, -len(self.path) - 1)
        return _Branch(bound, number, state, needed, (*self.path, step), (makings, moves))


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A sequence of steps."""

    steps: tuple[Step, ...]
    visited: int


def find_steps(
    procedure: Procedure,
    situation: Situation,
    *,
    place: str = "",
    curing: Collection[Step] = (),
    most_states: int = MOST_STATES,
) -> Found:
    """The steps for a situation, in order: fewest makings first, then fewest moves; from the place where one stands."""
    needed = needed_steps(procedure, situation)
    for_good = last_order_of(procedure, needed)
    if around_circles(for_good)[0]:
        raise ProcedureError(f"This cannot be done in any order: {_circle_words(procedure, for_good)}")
    heap = [_Branch((needed.makings, needed.moves, 0), 0, _State(situation), needed, (), (0, 0))]
    done: set[_State] = set()
    pushed = 0
    while heap:
        branch = heapq.heappop(heap)
        if branch.state in done:
            continue
        if len(done) == most_states:
            circle = _circle_words(procedure, order_of(procedure, needed))
            raise ProcedureError(f"No order was found after {most_states} states. Ask for less at once: {circle}")
        done.add(branch.state)
        after = order_of(procedure, branch.needed)
        if not around_circles(after)[0]:
            begun = procedure.place_of(branch.path[-1]) if branch.path else place
            return Found(steps=(*branch.path, *sequence(procedure, after, place=begun, curing=curing)), visited=len(done))
        for step in _worth_trying(procedure, branch, after):
            state = _after(procedure, branch.state, step)
            to_come = needed_steps(procedure, state.situation)
            if state not in done and not state.barred & to_come.steps:
                pushed += 1
                heapq.heappush(heap, branch.extended(step, state, to_come, pushed))
    raise ProcedureError(f"This cannot be done in any order: {_circle_words(procedure, order_of(procedure, needed))}")


def _worth_trying(procedure: Procedure, branch: _Branch, after: Mapping[Step, Iterable[Step]]) -> tuple[Step, ...]:
    """Steps from here that may open a circle: on one, leading to one, or putting something back."""
    circles, leading = around_circles(after)
    waiting = {step for then in after.values() for step in then}
    kept_on = {part for step in branch.needed.steps for part in procedure.on(step)}
    tried = []
    for step in _next_steps(procedure, branch.state, branch.needed):
        is_ready = step in leading and step not in waiting
        if is_ready and not (step.kind is StepKind.TAKE_OFF and step.key in kept_on):
            return (step,)
        if step in circles or step in leading or step.kind is StepKind.PUT_BACK or step not in branch.needed.steps:
            tried.append(step)
    return tuple(tried)


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
        if any(procedure.changes_found(step, check) for check in now.as_found):
            continue
        if not any(_is_pending(first, now) for first in procedure.declared_before(step)):
            yield step


def _worth_making(procedure: Procedure, check: str, now: Situation) -> bool:
    if check in now.fresh or not set(procedure.rests_on(check)) <= now.fresh:
        return False
    if check not in now.failed:
        return True
    return first_remedy(procedure, check) is None and not any(cures(procedure, action, check) for action in now.work)


def _is_pending(step: Step, now: Situation) -> bool:
    """Whether a step that happens once is still to come."""
    if step.kind is StepKind.DO:
        return step.key in now.work
    return step.kind is StepKind.AS_FOUND and step.key in now.as_found


def _after(procedure: Procedure, state: _State, step: Step) -> _State:
    return _State(situation_after(procedure, state.situation, step), state.barred.union(procedure.declared_before(step)))


def situation_after(procedure: Procedure, now: Situation, step: Step) -> Situation:
    """How a gun lies there after a step, and what is then still to come."""
    spoiled = procedure.spoils(step)
    fresh, failed = now.fresh - spoiled, now.failed
    if step.kind is StepKind.DO:
        failed -= {check for check in spoiled if step.key in now.work or step.key == first_remedy(procedure, check)}
    is_reading = step.kind in {StepKind.MAKE, StepKind.AS_FOUND}
    if is_reading and (step.kind is StepKind.MAKE or step.key not in failed) and set(procedure.rests_on(step.key)) <= fresh:
        fresh, failed = fresh | {step.key}, failed - {step.key}
    off = now.off | {step.key} if step.kind is StepKind.TAKE_OFF else now.off
    return replace(
        now,
        off=off - {step.key} if step.kind is StepKind.PUT_BACK else off,
        fresh=fresh,
        failed=failed,
        work=now.work - {step.key} if step.kind is StepKind.DO else now.work,
        wanted=now.wanted | (procedure.release_list & spoiled),
        as_found=now.as_found - {step.key} if step.kind is StepKind.AS_FOUND else now.as_found,
        opened=now.opened - {step.key} if step.kind is StepKind.TAKE_OFF else now.opened,
    )


def _circle_words(procedure: Procedure, after: Mapping[Step, Iterable[Step]]) -> str:
    circle = shortest_circle(after)
    told = []
    for first, then in zip(circle, (*circle[1:], circle[0]), strict=True):
        reason = precedence(procedure, first, then)
        told.append(
            f'"{procedure.named(first)}" before "{procedure.named(then)}"' + (f" ({reason.words[:-1]})" if reason else "")
        )
    return "; ".join(told) + "." if told else "a declared order forbids it."
