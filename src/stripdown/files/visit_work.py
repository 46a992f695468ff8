"""What the file of a visit says of the work: what gun it is, what is asked for, what has happened, how parts were graded."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from stripdown.bench.gun import Gun
from stripdown.bench.visit import Visit
from stripdown.errors import InputError
from stripdown.files.visit_tables import VisitTables
from stripdown.procedures.becoming import flaws_of_becoming
from stripdown.procedures.bodies import body_named
from stripdown.procedures.complaint_trees import request_for
from stripdown.procedures.complaints import find_complaint
from stripdown.procedures.contract import flaws
from stripdown.procedures.description import Procedures
from stripdown.procedures.energy import RAN, Arrival, read_arrival, trouble_called
from stripdown.procedures.events import Event, WrongEvent, read_event, read_events
from stripdown.procedures.grading import GradeRecord, read_grades
from stripdown.procedures.inspection import Inspection, add_own_limits, load_inspection
from stripdown.procedures.loading import add_own_steps, amended, load_procedures
from stripdown.procedures.names import step_named
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.variations import Variation
from stripdown.tables.reader import first_of
from stripdown.tables.toml_file import placed, read_toml
from stripdown.units import from_si, parse, unit_named

_FIELDS = ("low", "high", "name", "version", "reason")


def work_of(tables: VisitTables, *, gun: Gun | None, folder: Path) -> dict[str, Any]:
    """Fields of the visit that tell of the work; the gun's file in the folder may say the variation too."""
    with tables.at("variation"):
        procedures, notes = _procedures(tables)
        variation = procedures.variation(_features(tables, procedures, gun, folder))
    _refuse_flaws(tables, procedures.procedure(variation))
    request, after = _request(tables, procedures, variation)
    arrival = _arrival(tables, procedures.procedure(variation))
    inspection = _inspection(tables, procedures)
    events = _events(tables)
    head = tables.head
    return {
        "complaint": tables.text("request", "complaint", default=""),
        "finding": tables.text("request", "finding", default=""),
        "inspection": inspection,
        "variation": variation,
        "request": request,
        "after": after,
        "arrival": arrival,
        "events": events,
        "graded": _grades(tables, events),
        "tools": tables.texts(head, "tools") if tables.has(head, "tools") else None,
        "notes": notes,
    }


def _arrival(tables: VisitTables, procedure: Procedure) -> Arrival | None:
    """How the gun arrived; parts that were off may stand under [start] as well."""
    if not tables.has("arrival") and not tables.has("start"):
        return None
    with tables.at("start"):
        for part in tables.texts("start", "parts_off"):
            procedure.part(part)
    with tables.at("arrival"):
        said = Arrival(
            ran=tables.text("arrival", "ran", default=RAN[0]),
            troubles=tables.texts("arrival", "troubles"),
            off=tables.texts("arrival", "off"),
        )
        for part in said.off:
            procedure.part(part)
        for trouble in said.troubles:
            trouble_called(procedure, trouble)
        return read_arrival(said, parts_off=tables.texts("start", "parts_off"))


def check(visit: Visit, tables: VisitTables) -> None:
    """Refuse what cannot be, with its line."""
    lines = {**_numbered(tables, "grade", tables.grades()), **_numbered(tables, "event", tables.events())}
    try:
        visit.check_log()
    except WrongEvent as fault:
        raise placed(fault, tables.path, lines.get(fault.number)) from None
    except InputError as fault:
        raise placed(fault, tables.path, tables.line(("grade",))) from None
    with tables.at("request"):
        visit.check_request()


