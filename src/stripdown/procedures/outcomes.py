"""Did a check pass?"""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.errors import InputError
from stripdown.procedures.checks import Check
from stripdown.procedures.events import Event, wrong_event
from stripdown.tables.nearest import nearest_name
from stripdown.units import from_si, parse, unit_named


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """How a check came out."""

    has_passed: bool
    words: str = ""


def outcome_of(check: Check, event: Event) -> Outcome:
    """How a check came out, from what was entered."""
    value, told = _judged(check, event)
    if value is None or check.reading is None:
        if event.passed is None:
            wanted = f", or value and unit of the {check.reading.label}" if check.reading is not None else ""
            raise wrong_event(event.number, "passed", None, "is missing.", f"Write passed = true or passed = false{wanted}.")
        return Outcome(has_passed=event.passed, words=told or ("" if event.value is None else _plain(event.value, event.unit)))
    holds = check.reading.holds(value)
    several = f" ({told})" if told else ""
    limits = f"{check.reading.label} {value:.4g} {check.reading.unit}{several}, wanted {check.reading.band}"
    if event.passed is None and check.reading.low is None and check.reading.high is None:
        raise wrong_event(
            event.number, "passed", None, "is missing: the reading has no limits of its own.", "Write true or false."
        )
    if event.passed is None or event.passed == holds:
        return Outcome(has_passed=holds, words=limits)
    return Outcome(has_passed=event.passed, words=f"{limits}; entered as {'passed' if event.passed else 'not passed'} by hand")


def _judged(check: Check, event: Event) -> tuple[float | None, str]:
    """The value that is judged, in the unit of the check's reading, and several readings as they read."""
    if event.readings:
        return _of_several(check, event)
    if event.value is None or check.reading is None:
        return None, ""
    return _number(event, "value", _plain(event.value, event.unit), check.reading.unit), ""


def _of_several(check: Check, event: Event) -> tuple[float | None, str]:
    known = {one.key: one for one in check.readings}
    values: dict[str, float] = {}
    for key, typed in event.readings:
        if key not in known:
            mistake = f"is no reading of the {check.name}."
            hint = nearest_name(key, known) if known else "It has no several readings."
            raise wrong_event(event.number, "readings", key, mistake, hint)
        values[key] = _number(event, "readings", _plain(typed, event.unit), known[key].unit)
    told = ", ".join(f"{key} {value:.4g} {known[key].unit}" for key, value in values.items())
    judged = [key for key, one in known.items() if check.reading is not None and one.unit == check.reading.unit]
    missing = [key for key in judged if key not in values]
    if missing and event.passed is None:
        hint = "Write them as well, or passed = true or false by hand."
        raise wrong_event(event.number, "readings", None, f"lack {', '.join(missing)}.", hint)
    if missing or check.reading is None:
        return None, told
    return check.reading.furthest(values[key] for key in judged), told


def _number(event: Event, field: str, typed: str, unit: str) -> float:
    """What was typed, in some unit."""
    wanted = unit_named(unit)
    try:
        in_si = parse(typed, wanted.si, bare_unit=wanted.name)
    except InputError as reason:
        raise wrong_event(event.number, field, typed, f"cannot be read: {reason}") from reason
    return from_si(in_si, wanted.name)


def _plain(typed: float | str, unit: str | None) -> str:
    """Value and unit; a unit that the value brings along already is not written twice."""
    value, unit = str(typed).strip(), (unit or "").strip()
    return value if isinstance(typed, str) and value.endswith(unit) else f"{value} {unit}"
