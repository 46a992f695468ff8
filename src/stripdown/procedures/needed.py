"""What must be done for a request, before any order is thought of: the least set of steps."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """How a gun lies there, and what is still to come: all that a plan depends on."""

    off: frozenset[str] = frozenset()
    fresh: frozenset[str] = frozenset()
    failed: frozenset[str] = frozenset()
    work: frozenset[str] = frozenset()
    wanted: frozenset[str] = frozenset()
    as_found: frozenset[str] = frozenset()
    opened: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """The least set of steps for a situation."""

    steps: frozenset[Step]
    off_now: frozenset[str]
    off: frozenset[str]
    made: frozenset[str]
    served: frozenset[str]
    owed: frozenset[str]
    remedies: Mapping[str, str]

    def providing(self, check: str) -> Step | None:
        """The step that makes a check fresh."""
        if check in self.made:
            return Step(StepKind.MAKE, check)
        return Step(StepKind.AS_FOUND, check) if check in self.served else None

    @property
    def makings(self) -> int:
        """How many checks are made, readings as found not counted."""
        return len(self.made)

    @property
    def moves(self) -> int:
        """How often a part is taken off or put back."""
        return sum(step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK} for step in self.steps)


def needed_steps(procedure: Procedure, situation: Situation) -> Needed:
    """The least set of steps that does the work and leaves nothing stale that should be fresh."""
    remedies: dict[str, str] = {}
    made: frozenset[str] = frozenset()
    while True:
        work = procedure.with_brought(situation.work | remedies.keys())
        doing = [Step(StepKind.DO, key) for key in work]
        doing += [Step(StepKind.AS_FOUND, key) for key in situation.as_found]
        doing += [Step(StepKind.MAKE, key) for key in made]
        off = procedure.close(situation.off | situation.opened).union(*(procedure.off(step) for step in doing))
        moves = [Step(StepKind.TAKE_OFF, part) for part in off - situation.off] + [Step(StepKind.PUT_BACK, part) for part in off]
        spoiled = frozenset().union(*(procedure.spoils(step) for step in (*doing, *moves)))
        due = _due(procedure, situation, spoiled)
        served = (due & situation.as_found) - spoiled - situation.failed
        again = due - served
        new = _remedies(procedure, situation, due)
        if again == made and new == remedies:
            return Needed(
                steps=frozenset((*doing, *moves)),
                off_now=situation.off,
                off=off,
                made=made,
                served=served,
                owed=situation.wanted | (procedure.release_list & spoiled),
                remedies=remedies,
            )
        made, remedies = again, new


def cures(procedure: Procedure, action: str, check: str) -> bool:
    """Whether after an action it makes sense to make a failed check again: it changed something that the check is about."""
    return check in procedure.spoils(Step(StepKind.DO, action))


def remedy_for(procedure: Procedure, check: str, work: Iterable[str]) -> str | None:
    """The action to add when a check has failed."""
    return None if any(cures(procedure, action, check) for action in work) else first_remedy(procedure, check)


def first_remedy(procedure: Procedure, check: str) -> str | None:
    """The likeliest remedy for a check that fails."""
    return next((action for action in procedure.checks[check].remedies if action in procedure.actions), None)


def _due(procedure: Procedure, situation: Situation, spoiled: frozenset[str]) -> frozenset[str]:
    """Checks that have to be made: wanted or on the release list, and what they rest on, if not fresh or spoiled on the way."""
    gone = (procedure.checks.keys() - situation.fresh) | spoiled
    due = (situation.wanted & gone) | (procedure.release_list & spoiled)
    return due.union(*(procedure.bases(check) & gone for check in due))


def _remedies(procedure: Procedure, situation: Situation, due: frozenset[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for check in sorted(due & situation.failed):
        action = remedy_for(procedure, check, situation.work)
        if action is not None:
            found[action] = check
    return found
