from __future__ import annotations

from stripdown.procedures.plan import plan_from
from stripdown.procedures.request import Request
from stripdown.reports.service_content import SheetStep
from stripdown.reports.service_steps import found_readings, sentence, shim_map, stages, waits
from stripdown.reports.source_marks import SourceMarks
from tests.synthetic_service import made_plan, made_procedure, made_standings


def _steps() -> dict[str, SheetStep]:
    plan = made_plan()
    lines = [step for stage in stages(plan, SourceMarks(plan)) for step in stage.steps]
    return {one.step.name: line for one, line in zip(plan.steps, lines, strict=True)}


def test_every_step_of_the_plan_stands_on_the_sheet_in_its_order() -> None:
    """Grouped by place, without one left out or moved."""
    plan = made_plan()
    found = stages(plan, SourceMarks(plan))
    assert [step.number for stage in found for step in stage.steps] == [step.number for step in plan.steps]
    assert [stage.place for stage in found] == ["trap", "gun on the mat", "gear train", "gun on the mat", "trap", "desk"]


def test_cautions_stand_at_the_step_where_they_matter() -> None:
    """That of taking off is not that of putting back."""
    steps = _steps()
    assert steps["take_off:shell"].cautions == ("The springs fly: a hand over them.",)
    assert steps["put_back:shell"].cautions == ("Nothing may be pinched.",)
    assert steps["do:bond"].cautions == ("Gloves and air.",)


def test_a_trial_closing_names_what_goes_on_for_it() -> None:
    """Only the making that needs one."""
    steps = _steps()
    assert steps["make:float"].trial == "Trial closing: upper shell half on for this, and off again afterwards."
    assert [name for name, step in steps.items() if step.trial] == ["make:float"]


def test_a_reading_has_a_blank_with_unit_and_limits() -> None:
    """Of a making beside its step; of a reading as found in the table alone, so that nothing is written twice."""
    blank = _steps()["make:float"].blank
    assert blank is not None
    assert (blank.label, blank.unit, blank.limits) == ("axial float", "mm", "0.05 to 0.15 mm")
    found = _steps()["as_found:string"]
    assert found.blank is None
    assert "table of readings as found" in found.how


def test_a_wait_stands_at_its_step_and_up_front() -> None:
    """How long, and for what."""
    assert _steps()["do:bond"].wait == "wait 24 h, until the bond has cured"
    (line,) = waits(made_plan())
    assert (line.name, line.text) == ("after step 6", "wait 24 h, until the bond has cured (bond the bevel's left bearing)")


def test_readings_as_found_name_their_step_and_limits() -> None:
    """The first step of this plan."""
    plan = made_plan()
    (reading,) = found_readings(plan, SourceMarks(plan))
    assert (reading.name, reading.step, reading.too_late, reading.mark) == ("chronograph string", "1", "", "†")
    assert reading.blank is not None
    assert reading.blank.limits == "at most 100 m/s"


def test_a_reading_that_is_too_late_says_why_and_has_no_blank() -> None:
    """The battery is off already."""
    plan = made_plan(off=frozenset({"battery", "shell"}))
    (reading,) = found_readings(plan, SourceMarks(plan))
    assert reading.blank is None
    assert reading.too_late == "The chronograph string can no longer be read as found: the battery was taken off already."


def test_the_shim_map_has_every_face_of_every_gear() -> None:
    """With what the log says lies there."""
    found = shim_map(made_plan(), {"bevel_shims_left": "A1, A2"})
    assert [(gear.gear, [(face.face, face.now) for face in gear.faces]) for gear in found] == [
        ("sector", [("left", ""), ("right", "")]),
        ("bevel", [("left", "A1, A2"), ("right", "")]),
    ]


def test_without_shims_in_the_way_there_is_no_shim_map() -> None:
    """A plan that only looks at the battery's label."""
    plan = plan_from(made_procedure(), Request(wanted=("label",)), off=frozenset(), known=made_standings() | {})
    assert shim_map(plan, {}) == ()


def test_a_sentence_has_a_capital_and_one_full_stop() -> None:
    """And nothing stays nothing."""
    assert [sentence(words) for words in ("wait", "Wait.", " ready? ", "")] == ["Wait.", "Wait.", "Ready?", ""]
