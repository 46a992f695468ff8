from __future__ import annotations

import dataclasses

from stripdown.procedures.standing import Standing
from stripdown.reports.service_content import ReleasePart
from stripdown.reports.service_job import ServiceJob
from stripdown.reports.service_release import blocks, release_part
from tests.synthetic_service import made_job, made_plan, made_standings


def _part() -> ReleasePart:
    return release_part(made_job(), made_plan(), made_standings())


def test_a_reject_that_was_not_replaced_blocks_release() -> None:
    """Unless somebody lets it pass: then the reason prints, with who gave it."""
    part = _part()
    (blocking,) = part.blocks
    assert blocking.startswith("Piston: pick-up tooth rounded, rejected on 2 May. It blocks release")
    (passed,) = part.overridden
    assert passed.name == "Sector gear: one tooth pitted, rejected on 2 May."
    assert passed.text == "A new gear is on its way. (A. B.)"


def test_what_the_plan_proves_names_its_step_and_how_it_stands_now() -> None:
    """In the order of the data, with sign and reason."""
    lines = {line.name: line for line in _part().to_prove}
    assert list(lines) == [
        "shim pack of the bevel gear",
        "axial float in the trial closing",
        "chronograph string",
        "verdict on the limit",
        "label of the battery",
    ]
    trial = lines["axial float in the trial closing"]
    assert (trial.steps, trial.standing, trial.letter) == ("9", Standing.STALE, "↻")
    assert trial.reason == "Stale since the bevel's left bearing was bonded on 3 May."
    assert lines["shim pack of the bevel gear"].reason == "Fresh now; the plan undoes it."
    assert lines["chronograph string"].reason == "Never fired."


def test_a_check_that_is_not_fresh_and_not_proved_stays_open() -> None:
    """The seal failed, and nothing in this plan mends it."""
    (line,) = _part().left_open
    assert (line.name, line.standing, line.steps) == ("seal of the cylinder", Standing.FAILED, "")


def test_every_check_of_the_release_list_stands_on_it_once() -> None:
    """To be proved, open, holding, or neither made nor disturbed."""
    part, plan = _part(), made_plan()
    names = [*(line.name for line in (*part.to_prove, *part.left_open)), *part.holding, *part.undisturbed]
    assert sorted(names) == sorted(plan.procedure.checks[key].name for key in plan.procedure.release_list)


def test_a_check_that_nobody_made_and_nothing_disturbed_is_not_called_fresh() -> None:
    """It owes nothing, and it proves nothing."""
    plan = dataclasses.replace(made_plan(), steps=())
    part = release_part(made_job(), plan, made_standings())
    fresh = {key for key, one in made_standings().items() if one.standing is Standing.FRESH}
    names = {plan.procedure.checks[key].name for key in fresh}
    assert set(part.holding) <= names
    assert part.undisturbed
    assert not set(part.undisturbed) & names


def test_what_blocks_is_told_before_the_work_begins() -> None:
    """Names while they are few, else their number."""
    told = list(blocks(made_job(), made_plan()))
    assert told[0].startswith("Reject that is still in the gun: Piston")
    assert told[1] == "Not fresh, and not proved by this plan: seal of the cylinder. The gun does not leave without it."
    many = dataclasses.replace(made_plan(), left_open=made_standings())
    assert "7 checks, named in the release list" in list(blocks(made_job(), many))[1]


def test_nothing_blocks_a_gun_in_order() -> None:
    """No rejects, nothing left open."""
    job = ServiceJob(title="t", gun="g", input_digest="d")
    assert list(blocks(job, dataclasses.replace(made_plan(), left_open={}))) == []


def test_the_list_defers_to_who_decides() -> None:
    """A ticked list is no permission to fire."""
    assert "local rules" in _part().remark
