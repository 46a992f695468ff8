from __future__ import annotations

import pytest

from stripdown.reports.bench_times import hands_time, waiting_time


@pytest.mark.parametrize(
    ("minutes", "said"), [(0.0, ""), (0.3, "under 1 min"), (4.0, "4 min"), (60.0, "1 h"), (59.6, "1 h"), (70.0, "1 h 10 min")]
)
def test_time_of_the_hands_is_said_in_minutes_and_hours(minutes: float, said: str) -> None:
    """Rounded to whole minutes; nothing if nobody knows."""
    assert hands_time(minutes) == said


@pytest.mark.parametrize(("hours", "said"), [(0.5, "30 min"), (1.5, "1.5 h"), (24.0, "24 h"), (48.0, "48 h"), (72.0, "3 d")])
def test_a_wait_is_said_as_makers_say_it(hours: float, said: str) -> None:
    """Minutes below an hour, whole days above two."""
    assert waiting_time(hours) == said
