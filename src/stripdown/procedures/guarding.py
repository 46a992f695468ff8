"""Where in a plan the guards stand: what must be made safe, and proved, before the next step."""

from __future__ import annotations

from collections.abc import Iterable

from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind


def with_guards(procedure: Procedure, fresh: Iterable[str], steps: Iterable[Step]) -> tuple[tuple[Step, ...], frozenset[str]]:
    """Put the making of a guard before each step that needs it fresh and would not find it so.

    Parameters
    ----------
    procedure
        Procedures of the gun's variation.
    fresh
        Checks that are fresh before the first step.
    steps
        Steps in order, without guards.

    Returns
    -------
    tuple of (tuple of Step, frozenset of str)
        Steps with guards, and the checks that are fresh after the last one if every making passes.
    """
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
