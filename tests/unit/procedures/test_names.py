"""The log takes what a plan prints as well as keys, and offers the right nearest."""

from __future__ import annotations

import pytest

from stripdown.errors import InputError
from stripdown.procedures.events import read_events
from stripdown.procedures.happenings import happenings
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.names import step_named
from stripdown.procedures.procedure import Procedure


@pytest.fixture(scope="module")
def version_2() -> Procedure:
    """A usual gun."""
    return load_procedures().procedure("version 2")


@pytest.mark.parametrize("variation", ["version 2", "version 3, quick-change, electronic", "version 2, bushings, no latch"])
def test_every_printed_step_is_understood(variation: str) -> None:
    """By its key, by its name, and by the whole line with box, number, purpose and key; no two steps are called alike."""
    procedure = load_procedures().procedure(variation)
    for step in procedure.all_steps():
        name = procedure.named(step)
        for words in (step.name, name, name.capitalize(), f"[ ]  12 {name} (for the seal) [{step.name}]"):
            assert step_named(procedure, words) == step


def test_a_bearing_of_the_bevel_gear_is_one_of_the_bevel(version_2: Procedure) -> None:
    """People say the gear where the plan does not."""
    step = step_named(version_2, "bond the bevel gear's left bearing")
    assert str(step) == "do:bond_bevel_bearing_left"


@pytest.mark.parametrize(
    ("fields", "means"),
    [
        ({"action": "take off the magazine"}, ("take_off", None, "magazine", None)),
        ({"action": "take off", "part": "magazine"}, ("take_off", None, "magazine", None)),
        ({"check": "prove: sound of the running gun", "passed": True}, (None, "sound", None, None)),
        ({"check": "sound of the running gun", "kind": "as found", "passed": True}, (None, "sound", None, "as_found")),
        ({"check": "as found: sound of the running gun", "passed": True}, (None, "sound", None, "as_found")),
        ({"part": "magazine", "kind": "Inspect"}, (None, None, "magazine", "inspect")),
    ],
)
def test_words_in_the_log_mean_their_keys(
    version_2: Procedure, fields: dict[str, object], means: tuple[str | None, str | None, str | None, str | None]
) -> None:
    """What is printed may be entered: work, parts, checks and "as found"."""
    (happening,) = happenings(version_2, read_events([{"number": 1, **fields}]))
    event = happening.event
    assert (event.action, event.check, event.part, event.kind) == means


def test_rounds_per_second_are_turns_of_the_sector(version_2: Procedure) -> None:
    """The trade's "19 rps" is read where a rate decides."""
    (happening,) = happenings(version_2, read_events([{"number": 1, "check": "rate_and_current", "value": "19 rps"}]))
    assert happening.outcome is not None
    assert happening.outcome.has_passed


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("bond bevel bearing", "bond_bevel_bearing_left (bond the bevel's left bearing) or bond_bevel_bearing_right"),
        ("grease gears", "lubricate_gears (grease gears and axles)?"),
        ("clean the barel", "dry_clean_barrel (clean the barrel with dry patches)"),
    ],
)
def test_what_is_not_understood_brings_the_right_nearest(version_2: Procedure, typed: str, meant: str) -> None:
    """Names, words and keys are searched: letters alone offered another part for "grease gears"."""
    with pytest.raises(InputError) as caught:
        happenings(version_2, read_events([{"number": 1, "action": typed}]))
    assert f"Did you mean {meant}" in str(caught.value)


def test_a_remark_does_nothing_to_the_gun(version_2: Procedure) -> None:
    """It stands in the log and touches no part; an event without anything is refused."""
    (happening,) = happenings(version_2, read_events([{"number": 1, "note": "smells of burning"}]))
    assert happening.deeds == ()
    with pytest.raises(InputError, match="action is missing"):
        read_events([{"number": 1, "note": " "}])


@pytest.mark.parametrize(
    ("fluids", "said"),
    [
        ("water", "must be a list of fluids"),
        ([{"fluid": "water", "part": "piston"}], "no fluid with its parts"),
        ([{"parts": ["piston"]}], "a fluid without a name"),
        ([{"fluid": "water", "parts": ["battery"]}], '"battery" is not what this event touches'),
        ([{"fluid": "water", "parts": ["pistn"]}], '"pistn" is no part that is known. Did you mean piston'),
    ],
)
def test_fluids_that_cannot_be_read_are_refused(version_2: Procedure, fluids: object, said: str) -> None:
    """Each with what would be right."""
    event = {"number": 2, "action": "clean_cylinder_group", "fluids": fluids}
    with pytest.raises(InputError, match=said):
        happenings(version_2, read_events([{"number": 1, "action": "open_up", "part": "piston"}, event]))
