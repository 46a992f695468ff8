"""When did something happen, and how long after something else? A day, or a moment with its offset."""

from __future__ import annotations

import datetime

When = datetime.date
"""A day; or a moment, which is a day with its hour."""

_ISO_DAY = len("2026-05-03")
_DAY, _HOUR = datetime.timedelta(days=1), datetime.timedelta(hours=1)


def entered_when(when: object) -> When | None:
    """The day or the moment that somebody entered."""
    if isinstance(when, str):
        return entered_when(datetime.date.fromisoformat(when) if len(when) <= _ISO_DAY else datetime.datetime.fromisoformat(when))
    if isinstance(when, datetime.datetime) and when.tzinfo is None:
        raise ValueError(f"{when!r} is a moment without its offset.")
    if when is None or isinstance(when, datetime.date):
        return when
    raise ValueError(f"{when!r} is no day.")


def hours_between(earlier: When, later: When) -> tuple[float, float]:
    """Hours that have passed at least and at most: whoever wrote only a day may mean any hour of it."""
    (first, last), (begin, end) = _span(earlier, later), _span(later, earlier)
    return max(0.0, (begin - last) / _HOUR), max(0.0, (end - first) / _HOUR)


def is_later(one: When | None, other: When | None) -> bool:
    """Whether one is later than the other, as far as anybody wrote it down."""
    if one is None or other is None:
        return False
    if isinstance(one, datetime.datetime) and isinstance(other, datetime.datetime):
        return one > other
    return (one.year, one.month, one.day) > (other.year, other.month, other.day)


def day_of(when: When, *, with_year: bool) -> str:
    """A day as one says it."""
    return f"{when.day} {when:%B %Y}" if with_year else f"{when.day} {when:%B}"


def _span(when: When, other: When) -> tuple[datetime.datetime, datetime.datetime]:
    """First and last moment that it may mean; a day is one where the other was."""
    if isinstance(when, datetime.datetime):
        return when, when
    zone = other.tzinfo if isinstance(other, datetime.datetime) else datetime.UTC
    begin = datetime.datetime(when.year, when.month, when.day, tzinfo=zone)
    return begin, begin + _DAY
