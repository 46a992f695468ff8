"""Grades from values and from words."""

from __future__ import annotations

from dataclasses import replace

import pytest

from stripdown.errors import InputError
from stripdown.procedures.looks import AppearanceTerm, Grade, GradeLimits, Look, Vocabulary, grade_value
from stripdown.references.provenance import Footing, Provenance

_PRACTICE = Provenance(footing=Footing.COMMON_PRACTICE, source=None, where="common practice, no source")
_TERMS = (
    AppearanceTerm(key="scuffing", name="scuffing", family="2 scuffing", grade=Grade.REJECT),
    AppearanceTerm(key="initial_pitting", name="initial pitting", family="4 surface fatigue", grade=Grade.WATCH),
)


def _look(**limits: float) -> Look:
    return Look(
        key="play",
        part="bearing",
        name="play",
        see="how far it moves",
        sound="still",
        watch="felt",
        reject="seen",
        limits=GradeLimits(label="play", unit="mm", provenance=_PRACTICE, **limits) if limits else None,
        vocabulary=Vocabulary(key="teeth", name="ISO 10825", note="words", terms=_TERMS, provenance=_PRACTICE),
        provenance=_PRACTICE,
    )


@pytest.mark.parametrize(
    ("value", "grade"),
    [
        (0.04, Grade.REJECT),
        (0.05, Grade.WATCH),
        (0.09, Grade.WATCH),
        (0.10, Grade.SOUND),
        (0.20, Grade.SOUND),
        (0.21, Grade.WATCH),
        (0.30, Grade.WATCH),
        (0.31, Grade.REJECT),
    ],
)
def test_a_value_at_a_limit_is_within_it(value: float, grade: Grade) -> None:
    """Beyond a limit the next grade begins, on both sides."""
    look = _look(reject_below=0.05, watch_below=0.10, watch_above=0.20, reject_above=0.30)
    assert grade_value(look, value) is grade


def test_a_limit_typed_in_another_unit_is_the_same_limit() -> None:
    """300 µm and 0.3 mm are at the limit alike; a bare text is in the unit of the limits."""
    look = _look(watch_above=0.2, reject_above=0.3)
    assert grade_value(look, 300, "um") is Grade.WATCH
    assert grade_value(look, "0.3") is Grade.WATCH
    assert grade_value(look, "0,31 mm") is Grade.REJECT


def test_a_standards_word_is_graded_by_this_bench() -> None:
    """In any spelling, by name or key."""
    look = _look()
    assert grade_value(look, "Initial pitting") is Grade.WATCH
    assert grade_value(look, "scuffing") is Grade.REJECT


@pytest.mark.parametrize(
    ("look", "value", "unit", "complaint"),
    [
        (_look(), "pitting, initial stage", None, "is no word of ISO 10825. Did you mean initial_pitting"),
        (_look(), 0.2, "mm", "the eye or the hand decides here. Write the grade: sound, watch, reject"),
        (_look(watch_above=0.2), 0.2, "N", "mm"),
        (replace(_look(watch_above=0.2), vocabulary=None), "much", None, "is not a number"),
    ],
)
def test_what_cannot_be_graded_is_refused(look: Look, value: float | str, unit: str | None, complaint: str) -> None:
    """A word that is none, a number where the eye decides, another kind of unit, no number."""
    with pytest.raises(InputError, match=complaint):
        grade_value(look, value, unit)


def test_limits_read_as_one_says_them() -> None:
    """Each grade with its band; a side without a limit is not mentioned, nor the unit of a pure number."""
    both = _look(reject_below=1, watch_below=2, watch_above=8, reject_above=12)
    assert [both.words(grade) for grade in Grade] == [
        "2 to 8 mm: still",
        "below 2 mm or above 8 mm: felt",
        "below 1 mm or above 12 mm: seen",
    ]
    assert _look(reject_above=0.3).words(Grade.SOUND) == "at most 0.3 mm: still"
    assert _look(reject_above=0.3).words(Grade.WATCH) == "felt"
    assert _look(watch_below=60, reject_below=40).words(Grade.SOUND) == "at least 60 mm: still"
    pure = GradeLimits(label="patches", unit="1", watch_above=3, provenance=_PRACTICE)
    assert pure.words(Grade.WATCH) == "above 3"
