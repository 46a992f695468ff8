"""The job file: which gun, what is asked for, what has happened, and how the parts were graded; every complaint with its line."""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from stripdown.errors import InputError
from stripdown.files.job_limits import limits_of
from stripdown.files.job_reckonings import ToReckon, read_reckonings
from stripdown.files.job_request import read_request, still_to_do
from stripdown.files.job_tables import JobTables
from stripdown.procedures.contract import flaws
from stripdown.procedures.description import Procedures
from stripdown.procedures.events import Event, WrongEvent, read_event, read_events
from stripdown.procedures.grading import StandingGrade, read_grades, standing_grades
from stripdown.procedures.happenings import Happening, happenings
from stripdown.procedures.inspection import add_own_limits, load_inspection
from stripdown.procedures.loading import add_own_steps, load_procedures
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request, check_request
from stripdown.procedures.standing import CheckStanding, standings
from stripdown.procedures.variations import Variation
from stripdown.tables.toml_file import placed, read_toml


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A job as its file has it.

    Parameters
    ----------
    file
        The file, as it was asked for.
    title
        What it is called.
    gun_name
        What the gun is called.
    invented
        Whether gun and events are made up.
    procedures
        All procedures, with the technician's own steps and limits.
    variation
        What gun it is.
    request
        What was asked for.
    remaining
        What of it is still to do.
    events
        The log.
    log
        What has happened, in order.
    parts_off
        Parts that are off now.
    known
        How each check stands.
    grades
        The last grade of each look at each part, and what became of it.
    tools
        Tools at hand; None if nobody said.
    to_reckon
        What the calculators are asked.
    notes
        What was assumed, or amended.
    digest
        SHA-256 of the file and those beside it that it names, together, hexadecimal.
    """

    file: str
    title: str
    gun_name: str
    invented: bool
    procedures: Procedures
    variation: Variation
    request: Request
    remaining: Request
    events: tuple[Event, ...]
    log: tuple[Happening, ...]
    parts_off: frozenset[str]
    known: Mapping[str, CheckStanding]
    grades: tuple[StandingGrade, ...]
    tools: tuple[str, ...] | None
    to_reckon: ToReckon
    notes: tuple[str, ...]
    digest: str

    @property
    def procedure(self) -> Procedure:
        """Procedures of the gun's variation."""
        return self.procedures.procedure(self.variation)


def load_job(path: str | os.PathLike[str]) -> Job:
    """Read a job file.

    Parameters
    ----------
    path
        The file (docs/job-file.md).

    Returns
    -------
    Job

    Raises
    ------
    InputError
        With file, line and field, and what would be right.
    """
    tables = JobTables(read_toml(path, start="docs/job-file.md shows how one begins."))
    with tables.at("variation"):
        procedures, notes = _procedures(tables)
        variation = procedures.variation(tables.variation())
    procedure = procedures.procedure(variation)
    _refuse_flaws(tables, procedure)
    request, after = read_request(tables, procedures, variation)
    with tables.at("request"):
        check_request(procedure, request, procedures)
    parts_off = tables.texts("start", "parts_off")
    log, events = _log(tables, procedure, procedures, parts_off)
    grades = _grades(tables, procedures, variation, events, log)
    to_reckon = read_reckonings(tables)
    return Job(
        file=tables.path,
        title=tables.text("job", "title", default=Path(path).stem),
        gun_name=tables.text("job", "gun", default=""),
        invented=tables.switch("job", "invented"),
        procedures=procedures,
        variation=variation,
        request=request,
        remaining=still_to_do(procedure, request, log, after=after),
        events=events,
        log=log,
        parts_off=log[-1].off_after if log else frozenset(parts_off),
        known=standings(procedure, log),
        grades=grades,
        tools=tables.texts("job", "tools") if tables.has("job", "tools") else None,
        to_reckon=to_reckon,
        notes=(*notes, *to_reckon.notes),
        digest=tables.digest,
    )


def _procedures(tables: JobTables) -> tuple[Procedures, tuple[str, ...]]:
    """The packaged procedures, or those with a file of own steps, and the limits of this job."""
    procedures = load_procedures()
    notes: tuple[str, ...] = ()
    own = tables.beside("own_steps")
    if own is not None:
        procedures = add_own_steps(own.text, file=own.path)
        notes = (f"Own steps were added from {tables.text('job', 'own_steps', default='')}.",)
    procedures, amended = limits_of(tables, procedures)
    return procedures, (*notes, *amended)


def _refuse_flaws(tables: JobTables, procedure: Procedure) -> None:
    """Own steps that break the data's contract are told before they puzzle anybody in a plan."""
    if not tables.has("job", "own_steps"):
        return
    wrong = flaws(procedure)
    if wrong:
        more = "" if len(wrong) == 1 else f" There are {len(wrong) - 1} more of the kind."
        hint = f"Correct {tables.text('job', 'own_steps', default='')}.{more}"
        raise tables.wrong(("job", "own_steps"), "job.own_steps", f"leave no gun that can be serviced: {wrong[0]}", hint)


def _grades(
    tables: JobTables, procedures: Procedures, variation: Variation, events: tuple[Event, ...], log: tuple[Happening, ...]
) -> tuple[StandingGrade, ...]:
    """How the parts were graded, by the packaged limits or those of a file of the technician's own."""
    own = tables.beside("own_limits")
    if own is not None:
        inspection = add_own_limits(own.text, file=own.path, procedures=procedures)
    else:
        inspection = replace(load_inspection(), procedures=procedures)
    line_of = {fields.get("number"): tables.line(("grade", position)) for position, fields in enumerate(tables.grades())}
    try:
        records = read_grades(tables.grades(), events=events)
        return standing_grades(inspection.sheet(variation), records, log, events)
    except WrongEvent as reason:
        raise placed(reason, tables.path, line_of.get(reason.number)) from None
    except InputError as reason:
        raise placed(reason, tables.path, tables.line(("grade",))) from None


def _log(
    tables: JobTables, procedure: Procedure, procedures: Procedures, parts_off: tuple[str, ...]
) -> tuple[tuple[Happening, ...], tuple[Event, ...]]:
    raw = tables.events()
    line_of: dict[int, int | None] = {}
    events = []
    for position, fields in enumerate(raw, start=1):
        line = tables.line(("event", position - 1))
        try:
            event = read_event(fields, position=position)
        except InputError as reason:
            raise placed(reason, tables.path, line) from None
        line_of[event.number] = line
        events.append(event)
    try:
        in_order = read_events(events)
        with tables.at("start"):
            for part in parts_off:
                procedure.part(part)
        return happenings(procedure, in_order, parts_off=parts_off, procedures=procedures), in_order
    except WrongEvent as reason:
        raise placed(reason, tables.path, line_of.get(reason.number)) from None
