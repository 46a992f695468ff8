"""What is said of a plan, on the terminal and on the bench sheet."""

from __future__ import annotations

import dataclasses

from stripdown.procedures.plan import plan_from
from stripdown.procedures.request import Request
from stripdown.procedures.standing import Standing
from stripdown.words.answer import Answer, Cell, Step
from stripdown.words.plan import bench_sheet, plan_answer
from tests.synthetic_service import made_plan, made_procedure, made_standings, made_study


def _part(key: str, answer: Answer | None = None) -> Answer:
    found = (answer or bench_sheet(made_study())).part(key)
    assert found is not None, key
    return found


def _steps(answer: Answer) -> dict[str, Step]:
    return {step.key: step for step in _part("steps", answer).steps}


def _rows(key: str, answer: Answer | None = None) -> tuple[tuple[Cell, ...], ...]:
    return _part(key, answer).tables[0].rows


def _release(key: str, answer: Answer | None = None) -> Answer:
    return _part(key, _part("release", answer))


def test_tools_consumables_and_waits_are_gathered_up_front() -> None:
    """Each tool once, however often it is used; a wait with its step."""
    answer = plan_answer(made_study())
    assert _part("tools", answer).lead[0].about == ("chronograph", "torch", "screwdriver", "pick", "feeler gauge")
    assert _part("consumables", answer).lead[0].about == ("bearing bond",)
    [wait] = _part("waits", answer).named
    assert (wait.key, wait.name) == ("do:bond", "after step 6")
    assert wait.text == "wait 24 h, until the bond has cured (bond the bevel's left bearing)"


def test_the_request_is_told_in_the_words_of_the_bench() -> None:
    """Work, checks and readings by their names."""
    assert {line.name: line.text for line in _part("asked").named} == {
        "work": "Bond the bevel's left bearing.",
        "to be fresh": "Verdict on the limit.",
        "as found": "Chronograph string.",
    }
    study = made_study(plan=dataclasses.replace(made_plan(), remedies={"bond": "seal"}))
    asked = {line.name: line.text for line in _part("asked", plan_answer(study)).named}
    assert asked["added"] == "Bond the bevel's left bearing, since the seal of the cylinder did not pass."


def test_the_amount_counts_steps_openings_time_and_waits() -> None:
    """45 min is the sum of the minutes of the made-up steps: 5+1+2+4+8+9+6+4+1+5; the wait is the bond's."""
    amount = next(one.full for one in plan_answer(made_study()).lead if one.key == "amount")
    plan = made_plan()
    assert amount == (
        f"14 steps, opened once: {plan.moves} parts off or back, {plan.makings} checks to make. "
        "About 45 min of the hands, and 24 h of waiting, some of it beside other work."
    )


def test_every_step_of_the_plan_stands_in_its_order_by_place() -> None:
    """Without one left out or moved."""
    steps = _part("steps").steps
    assert [step.key for step in steps] == [step.step.name for step in made_plan().steps]
    assert list(dict.fromkeys(step.place for step in steps)) == ["Trap", "Gun on the mat", "Gear train", "Desk"]


def test_cautions_stand_at_the_step_where_they_matter() -> None:
    """That of taking off is not that of putting back; each has a short form for the second time."""
    steps = _steps(plan_answer(made_study()))
    assert [one.full for one in steps["take_off:shell"].cautions] == ["The springs fly: a hand over them."]
    assert [one.short for one in steps["take_off:shell"].cautions] == ["The springs fly."]
    assert [one.full for one in steps["put_back:shell"].cautions] == ["Nothing may be pinched."]


def test_trial_closing_passing_and_waiting_are_said_in_one_way() -> None:
    """On paper as on the terminal."""
    for answer in (plan_answer(made_study()), bench_sheet(made_study())):
        steps = _steps(answer)
        assert steps["make:float"].trial == "Trial closing: upper shell half on for this check, and off again."
        assert [key for key, step in steps.items() if step.trial] == ["make:float"]
        assert steps["make:float"].expect == "Passes: Turns freely."
        assert steps["do:bond"].wait == "Wait 24 h, until the bond has cured."


def test_a_reading_has_a_blank_with_unit_and_limits() -> None:
    """Of a making beside its step; of a reading as found in the table alone, so that nothing is written twice."""
    steps = _steps(bench_sheet(made_study()))
    blank = steps["make:float"].blank
    assert blank is not None
    assert (blank.label, blank.unit, blank.limits) == ("Axial float", "mm", "0.05 to 0.15 mm")
    assert steps["as_found:string"].blank is None
    assert "table of readings as found" in steps["as_found:string"].how


def test_readings_as_found_name_their_step_and_limits() -> None:
    """The first step of this plan, with the mark of its footing; and what must be alike before and after."""
    [(number, what, _, read, _)] = _rows("as_found")
    assert (number.text, what.text, what.key) == ("1", "chronograph string †", "string")
    assert read.blank is not None
    assert read.blank.limits == "at most 100 m/s"
    assert _part("conditions").tables


