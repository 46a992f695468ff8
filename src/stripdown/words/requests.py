"""What to ask of the planner, in words and in keys; the jobs that have a name, and why one step stands before another."""

from __future__ import annotations

from collections.abc import Mapping

from stripdown.procedures.jobs import NamedJob
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.why import Why
from stripdown.words.answer import Answer, Cell, Column, Sentence, Table

_SORTS = {
    "jobs": "Jobs",
    "work": "Work",
    "checks": "Checks",
    "parts": "Parts",
    "looks": "Looks at a part, and what is looked at",
    "variation": "Ways in which guns differ, and their choices",
    "bodies": "Bodies around the box with ready steps",
}


def asked_words(procedure: Procedure, request: Request, *, is_choice: bool = False) -> str:
    """A request in one sentence, each name with its key."""
    found = [f"read as found: {_checks(procedure, request.as_found)}"] if request.as_found else []
    if request.work:
        found.append((", or " if is_choice else ", ").join(f"{procedure.actions[key].name} [{key}]" for key in request.work))
    if request.wanted:
        found.append(f"prove: {_checks(procedure, request.wanted)}")
    return "; ".join(found)


def _checks(procedure: Procedure, keys: tuple[str, ...]) -> str:
    return ", ".join(f"{procedure.checks[key].name} [{key}]" for key in keys)


def named_jobs_answer(jobs: Mapping[str, NamedJob]) -> Answer:
    """List the jobs that have a name."""
    rows = tuple((Cell(text=key, key=key), Cell(text=f"{one.name}. {one.purpose}")) for key, one in jobs.items())
    return Answer(key="jobs", title="", tables=(Table(key="jobs", columns=(Column(head=""),) * 2, rows=rows),))


def names_answer(names: Mapping[str, Mapping[str, str]]) -> Answer:
    """List the names that a job or its log may use: the key, and the words that do as well."""
    parts = (Answer(key=sort, title=_SORTS[sort], tables=(_names(sort, some),)) for sort, some in names.items())
    return Answer(key="names", title="", parts=tuple(parts))


def _names(sort: str, some: Mapping[str, str]) -> Table:
    rows = tuple((Cell(text=key, key=key), Cell(text=name)) for key, name in some.items())
    return Table(key=sort, columns=(Column(head=""),) * 2, rows=rows)


def why_answer(answer: Why) -> Answer:
    """Say why one step comes before another, reason by reason."""
    first, then = answer.first, answer.then
    lead = [Sentence(key="turned", full="It is the other way round.")] if answer.is_turned else []
    order = f'"{first.name}" (step {first.number}) comes before "{then.name}" (step {then.number}):'
    lead.append(Sentence(key="order", full=order, about=(first.step.name, then.step.name)))
    if not answer.chain:
        chosen = "Nothing demands it. The order was chosen to change place at the bench less often."
        lead.append(Sentence(key="chosen", full=chosen))
    lead += [
        Sentence(key=one.rule.value, full=f"{number}. {one.words}", about=(one.first.name, one.then.name))
        for number, one in enumerate(answer.chain, start=1)
    ]
    return Answer(key="why", title="", lead=tuple(lead))
