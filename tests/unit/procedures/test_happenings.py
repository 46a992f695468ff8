"""What can have happened, and what cannot."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from stripdown.errors import InputError
from stripdown.procedures.events import read_events
from stripdown.procedures.happenings import Happening, happenings
from stripdown.procedures.touches import Touch
from tests.small_box import small_box

_BOX = small_box()


def _happened(*fields: Mapping[str, Any], variation: str = "fixed guide") -> tuple[Happening, ...]:
    events = read_events([{"number": number, **one} for number, one in enumerate(fields, start=1)])
    return happenings(_BOX.procedure(variation), events, procedures=_BOX)


def test_opening_up_takes_off_all_that_is_in_front() -> None:
    """The part with everything before it, in an order in which it can come off; closing puts all back."""
    opened, closed = _happened({"action": "open_up", "part": "piston"}, {"action": "close_up"})
    assert [deed.touch[0] for deed in opened.deeds] == ["battery", "shell", "spring", "piston"]
    assert opened.off_after == {"battery", "shell", "spring", "piston"}
    assert [deed.touch[0] for deed in closed.deeds] == ["piston", "spring", "shell", "battery"]
    assert closed.off_after == frozenset()


def test_work_touches_what_the_data_say() -> None:
    """By its key, or by its verb with the part."""
    opening = {"action": "open_up", "part": "gear_shims_left"}
    for bonding in ({"action": "bond_bearing"}, {"action": "bond", "part": "bearing"}, {"part": "bearing", "kind": "bond"}):
        _, done = _happened(opening, bonding)
        assert [deed.touch for deed in done.deeds] == [("bearing", Touch.BOND)]
        assert done.deeds[0].words == "the gear's left bearing was bonded"


def test_a_trial_closing_touches_before_it_records() -> None:
    """A making that closes the box dry has put the shell on and taken it off."""
    _, made = _happened({"action": "open_up", "part": "piston"}, {"check": "shim_pack", "value": "0,10 mm"})
    assert [(deed.touch, "put on and taken off while the shim pack was made" in deed.words) for deed in made.deeds] == [
        (("shell", Touch.REFIT), True)
    ]
    assert made.outcome is not None
    assert made.outcome.has_passed


def test_a_correction_stands_where_the_corrected_event_stood() -> None:
    """Corrections of corrections too; one that says nothing withdraws."""
    done = _happened(
        {"check": "closed_float", "passed": False},
        {"action": "take_off", "part": "battery"},
        {"check": "closed_float", "passed": True, "supersedes": 1},
        {"supersedes": 2},
        {"check": "closed_float", "passed": False, "supersedes": 3},
    )
    assert [(happening.event.number, happening.event.passed) for happening in done] == [(5, False)]
    assert done[0].off_after == frozenset()


_SLIPS: list[tuple[list[dict[str, Any]], str]] = [
    ([{"part": "pistn", "kind": "clean"}], r'event 1: part "pistn" is no part that is known\. Did you mean piston'),
    ([{"check": "seel", "passed": True}], r'event 1: check "seel" is no check .* seal'),
    ([{"action": "replace_pistn"}], r'event 1: action "replace_pistn" is no action .* replace_piston'),
    ([{"part": "gear", "kind": "clean"}], r"cannot have been touched: the shell was still in front of it\. Enter the opening"),
    ([{"action": "bond_bearing"}], "cannot have been done: the gear's left shims were still on, or covered"),
    ([{"check": "seal", "passed": True}], 'check "seal" cannot have been done: the shell was still on'),
    ([{"action": "take_off", "part": "piston"}], "cannot have been taken off: the shell was in front of it"),
    ([{"action": "put_back", "part": "battery"}], "cannot be put back: the battery was not off"),
    ([{"action": "take_off", "part": "battery"}, {"action": "take_off", "part": "battery"}], "was off already"),
    ([{"action": "take_off"}], "part is missing: say of what"),
    ([{"action": "replace_piston", "part": "gear"}], r'part "gear" is not what "replace_piston" touches\. It touches piston'),
    (
        [{"action": "open_up", "part": "gear"}, {"check": "closed_float", "passed": True}],
        "cannot have been done: the shell was off",
    ),
    ([{"check": "closed_float", "passed": True, "supersedes": 7}], 'supersedes "7" is no event before it'),
    (
        [{"check": "closed_float", "passed": True}, {"supersedes": 1}, {"supersedes": 1}],
        'supersedes "1" was corrected by event 2',
    ),
    ([{"check": "closed_float"}], "passed is missing"),
    ([{"check": "closed_float", "passed": True}] * 1 + [{"check": "string"}], "event 2: passed is missing"),
]


@pytest.mark.parametrize(("fields", "complaint"), _SLIPS)
def test_what_cannot_have_happened_is_refused(fields: list[dict[str, Any]], complaint: str) -> None:
    """One message with the number of the event, and nothing of the log is taken."""
    with pytest.raises(InputError, match=complaint):
        _happened(*fields)


def test_a_log_of_another_variation_is_told_from_a_slip() -> None:
    """A part that exists, but not in this gun, says so."""
    with pytest.raises(InputError, match=r'part "latch" belongs to another variation; this gun is: fixed guide, latch deleted'):
        _happened({"part": "latch", "kind": "inspect"}, variation="latch deleted")


def test_looking_needs_no_opening() -> None:
    """What is only looked at is not touched."""
    [looked] = _happened({"part": "gear", "kind": "inspect"})
    assert looked.off_after == frozenset()


def test_a_correction_that_makes_a_later_event_impossible_is_refused_as_such() -> None:
    """Not the later event is at fault, which was right when it was entered, but the correction; both are named."""
    opened = {"action": "open_up", "part": "piston"}
    worked = {"part": "piston", "kind": "clean"}
    complaint = r'^event 3: supersedes "1" cannot be, for what came after it: event 2: part "piston" cannot have been touched.*'
    with pytest.raises(
        InputError, match=complaint + r"Correct event 2 first, or say otherwise what happened in place of event 1"
    ):
        _happened(opened, worked, {"supersedes": 1})


def test_an_event_that_never_could_be_is_not_blamed_on_a_correction() -> None:
    """A log that was wrong before the correction is wrong because of its own event."""
    worked = {"part": "piston", "kind": "clean"}
    with pytest.raises(InputError, match=r'^event 2: part "piston" cannot have been touched'):
        _happened({"part": "gear", "kind": "inspect"}, worked, {"supersedes": 1})


def test_a_kind_beside_an_action_agrees_with_it() -> None:
    """How the action touches may be repeated; another kind would be lost, and is refused."""
    opened = {"action": "open_up", "part": "gear_shims_left"}
    done = {"action": "bond_bearing", "kind": "bond"}
    assert _happened(opened, done)[1].deeds[0].touch == ("bearing", Touch.BOND)
    with pytest.raises(InputError, match=r'kind "clean" is not how "bond_bearing" touches. Leave it out, or write bond;'):
        _happened(opened, {**done, "kind": "clean"})


def test_a_unit_that_stands_with_the_value_may_be_repeated() -> None:
    """The value "0.10 mm" with the unit "mm" is a tenth of a millimetre, not an unknown unit."""
    closed = {"action": "open_up", "part": "piston"}
    [_, made] = _happened(closed, {"check": "shim_pack", "value": "0.10 mm", "unit": "mm"})
    assert made.outcome is not None
    assert made.outcome.has_passed
