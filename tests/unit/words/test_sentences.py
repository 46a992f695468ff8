"""How sentences and times are written at the bench."""

from __future__ import annotations

import pytest

from stripdown.words.sentences import as_sentence, caution_sentence, hands_time, waiting_time


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (0.0, ""),
        (0.3, "under 1 min"),
        (4.0, "4 min"),
        (58.0, "58 min"),
        (59.6, "1 h"),
        (60.0, "1 h"),
        (70.0, "1 h 10 min"),
        (211.0, "3 h 30 min"),
    ],
)
def test_time_of_the_hands_is_said_as_well_as_anybody_knows_it(minutes: float, said: str) -> None:
    """Rounded to whole minutes, above an hour to five; nothing if nobody knows."""
    assert hands_time(minutes) == said


@pytest.mark.parametrize(("hours", "said"), [(0.5, "30 min"), (1.5, "1.5 h"), (24.0, "24 h"), (48.0, "48 h"), (72.0, "3 d")])
def test_a_wait_is_said_as_makers_say_it(hours: float, said: str) -> None:
    """Minutes below an hour, whole days above two."""
    assert waiting_time(hours) == said


def test_a_sentence_has_a_capital_and_one_full_stop() -> None:
    """And nothing stays nothing."""
    assert [as_sentence(words) for words in ("wait", "Wait.", " ready? ", "")] == ["Wait.", "Wait.", "Ready?", ""]


@pytest.mark.parametrize(
    ("words", "short"),
    [
        ("Eye protection, turn only forward: it ends in a release. End past it.", "Eye protection, turn only forward."),
        ("No alcohol. No silicone.", "No alcohol."),
        ("A shim sold as 0.5 mm may be 0.53 mm: measure", "A shim sold as 0.5 mm may be 0.53 mm."),
        ("Gloves and air", ""),
    ],
)
def test_a_caution_in_short_is_its_first_clause(words: str, short: str) -> None:
    """Up to the first colon or full stop; a point within a figure is none. What is short already has no short form."""
    caution = caution_sentence(words)
    assert caution.short == short
    assert caution.full.endswith(".")
