"""What is said of standing and release: every sentence with its keys."""

from __future__ import annotations

import dataclasses

from stripdown.procedures.steps import Step, StepKind
from stripdown.studies.forbidden_touches import TouchLevel, forbidden_touches
from stripdown.studies.service_job import Block, BlockKind, FindingKind, JobStudy, LogFinding
from stripdown.words.release import release_answer, release_sentences
from stripdown.words.standing import standing_answer
from tests.synthetic_service import made_standings, made_study


def _with_findings(*findings: LogFinding) -> JobStudy:
    study = made_study()
    return dataclasses.replace(study, release=dataclasses.replace(study.release, findings=findings))


def test_each_check_stands_by_sign_and_key_the_most_urgent_first() -> None:
    """Failed, stale, fresh; those that were never made only if they are asked for."""
    answer = standing_answer(made_study())
    [table] = answer.parts[0].tables
    assert [(sign.text, name.key) for sign, name in table.rows] == [
        ("x failed", "seal"),
        ("~ stale", "float"),
        ("+ fresh", "pack"),
        ("+ fresh", "label"),
    ]
    assert table.rows[2][1].text == "shim pack of the bevel gear was chosen on 1 May."
    never = standing_answer(made_study(), with_all=True).part("undisturbed")
    assert never is not None
    assert [name.key for _, name in never.tables[0].rows] == ["string", "verdict"]


def test_a_step_without_its_guards_is_told_with_its_event() -> None:
    """What happened, and what the log lacks before it."""
    step = Step(StepKind.TAKE_OFF, "shell")
    found = LogFinding(kind=FindingKind.UNGUARDED, level=TouchLevel.ERROR, event=2, step=step, guards=("made_safe",))
    [said] = release_sentences(_with_findings(found))["findings"]
    assert said.full == (
        "Error: Event 2: take off the upper shell half, and the log does not have this before it: gun made safe."
    )
    assert said.about == ("made_safe",)


def test_a_fluid_where_it_does_harm_is_told_once() -> None:
    """Work on several parts at once says the same of each."""
    [touch] = forbidden_touches([{"number": 5, "part": "nozzle", "kind": "clean", "fluid": "isopropyl alcohol"}])
    found = LogFinding(kind=FindingKind.TOUCH, level=touch.level, event=5, touch=touch)
    [said] = release_sentences(_with_findings(found, found))["findings"]
    assert said.full.startswith("Error: Event 5: isopropyl alcohol on nozzle: avoid.")
    assert said.about == ("nozzle",)


def test_what_is_off_and_what_is_not_fresh_blocks_release() -> None:
    """Each block by its keys; how many there are; who decides."""
    study = made_study()
    known = made_standings()["float"]
    blocks = (
        Block(kind=BlockKind.CHECK, key="float", event=3, standing=known),
        Block(kind=BlockKind.PARTS_OFF, parts=("battery", "shell")),
    )
    study = dataclasses.replace(study, release=dataclasses.replace(study.release, blocks=blocks))
    check, off = release_sentences(study)["blocks"]
    assert (check.about, check.full) == (("float",), "Stale since the bevel's left bearing was bonded on 3 May.")
    assert (off.about, off.full) == (("battery", "shell"), "Not all is back: battery, upper shell half.")
    answer = release_answer(study)
    assert answer.lead[-1].full == "Not ready to leave: 2 things block release."
    assert [one.key for one in answer.notes] == ["parts_off", "who_decides"]
    assert release_answer(made_study(is_in_order=True)).lead[-1].full == "Nothing blocks release."
