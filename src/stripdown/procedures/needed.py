"""What must be done for a request, before any order is thought of: the least set of steps."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """How a gun lies there, and what is still to come: all that a plan depends on.

    Parameters
    ----------
    off
        Parts that are off.
    fresh
        Checks that are fresh.
    failed
        Checks whose last making did not pass and that nothing has touched since: making them again without a remedy is idle.
    work
        Actions to do.
    wanted
        Checks to be fresh at the end.
    as_found
        Checks to read before anything disturbs them.
    """

    off: frozenset[str] = frozenset()
    fresh: frozenset[str] = frozenset()
    failed: frozenset[str] = frozenset()
    work: frozenset[str] = frozenset()
    wanted: frozenset[str] = frozenset()
    as_found: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """The least set of steps for a situation.

    Parameters
    ----------
    steps
        All of them.
    off_now, off
        Parts that are off before the first step, and at some time.
    made
        Checks that are made.
    served
        Checks whose reading as found is all the making they need.
    owed
        Checks that must be fresh when all is done; the others are made only because one of these rests on them.
    remedies
        Actions added because a check failed, with that check.
    """

    steps: frozenset[Step]
    off_now: frozenset[str]
    off: frozenset[str]
    made: frozenset[str]
    served: frozenset[str]
    owed: frozenset[str]
    remedies: Mapping[str, str]

    def providing(self, check: str) -> Step | None:
        """The step that makes a check fresh.

        Parameters
        ----------
        check
            Key of the check.

        Returns
        -------
        Step or None
            None if it is fresh and stays so.
        """
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
    """The least set of steps that does the work and leaves nothing stale that should be fresh.

    A least fixpoint: work, readings and makings need parts off; taking off and putting back spoils checks; a spoiled check that
    is wanted or on the release list is made again, and so are those on which it rests; which may need more parts off. Every plan
    contains this set.

    Parameters
    ----------
    procedure
        Procedures of the gun's variation.
    situation
        How the gun lies there and what is asked for.

    Returns
    -------
    Needed

    Notes
    -----
    A reading as found is a making. It serves in place of another one when no step of the plan spoils the check afterwards.

    A failed check that is due adds its own first remedy, unless work that was asked for changes something that it is about: that
    the remedy of another check happens to touch the same part mends nothing.
    """
    remedies: dict[str, str] = {}
    made: frozenset[str] = frozenset()
    while True:
        work = situation.work | remedies.keys()
        doing = [Step(StepKind.DO, key) for key in work]
        doing += [Step(StepKind.AS_FOUND, key) for key in situation.as_found]
        doing += [Step(StepKind.MAKE, key) for key in made]
        off = procedure.close(situation.off).union(*(procedure.off(step) for step in doing))
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
    """Whether after an action it makes sense to make a failed check again: it changed something that the check is about.

    Parameters
    ----------
    procedure
        Procedures of the gun's variation.
    action
        Key of the action.
    check
        Key of the check.

    Returns
    -------
    bool
    """
    return check in procedure.spoils(Step(StepKind.DO, action))


def remedy_for(procedure: Procedure, check: str, work: Iterable[str]) -> str | None:
    """The action to add when a check has failed.

    Parameters
    ----------
    procedure
        Procedures of the gun's variation.
    check
        Key of the failed check.
    work
        Actions that are asked for anyway.

    Returns
    -------
    str or None
        None if what is asked for may cure it, or nothing is known to.
    """
    return None if any(cures(procedure, action, check) for action in work) else first_remedy(procedure, check)


def first_remedy(procedure: Procedure, check: str) -> str | None:
    """The likeliest remedy for a check that fails.

    Parameters
    ----------
    procedure
        Procedures of the gun's variation.
    check
        Key of the check.

    Returns
    -------
    str or None
        Key of the action; None if this variation has none.
    """
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
