"""What is said of an answer that was entered: each entry with what it proved, what was left out, and what to do next."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from itertools import takewhile

from stripdown.procedures.events import AS_FOUND, MOVES, Event
from stripdown.procedures.happenings import Happening, action_key
from stripdown.procedures.names import with_keys
from stripdown.procedures.plan import Plan, PlannedStep
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind
from stripdown.studies.service_job import JobStudy
from stripdown.studies.service_log import Entered
from stripdown.words.answer import Answer, Cell, Column, Sentence, Table
from stripdown.words.plan import planned_steps
from stripdown.words.release import finding_sentences
from stripdown.words.sentences import as_sentence, capital

_MOST_NEXT = 7  # what one keeps in mind in one go
_MOST_NAMED = 6


def entered_answer(found: Entered) -> Answer:
    """Say what was entered, and what comes next."""
    study = found.study
    old = found.study.job.events[: len(study.job.events) - len(found.events)]
    return Answer(
        key="entered",
        title="",
        lead=(*_entries(found, old), *_skipped(found), *_new_findings(found)),
        parts=(_next(study),),
    )


def log_answer(study: JobStudy) -> Answer:
    """Say what is in a log and counts, in the order in which it counts, and what comes next."""
    job = study.job
    rows = [(one.event.number, one.event.when, one.event.who, _happened(one)) for one in job.log]
    grades = [(one.record.number, one.record.when, one.record.who, as_sentence(one.reason)) for one in job.grades]
    cells = tuple(
        (Cell(text=str(number)), Cell(text="" if when is None else _when(when)), Cell(text=who), Cell(text=said))
        for number, when, who, said in (*rows, *grades)
    )
    heads = (Column(head="", is_figure=True), *(Column(head=""),) * 3)
    gone = len(job.events) + len(job.graded) - len(cells)
    said = f"{gone} entries more were corrected or taken back, or took others back: they stay in the file." if gone else ""
    empty = () if cells else (Sentence(key="empty", full="Nothing is in the log yet."),)
    return Answer(
        key="log",
        title=job.title,
        lead=empty,
        tables=(Table(key="log", columns=heads, rows=cells),) if cells else (),
        notes=(Sentence(key="gone", full=said),) if said else (),
        parts=(_next(study),),
    )


def _when(when: datetime.date) -> str:
    return f"{when:%Y-%m-%d %H:%M}" if isinstance(when, datetime.datetime) else when.isoformat()


def _entries(found: Entered, old: tuple[Event, ...]) -> Iterator[Sentence]:
    procedure = found.study.job.procedure_of_log
    for event in found.events:
        if event.is_withdrawal:
            before = next((one for one in old if one.number == event.supersedes), None)
            what = "a grade" if before is None else _event_words(procedure, with_keys(procedure, before))
            yield Sentence(key="withdrawn", full=f"Taken back: {what} (number {event.supersedes}).")
    for happening in found.happened:
        yield Sentence(key="entered", full=f"{happening.event.number}: {_happened(happening)}")
    for grade in found.graded:
        yield Sentence(key="graded", full=f"{grade.record.number}: {as_sentence(grade.reason)}", about=(grade.record.part,))


def _happened(happening: Happening) -> str:
    event, outcome = happening.event, happening.outcome
    words = capital(_event_words(happening.procedure, event))
    if outcome is None:
        used = "; ".join(one.fluid for one in event.fluids) or ("" if event.value is None else str(event.value))
        return as_sentence(f"{words}: {used}" if used else words)
    told = "passed" if outcome.has_passed else "did not pass"
    return as_sentence(f"{words}: {told}{f' ({outcome.words.strip()})' if outcome.words.strip() else ''}")


def _event_words(procedure: Procedure, event: Event) -> str:
    """An event as the step that it is."""
    if event.check is not None:
        if event.check not in procedure.checks:  # of the gun that it was before
            return event.check.replace("_", " ")
        return procedure.named(Step(StepKind.AS_FOUND if event.kind == AS_FOUND else StepKind.MAKE, event.check))
    if event.action in MOVES and event.part is not None:
        verb = str(event.action).replace("_", " ")
        return f"{verb} the {_part(procedure, event.part)}"
    if event.action is not None:
        key = action_key(procedure, event)
        return procedure.actions[key].name if key in procedure.actions else key.replace("_", " ")
    if event.part is not None:
        return f"{_part(procedure, event.part)}: {str(event.kind).replace('_', ' ')}"
    return f"note: {event.note}"


def _part(procedure: Procedure, key: str) -> str:
    return procedure.parts[key].name if key in procedure.parts else key.replace("_", " ")


def _skipped(found: Entered) -> Iterator[Sentence]:
    names = [step.name for step in found.skipped]
    if names:
        shown = "; ".join(names[:_MOST_NAMED]) + (f"; and {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else "")
        about = tuple(step.step.name for step in found.skipped)
        yield Sentence(key="skipped", full=f"Still to be done, though it stood before: {shown}.", about=about)


def _new_findings(found: Entered) -> tuple[Sentence, ...]:
    """What in the log should not be, of what is new."""
    new = {event.number for event in found.events}
    release = found.study.release
    findings = tuple(one for one in release.findings if one.event in new)
    return finding_sentences(found.study.job.procedure_of_log, findings)


def _next(study: JobStudy) -> Answer:
    """What to do next."""
    plan = study.plan
    if not plan.steps:
        said = Sentence(key="nothing_left", full="Nothing is left to do for this request.")
        return Answer(key="next", title="", lead=(said,))
    count = len(plan.steps)
    title = f"Next, of {count} steps that are left" if count > 1 else "Next, and last"
    return Answer(key="next", title=title, steps=planned_steps(study, next_go(plan)))


def next_go(plan: Plan) -> list[PlannedStep]:
    """The next steps of a plan that one does in one go; a check, a reading and a wait stand alone."""
    first, *others = plan.steps
    if _stops(first):
        return [first]
    return [first, *takewhile(lambda step: step.place == first.place and not _stops(step), others[: _MOST_NEXT - 1])]


def _stops(step: PlannedStep) -> bool:
    return step.kind in {StepKind.MAKE, StepKind.AS_FOUND} or step.wait > 0.0
