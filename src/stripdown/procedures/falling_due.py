"""What is owed later: a proof that falls due after some use of what was fitted."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from stripdown.procedures.checks import FollowUp
from stripdown.procedures.moments import When
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import CheckStanding
from stripdown.procedures.steps import Step, StepKind


@dataclass(frozen=True, slots=True, kw_only=True)
class FallingDue:
    """A check that is owed after some use.

    Parameters
    ----------
    check
        Key of the check.
    follow_up
        After how much use.
    event
        Number of the event from which the use counts; None if it is a step of a plan.
    when
        Day or moment of that event, if the log says it.
    step
        Number of the step of a plan from which the use counts; None if it is an event.
    """

    check: str
    follow_up: FollowUp
    event: int | None = None
    when: When | None = None
    step: int | None = None


def owed_by_log(procedure: Procedure, known: Mapping[str, CheckStanding]) -> tuple[FallingDue, ...]:
    """What the log owes."""
    return tuple(
        FallingDue(check=key, follow_up=check.follow_up, event=known[key].since, when=known[key].when)
        for key, check in procedure.checks.items()
        if check.follow_up is not None and key in known and known[key].is_owed
    )


def owed_after(
    procedure: Procedure, known: Mapping[str, CheckStanding], steps: Iterable[tuple[Step, frozenset[str]]]
) -> tuple[FallingDue, ...]:
    """What is owed when some steps are done, each with what it spoils."""
    owed = {one.check: one for one in owed_by_log(procedure, known)}
    for number, (step, spoiled) in enumerate(steps, start=1):
        for key in spoiled & procedure.checks.keys():
            follow_up = procedure.checks[key].follow_up
            if follow_up is not None:
                owed[key] = FallingDue(check=key, follow_up=follow_up, step=number)
        if step.kind is StepKind.MAKE:
            owed.pop(step.key, None)
    return tuple(owed[key] for key in procedure.checks if key in owed)
