"""Grades that were given, and which rejects still bar the way out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

from stripdown.errors import InputError
from stripdown.procedures.events import Event, WrongEvent, read_events
from stripdown.procedures.happenings import Happening, action_key, happenings
from stripdown.procedures.inspection import Inspection, InspectionSheet, load_inspection
from stripdown.procedures.looks import Grade, Look, grade_value
from stripdown.procedures.moments import When, entered_when
from stripdown.procedures.names import part_named
from stripdown.procedures.touches import Touch
from stripdown.procedures.variations import Variation
from stripdown.tables.nearest import nearest_name, plain_words

MENDING = frozenset({Touch.REPLACE, Touch.MODIFY, Touch.BOND})
"""Kinds of touch after which what was graded is no longer what lies there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeRecord:
    """One grade, as it was entered; records are appended and never changed.

    Parameters
    ----------
    number
        Its number, in one series with the events of the log: it only grows.
    when
        Day on which one looked, or the moment with its offset; None if nobody said.
    who
        Who looked.
    part
        Key of the part.
    look
        Key of the look.
    grade
        What was said; None leaves it to the value and the limits.
    value
        What was measured, a number in `unit`; or a standard's word for what was seen.
    unit
        Unit of the value; None takes that of the limits.
    note
        Whatever else was seen.
    overridden
        Reason for which a rejected part may leave all the same; it prints.
    act
        Number of the first entry of the act that entered it; None for its own.
    """

    number: int
    when: When | None = None
    who: str = ""
    part: str
    look: str
    grade: Grade | None = None
    value: float | str | None = None
    unit: str | None = None
    note: str = ""
    overridden: str = ""
    act: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingGrade:
    """The last grade of one look at one part, and what became of it.

    Parameters
    ----------
    record
        What was entered.
    look
        What was looked at.
    grade
        The grade that stands.
    by_limits
        What the limits would have said, if a grade was entered against them; None otherwise.
    mended
        Number of the event after it that replaced the part, or modified or bonded it as asked; None if none did.
    reason
        How it stands, in one sentence.
    """

    record: GradeRecord
    look: Look
    grade: Grade
    by_limits: Grade | None
    mended: int | None
    reason: str

    @property
    def is_open_reject(self) -> bool:
        """Whether it is a reject after which nothing was done."""
        return self.grade is Grade.REJECT and self.mended is None

    @property
    def blocks_release(self) -> bool:
        """Whether the gun may not leave because of it."""
        return self.is_open_reject and not self.record.overridden


_FIELDS = tuple(field.name for field in fields(GradeRecord))
_TEXTS = ("who", "part", "look", "unit", "note", "overridden")


def read_grades(grades: Iterable[GradeRecord | Mapping[str, Any]], *, events: Iterable[Event] = ()) -> tuple[GradeRecord, ...]:
    """Read the grades that were given."""
    taken = {event.number for event in events}
    found: list[GradeRecord] = []
    for position, one in enumerate(grades, start=1):
        record = one if isinstance(one, GradeRecord) else _read_grade(one, position)
        if record.number in taken:
            raise _wrong(record.number, "number", record.number, "is that of an event.", "Events and grades share one series.")
        if found and record.number <= found[-1].number:
            hint = "Numbers only grow: a grade that comes late takes the next free number."
            raise _wrong(record.number, "number", record.number, f"stands after {found[-1].number}.", hint)
        found.append(record)
    return tuple(found)


def without_withdrawn(
    records: Iterable[GradeRecord], events: Iterable[Event]
) -> tuple[tuple[GradeRecord, ...], tuple[Event, ...]]:
    """Grades that nobody took back, and the events without those that take a grade back."""
    graded = {record.number for record in records}
    taken_back = {event.supersedes for event in events if event.is_withdrawal and event.supersedes in graded}
    return (
        tuple(record for record in records if record.number not in taken_back),
        tuple(event for event in events if not (event.is_withdrawal and event.supersedes in taken_back)),
    )


