"""What is written into the log of a gun: one event, as it was typed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from typing import Any

from stripdown.errors import InputError
from stripdown.procedures.moments import When, entered_when
from stripdown.procedures.touches import Touch
from stripdown.tables.nearest import nearest_name

AS_FOUND = "as_found"
TAKE_OFF, PUT_BACK, OPEN_UP, CLOSE_UP = "take_off", "put_back", "open_up", "close_up"
MOVES = (TAKE_OFF, PUT_BACK, OPEN_UP, CLOSE_UP)
"""Actions that every gun knows: one part off or back; everything off that is in front of a part, with it; everything back."""


class WrongEvent(InputError):
    """Something in the log that cannot be, with the number of its event or grade."""

    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class FluidOn:
    """One fluid of an event, and on what it came.

    Parameters
    ----------
    fluid
        What it is called.
    parts
        Keys of the parts; empty for all that the event touches.
    """

    fluid: str
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One entry of the log; entries are appended and never changed.

    Parameters
    ----------
    number
        Its number: it only grows. A late entry takes the number of when it was entered.
    after
        Of a late entry, number of the event after which it happened; zero for before the first. None if it was entered in time.
    when
        Day on which it happened, or the moment with its offset; None if nobody said.
    who
        Who did it.
    action
        Key of an action, or one of `MOVES`.
    check
        Key of the check that was made.
    part
        Key of the part that was touched.
    kind
        How it was touched; of a check, ``as_found`` for a reading before any work.
    value
        What was read, as a number of the unit of `unit`; of labelled parts, the labels that lie there now.
    unit
        Unit of the value.
    readings
        Of a check with several readings, each by its key, as a number of the unit of that reading or with a unit of its own.
    passed
        Whether the check passed; None leaves it to the value and its limits.
    string
        What the chronograph string is called that proves the check.
    fluids
        What it was cleaned, greased or bonded with, where several fluids came on several parts.
    note
        Whatever else was seen; alone, the event is a remark.
    act
        Number of the first event of the act that entered it: what one answer entered is withdrawn as one.
    supersedes
        Number of the event that this one corrects; alone, it withdraws it.
    """

    number: int
    after: int | None = None
    when: When | None = None
    who: str = ""
    action: str | None = None
    check: str | None = None
    part: str | None = None
    kind: str | None = None
    value: float | str | None = None
    unit: str | None = None
    readings: tuple[tuple[str, float | str], ...] = ()
    passed: bool | None = None
    string: str | None = None
    fluids: tuple[FluidOn, ...] = ()
    note: str = ""
    act: int | None = None
    supersedes: int | None = None

    @property
    def is_remark(self) -> bool:
        """Whether it tells of nothing that was done to the gun."""
        return self.action is None and self.check is None and self.part is None

    @property
    def is_withdrawal(self) -> bool:
        """Whether it only takes another event back."""
        return self.is_remark and self.supersedes is not None


_FIELDS = tuple(field.name for field in fields(Event))


def read_events(events: Iterable[Event | Mapping[str, Any]]) -> tuple[Event, ...]:
    """Read the events of a log."""
    if isinstance(events, str | Mapping) or not isinstance(events, Iterable):
        raise InputError("a log is a list of events.", field="events", value=events, hint="Write events = [{…}, {…}].")
    found: list[Event] = []
    for position, one in enumerate(events, start=1):
        event = read_event(one, position=position)
        if found and event.number <= found[-1].number:
            hint = "Numbers only grow: an entry that comes late takes the next free number."
            raise wrong_event(event.number, "number", event.number, f"stands after event {found[-1].number}.", hint)
        found.append(event)
    return tuple(found)


def read_event(entry: Event | Mapping[str, Any], *, position: int) -> Event:
    """Read one event."""
    handed: object = entry  # what it is said to be is not what a person may hand over
    if not isinstance(handed, Event | Mapping):
        hint = f"An event has the fields {', '.join(_FIELDS)}."
        raise InputError(f"entry {position} of the log is no event.", field="events", value=handed, hint=hint)
    fields_of = {field: getattr(handed, field) for field in _FIELDS} if isinstance(handed, Event) else handed
    given = {field: value for field, value in fields_of.items() if value is not None}
    number = given.get("number")
    if isinstance(number, bool) or not isinstance(number, int) or number < 1:
        raise InputError(
            f"entry {position} of the log has no number above zero.",
            field="number",
            value=number,
            hint="Write number = 1 for the first, and one more for each that follows.",
        )
    for field, value in given.items():
        if field not in _FIELDS:
            raise wrong_event(number, field, value, "is no field of an event.", nearest_name(field, _FIELDS))
    for field in ("who", "action", "check", "part", "kind", "unit", "string", "note"):
        if not isinstance(given.get(field, ""), str):
            raise wrong_event(number, field, given[field], "must be a text.")
    if not isinstance(given.get("passed", False), bool):
        raise wrong_event(number, "passed", given["passed"], "must be true or false.")
    for field in ("supersedes", "act"):
        named = given.get(field, 1)
        if isinstance(named, bool) or not isinstance(named, int):
            raise wrong_event(number, field, named, "must be the number of an event.")
    after = given.get("after", 0)
    if isinstance(after, bool) or not isinstance(after, int) or not 0 <= after < number:
        hint = "Name the event after which it happened; 0 is before the first."
        raise wrong_event(number, "after", after, "must be the number of an earlier event.", hint)
    read = given.get("value")
    if isinstance(read, bool) or not isinstance(read, int | float | str | None):
        raise wrong_event(number, "value", read, "must be a number or a text.")
    said = {field: _key(given[field]) for field in ("kind",) if field in given}
    fluids, readings = _fluids(number, given.get("fluids", ())), _readings(number, given.get("readings", {}))
    event = Event(**{**given, **said, "fluids": fluids, "readings": readings, "when": _when(number, given.get("when"))})
    _shape(event)
    return event


