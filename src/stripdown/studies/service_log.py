"""What an answer at the bench enters into the log of a visit, and what is to be done next."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, replace

from stripdown.bench.visit import Visit
from stripdown.procedures import entering
from stripdown.procedures.events import Event
from stripdown.procedures.grading import GradeRecord, StandingGrade
from stripdown.procedures.happenings import Happening
from stripdown.procedures.plan import PlannedStep
from stripdown.studies.service_job import JobStudy, study_job


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """What one answer entered, and the job as it stands with it.

    Parameters
    ----------
    events, grades
        What is new in the log, with its numbers: nothing is written yet.
    study
        The job with it: the plan from here, and what keeps the gun on the bench.
    skipped
        Steps of the plan that stood before the last one that was answered and are still to be done.
    """

    events: tuple[Event, ...]
    grades: tuple[GradeRecord, ...]
    study: JobStudy
    skipped: tuple[PlannedStep, ...] = ()

    @property
    def happened(self) -> tuple[Happening, ...]:
        """What the new events did, with what each proved."""
        new = {event.number for event in self.events}
        return tuple(one for one in self.study.job.log if one.event.number in new)

    @property
    def graded(self) -> tuple[StandingGrade, ...]:
        """What the new grades say."""
        new = {record.number for record in self.grades}
        return tuple(one for one in self.study.job.grades if one.record.number in new)


def log_done(
    visit: Visit, answers: Sequence[str], *, when: datetime.date | None = None, who: str = "", after: int | None = None
) -> Entered:
    """Enter steps as done.

    Parameters
    ----------
    visit
        As it stands.
    answers
        Steps by their numbers in the plan from here (``"1-12"``), keys, names or printed lines; behind a step what was read there
        or used, and ``"note=…"`` or ``"string=…"``.
    when
        Day, or moment with its offset; None if nobody said.
    who
        Who did it.
    after
        Of a late entry, number of the event after which it happened; zero for before the first, None if it is in time.

    Returns
    -------
    Entered

    Raises
    ------
    InputError
        If no step is called so, a reading is missing, or it cannot have happened.
    """
    return _answered(visit, answers, _moment(visit, when, who, after), has_failed=False)


def log_failed(
    visit: Visit, answers: Sequence[str], *, when: datetime.date | None = None, who: str = "", after: int | None = None
) -> Entered:
    """Enter checks that did not pass.

    Parameters
    ----------
    visit
        As it stands.
    answers
        Checks, as for `log_done`.
    when
        Day, or moment with its offset; None if nobody said.
    who
        Who made them.
    after
        Of a late entry, number of the event after which it happened; zero for before the first, None if it is in time.

    Returns
    -------
    Entered

    Raises
    ------
    InputError
        If a step is no check, or it cannot have been made.
    """
    return _answered(visit, answers, _moment(visit, when, who, after), has_failed=True)


def log_touched(
    visit: Visit, part: str, kind: str, value: str = "", *, when: datetime.date | None = None, who: str = ""
) -> Entered:
    """Enter how a part was touched, where no step says it.

    Parameters
    ----------
    visit
        As it stands.
    part
        Key or name of the part.
    kind
        How it was touched: inspect, clean, lubricate, adjust, refit, place lost, replace, modify, bond.
    value
        With what; empty if nobody said.
    when
        Day, or moment with its offset; None if nobody said.
    who
        Who did it.

    Returns
    -------
    Entered

    Raises
    ------
    InputError
        If there is no such part, or it cannot be reached.
    """
    plan = study_job(visit).plan
    return _entered(visit, entering.touch(plan, part, kind, value, _moment(visit, when, who)))


def log_graded(visit: Visit, parts: str, words: Sequence[str], *, when: datetime.date | None = None, who: str = "") -> Entered:
    """Enter grades of a part, or of a group of parts.

    Parameters
    ----------
    visit
        As it stands.
    parts
        Key or name of a part, or of a group.
    words
        The look, its grade or what was measured, and what else was seen; without a look the grade is for all that have none yet.
    when
        Day, or moment with its offset; None if nobody said.
    who
        Who looked.

    Returns
    -------
    Entered

    Raises
    ------
    InputError
        If there is no such part or look, or it cannot be graded so.
    """
    sheet = visit.inspection.sheet(visit.variation)
    given = [one.record for one in visit.grades if one.record.number > visit.after]
    return _entered(visit, (), entering.graded(sheet, given, parts, words, _moment(visit, when, who)))


def log_note(visit: Visit, text: str, *, when: datetime.date | None = None, who: str = "") -> Entered:
    """Enter a remark.

    Parameters
    ----------
    visit
        As it stands.
    text
        What was seen.
    when
        Day, or moment with its offset; None if nobody said.
    who
        Who says it.

    Returns
    -------
    Entered

    Raises
    ------
    InputError
        If it says nothing.
    """
    return _entered(visit, entering.remark(text, _moment(visit, when, who)))


def log_undo(visit: Visit, *, when: datetime.date | None = None, who: str = "") -> Entered:
    """Take back all that the last answer entered: it stays in the log, and no longer counts.

    Parameters
    ----------
    visit
        As it stands.
    when
        Day, or moment with its offset; None if nobody said.
    who
        Who takes it back.

    Returns
    -------
    Entered

    Raises
    ------
    InputError
        If nothing was entered that counts.
    """
    return _entered(visit, entering.undone(visit.events, visit.graded, _moment(visit, when, who)))


def _answered(visit: Visit, answers: Sequence[str], moment: entering.Moment, *, has_failed: bool) -> Entered:
    plan = study_job(visit).plan
    events = entering.done(plan, answers, moment, has_failed=has_failed)
    found = _entered(visit, events)
    at = {step.step.name: position for position, step in enumerate(plan.steps)}
    answered = [at[name] for name in (_step_of(event) for event in events) if name in at]
    left = {step.step for step in found.study.plan.steps}
    before = plan.steps[: max(answered, default=0)]
    return replace(found, skipped=tuple(step for step in before if step.step in left))


def _step_of(event: Event) -> str:
    """Name of the step that an event answers."""
    if event.check is not None:
        return f"{event.kind or 'make'}:{event.check}"
    return f"{event.action}:{event.part}" if event.part is not None else f"do:{event.action}"


def _moment(visit: Visit, when: datetime.date | None, who: str, after: int | None = None) -> entering.Moment:
    numbers = [*(event.number for event in visit.events), *(record.number for record in visit.graded)]
    last = max(numbers, default=0)
    return entering.Moment(last + 1, when, who, after)


def _entered(visit: Visit, events: tuple[Event, ...], grades: tuple[GradeRecord, ...] = ()) -> Entered:
    """The visit with what is new; what cannot have happened is refused."""
    after = replace(visit, events=(*visit.events, *events), graded=(*visit.graded, *grades))
    after.check_log()
    return Entered(events=events, grades=grades, study=study_job(after))