def open_rejects(
    grades: Iterable[GradeRecord | Mapping[str, Any]],
    events: Iterable[Event | Mapping[str, Any]] = (),
    *,
    variation: Variation | Mapping[str, str] | str | Iterable[str],
    inspection: Inspection | None = None,
    parts_off: Iterable[str] = (),
) -> tuple[StandingGrade, ...]:
    """Rejects that were neither replaced nor mended nor looked at again with a better grade.

    Each bars release unless it was overridden with a reason; see `StandingGrade.blocks_release`.

    Parameters
    ----------
    grades
        Grades: records, or mappings with their fields, in the order of their numbers.
    events
        The log of the gun.
    variation
        What gun it is: feature to choice, or choices alone; what is not said is assumed.
    inspection
        Looks and limits; None for the packaged ones.
    parts_off
        Parts that were off before the first event.

    Returns
    -------
    tuple of StandingGrade

    Raises
    ------
    InputError
        With the number of the grade or event, for what is unknown, cannot be graded or cannot have happened.
    """
    inspected = inspection or load_inspection()
    sheet = inspected.sheet(variation)
    entered = read_events(events)
    records, log = without_withdrawn(read_grades(grades, events=entered), entered)
    happened = happenings(sheet.procedure, log, parts_off=parts_off, procedures=inspected.procedures)
    return tuple(one for one in standing_grades(inspected, sheet, records, happened, log) if one.is_open_reject)


def standing_grades(
    inspection: Inspection,
    sheet: InspectionSheet,
    records: Iterable[GradeRecord],
    happened: Sequence[Happening],
    log: Iterable[Event],
) -> tuple[StandingGrade, ...]:
    """The last grade of each look at each part, and what became of it, on the gun that it was when it was graded."""
    places = _places(log)
    mendings = tuple(_mendings(happened, places))
    changes = [(places[one.event.number], one.procedure_after) for one in happened if one.becoming is not None]
    last: dict[tuple[str, str], tuple[GradeRecord, InspectionSheet, Look, Grade, Grade | None]] = {}
    for written in records:
        guns = [gun for place, gun in changes if place < written.number]
        then = inspection.sheet({key: choice.key for key, choice in guns[-1].choices.items()}) if guns else sheet
        record = _with_keys(then, written)
        last.pop((record.part, record.look), None)
        last[record.part, record.look] = (record, then, *_graded(then, record))
    found = []
    for record, then, look, grade, by_limits in last.values():
        mending = next((one for one in mendings if one.mends(record, look)), None)
        found.append(
            StandingGrade(
                record=record,
                look=look,
                grade=grade,
                by_limits=by_limits,
                mended=mending.number if mending else None,
                reason=_reason(then, record, look, grade, mending.words if mending else ""),
            )
        )
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Mending:
    """A touch after which a part may no longer be what it was."""

    number: int
    place: int
    part: str
    kind: Touch
    action: str | None
    words: str

    def mends(self, record: GradeRecord, look: Look) -> bool:
        """A new part always; other work if it is what the look asks for, or if only part and kind were entered."""
        if self.place <= record.number or self.part != record.part:
            return False
        return self.kind is Touch.REPLACE or self.action is None or self.action in look.work


def _mendings(happened: Iterable[Happening], places: Mapping[int, int]) -> Iterator[_Mending]:
    for happening in happened:
        event = happening.event
        action = action_key(happening.procedure, event) if event.action is not None else None
        for deed in happening.deeds:
            part, kind = deed.touch
            if kind in MENDING:
                yield _Mending(
                    number=event.number, place=places[event.number], part=part, kind=kind, action=action, words=deed.words
                )


def _places(log: Iterable[Event]) -> Mapping[int, int]:
    """Where each event counts from: a correction from the place of what it corrects."""
    places: dict[int, int] = {}
    for event in log:
        places[event.number] = places.get(event.supersedes, event.number) if event.supersedes is not None else event.number
    return places


def _with_keys(sheet: InspectionSheet, record: GradeRecord) -> GradeRecord:
    """A grade with keys in place of the words that somebody wrote; what is not known stays as it is."""
    part = part_named(sheet.procedure, record.part)
    looks = {plain_words(look.name): look.key for look in sheet.looks.get(part, ())}
    return replace(record, part=part, look=looks.get(plain_words(record.look), record.look))


