"""Complaints: found by words, walked by findings, and what is refused."""

from __future__ import annotations

import pytest

from stripdown.errors import CatalogueError, InputError
from stripdown.procedures.complaint_trees import request_for
from stripdown.procedures.complaints import find_complaint, load_complaints, read_complaints
from stripdown.procedures.loading import load_procedures

_TREE = """
[complaint.sulks]
name = "sulks"
words = ["is in a mood"]
care = ["Eye protection."]
[[complaint.sulks.question]]
key = "rain"
ask = "Does it rain?"
how = "Look out."
minutes = 1
finding = [
  { key = "wet", seen = "yes", says = "Wait.", work = ["charge_battery"] },
  { key = "dry", seen = "no", says = "Go on.", next = "latch" },
]
[[complaint.sulks.question]]
key = "latch"
when = { latch = "latch_present" }
ask = "Does the latch bite?"
how = "Try."
minutes = 2
finding = [
  { key = "bites", seen = "yes", says = "Go on.", next = "moon" },
  { key = "slips", seen = "no", says = "New latch.", work = ["replace_anti_reversal_latch"] },
]
[[complaint.sulks.question]]
key = "moon"
ask = "Is the moon full?"
how = "Look up."
minutes = 3
finding = [
  { key = "full", seen = "yes", says = "Prove it.", wanted = ["first_power", "latch_bite"], as_found = ["battery_state"] },
  { key = "new", seen = "no", says = "Prove it.", wanted = ["first_power"] },
]
"""


def _read(text: str) -> None:
    read_complaints(text, file="own.toml", procedures=load_procedures())


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("will not fire", "will_not_fire"),
        ("It won't fire.", "will_not_fire"),
        ("fires, no ball", "fires_no_ball"),
        ("two balls", "two_balls"),
        ("jams in mid-cycle", "jams_in_mid_cycle"),
        ("my gun bursts on semi", "bursts_on_semi"),
        ("Runs on", "runs_on"),
        ("weak trigger", "slow_trigger"),
        ("hot wires", "hot_motor_or_wires"),
        ("whine", "whine_grind_rattle"),
        ("grind", "whine_grind_rattle"),
        ("it rattles", "whine_grind_rattle"),
        ("low velocity", "low_velocity"),
        ("wide_velocity", "wide_velocity"),
        ("drifting velocity", "drifting_velocity"),
        ("hooks to the left", "hooks"),
        ("no lift", "no_lift"),
        ("too much lift", "too_much_lift"),
        ("over the limit", "over_the_limit"),
    ],
)
def test_a_complaint_is_found_by_what_people_say(words: str, key: str) -> None:
    """Every complaint of the trade, in its words, as key, or within a sentence."""
    assert find_complaint(words).key == key


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        ("velocity", "may be one of: low velocity; wide velocity; drifting velocity"),
        ("whyne", "Did you mean whine"),
        ("banana", "may be one of: will not fire; .*over the limit"),
        ("", "fits no complaint"),
    ],
)
def test_words_that_fit_none_are_answered_with_the_nearest(words: str, complaint: str) -> None:
    """Several that fit alike, a slip, nothing like it, nothing at all."""
    with pytest.raises(InputError, match=complaint):
        load_complaints().find(words, "")


def test_a_finding_ends_in_a_request() -> None:
    """By the finding or its key; work, checks and readings as found."""
    complaint = load_complaints().find("jams", "")
    request = request_for(complaint, "height_binds")
    assert request.work == ("set_motor_height",)
    assert "motor_height" in request.wanted
    assert request.as_found == ()  # a jammed gun is not fired to find out
    assert request.troubles == ("jam",)
    assert request_for(complaint, complaint.finding("height_binds")) == request


def test_a_finding_that_goes_on_says_what_to_answer_next() -> None:
    """It is no request yet."""
    complaint = load_complaints().find("jams", "")
    with pytest.raises(InputError, match=r'"pack_same" is not the end .* Answer when next: Does a marked rod pass'):
        request_for(complaint, "pack_same")


def test_an_unknown_finding_or_question_names_the_nearest() -> None:
    """Of that tree."""
    complaint = load_complaints().find("jams", "")
    with pytest.raises(InputError, match="Did you mean pack_same"):
        request_for(complaint, "pack_sam")
    with pytest.raises(InputError, match="Did you mean screws"):
        complaint.question("screw")


def test_a_question_that_a_gun_does_not_have_is_passed_over() -> None:
    """The next one takes its place, and what is asked for is only what that gun has."""
    complaints = read_complaints(_TREE, file="own.toml", procedures=load_procedures())
    with_latch, without = complaints.find("sulks", "latch"), complaints.find("sulks", "latch deleted")
    assert [one.key for one in with_latch.questions] == ["rain", "latch", "moon"]
    assert [one.key for one in without.questions] == ["rain", "moon"]
    assert with_latch.finding("dry").then == "latch"
    assert without.finding("dry").then == "moon"
    assert request_for(with_latch, "full").wanted == ("first_power", "latch_bite")
    assert request_for(without, "full").wanted == ("first_power",)


@pytest.mark.parametrize(
    ("change", "complaint"),
    [
        (('work = ["charge_battery"]', 'work = ["charge_bakery"]'), "'charge_bakery' is no action of any variation"),
        (('wanted = ["first_power"]', 'wanted = ["first_flower"]'), "is no check of any variation"),
        (('as_found = ["battery_state"]', 'as_found = ["weather"]'), "is no check of any variation"),
        (('next = "moon"', 'next = "rain"'), "is no later question"),
        (('next = "moon"', 'next = "sun"'), "is no later question"),
        (('next = "latch"', 'next = "latch", work = ["charge_battery"]'), "must stand alone"),
        ((', wanted = ["first_power"] }', " }"), "must stand alone"),
        (('key = "new"', 'key = "full"'), "is there already in this tree"),
        (('key = "moon"\nask', 'key = "rain"\nask'), "each key once|is no later question"),
        (("minutes = 2", ""), "the cheapest look comes first"),
        (('latch = "latch_present"', 'latch = "latch_maybe"'), "is no choice of latch"),
        (('  { key = "dry", seen = "no", says = "Go on.", next = "latch" },\n', ""), "at least two"),
        (("care =", "cares ="), "means nothing here"),
        (("[complaint.sulks]\nname", "[complaints.sulks]\nname"), "means nothing here"),
        ((_TREE, '[complaint.sulks]\nname = "sulks"\n'), "must hold questions"),
    ],
)
def test_a_mistake_is_named_with_table_and_field(change: tuple[str, str], complaint: str) -> None:
    """Keys, loops, findings that end nowhere: one message each."""
    with pytest.raises(CatalogueError, match=complaint):
        _read(_TREE.replace(*change))
