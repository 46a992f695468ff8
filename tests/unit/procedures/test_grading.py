"""Grades in a log, and which rejects keep a gun on the bench."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Any

import pytest

from stripdown.errors import InputError
from stripdown.procedures.grading import StandingGrade, open_rejects, read_grades
from stripdown.procedures.looks import Grade

_REJECT = {
    "number": 3,
    "when": "2026-05-03",
    "who": "Wren",
    "part": "piston",
    "look": "pick_up_tooth",
    "value": 0.8,
    "unit": "mm",
}
_OPEN = {"number": 1, "action": "open_up", "part": "piston"}


def _rejects(*grades: Mapping[str, Any], events: tuple[Mapping[str, Any], ...] = (_OPEN,)) -> tuple[StandingGrade, ...]:
    return open_rejects(grades, events, variation="version 2")


def test_a_reject_blocks_release_until_something_is_done() -> None:
    """Its sentence says what, why and by which record."""
    [found] = _rejects(_REJECT)
    assert found.blocks_release
    assert found.grade is Grade.REJECT
    assert found.look.work == ("replace_piston",)
    assert found.reason == (
        "the piston was graded reject for pick-up tooth (0.8 mm) (grade 3), and nothing was replaced or mended since."
    )


@pytest.mark.parametrize("kind", ["replace", "modify", "bond"])
def test_a_touch_that_makes_it_another_part_closes_a_reject(kind: str) -> None:
    """Replaced, modified or bonded after the grade; before it is too early."""
    assert _rejects(_REJECT, events=(_OPEN, {"number": 4, "part": "piston", "kind": kind})) == ()
    assert len(_rejects(_REJECT, events=(_OPEN, {"number": 2, "part": "piston", "kind": kind}))) == 1


@pytest.mark.parametrize("kind", ["inspect", "clean", "lubricate", "adjust", "refit"])
def test_other_touches_leave_a_reject_open(kind: str) -> None:
    """Cleaning a rounded tooth leaves it round."""
    assert len(_rejects(_REJECT, events=(_OPEN, {"number": 4, "part": "piston", "kind": kind}))) == 1


def test_work_on_another_part_leaves_a_reject_open() -> None:
    """A new ring mends no rack."""
    assert len(_rejects(_REJECT, events=(_OPEN, {"number": 4, "part": "piston_head", "kind": "replace"}))) == 1


def test_an_action_counts_by_what_it_touches() -> None:
    """The work that the look asks for, entered by its key."""
    assert _rejects(_REJECT, events=(_OPEN, {"number": 4, "action": "replace_piston"})) == ()


def test_a_modification_that_was_not_asked_for_mends_nothing() -> None:
    """Dressing the rails modifies a cracked shell, and the crack is still there; a new shell is another matter."""
    opened = {"number": 1, "action": "open_up", "part": "shell"}
    cracked = {"number": 2, "part": "shell", "look": "cracks", "grade": "reject"}
    assert len(_rejects(cracked, events=(opened, {"number": 3, "action": "dress_rails"}))) == 1
    assert _rejects(cracked, events=(opened, {"number": 3, "action": "replace_shell"})) == ()
    rails = {"number": 2, "part": "shell", "look": "piston_rails", "grade": "reject"}
    assert _rejects(rails, events=(opened, {"number": 3, "action": "dress_rails"})) == ()


def test_a_later_better_grade_closes_a_reject_and_a_later_worse_one_opens_it() -> None:
    """The last grade of a look at a part is the one that stands; another look is another matter."""
    later = {"number": 5, "part": "piston", "look": "pick_up_tooth"}
    assert _rejects(_REJECT, {**later, "grade": "watch"}) == ()
    assert len(_rejects({**_REJECT, "value": 0.1}, {**later, "value": 0.8, "unit": "mm"})) == 1
    assert len(_rejects(_REJECT, {**later, "look": "body", "grade": "sound"})) == 1


def test_a_reason_lets_a_reject_leave_and_prints() -> None:
    """It stays open, it no longer blocks, and its sentence holds the reason."""
    [found] = _rejects({**_REJECT, "overridden": "Loan ends today; owner told."})
    assert found.is_open_reject
    assert not found.blocks_release
    assert found.reason.endswith('leaves all the same, because: "Loan ends today; owner told.".')


def test_a_grade_against_the_limits_stands_and_is_told() -> None:
    """The eye may overrule the number, either way; the record keeps both."""
    [found] = _rejects({**_REJECT, "value": 0.1, "grade": "reject"})
    assert (found.grade, found.by_limits) == (Grade.REJECT, Grade.SOUND)
    assert _rejects({**_REJECT, "grade": "sound"}) == ()


def test_a_word_of_the_standard_is_a_grade() -> None:
    """ISO 10825's word stands where a number would."""
    [found] = _rejects({"number": 3, "part": "bevel_gear", "look": "teeth", "value": "scuffing"})
    assert found.grade is Grade.REJECT