def _features(tables: VisitTables, procedures: Procedures, gun: Gun | None, folder: Path) -> Mapping[str, str]:
    """What is said of the gun here and in its own file, which must agree."""
    here = tables.variation()
    there: Mapping[str, str] = {} if gun is None else gun.variation
    asked = {*tables.texts("request", "work"), *(str(event.get("action")) for event in tables.events())}
    works = procedures.procedure(here).actions.items() if set(here) & set(there) else ()
    made = {pair for key, action in works if asked & {key, action.name} for pair in action.becomes.items()}
    for feature in set(here) & set(there):
        one, other = (procedures.variation({feature: said[feature]}).choices[feature] for said in (here, there))
        if one != other and gun is not None and (feature, other) not in made:
            file = read_toml(folder / gun.origin)
            place = f"{gun.origin}, line {file.lines.line(('variation', feature))}"
            what = f'= "{here[feature]}" is not what the gun\'s file says: "{there[feature]}" ({place}).'
            raise tables.wrong(
                ("variation", feature), f"variation.{feature}", what, "Say it in one of the two, or alike in both."
            )
    return {**there, **here}


def _inspection(tables: VisitTables, procedures: Procedures) -> Inspection:
    """Looks and limits, by a file of the technician's own if one is named."""
    own = tables.beside("own_limits")
    if own is not None:
        return add_own_limits(own.text, file=own.path, procedures=procedures)
    return replace(load_inspection(), procedures=procedures)


def _numbered(tables: VisitTables, table: str, entries: tuple[Mapping[str, Any], ...]) -> dict[int, int | None]:
    """Line of each entry by its number."""
    return {one.get("number", 0): tables.line((table, position)) for position, one in enumerate(entries)}


def _events(tables: VisitTables) -> tuple[Event, ...]:
    events, wrong = [], []
    for position, fields in enumerate(tables.events(), start=1):
        try:
            events.append(read_event(fields, position=position))
        except InputError as fault:
            wrong.append(placed(fault, tables.path, tables.line(("event", position - 1))))
    if wrong:
        raise first_of(wrong)
    try:
        return read_events(events)
    except WrongEvent as fault:
        raise placed(fault, tables.path, _numbered(tables, "event", tables.events()).get(fault.number)) from None


def _grades(tables: VisitTables, events: tuple[Event, ...]) -> tuple[GradeRecord, ...]:
    try:
        return read_grades(tables.grades(), events=events)
    except WrongEvent as fault:
        raise placed(fault, tables.path, _numbered(tables, "grade", tables.grades()).get(fault.number)) from None
    except InputError as fault:
        raise placed(fault, tables.path, tables.line(("grade",))) from None


def _procedures(tables: VisitTables) -> tuple[Procedures, tuple[str, ...]]:
    """The packaged procedures, or those with a file of own steps, and the limits of this visit."""
    procedures = load_procedures()
    notes: tuple[str, ...] = ()
    own, body = tables.beside("own_steps"), tables.text(tables.head, "body", default="")
    if body:
        with tables.at(tables.head, "body"):
            notes = (f"Steps for the body were added: {body_named(body).name}.",)
    if own is not None or body:
        procedures = add_own_steps("" if own is None else own.text, file="" if own is None else own.path, body=body)
    if own is not None:
        notes = (*notes, f"Own steps were added from {tables.text(tables.head, 'own_steps', default='')}.")
    procedures, amended = _limits(tables, procedures)
    return procedures, (*notes, *amended)


def _refuse_flaws(tables: VisitTables, procedure: Procedure) -> None:
    """Own steps that break the data's contract are told before they puzzle anybody in a plan."""
    if not tables.has(tables.head, "own_steps"):
        return
    wrong = (*flaws(procedure), *flaws_of_becoming(procedure))
    if wrong:
        more = "" if len(wrong) == 1 else f" There are {len(wrong) - 1} more of the kind."
        hint = f"Correct {tables.text(tables.head, 'own_steps', default='')}.{more}"
        raise tables.wrong(
            (tables.head, "own_steps"), f"{tables.head}.own_steps", f"leave no gun that can be serviced: {wrong[0]}", hint
        )


