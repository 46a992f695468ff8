"""What is said of how the checks of a gun stand, each with its reason, and which gun it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from stripdown.procedures.falling_due import owed_by_log
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import CheckStanding, Standing
from stripdown.studies.service_job import JobStudy
from stripdown.words.answer import Answer, Cell, Column, Sentence, Table
from stripdown.words.energy import energy_sentences
from stripdown.words.falling_due import falling_due_answer
from stripdown.words.release import release_answer
from stripdown.words.signs import SIGNS

_URGENT_FIRST = (Standing.FAILED, Standing.STALE, Standing.FRESH, Standing.NEVER)
_COLUMNS = (Column(head=""), Column(head=""))


def standing_answer(study: JobStudy, *, with_all: bool = False) -> Answer:
    """Say how every check of a job stands, and what blocks release."""
    known, release_list = study.job.known.values(), study.job.procedure.release_list
    never = [one for one in known if one.standing is Standing.NEVER]
    made = [one for one in known if one.standing is not Standing.NEVER]
    groups = {
        "on_the_list": ("On the release list", [one for one in made if one.check in release_list]),
        "besides": ("Besides", [one for one in made if one.check not in release_list]),
    }
    if with_all:
        groups["disturbed"] = ("Never made, and disturbed by what is in the log", [one for one in never if one.is_owed])
        groups["undisturbed"] = ("Never made, and disturbed by nothing in the log", [one for one in never if not one.is_owed])
    else:
        groups["disturbed"] = ("", [one for one in never if one.is_owed and one.check in release_list])
    parts = [
        Answer(key=key, title=title, tables=(_standings(study.job.procedure, some),)) if title else _named(study, key, some)
        for key, (title, some) in groups.items()
        if some
    ]
    falling_due = falling_due_answer(study.job.procedure, owed_by_log(study.job.procedure, study.job.known))
    owed = (falling_due,) if falling_due.notes else ()
    return Answer(
        key="standing",
        title=study.job.title,
        lead=tuple(_head(study)),
        parts=(*parts, *owed, release_answer(study)),
        pictures=("standing",),
    )


def gun_sentence(study: JobStudy) -> Sentence:
    """Say which gun it is, what in the log made it so, and whether it is made up."""
    job = study.job
    changes = "".join(f" Since event {one.event.number}: {one.becoming.words}." for one in job.log if one.becoming is not None)
    made_up = " Gun and events are invented." if study.is_invented else ""
    return Sentence(key="gun", full=f"{job.gun_name or 'Gun'}: {job.procedure.variation}.{changes}{made_up}")


def _head(study: JobStudy) -> Iterator[Sentence]:
    procedure = study.job.procedure
    yield gun_sentence(study)
    yield from energy_sentences(study.job.energy)
    off = [key for key in procedure.parts if key in study.job.parts_off]
    if off:
        names = ", ".join(procedure.parts[part].name for part in off)
        yield Sentence(key="parts_off", full=f"Off now: {names}.", about=tuple(off))
    yield Sentence(key="signs", full=f"Signs: {', '.join(f'{SIGNS[one].mark} {one.value}' for one in _URGENT_FIRST)}.")


def _standings(procedure: Procedure, some: Iterable[CheckStanding]) -> Table:
    rows = [
        (
            Cell(text=f"{SIGNS[one.standing].mark} {one.standing.value}", key=one.standing.value),
            Cell(text=_told(procedure.checks[one.check].name, one.reason), key=one.check),
        )
        for one in sorted(some, key=lambda one: _URGENT_FIRST.index(one.standing))
    ]
    return Table(key="standings", columns=_COLUMNS, rows=tuple(rows))


def _named(study: JobStudy, key: str, some: Iterable[CheckStanding]) -> Answer:
    keys = tuple(one.check for one in some)
    names = "; ".join(study.job.procedure.checks[check].name for check in keys)
    said = f"{SIGNS[Standing.NEVER].mark} Never made, and disturbed by what is in the log: {names}."
    return Answer(key=key, title="", lead=(Sentence(key=key, full=said, about=keys),))


def _told(name: str, reason: str) -> str:
    """Name and reason, without saying the name twice."""
    start = f"the {name} "
    return f"{name} {reason[len(start) :]}" if reason.startswith(start) else f"{name}: {reason}"
