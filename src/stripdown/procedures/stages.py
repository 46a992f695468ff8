"""From one gun to another in one opening: up to the work that changes it as the old one, from there as the new one."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

from stripdown.procedures.becoming import Becoming, becoming
from stripdown.procedures.needed import Situation, needed_steps
from stripdown.procedures.order import around_circles, order_of
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.search import find_steps, situation_after
from stripdown.procedures.sequence import sequence
from stripdown.procedures.steps import DeclaredOrder, Step, StepKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """Steps on a gun that stays the gun that it is; the last of them makes another one of it, save in the last stage.

    Parameters
    ----------
    procedure
        Procedures of that gun.
    situation
        How it lies there when the stage begins, and what is then still to come.
    steps
        In order, without guards.
    becoming
        What the last step makes of the gun; None in the last stage.
    visited
        How many states were looked at.
    """

    procedure: Procedure
    situation: Situation
    steps: tuple[Step, ...]
    becoming: Becoming | None = None
    visited: int = 1

    def spoils(self, step: Step) -> frozenset[str]:
        """Checks that a step of this stage makes stale, also by making another gun of it."""
        spoiled = self.procedure.spoils(step)
        is_change = self.becoming is not None and step == Step(StepKind.DO, self.becoming.action)
        return spoiled | self.becoming.spoiled if is_change and self.becoming is not None else spoiled


class Walked(NamedTuple):
    """One step of a stage, and the parts that are off when it begins."""

    stage: Stage
    step: Step
    off: frozenset[str]


def find_stages(
    procedure: Procedure, situation: Situation, *, place: str = "", curing: Collection[Step] = ()
) -> tuple[Stage, ...]:
    """The steps for a situation, in order, stage by stage: only the last one puts anything back that need not go back before.

    It begins at the place where one stands; `curing` wait for work that was done before.
    """
    stages: list[Stage] = []
    while (change := _next_change(procedure, situation.work)) is not None:
        stages.append(_up_to(change, situation, place, curing))
        place = procedure.place_of(stages[-1].steps[-1])
        for step in stages[-1].steps:
            situation = situation_after(procedure, situation, step)
        situation = _carried_over(change, situation)
        procedure = change.after
    found = find_steps(procedure, situation, place=place, curing=curing)
    return (*stages, Stage(procedure=procedure, situation=situation, steps=found.steps, visited=found.visited))


def _next_change(procedure: Procedure, work: frozenset[str]) -> Becoming | None:
    """The change that no other one has to come before, first by the order of the data."""
    changes = [one for key in procedure.actions if key in work and (one := becoming(procedure, key)) is not None]
    pending = {one.action for one in changes}
    free = [one for one in changes if not _work_before(procedure, one.action, pending) - {one.action}]
    return next(iter(free or changes), None)


def _work_before(procedure: Procedure, action: str, work: Iterable[str]) -> frozenset[str]:
    """Work that declared orders want before an action, with that action."""
    found, new = frozenset[str](), frozenset({action})
    while new:
        found |= new
        firsts = {first for key in new for first in procedure.declared_before(Step(StepKind.DO, key))}
        new = frozenset(first.key for first in firsts if first.kind is StepKind.DO and first.key in work) - found
    return found


def _up_to(change: Becoming, situation: Situation, place: str, curing: Collection[Step]) -> Stage:
    """Readings as found, work that must come before the change, what that needs, and the change; no work on what goes with it."""
    procedure = change.before
    staying = situation.work.intersection(change.after.actions)
    work = _work_before(procedure, change.action, staying.intersection(procedure.actions))
    asked = replace(situation, work=work, wanted=frozenset())
    done = Step(StepKind.DO, change.action)
    before = [Step(StepKind.AS_FOUND, key) for key in situation.as_found]
    after = order_of(procedure, needed_steps(procedure, asked))
    for step in before:
        after[step].add(done)
    kept = _leading_to(after, done)
    after = {step: after[step] & kept for step in kept}
    if not around_circles(after)[0]:
        steps = sequence(procedure, after, place=place, curing=curing)
        return Stage(procedure=procedure, situation=situation, steps=steps, becoming=change)
    orders = (DeclaredOrder(first=step, then=done, why="it is done on the gun as it was") for step in before)
    found = find_steps(replace(procedure, order=(*procedure.order, *orders)), asked, place=place, curing=curing)
    steps = found.steps[: found.steps.index(done) + 1]
    return Stage(procedure=procedure, situation=situation, steps=steps, becoming=change, visited=found.visited)


def _leading_to(after: Mapping[Step, Iterable[Step]], goal: Step) -> frozenset[Step]:
    """A step with all that must come before it."""
    before: dict[Step, list[Step]] = {step: [] for step in after}
    for step, then in after.items():
        for one in then:
            before[one].append(step)
    found, open_ends = {goal}, [goal]
    while open_ends:
        for step in before[open_ends.pop()]:
            if step not in found:
                found.add(step)
                open_ends.append(step)
    return frozenset(found)


def _carried_over(change: Becoming, situation: Situation) -> Situation:
    """What of a situation holds on the new gun: arriving parts are off, and what must be proved on it is wanted."""
    new, checks, spoiled = change.after, frozenset(change.after.checks), change.spoiled
    return Situation(
        off=change.off(situation.off),
        fresh=(situation.fresh - spoiled) & checks,
        failed=(situation.failed - spoiled) & checks,
        work=situation.work.intersection(new.actions),
        wanted=(situation.wanted | (new.release_list & spoiled)) & checks,
        as_found=frozenset(),
        opened=situation.opened.intersection(new.parts) - situation.off,
    )
