"""Standing and its reasons, on logs whose answer is known by heart."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from stripdown.procedures.standing import Standing, standing
from tests.small_box import small_box

_BOX = small_box()
_OPEN: list[Mapping[str, object]] = [{"action": "open_up", "part": "piston"}]
_CLOSE: list[Mapping[str, object]] = [{"action": "close_up"}]
_CHOSEN: list[Mapping[str, object]] = [{"check": "shim_pack", "value": 0.1, "unit": "mm", "when": "2026-05-01"}]


def _after(*fields: Mapping[str, object]) -> dict[str, tuple[Standing, str]]:
    events = [{"number": number, **one} for number, one in enumerate(fields, start=1)]
    return {key: (one.standing, one.reason) for key, one in standing(_BOX, events, variation="fixed guide").items()}


def test_an_empty_log_proves_nothing() -> None:
    """Every check is NEVER, and says so."""
    found = _after()
    assert {one for one, _ in found.values()} == {Standing.NEVER}
    assert found["shim_pack"][1] == "the shim pack was never chosen."


def test_bonding_a_bearing_makes_the_pack_stale_with_both_days() -> None:
    """The reason names the touch and its day, and when the check was made."""
    bonding: list[Mapping[str, object]] = [
        {"action": "open_up", "part": "gear_shims_left"},
        {"part": "bearing", "kind": "bond", "when": "2026-05-03"},
    ]
    found = _after(*_OPEN, *_CHOSEN, *bonding)["shim_pack"]
    assert found == (
        Standing.STALE,
        "stale since the gear's left bearing was bonded on 3 May; the shim pack was chosen on 1 May.",
    )


def test_days_of_two_years_carry_their_year() -> None:
    """Only then is the year needed."""
    found = _after(*_OPEN, {**_CHOSEN[0], "when": "2025-12-30"}, {"part": "piston", "kind": "replace", "when": "2026-01-02"})
    assert "30 December 2025" in found["shim_pack"][1]


def test_a_pack_survives_what_a_float_does_not() -> None:
    """Two facts: the choice stays through closing and opening; the closed box's own float does not."""
    proved: list[Mapping[str, object]] = [*_OPEN, *_CHOSEN, *_CLOSE, {"check": "closed_float", "passed": True}]
    assert _after(*proved)["closed_float"][0] is Standing.FRESH
    found = _after(*proved, *_OPEN)
    assert found["shim_pack"][0] is Standing.FRESH
    assert found["closed_float"][0] is Standing.STALE


def test_what_undoes_a_base_undoes_what_rests_on_it() -> None:
    """A base that fails, or is spoiled, takes the check with it; made anew, it leaves the check stale."""
    proved: list[Mapping[str, object]] = [*_OPEN, *_CHOSEN, *_CLOSE, {"check": "closed_float", "passed": True}, *_OPEN]
    failed = _after(*proved, {"check": "shim_pack", "value": 0.3, "unit": "mm"})
    assert failed["shim_pack"][0] is Standing.FAILED
    assert "axial float 0.3 mm, wanted 0.05 to 0.15 mm" in failed["shim_pack"][1]
    again = _after(*proved, {"check": "shim_pack", "value": 0.3, "unit": "mm"}, *_CHOSEN)
    assert again["closed_float"][0] is Standing.STALE


def test_a_check_on_an_unproved_base_is_stale_at_once() -> None:
    """Its number means nothing without its base, and the reason names the base."""
    found = _after({"check": "closed_float", "passed": True})["closed_float"]
    assert found == (Standing.STALE, "stale since the shim pack, on which it rests, was not fresh when it was made (event 1).")


def test_a_late_entry_counts_by_its_number_and_says_so() -> None:
    """A making of 1 May that is entered after a touch of 3 May is fresh by its number, and the reason warns."""
    touched = {"part": "gear", "kind": "replace", "when": "2026-05-03"}
    late = _after(*_OPEN, touched, *_CHOSEN)["shim_pack"]
    assert late[0] is Standing.FRESH
    assert "entered late, after the gear was replaced on 3 May: it counts by its number, and is better made again" in late[1]
    in_time = _after(*_OPEN, touched, {**_CHOSEN[0], "when": "2026-05-04"})["shim_pack"]
    assert "nothing that it is about was disturbed since" in in_time[1]


def test_a_spoiled_failure_is_stale() -> None:
    """After something changed it is no longer known to fail."""
    failed: list[Mapping[str, object]] = [*_OPEN, {"check": "seal", "passed": False}]
    assert _after(*failed)["seal"][0] is Standing.FAILED
    assert _after(*failed, {"action": "replace_piston"})["seal"][0] is Standing.STALE


@pytest.mark.parametrize(("entered", "words"), [(True, "entered as passed by hand"), (False, "entered as not passed by hand")])
def test_what_the_person_says_stands_against_the_limits(entered: bool, words: str) -> None:  # noqa: FBT001
    """An outcome that was entered beside a reading counts, and the reason tells that it was."""
    value = 0.3 if entered else 0.1
    found = _after(*_OPEN, {"check": "shim_pack", "value": value, "unit": "mm", "passed": entered})["shim_pack"]
    assert found[0] is (Standing.FRESH if entered else Standing.FAILED)
    assert words in found[1]


@pytest.mark.parametrize("typed", [(0.1, "mm"), ("0,10 mm", None), (0.1, None), (100, "um")])
def test_a_reading_is_understood_in_its_units(typed: tuple[object, str | None]) -> None:
    """With unit, with a decimal comma, bare in the unit of the check, or in another unit of its kind."""
    value, unit = typed
    assert _after(*_OPEN, {"check": "shim_pack", "value": value, "unit": unit})["shim_pack"][0] is Standing.FRESH