def _key(words: str) -> str:
    """A word as it reads ("as found", "place lost") or as a key."""
    return "_".join(words.lower().split())


def _readings(number: int, written: Any) -> tuple[tuple[str, float | str], ...]:
    """Several readings of one check, as they were typed."""
    pairs = tuple(written.items()) if isinstance(written, Mapping) else written
    hint = "Write readings = { sector = 0.08, spur = 0.11, bevel = 0.10 }."
    if not isinstance(pairs, tuple | list):
        raise wrong_event(number, "readings", written, "must be a table of readings.", hint)
    for pair in pairs:
        key, value = pair if isinstance(pair, tuple | list) and len(pair) == 2 else (None, None)
        if not isinstance(key, str) or isinstance(value, bool) or not isinstance(value, int | float | str):
            raise wrong_event(number, "readings", key, "is no reading: a name, and a number or a text.", hint)
    return tuple((_key(key), value) for key, value in pairs)


def _fluids(number: int, written: Any) -> tuple[FluidOn, ...]:
    """Fluids, each with the parts on which it came."""
    hint = 'Write fluids = [{ fluid = "isopropyl alcohol", parts = ["cylinder"] }].'
    if not isinstance(written, list | tuple):
        raise wrong_event(number, "fluids", written, "must be a list of fluids, each with its parts.", hint)
    found = []
    for one in written:
        fields_of = {"fluid": one.fluid, "parts": list(one.parts)} if isinstance(one, FluidOn) else one
        if not isinstance(fields_of, Mapping) or not set(fields_of) <= {"fluid", "parts"}:
            raise wrong_event(number, "fluids", None, "holds what is no fluid with its parts.", hint)
        fluid, parts = fields_of.get("fluid"), fields_of.get("parts", [])
        listed = [parts] if isinstance(parts, str) else parts
        is_list = isinstance(listed, list) and all(isinstance(part, str) and part.strip() for part in listed)
        if not isinstance(fluid, str) or not fluid.strip() or not is_list:
            raise wrong_event(number, "fluids", None, "holds a fluid without a name, or parts that are no texts.", hint)
        found.append(FluidOn(fluid=fluid.strip(), parts=tuple(dict.fromkeys(listed))))
    return tuple(found)


def _shape(event: Event) -> None:
    """An event says one thing."""
    if event.check is not None and (event.action is not None or event.part is not None):
        raise wrong_event(event.number, "check", event.check, "stands beside an action or a part.", "One event is one of them.")
    if event.is_remark and event.supersedes is None and not event.note.strip():
        raise wrong_event(event.number, "action", None, "is missing, and so are check and part.", "Say what was done.")
    if event.readings and (event.check is None or event.value is not None):
        hint = "They stand beside a check that has several, in place of a value."
        raise wrong_event(event.number, "readings", None, "mean nothing here.", hint)
    if event.fluids and (event.is_remark or event.check is not None):
        raise wrong_event(
            event.number, "fluids", None, "mean nothing here.", "They stand beside an action, or a part and a kind."
        )
    if event.after is not None and event.supersedes is not None:
        hint = "A correction stands where the corrected event stood: leave one of them out."
        raise wrong_event(event.number, "after", event.after, "stands beside supersedes.", hint)
    if event.string is not None and event.check is None:
        raise wrong_event(event.number, "string", event.string, "means nothing without a check.", "A string proves a check.")
    if event.check is not None and event.kind not in {None, AS_FOUND}:
        raise wrong_event(event.number, "kind", event.kind, "means nothing for a check.", f'It may be "{AS_FOUND}", or missing.')
    if event.action is None and event.part is not None:
        touch_of(event)
    if event.action == CLOSE_UP and event.part is not None:
        hint = f'Write action = "{PUT_BACK}" for one part.'
        raise wrong_event(event.number, "part", event.part, f'means nothing for "{CLOSE_UP}": it puts everything back.', hint)
    if event.action in MOVES and event.kind not in {None, Touch.REFIT.value} and not is_misplacing(event):
        hint = f'What else was done to the part is an event of its own; only "{Touch.PLACE_LOST.value}" may stand with one part.'
        raise wrong_event(event.number, "kind", event.kind, f'means nothing for "{event.action}".', hint)


def is_misplacing(event: Event) -> bool:
    """Whether an event took one part off, or put it back, and its place was lost."""
    return event.action in {TAKE_OFF, PUT_BACK} and event.kind == Touch.PLACE_LOST.value


def touch_of(event: Event) -> Touch:
    """How an event touches its part."""
    known = [kind.value for kind in Touch]
    if event.kind not in known:
        what = "is missing." if event.kind is None else "is no kind of touch."
        raise wrong_event(event.number, "kind", event.kind, what, f"Known are {', '.join(known)}.")
    return Touch(event.kind)


def wrong_event(number: int, field: str, value: object, mistake: str, hint: str = "") -> WrongEvent:
    """A mistake with the number of the event and the field."""
    shown = "" if value is None else f' "{str(value).lower() if isinstance(value, bool) else value}"'
    wrong = WrongEvent(f"event {number}: {field}{shown} {mistake}", field=field, value=value, hint=hint or None)
    wrong.number = number
    return wrong


def _when(number: int, when: object) -> When | None:
    try:
        return entered_when(when)
    except ValueError:
        hint = "Write 2026-05-03, or with hour and offset 2026-05-03T14:30+02:00."
        raise wrong_event(number, "when", when, "is neither a day nor a moment with its offset.", hint) from None
