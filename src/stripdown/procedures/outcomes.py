"""Did a check pass?"""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.errors import InputError
from stripdown.procedures.checks import Check
from stripdown.procedures.events import Event, wrong_event
from stripdown.units import from_si, parse, unit_named


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """How a check came out."""

    has_passed: bool
    words: str = ""


def outcome_of(check: Check, event: Event) -> Outcome:
    """How a check came out, from what was entered."""
    value = _value(check, event)
    if value is None or check.reading is None:
        if event.passed is None:
            wanted = f", or value and unit of the {check.reading.label}" if check.reading is not None else ""
            raise wrong_event(event.number, "passed", None, "is missing.", f"Write passed = true or passed = false{wanted}.")
        return Outcome(has_passed=event.passed, words="" if event.value is None else _plain(event))
    holds = check.reading.holds(value)
    limits = f"{check.reading.label} {value:.4g} {check.reading.unit}, wanted {check.reading.band}"
    if event.passed is None and check.reading.low is None and check.reading.high is None:
        raise wrong_event(
            event.number, "passed", None, "is missing: the reading has no limits of its own.", "Write true or false."
        )
    if event.passed is None or event.passed == holds:
        return Outcome(has_passed=holds, words=limits)
    return Outcome(has_passed=event.passed, words=f"{limits}; entered as {'passed' if event.passed else 'not passed'} by hand")


def _value(check: Check, event: Event) -> float | None:
    """The value in the unit of the check's reading."""
    if event.value is None or check.reading is None:
        return None
    unit = unit_named(check.reading.unit)
    try:
        in_si = parse(_plain(event), unit.si, bare_unit=unit.name)
    except InputError as reason:
        raise wrong_event(event.number, "value", event.value, f"cannot be read: {reason}") from reason
    return from_si(in_si, unit.name)


def _plain(event: Event) -> str:
    """Value and unit; a unit that the value brings along already is not written twice."""
    value, unit = str(event.value).strip(), (event.unit or "").strip()
    return value if isinstance(event.value, str) and value.endswith(unit) else f"{value} {unit}"
