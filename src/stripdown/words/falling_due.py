"""What is said of proofs that are owed later, after some use of what was fitted."""

from __future__ import annotations

from collections.abc import Iterable

from stripdown.procedures.falling_due import FallingDue
from stripdown.procedures.moments import day_of
from stripdown.procedures.procedure import Procedure
from stripdown.words.answer import Answer, Sentence
from stripdown.words.sentences import capital


def falling_due_answer(procedure: Procedure, owed: Iterable[FallingDue]) -> Answer:
    """Say what is owed later, from when, and after how much use."""
    said = tuple(_sentence(procedure, one) for one in owed)
    return Answer(key="falling_due", title="Owed later" if said else "", notes=said)


def _sentence(procedure: Procedure, one: FallingDue) -> Sentence:
    day = f" on {day_of(one.when, with_year=True)}" if one.when is not None else ""
    since = f"step {one.step}" if one.step is not None else f"event {one.event}{day}"
    name = capital(procedure.checks[one.check].name)
    return Sentence(key=one.check, full=f"{name}: after {one.follow_up.words} from {since}.", about=(one.check,))
