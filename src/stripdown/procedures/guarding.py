"""What must be made safe, and proved, before the next step: in a plan, and in a log."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from stripdown.procedures.happenings import Happening, steps_of
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind


def with_guards(procedure: Procedure, fresh: Iterable[str], steps: Iterable[Step]) -> tuple[tuple[Step, ...], frozenset[str]]:
    """Put the making of a guard before each step that needs it fresh and would not find it so."""
    holding = set(fresh)
    found: list[Step] = []

    def add(step: Step) -> None:
        for guard in procedure.needs(step):
            if guard not in holding:
                add(Step(StepKind.MAKE, guard))
        found.append(step)
        holding.difference_update(procedure.spoils(step))
        if step.kind in {StepKind.MAKE, StepKind.AS_FOUND} and holding >= set(procedure.rests_on(step.key)):
            holding.add(step.key)

    for step in steps:
        add(step)
    return tuple(found), frozenset(holding)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unguarded:
    """An event that the log has, without what should have been made sure of before it."""

    event: int
    step: Step
    guards: tuple[str, ...]


def unguarded(procedure: Procedure, log: Iterable[Happening]) -> tuple[Unguarded, ...]:
    """Events in a log whose guards were not fresh: it happened, and it should not have."""
    fresh: set[str] = set()
    found = []
    for happening in log:
        missing: dict[str, Step] = {}
        procedure = happening.procedure
        for step in steps_of(procedure, happening):
            for guard in procedure.needs(step):
                if guard not in fresh:
                    missing.setdefault(guard, step)
            fresh -= procedure.spoils(step)
        if missing:
            step = next(iter(missing.values()))
            found.append(Unguarded(event=happening.event.number, step=step, guards=tuple(missing)))
        fresh -= procedure.spoiled_by(deed.touch for deed in happening.deeds)
        if happening.event.check in procedure.guards and happening.outcome is not None and happening.outcome.has_passed:
            fresh.add(str(happening.event.check))
    return tuple(found)
