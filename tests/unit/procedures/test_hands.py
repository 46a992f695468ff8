"""What hands ask of the packaged data: several readings in one making, riders, whole guns, and parts graded in the hand."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from stripdown.errors import CatalogueError, InputError
from stripdown.procedures.cautions import Harm
from stripdown.procedures.events import read_event
from stripdown.procedures.loading import add_own_steps, load_procedures
from stripdown.procedures.outcomes import outcome_of
from stripdown.procedures.plan import plan
from stripdown.procedures.standing import Standing, standing
from stripdown.procedures.steps import StepKind

_OPEN = {"action": "open_up", "part": "spur_gear"}
_PISTON = {"action": "open_up", "part": "piston"}


def _stands(*fields: Mapping[str, Any], variation: str = "version 2") -> Mapping[str, Any]:
    events = [{"number": number, **one} for number, one in enumerate(fields, start=1)]
    return standing(load_procedures(), events, variation=variation)


@pytest.mark.parametrize(
    ("floats", "judged"),
    [
        ({"sector": 0.08, "spur": "0.14 mm", "bevel": 0.10}, "0.14 mm (sector 0.08 mm, spur 0.14 mm, bevel 0.1 mm)"),
        ({"sector": 0.08, "spur": 0.10, "bevel": 0.06}, "0.06 mm (sector"),
        ({"sector": 0.02, "spur": 0.12, "bevel": 0.10}, "0.02 mm (sector"),
        ({"sector": 0.08, "spur": 0.10, "bevel": 0.16}, "0.16 mm (sector"),
    ],
)
def test_of_three_floats_the_one_furthest_from_the_middle_is_judged(floats: Mapping[str, Any], judged: str) -> None:
    """Limits 0.05 to 0.15 mm, so the middle is 0.10 mm, and what lies beyond either fails."""
    check = load_procedures().procedure("version 2").checks["trial_float"]
    event = read_event({"number": 1, "check": "trial_float", "readings": floats}, position=1)
    found = outcome_of(check, event)
    assert judged in found.words
    assert found.has_passed is (judged[:4] in {"0.14", "0.06"})


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"readings": {"sector": 0.08}}, "lack spur, bevel"),
        ({"readings": {"sectr": 0.08}}, "Did you mean sector"),
        ({"readings": {"sector": "wide"}}, "cannot be read"),
        ({"readings": {"sector": 0.08}, "value": 0.1}, "mean nothing here"),
        ({"readings": "0.08"}, "must be a table"),
        ({"readings": {"sector": True}}, "is no reading"),
    ],
)
def test_readings_that_cannot_be_are_told(fields: Mapping[str, Any], told: str) -> None:
    """What is wrong with them, and how they are written."""
    with pytest.raises(InputError, match=told):
        _stands(_OPEN, _PISTON, {"check": "trial_float", **fields})


def test_several_readings_may_be_judged_by_hand() -> None:
    """One that was forgotten is no hindrance where somebody says how it came out."""
    one = _stands(_OPEN, _PISTON, {"check": "trial_float", "readings": {"sector": 0.08}, "passed": False})["trial_float"]
    assert one.standing is Standing.FAILED
    assert "sector 0.08 mm" in one.reason


@pytest.mark.parametrize("part", ["motor", "hop_up_unit", "gearbox"])
@pytest.mark.parametrize("check", ["string_hop_off", "string_automatic", "feeding"])
def test_nothing_is_fired_with_motor_hop_unit_or_box_out(part: str, check: str) -> None:
    """The log names what was off, the innermost first."""
    name = load_procedures().procedure("version 2").parts[part].name
    with pytest.raises(InputError, match=f"the {name} was off"):
        _stands({"action": "open_up", "part": part}, {"check": check, "passed": True})


def test_a_new_piston_in_the_log_takes_its_head_and_ring_along() -> None:
    """Entered as work or as a touch, without the head taken off in an entry of its own."""
    for deed in ({"action": "replace_piston"}, {"part": "piston", "kind": "replace"}):
        now = _stands(_PISTON, {"check": "piston_head_tight", "passed": True}, deed)
        assert now["piston_head_tight"].standing is Standing.STALE
        assert now["oil_shot_out"].since == 3


def test_what_rides_on_a_part_that_is_off_needs_no_entry_of_its_own() -> None:
    """The rings are washed with the piston on the mat, whether somebody wrote down that they came off it or not."""
    assert _stands(_PISTON, {"action": "open_up", "part": "cylinder_head"}, {"action": "clean_cylinder_group"})
    with pytest.raises(InputError, match="the cylinder head was still on"):
        _stands(_PISTON, {"action": "clean_cylinder_group"})


def test_work_that_a_gun_asks_for_says_why_it_is_in_the_plan() -> None:
    """Nobody asked for the cut: the new piston brings it. What the request rules out is not brought."""
    made = plan(load_procedures(), work=["replace_piston"], variation="teeth off at release")
    [cut] = [step for step in made.steps if step.key == "short_stroke_release"]
    assert cut.purpose == "goes with: replace the piston"
    bare = plan(load_procedures(), work=["replace_cylinder_head", "remove_pad"], variation="version 2")
    assert "do:fit_pad" not in {str(step.step) for step in bare.steps}


def test_in_a_full_service_each_part_is_graded_once_and_where_it_is_clean() -> None:
    """At the washing, else as it comes off, else when what was in front of it is gone."""
    job = load_procedures().named_job("full service", "version 2")
    made = plan(load_procedures(), work=job.work, wanted=job.wanted, variation="version 2")
    at = {part: str(step.step) for step in made.steps for part in step.grades}
    assert sum(len(step.grades) for step in made.steps) == len(at)
    assert (job.is_graded, at["piston"], at["spur_gear"]) == (True, "do:clean_cylinder_group", "do:clean_gears")
    assert (at["main_spring"], at["nub"], at["fuse"]) == ("take_off:main_spring", "take_off:hop_up_unit", "take_off:battery")
    off = {step.key for step in made.steps if step.kind is StepKind.TAKE_OFF}
    assert off <= at.keys()


def test_a_caution_says_whom_it_concerns_and_one_that_does_not_concerns_a_person() -> None:
    """As written in an own file; a word that is nobody is refused."""
    text = '[[amend]]\nentry = "part.magazine"\ncare = ["Mind the lips.", { reading = "Count the balls." }]\n'
    care = add_own_steps(text, file="own.toml").procedure(()).parts["magazine"].care
    assert [(one.harm, str(one)) for one in care[-2:]] == [(Harm.PERSON, "Mind the lips."), (Harm.READING, "Count the balls.")]
    with pytest.raises(CatalogueError, match="nobody that a caution can concern"):
        add_own_steps(text.replace("reading =", "cat ="), file="own.toml")
