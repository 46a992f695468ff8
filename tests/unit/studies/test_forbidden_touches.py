"""A log that holds a forbidden pair gets an error, with its number and the reason."""

from __future__ import annotations

from typing import Any

import pytest

from stripdown.errors import InputError
from stripdown.studies.forbidden_touches import forbidden_touches


def _event(number: int, part: str, kind: str = "clean", **more: Any) -> dict[str, Any]:
    return {"number": number, "when": "2026-05-03", "who": "A. Tester", "part": part, "kind": kind, **more}


def test_a_forbidden_pair_is_an_error() -> None:
    """The finding names event, part and fluid, and says why."""
    [found] = forbidden_touches([_event(7, "nozzle", fluid="isopropyl alcohol", made_of="PC")])
    assert (found.level, found.event, found.part, found.fluid) == ("error", 7, "nozzle", "isopropyl alcohol")
    assert found.sentence.startswith("Event 7: isopropyl alcohol on nozzle: avoid. ")
    assert found.rating is not None
    assert found.rating.verdict == "avoid"


def test_care_and_ignorance_are_cautions_and_the_rest_is_silent() -> None:
    """What is suitable is no finding at all."""
    log = [
        _event(1, "piston_head_ring", "lubricate", value="a film of silicone oil"),
        _event(2, "piston_head_ring", value="quick wipe with IPA"),
        _event(3, "FVMQ", fluid="white spirit"),
        _event(4, "gear", "lubricate", fluid="plastic-safe grease"),
    ]
    assert [(found.level, found.event) for found in forbidden_touches(log)] == [("caution", 2), ("caution", 3)]


def test_the_fluid_may_stand_in_the_words_of_the_value() -> None:
    """Every fluid that the words name and do not deny is judged."""
    log = [_event(1, "hop_up_rubber", "lubricate", value="silicone grease, then brake cleaner, no petroleum oil")]
    assert [found.fluid for found in forbidden_touches(log)] == ["silicone grease", "brake cleaner of a kind not told"]


def test_a_part_is_known_by_the_words_of_its_key() -> None:
    """The bevel's left bearing is a bearing, and a shim of the sector a shim."""
    log = [
        _event(1, "bevel_bearing_left", "bond", value="thread-locker on the race"),
        _event(2, "sector_shims_left", "lubricate", fluid="silicone oil"),
    ]
    assert [(found.level, found.part) for found in forbidden_touches(log)] == [
        ("caution", "bevel_bearing_left"),
        ("error", "sector_shims_left"),
    ]


@pytest.mark.parametrize(
    "event",
    [
        _event(1, "hop_up_rubber", "inspect", value="found wet with silicone oil"),
        _event(1, "hop_up_rubber", "clean", value="washed, dried"),
        _event(1, "hop_up_rubber", "clean", value="wiped the old grease off, washed with soapy water"),
        _event(1, "hop_up_rubber", "clean", value=3.5),
        _event(1, "hop_up_rubber", "clean"),
        {"number": 1, "check": "closed_box_float", "value": "dry, oil wiped off", "passed": True},
        {},
    ],
)
def test_what_puts_no_fluid_on_a_part_is_passed_over(event: dict[str, Any]) -> None:
    """Inspections, measurements, and events that name no fluid."""
    assert forbidden_touches([event]) == ()


def test_a_corrected_event_no_longer_counts() -> None:
    """It was not oil after all: the correction is judged, the corrected event is not."""
    wrong = _event(1, "hop_up_rubber", fluid="petroleum oil")
    right = _event(2, "hop_up_rubber", fluid="water", supersedes=1)
    assert forbidden_touches([wrong, right]) == ()
    assert len(forbidden_touches([wrong])) == 1


def test_what_the_catalogue_does_not_know_is_a_caution() -> None:
    """The rest of the log is still read."""
    log = [_event(1, "nozzle", fluid="unobtainium juice"), _event(2, "gizmo", fluid="IPA"), _event(3, "EPDM", fluid="gasoline")]
    found = forbidden_touches(log)
    assert [(one.level, one.event) for one in found] == [("caution", 1), ("caution", 2), ("error", 3)]
    assert "cannot be judged" in found[0].sentence
    assert found[0].rating is None


def test_a_fluid_on_a_part_needs_a_number() -> None:
    """Otherwise nobody could find the entry."""
    with pytest.raises(InputError, match="has no number"):
        forbidden_touches([{"part": "nozzle", "kind": "clean", "fluid": "IPA"}])