def _graded(sheet: InspectionSheet, record: GradeRecord) -> tuple[Look, Grade, Grade | None]:
    try:
        look = sheet.look(record.part, record.look)
        by_value = None if record.value is None else grade_value(look, record.value, record.unit)
    except InputError as reason:
        raise _numbered(record.number, reason) from reason
    if record.grade is None:
        if by_value is None:
            hint = f"Write grade = {' or '.join(repr(one.value) for one in Grade)}, or the value that was measured."
            raise _wrong(record.number, "grade", None, "is missing.", hint)
        return look, by_value, None
    return look, record.grade, by_value if by_value is not None and by_value is not record.grade else None


def _reason(sheet: InspectionSheet, record: GradeRecord, look: Look, grade: Grade, mending: str) -> str:
    part = sheet.procedure.parts[record.part]
    read = "" if record.value is None else f" ({record.value} {record.unit or ''}".rstrip() + ")"
    said = f"the {part.name} {part.was} graded {grade.value} for {look.name}{read} (grade {record.number})"
    if grade is not Grade.REJECT:
        return f"{said}."
    if mending:
        return f"{said}; since then {mending}."
    if record.overridden:
        return f'{said} and leaves all the same, because: "{record.overridden}".'
    return f"{said}, and nothing was replaced or mended since."


def _read_grade(fields_of: Mapping[str, Any], position: int) -> GradeRecord:
    given = {field: value for field, value in fields_of.items() if value is not None}
    number = given.get("number")
    if isinstance(number, bool) or not isinstance(number, int) or number < 1:
        hint = "Events and grades share one series of numbers, from 1."
        raise InputError(f"entry {position} of the grades has no number above zero.", field="number", value=number, hint=hint)
    for field, value in given.items():
        if field not in _FIELDS:
            raise _wrong(number, field, value, "is no field of a grade.", nearest_name(field, _FIELDS))
    for field in ("part", "look"):
        if field not in given:
            raise _wrong(number, field, None, "is missing.")
    for field in _TEXTS:
        if not isinstance(given.get(field, ""), str):
            raise _wrong(number, field, given[field], "must be a text.")
    if "overridden" in given and not given["overridden"].strip():
        raise _wrong(number, "overridden", None, "is empty.", "It is the reason for which the part may leave all the same.")
    value = given.get("value")
    if isinstance(value, bool) or not isinstance(value, int | float | str | None):
        raise _wrong(number, "value", value, "must be a number or a word.")
    if isinstance(given.get("act", 1), bool) or not isinstance(given.get("act", 1), int):
        raise _wrong(number, "act", given["act"], "must be the number of an entry.")
    return GradeRecord(**{**given, "when": _when(number, given.get("when")), "grade": _said(number, given.get("grade"))})


def _said(number: int, grade: object) -> Grade | None:
    if grade is None or isinstance(grade, Grade):
        return grade
    known = {one.value: one for one in Grade}
    if not isinstance(grade, str) or grade not in known:
        raise _wrong(number, "grade", grade, "is no grade.", f"Known are {', '.join(known)}.")
    return known[grade]


def _when(number: int, when: object) -> When | None:
    try:
        return entered_when(when)
    except ValueError:
        hint = "Write 2026-05-03, or with hour and offset 2026-05-03T14:30+02:00."
        raise _wrong(number, "when", when, "is neither a day nor a moment with its offset.", hint) from None


def _wrong(number: int, field: str, value: object, mistake: str, hint: str = "") -> WrongEvent:
    shown = "" if value is None else f' "{value}"'
    return _numbered(number, InputError(f"{field}{shown} {mistake}", field=field, value=value, hint=hint or None))


def _numbered(number: int, reason: InputError) -> WrongEvent:
    wrong = WrongEvent(f"grade {number}: {reason.message}", field=reason.field, value=reason.value, hint=reason.hint)
    wrong.number = number
    return wrong