def _request(tables: VisitTables, procedures: Procedures, variation: Variation) -> tuple[Request, int]:
    """Read what is asked for: named jobs, and single work, checks and readings."""
    procedure = procedures.procedure(variation)
    request = Request(
        work=_keys(procedure, tables.texts("request", "work"), procedure.actions),
        wanted=_keys(procedure, tables.texts("request", "wanted"), procedure.checks),
        as_found=_keys(procedure, tables.texts("request", "as_found"), procedure.checks),
    )
    will_be = procedures.procedure(variation).after(request.work).choices
    for words in tables.texts("request", "job"):
        with tables.at("request", "job"):
            now = procedures.named_job(words, variation)
            then = procedures.named_job(words, {feature: choice.key for feature, choice in will_be.items()})
            request = request.with_job(replace(then, as_found=now.as_found))
    complaint, finding = tables.text("request", "complaint", default=""), tables.text("request", "finding", default="")
    if complaint:
        with tables.at("request", "finding" if finding else "complaint"):
            request = request.joined(_after_finding(complaint, finding, variation))
    return request, tables.count("request", "after")


def _keys(procedure: Procedure, said: tuple[str, ...], known: Collection[str]) -> tuple[str, ...]:
    """Keys of the work or the checks that are called so; what is not known stays as it is."""
    steps = {words: step_named(procedure, words) for words in said if words not in known}
    return tuple(step.key if (step := steps.get(words)) is not None and step.key in known else words for words in said)


def _after_finding(complaint: str, finding: str, variation: Variation) -> Request:
    """What a finding in the tree of a complaint asks for."""
    tree = find_complaint(complaint, variation)
    if not finding:
        first = tree.questions[0]
        raise InputError(
            f'"{tree.name}" is a complaint, and no finding yet.',
            field="complaint",
            value=complaint,
            hint=f'Look first (stripdown complaint {tree.key}), then write what you saw: finding = "{first.findings[0].key}".',
        )
    return request_for(tree, finding)


def _limits(tables: VisitTables, procedures: Procedures) -> tuple[Procedures, tuple[str, ...]]:
    """Procedures with the limits that a job file sets instead of the packaged ones."""
    notes = []
    for check, fields in tables.limits().items():
        where = ("limits", check)
        entry = procedures.checks.get(check)
        if entry is None or "reading" not in entry.table.fields:
            numbered = ", ".join(key for key, one in procedures.checks.items() if "reading" in one.table.fields)
            raise tables.wrong(where, f"limits.{check}", "is no check that a number decides.", f"Those are {numbered}.")
        if not isinstance(fields, dict) or not set(fields) <= set(_FIELDS) or not {"low", "high"} & set(fields):
            raise tables.wrong(where, f"limits.{check}", "must have low or high, and may have name, version and reason.")
        reading = entry.table.fields["reading"]
        limits = {side: _number(tables, check, side, fields[side], reading["unit"]) for side in ("low", "high") if side in fields}
        if limits.get("low", float("-inf")) > limits.get("high", float("inf")):
            raise tables.wrong(where, f"limits.{check}.low", "lies above high.", "Turn them round.")
        procedures = amended(
            procedures, check, {"reading": limits, "footing": "common_practice", "source": "", "where": _whose(fields)}
        )
        notes.append(f"Own limit for the {entry.table.fields['name']}: {_shown(limits, reading['unit'])} ({_whose(fields)}).")
    return procedures, tuple(notes)


def _number(tables: VisitTables, check: str, side: str, value: Any, unit: str) -> float:
    where = ("limits", check, side)
    if not isinstance(value, str):
        raise tables.wrong(where, f"limits.{check}.{side}", "must be a text with its unit.", f'Write {side} = "0.05 {unit}".')
    try:
        return from_si(parse(value, unit_named(unit).si, bare_unit=None), unit)
    except InputError as reason:
        raise tables.wrong(where, f"limits.{check}.{side}", f"cannot be read: {reason}") from None


def _whose(fields: dict[str, Any]) -> str:
    told = [str(fields[name]) for name in ("name", "version", "reason") if name in fields]
    return "; ".join(told) if told else "set in the job file"


def _shown(limits: dict[str, float], unit: str) -> str:
    return " to ".join(f"{limits[side]:g}" for side in ("low", "high") if side in limits) + f" {unit}"