def test_a_reading_that_is_too_late_says_why_and_has_no_blank() -> None:
    """The battery is off already: said once before the work, and in the table; no conditions are asked for."""
    sheet = bench_sheet(made_study(plan=made_plan(off=frozenset({"battery", "shell"}))))
    [(_, what, _, read, _)] = _rows("as_found", sheet)
    assert (read.blank, read.text) == (None, "too late")
    assert what.small == "The chronograph string can no longer be read as found: the battery was taken off already."
    [late] = [one for one in _part("before", sheet).lead if one.key == "too_late"]
    assert late.full.startswith("Too late: the chronograph string can no longer be read")
    assert late.about == ("string", "battery")
    assert sheet.part("conditions") is None


def test_the_shim_map_has_every_face_of_every_gear() -> None:
    """With what the log says lies there; none if the plan comes near no shim."""
    found = [(gear.text, face.text, now.text) for gear, face, now, *_ in _rows("shim_map")]
    assert found == [("sector", "left", ""), ("sector", "right", ""), ("bevel", "left", "A1, A2"), ("bevel", "right", "")]
    plan = plan_from(made_procedure(), Request(wanted=("label",)), off=frozenset(), known=made_standings())
    assert bench_sheet(made_study(plan=plan)).part("shim_map") is None


def test_a_reject_that_was_not_replaced_blocks_release() -> None:
    """Unless somebody lets it pass: then the reason is said, with who gave it."""
    [blocking] = _release("rejects").notes
    assert blocking.full.startswith("The bevel's left bearing was graded reject for play (grade 8). It blocks release")
    assert blocking.about == ("play", "bearing")
    [passed] = _release("overridden").notes
    assert passed.full == (
        'Overridden: The cylinder was graded reject for its bore and leaves all the same, because: "passed" (who).'
    )


def test_what_the_plan_proves_names_its_step_and_how_it_stands_now() -> None:
    """In the order of the data, with sign and reason."""
    lines = {name.key: (sign.key, now.text, step.text) for sign, name, now, step, *_ in _rows("to_prove", _part("release"))}
    assert list(lines) == ["pack", "float", "string", "verdict", "label"]
    assert lines["float"] == ("stale", "Stale since the bevel's left bearing was bonded on 3 May.", "9")
    assert lines["pack"][1] == "Fresh now; the plan undoes it."
    assert lines["string"][1] == "Never fired."


def test_every_check_of_the_release_list_stands_on_it_once() -> None:
    """To be proved, open, holding, or neither made nor disturbed; the failed seal stays open, as nothing here mends it."""
    proved = [row[1].key for row in _rows("to_prove", _part("release"))]
    [(sign, name, _, step, *_)] = _rows("left_open", _part("release"))
    assert (sign.key, name.key, step.text) == ("failed", "seal", "none")
    alone = [check for one in (_part("release").part("left_alone") or Answer(key="", title="")).lead for check in one.about]
    assert sorted([*proved, name.key, *alone]) == sorted(made_procedure().release_list)


def test_a_check_that_nobody_made_and_nothing_disturbed_is_not_called_fresh() -> None:
    """It owes nothing, and it proves nothing."""
    sheet = bench_sheet(made_study(plan=dataclasses.replace(made_plan(), steps=())))
    alone = {one.key: set(one.about) for one in _release("left_alone", sheet).lead}
    fresh = {key for key, one in made_standings().items() if one.standing is Standing.FRESH}
    assert alone["holding"] <= fresh
    assert alone["undisturbed"]
    assert not alone["undisturbed"] & fresh


def test_what_blocks_is_told_before_the_work_begins() -> None:
    """Names while they are few, else their number; nothing of a gun in order."""
    reject, left_open = (one.full for one in _part("before").lead)
    assert reject.startswith("Reject that is still in the gun: The bevel's left bearing")
    assert left_open == "Not fresh, and not proved by this plan: seal of the cylinder. The gun does not leave without it."
    many = made_study(plan=dataclasses.replace(made_plan(), left_open=made_standings()))
    assert "7 checks, named in the release list" in _part("before", plan_answer(many)).lead[1].full
    in_order = made_study(plan=dataclasses.replace(made_plan(), left_open={}), is_in_order=True)
    assert plan_answer(in_order).part("before") is None


def test_the_list_defers_to_who_decides() -> None:
    """A ticked list is no permission to fire; nor is a plan."""
    for answer in (plan_answer(made_study()), bench_sheet(made_study())):
        assert "local rules" in _release("remark", answer).lead[0].full
        assert "local law" in _part("steps", answer).notes[0].full


def test_a_plan_without_steps_says_so() -> None:
    """Nothing is left."""
    lead = plan_answer(made_study(plan=dataclasses.replace(made_plan(), steps=()))).lead
    assert "Nothing is left to do for this request." in [one.full for one in lead]