def test_a_correction_counts_from_the_place_of_what_it_corrects() -> None:
    """A replacement that was before the grade stays before it, however late it is corrected; one withdrawn never was."""
    before = {"number": 2, "part": "piston", "kind": "replace"}
    corrected = {"number": 9, "part": "piston", "kind": "replace", "who": "Wren", "supersedes": 2}
    assert len(_rejects(_REJECT, events=(_OPEN, before, corrected))) == 1
    after = {"number": 4, "part": "piston", "kind": "replace"}
    assert len(_rejects(_REJECT, events=(_OPEN, after, {"number": 5, "supersedes": 4}))) == 1


@pytest.mark.parametrize(
    ("change", "complaint"),
    [
        ({"number": 1}, 'grade 1: number "1" is that of an event'),
        ({"number": 0}, "entry 1 of the grades has no number above zero"),
        ({"part": "pistol"}, r'grade 3: "pistol" is no part .* Did you mean piston'),
        ({"look": "pick_up_toth"}, r'grade 3: "pick_up_toth" is no look at the piston. Did you mean pick_up_tooth'),
        ({"part": None}, "grade 3: part is missing"),
        ({"look": None}, "grade 3: look is missing"),
        ({"grade": "bad"}, 'grade 3: grade "bad" is no grade. Known are sound, watch, reject'),
        ({"grade": ["bad"]}, "is no grade. Known are sound, watch, reject"),
        ({"value": None, "unit": None}, "grade 3: grade is missing"),
        ({"value": "0.8 N", "unit": None}, "grade 3: .*mm"),
        ({"value": True}, "must be a number or a word"),
        ({"overridden": " "}, "grade 3: overridden is empty"),
        ({"overriden": "x"}, 'grade 3: overriden "x" is no field of a grade. Did you mean overridden'),
        ({"when": "last May"}, "is neither a day nor a moment .* Write 2026-05-03"),
        ({"who": 7}, "must be a text"),
        ({"part": "cut_off_lever", "look": "cut_off"}, None),
    ],
)
def test_a_mistake_is_named_with_number_and_field(change: dict[str, Any], complaint: str | None) -> None:
    """One message each; what is right passes."""
    grade = {**_REJECT, **change}
    if complaint is None:
        grade.update(value=None, unit=None, grade="sound")
        assert _rejects(grade) == ()
        return
    with pytest.raises(InputError, match=complaint):
        _rejects(grade)


def test_numbers_only_grow() -> None:
    """Also among the grades."""
    with pytest.raises(InputError, match='grade 2: number "2" stands after 3'):
        read_grades([_REJECT, {**_REJECT, "number": 2}])


def test_a_record_keeps_day_and_hand() -> None:
    """As it was entered, a moment with its offset."""
    moment = datetime.datetime(2026, 5, 3, 17, 30, tzinfo=datetime.UTC)
    [record] = read_grades([{**_REJECT, "when": moment, "note": "two cracks"}])
    assert (record.when, record.who, record.note) == (moment, "Wren", "two cracks")


def test_part_and_look_may_be_the_words_that_are_printed() -> None:
    """What an inspection prints may be entered: the same look by words and by keys is one look, graded twice."""
    [found] = _rejects({**_REJECT, "part": "Piston", "look": "pick-up tooth"})
    assert (found.record.part, found.record.look) == ("piston", "pick_up_tooth")
    assert _rejects(_REJECT, {"number": 4, "part": "the piston", "look": "Pick-up tooth", "grade": "sound"}) == ()


def test_a_grade_is_taken_back_by_an_event() -> None:
    """Nothing is deleted: the event names the grade's number, and touches nothing of the gun."""
    assert _rejects(_REJECT, events=(_OPEN, {"number": 4, "supersedes": 3})) == ()
    with pytest.raises(InputError, match="is no event before it"):
        _rejects(_REJECT, events=(_OPEN, {"number": 4, "supersedes": 2}))
