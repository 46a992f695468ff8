"""Entries of a log as they are typed."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Any

import pytest

from stripdown.errors import InputError
from stripdown.procedures.events import Event, read_events


def test_an_event_is_read_from_plain_values() -> None:
    """A day may be a text, a date or a moment; what is missing is None."""
    moment = datetime.datetime(2026, 5, 3, 20, 15, tzinfo=datetime.UTC)
    for when in ("2026-05-03", "2026-05-03T20:15:00", datetime.date(2026, 5, 3), moment):
        [event] = read_events([{"number": 1, "when": when, "who": "A.", "check": "seal", "passed": True}])
        assert event == Event(number=1, when=datetime.date(2026, 5, 3), who="A.", check="seal", passed=True)


@pytest.mark.parametrize(
    ("fields", "complaint"),
    [
        ({"check": "seal"}, "entry 1 of the log has no number above zero"),
        ({"number": 0, "check": "seal"}, "has no number above zero"),
        ({"number": True, "check": "seal"}, "has no number above zero"),
        ({"number": 1}, "event 1: action is missing, and so are check and part"),
        ({"number": 1, "chek": "seal"}, r'event 1: chek "seal" is no field of an event\. Nearest known: check'),
        ({"number": 1, "check": "seal", "part": "piston"}, "stands beside an action or a part"),
        ({"number": 1, "check": "seal", "kind": "clean"}, "means nothing for a check"),
        ({"number": 1, "check": "seal", "passed": "yes"}, "must be true or false"),
        ({"number": 1, "check": "seal", "when": "3 May"}, r'when "3 May" is no day\. Write it as 2026-05-03'),
        ({"number": 1, "part": "piston"}, "kind is missing. Known are inspect, clean"),
        ({"number": 1, "part": "piston", "kind": "polish"}, 'kind "polish" is no kind of touch'),
        ({"number": 1, "part": "piston", "kind": "clean", "value": [1]}, "must be a number or a text"),
        ({"number": 1, "check": "seal", "supersedes": "2"}, "must be the number of an event"),
        ({"number": 1, "check": 7}, "must be a text"),
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
