"""Entries of a log as they are typed."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Any

import pytest

from stripdown.errors import InputError
from stripdown.procedures.events import Event, read_events


def test_an_event_is_read_from_plain_values() -> None:
    """A day or a moment with its offset, as text or not; what is missing is None."""
    day, moment = datetime.date(2026, 5, 3), datetime.datetime(2026, 5, 3, 20, 15, tzinfo=datetime.UTC)
    for when, read in (("2026-05-03", day), (day, day), ("2026-05-03T20:15+00:00", moment), (moment, moment)):
        [event] = read_events([{"number": 1, "when": when, "who": "A.", "check": "seal", "passed": True}])
        assert event == Event(number=1, when=read, who="A.", check="seal", passed=True)


@pytest.mark.parametrize(
    ("fields", "complaint"),
    [
        ({"check": "seal"}, "entry 1 of the log has no number above zero"),
        ({"number": 0, "check": "seal"}, "has no number above zero"),
        ({"number": True, "check": "seal"}, "has no number above zero"),
        ({"number": 1}, "event 1: action is missing, and so are check and part"),
        ({"number": 1, "chek": "seal"}, r'event 1: chek "seal" is no field of an event\. Did you mean check'),
        ({"number": 1, "check": "seal", "part": "piston"}, "stands beside an action or a part"),
        ({"number": 1, "check": "seal", "kind": "clean"}, "means nothing for a check"),
        ({"number": 1, "check": "seal", "passed": "yes"}, "must be true or false"),
        ({"number": 1, "check": "seal", "when": "3 May"}, r'when "3 May" is neither a day nor a moment .* Write 2026-05-03'),
        ({"number": 1, "check": "seal", "when": "2026-05-03T20:15"}, "neither a day nor a moment with its offset"),
        ({"number": 1, "check": "seal", "after": 1}, r'after "1" must be the number of an earlier event'),
        ({"number": 1, "check": "seal", "after": True}, "must be the number of an earlier event"),
        ({"number": 3, "check": "seal", "after": 1, "supersedes": 2}, r'after "1" stands beside supersedes'),
        ({"number": 1, "part": "piston"}, "kind is missing. Known are inspect, clean"),
        ({"number": 1, "part": "piston", "kind": "polish"}, 'kind "polish" is no kind of touch'),
        ({"number": 1, "part": "piston", "kind": "clean", "value": [1]}, "must be a number or a text"),
        ({"number": 1, "check": "seal", "supersedes": "2"}, "must be the number of an event"),
        ({"number": 1, "check": 7}, "must be a text"),
        ({"number": 1, "check": False}, 'check "false" must be a text'),
        ({"number": 1, "action": "close_up", "part": "piston"}, 'means nothing for "close_up": it puts everything back'),
        ({"number": 1, "action": "take_off", "part": "piston", "kind": "bond"}, 'kind "bond" means nothing for "take_off"'),
        ({"number": 1, "action": "open_up", "part": "piston", "kind": "place_lost"}, 'means nothing for "open_up"'),
    ],
)
def test_a_slip_is_named_with_its_event(fields: Mapping[str, Any], complaint: str) -> None:
    """One message: number, field, what would be right."""
    with pytest.raises(InputError, match=complaint):
        read_events([fields])


@pytest.mark.parametrize("numbers", [(1, 1), (2, 1)])
def test_numbers_only_grow(numbers: tuple[int, int]) -> None:
    """Events out of order are refused: a late entry takes the next number."""
    with pytest.raises(InputError, match="Numbers only grow"):
        read_events([{"number": number, "check": "seal", "passed": True} for number in numbers])


@pytest.mark.parametrize(
    ("event", "complaint"),
    [
        (Event(number=1), "event 1: action is missing, and so are check and part"),
        (Event(number=0, check="seal", passed=True), "entry 1 of the log has no number above zero"),
        (Event(number=1, check="seal", action="open_up"), "stands beside an action or a part"),
        (Event(number=1, part="piston", kind="polish"), 'kind "polish" is no kind of touch'),
    ],
)
def test_an_event_that_was_made_in_python_is_looked_through_too(event: Event, complaint: str) -> None:
    """A record is refused for the same slips as a mapping."""
    with pytest.raises(InputError, match=complaint):
        read_events([event])


def test_records_mappings_and_generators_may_be_mixed() -> None:
    """Whatever yields events is a log; a day that was written as text is a day in a record too."""
    typed = {"number": 2, "check": "seal", "passed": True}
    events = read_events(one for one in (Event(number=1, check="seal", passed=True, when="2026-05-03"), typed))  # type: ignore[arg-type]
    assert [event.when for event in events] == [datetime.date(2026, 5, 3), None]


@pytest.mark.parametrize("log", [7, "seal", {"number": 1, "check": "seal"}, [7], [("number", 1)]])
def test_what_is_no_log_is_refused(log: Any) -> None:
    """One event alone, a text or a number is no list of events."""
    with pytest.raises(InputError, match=r"a log is a list of events|entry 1 of the log is no event"):
        read_events(log)
