"""Where the labelled shims lie."""

from __future__ import annotations

import pytest

from stripdown.errors import InputError
from stripdown.procedures.events import read_events
from stripdown.procedures.happenings import happenings
from stripdown.procedures.standing import Standing, standing
from tests.small_box import small_box

_BOX = small_box()
_LEFT, _RIGHT = "gear_shims_left", "gear_shims_right"
_OPEN: list[dict[str, object]] = [{"action": "open_up", "part": "piston"}, {"action": "open_up", "part": "gear_shims_left"}]
_NOTED: list[dict[str, object]] = [
    *_OPEN,
    {"part": _LEFT, "kind": "refit", "value": "A1, A2"},
    {"action": "take_off", "part": _RIGHT},
    {"action": "put_back", "part": _RIGHT, "value": "B1"},
    {"action": "put_back", "part": _LEFT},
    {"action": "put_back", "part": "gear"},
    {"check": "shim_pack", "value": 0.1, "unit": "mm"},
]


def _standing_after(*more: dict[str, object]) -> tuple[Standing, str]:
    events = [{"number": number, **one} for number, one in enumerate([*_NOTED, *more], start=1)]
    found = standing(_BOX, events, variation="fixed guide")["shim_pack"]
    return found.standing, found.reason


def test_the_same_shims_back_keep_the_pack() -> None:
    """Out, wiped and back in their own place: the pack that was chosen stays chosen."""
    out: list[dict[str, object]] = [
        {"action": "take_off", "part": "gear"},
        {"action": "take_off", "part": _LEFT},
        {"part": _LEFT, "kind": "clean"},
    ]
    back: dict[str, object] = {"action": "put_back", "part": _LEFT, "value": "A2 A1"}
    assert _standing_after(*out, back)[0] is Standing.FRESH
    assert _standing_after(*out, {"action": "put_back", "part": _LEFT})[0] is Standing.FRESH


def test_other_shims_back_have_lost_their_place() -> None:
    """What goes in is not what came out: the pack is stale, and the reason says so."""
    out: list[dict[str, object]] = [{"action": "take_off", "part": "gear"}, {"action": "take_off", "part": _LEFT}]
    found, reason = _standing_after(*out, {"action": "put_back", "part": _LEFT, "value": "A1"})
    assert found is Standing.STALE
    assert "the gear's left shims were fitted in another place than before" in reason


def test_one_shim_cannot_lie_in_two_places() -> None:
    """The label is named with both places."""
    noted: list[dict[str, object]] = [*_OPEN, {"part": _LEFT, "kind": "refit", "value": "A1"}]
    events: list[dict[str, object]] = [{**one, "number": number} for number, one in enumerate(noted, start=1)]
    twice = {"number": 9, "part": _RIGHT, "kind": "replace", "value": "B1, A1"}
    with pytest.raises(
        InputError, match=r'value "A1" cannot lie in two places: it lies with the gear\'s left shims since event 3'
    ):
        happenings(_BOX.procedure("fixed guide"), read_events([*events, twice]))


def test_shims_that_came_out_with_everything_else_came_out() -> None:
    """Opening up takes the shims out with what is behind them, so that one of them may go to another face: its place is lost."""
    moved: list[dict[str, object]] = [
        {"action": "open_up", "part": _LEFT},
        {"action": "take_off", "part": _RIGHT},
        {"action": "put_back", "part": _RIGHT, "value": "A1"},
        {"action": "put_back", "part": _LEFT, "value": "A2"},
    ]
    found, reason = _standing_after(*moved)
    assert found is Standing.STALE
    assert "fitted in another place than before" in reason


def test_closing_up_puts_each_shim_back_where_it_lay() -> None:
    """What nobody says otherwise goes back to its own place, and may not lie elsewhere meanwhile."""
    out: list[dict[str, object]] = [{"action": "open_up", "part": _LEFT}]
    assert _standing_after(*out, {"action": "close_up"})[0] is Standing.FRESH
    elsewhere: dict[str, object] = {"part": _RIGHT, "kind": "refit", "value": "A1"}
    with pytest.raises(InputError, match=r'event 11: value "A1" cannot lie in two places'):
        _standing_after(*out, elsewhere, {"action": "close_up"})


@pytest.mark.parametrize("action", ["take_off", "put_back"])
def test_a_place_may_be_lost_on_the_way(action: str) -> None:
    """Shims that fell into one heap, out or back, have lost their place though nobody wrote labels."""
    moves: list[dict[str, object]] = [
        {"action": "take_off", "part": "gear"},
        {"action": "take_off", "part": _LEFT},
        {"action": "put_back", "part": _LEFT},
    ]
    lost = [{**one, "kind": "place_lost"} if one == {"action": action, "part": _LEFT} else one for one in moves]
    assert _standing_after(*moves)[0] is Standing.FRESH
    assert _standing_after(*lost)[0] is Standing.STALE
