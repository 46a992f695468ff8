"""The job file: what is read, what is left to do, and how slips are told."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from stripdown.bench.visit import Visit
from stripdown.errors import InputError
from stripdown.files.visit import load_job
from stripdown.procedures.complaints import find_complaint
from stripdown.procedures.request import Request
from stripdown.procedures.standing import Standing
from stripdown.procedures.steps import Step, StepKind
from stripdown.studies.forbidden_touches import TouchLevel
from stripdown.studies.service_job import Block, BlockKind, FindingKind, JobStudy, study_job
from stripdown.words.release import release_answer, release_sentences

Load = Callable[[str], Visit]

_HEAD = """
[job]
title = "Rack 9"
gun = "Rack 9"
invented = true

[variation]
layout = "version 3"
guide = "quick-change"
"""

_OPENED = """
[[event]]
number = 1
when = 2026-05-01
check = "string_hop_off"
kind = "as_found"
value = "0.6 %"

[[event]]
number = 2
action = "open_up"
part = "spur_gear"

[[event]]
number = 3
action = "open_up"
part = "piston"

[[event]]
number = 4
action = "bond_bevel_bearing_left"
"""


@pytest.fixture
def load(tmp_path: Path) -> Load:
    """Write a job file and read it."""

    def read(text: str) -> Visit:
        file = tmp_path / "job.toml"
        file.write_text(text, encoding="utf-8")
        return load_job(file)

    return read


def test_a_job_is_read_whole(load: Load) -> None:
    """Gun, variation, request, log and how the checks stand."""
    job = load(_HEAD + '[request]\njob = "bond the bearings"\n' + _OPENED)
    assert (job.title, job.gun_name, job.invented) == ("Rack 9", "Rack 9", True)
    assert job.variation.choices["motor"] == "motor_in_cage"  # assumed, from the layout
    assert job.known["string_hop_off"].standing is Standing.STALE
    assert {"battery", "shell_half", "spur_gear", "piston"} <= job.parts_off
    assert "bond_bevel_bearing_left" in job.request.work


def test_what_is_done_is_not_planned_again(load: Load) -> None:
    """Work and readings that the log has since the request are left out; earlier ones are another job's."""
    asked = '[request]\nwork = ["bond_bevel_bearing_left"]\nas_found = ["string_hop_off"]\n'
    assert load(_HEAD + asked + _OPENED).remaining.work == ()
    assert load(_HEAD + asked + _OPENED).remaining.as_found == ()
    assert load(_HEAD + asked + "after = 4\n" + _OPENED).remaining.work == ("bond_bevel_bearing_left",)


def test_a_job_proves_what_its_log_has_undone(load: Load) -> None:
    """Asked for nothing more, it still closes the gun, and proves what the bond undid, not before it has cured."""
    study = study_job(load(_HEAD + _OPENED))
    steps = {step.step.name: step for step in study.plan.steps}
    assert {"make:bevel_shim_pack", "put_back:shell_half", "make:first_power", "make:string_hop_off"} <= steps.keys()
    assert steps["make:bevel_shim_pack"].not_before.startswith("not before 24 h have passed since event 4")
    assert not study.plan.left_open
    assert not study.release.is_ready


def test_a_reading_as_found_that_came_too_late_is_told_with_its_line(load: Load) -> None:
    """After a ring was replaced the drag is the new ring's; a visit that began later may find it so."""
    late = """
[[event]]
number = 5
action = "open_up"
part = "cylinder"

[[event]]
number = 6
part = "piston_ring"
kind = "replace"

[[event]]
number = 7
part = "piston"
kind = "inspect"

[[event]]
number = 8
check = "piston_head_tight"
passed = true
kind = "as_found"
"""
    head_touched = late.replace('part = "piston_ring"', 'part = "piston_head"')
    assert load(_HEAD + _OPENED + late).events[-1].kind == "as_found"  # a ring holds no head
    with pytest.raises(InputError, match=r"job.toml, line 47: event 8: .* as it was found: the piston head was replaced"):
        load(_HEAD + _OPENED + head_touched)
    assert load(_HEAD + "[request]\nafter = 7\n" + _OPENED + head_touched).events[-1].kind == "as_found"


def test_a_bond_that_had_an_hour_is_a_finding(load: Load) -> None:
    """By the moments of the log; it says how long it should have been, and what to make again."""
    bonded = _OPENED.replace("number = 4\n", "number = 4\nwhen = 2026-05-01T10:00:00+02:00\n")
    seen = '\n[[event]]\nnumber = 5\nwhen = 2026-05-01T11:00:00+02:00\ncheck = "bearings_seated"\npassed = true\n'
    study = study_job(load(_HEAD + bonded + seen))
    [found] = [one for one in study.release.findings if one.kind is FindingKind.TOO_SOON]
    assert found.too_soon is not None
    assert (found.event, found.too_soon.since, found.too_soon.hours, found.too_soon.passed) == (5, 4, 24.0, 1.0)
    said = [one.full for one in release_sentences(study)["findings"]]
    assert any("it did not wait 24 h after event 4" in one and "Make it again when it has cured." in one for one in said)


def test_own_limits_decide_and_are_said(load: Load) -> None:
    """With name, version and reason; the rest of the check stays."""
    job = load(_HEAD + '[limits.trial_float]\nhigh = "0,10 mm"\nname = "bench rule"\nversion = "3"\nreason = "tighter"\n')
    reading = job.procedure.checks["trial_float"].reading
    assert reading is not None
    assert reading.low == 0.05
    assert reading.high == pytest.approx(0.10)
    assert job.notes == ("Own limit for the axial float in the trial closing: 0.1 mm (bench rule; 3; tighter).",)


def test_own_steps_stand_beside_the_packaged_ones(tmp_path: Path) -> None:
    """A file beside the job adds a part in front of the gearbox, with work on it."""
    own = '[part.handle]\nname = "handle"\nplace = "gun"\nin_front_of = ["gearbox"]\noff = "Unscrew."\nback = "Screw on."\n'
    (tmp_path / "mine.toml").write_text(own, encoding="utf-8")
    text = _HEAD.replace("invented = true", 'invented = true\nown_steps = "mine.toml"') + '[request]\njob = "re-shim"\n'
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    names = [step.step.name for step in study_job(load_job(tmp_path / "job.toml")).plan.steps]
    assert names.index("take_off:handle") < names.index("take_off:gearbox")
    assert names.index("put_back:gearbox") < names.index("put_back:handle")


def test_own_steps_that_no_gun_can_follow_are_refused(tmp_path: Path) -> None:
    """A part in front of itself is told with the line that names the file, and what is wrong in it."""
    own = '[[amend]]\nentry = "part.battery"\nin_front = ["shell_half"]\n'
    (tmp_path / "mine.toml").write_text(own, encoding="utf-8")
    (tmp_path / "job.toml").write_text('[job]\nown_steps = "mine.toml"\n', encoding="utf-8")
    with pytest.raises(
        InputError, match=r"line 2: job.own_steps leave no gun that can be serviced: part \w+ is in front of itself"
    ):
        load_job(tmp_path / "job.toml")


_REJECT = """
[[grade]]
number = 5
part = "piston_ring"
look = "ring_shape"
grade = "reject"
"""


def test_a_reject_blocks_release_and_asks_for_its_work(load: Load) -> None:
    """Until the part is replaced, or somebody lets it pass with a reason, which is then said."""
    study = study_job(load(_HEAD + _OPENED + _REJECT))
    [reject] = _rejects(study)
    assert (reject.key, reject.parts, reject.event) == ("ring_shape", ("piston_ring",), 5)
    [step] = [step for step in study.plan.steps if step.step.name == "do:replace_piston_ring"]
    assert step.purpose == "the piston head's ring was graded a reject for shape"
    overridden = study_job(load(_HEAD + _OPENED + _REJECT + 'overridden = "the last ring of its size is on order"\n'))
    assert not _rejects(overridden)
    [passed] = overridden.release.overridden
    assert passed.grade is not None
    assert passed.grade.record.overridden == "the last ring of its size is on order"
    ring_out = '\n[[event]]\nnumber = 6\naction = "take_off"\npart = "piston_ring"\n'
    replaced = ring_out + '[[event]]\nnumber = 7\naction = "replace_piston_ring"\n'
    assert not _rejects(study_job(load(_HEAD + _OPENED + _REJECT + replaced)))


def test_a_reject_of_a_part_that_leaves_asks_for_no_new_one(load: Load) -> None:
    """Burnt contacts that give way to a unit are not replaced first; once they are out, their grade is of the gun that was."""
    look = '[[grade]]\nnumber = 1\npart = "trigger_contacts"\nlook = "contacts"\ngrade = "reject"\n'
    asked = '[request]\nwork = ["fit_electronic_unit"]\n'
    before = study_job(load(asked + look))
    assert [reject.parts for reject in _rejects(before)] == [("trigger_contacts",)]
    assert "do:replace_trigger_contacts" not in {step.step.name for step in before.plan.steps}
    opened = '[[event]]\nnumber = 2\naction = "open_up"\npart = "wires"\n'
    opened += '[[event]]\nnumber = 3\naction = "open_up"\npart = "spur_gear"\n'
    fitted = '[[event]]\nnumber = 4\naction = "fit_electronic_unit"\n'
    after = study_job(load(asked + look + opened + fitted))
    assert not _rejects(after)
    assert after.job.grades[0].mended == 4


def _rejects(study: JobStudy) -> list[Block]:
    return [block for block in study.release.blocks if block.kind is BlockKind.REJECT]


def test_a_forbidden_fluid_in_the_log_is_found(load: Load) -> None:
    """At error level, and forgiven once the part is a new one."""
    oiled = '\n[[event]]\nnumber = 5\npart = "hop_up_rubber"\nkind = "lubricate"\nvalue = "silicone oil"\n'
    opened = _OPENED[: _OPENED.index('action = "bond')] + 'action = "open_up"\npart = "hop_up_rubber"\n'
    findings = study_job(load(_HEAD + opened + oiled)).release.findings
    [oil] = [finding.touch for finding in findings if finding.touch is not None]
    assert (oil.level, oil.event, oil.part, oil.fluid) == (TouchLevel.ERROR, 5, "hop_up_rubber", "silicone oil")
    replaced = oiled + '\n[[event]]\nnumber = 6\naction = "replace_hop_up_rubber"\n'
    assert not any(finding.touch for finding in study_job(load(_HEAD + opened + replaced)).release.findings)


_CLEANED = """
[[event]]
number = 5
action = "open up"
part = "cylinder head"

[[event]]
number = 6
action = "clean cylinder, head and piston"
fluids = [
  { fluid = "isopropyl alcohol", parts = ["cylinder"] },
  { fluid = "water", parts = ["cylinder head", "piston", "piston_head", "piston_ring", "cylinder_head_rings"] },
]
"""


def _harmed(study: JobStudy) -> list[str]:
    return [part for block in study.release.blocks if block.kind is BlockKind.HARM for part in block.parts]


def test_alcohol_on_metal_is_not_alcohol_on_the_piston(load: Load) -> None:
    """One event carries several fluids, each for its own parts; without parts a fluid came on all."""
    on_metal = study_job(load(_HEAD + _OPENED + _CLEANED))
    assert not [one for one in on_metal.release.findings if one.kind is FindingKind.TOUCH and one.level is TouchLevel.ERROR]
    everywhere = _CLEANED.replace(', parts = ["cylinder"]', "")
    assert "piston" in _harmed(study_job(load(_HEAD + _OPENED + everywhere)))


def test_real_harm_asks_for_inspection_or_replacement(load: Load) -> None:
    """It keeps the gun on the bench until somebody has looked at the part, or put a new one in its place."""
    spilled = '\n[[event]]\nnumber = 5\npart = "piston"\nkind = "clean"\nvalue = "isopropyl alcohol"\n'
    study = study_job(load(_HEAD + _OPENED + spilled))
    assert _harmed(study) == ["piston"]
    said = release_sentences(study)
    assert "Look at it and grade it, or replace the piston [replace_piston]." in said["findings"][-1].full
    assert "The piston was touched by isopropyl alcohol (event 5)" in said["blocks"][-1].full
    for over in ('part = "piston"\nkind = "inspect"\n', 'action = "replace_piston"\n'):
        after = study_job(load(f"{_HEAD}{_OPENED}{spilled}\n[[event]]\nnumber = 6\n{over}"))
        assert _harmed(after) == []
        assert not [one for one in after.release.findings if one.kind is FindingKind.TOUCH]


def test_an_empty_log_proves_nothing(load: Load) -> None:
    """Nothing was undone, and nothing was made either: it is not said that nothing keeps the gun."""
    study = study_job(load(_HEAD))
    assert not study.release.blocks
    assert not study.release.is_ready
    assert [one.full for one in release_answer(study).lead] == [
        "Nothing is proved: the log has no check that holds, so nothing says that the gun may leave."
    ]


def test_a_gun_that_was_opened_without_being_made_safe_is_found(load: Load) -> None:
    """The log keeps what happened, and says what should have come first."""
    first, *_ = study_job(load(_HEAD + '[arrival]\nran = "yes"\n' + _OPENED)).release.findings
    assert (first.kind, first.level, first.event) == (FindingKind.UNGUARDED, TouchLevel.ERROR, 2)
    assert first.step == Step(StepKind.TAKE_OFF, "battery")
    assert first.guards == ("chamber_clear", "made_safe")


def test_a_finding_in_a_complaint_asks_for_its_work(load: Load) -> None:
    """The tree of a complaint feeds the same planner; a complaint without a finding says where to look first."""
    with pytest.raises(InputError, match=r"is a complaint, and no finding yet\. Look first"):
        load(_HEAD + '[request]\ncomplaint = "low velocity"\n')
    tree = find_complaint("low velocity", "version 3, quick-change")
    [found] = [
        one for question in tree.questions for one in question.findings if "dry_clean_barrel" in (one.request or Request()).work
    ]
    job = load(_HEAD + f'[request]\ncomplaint = "low velocity"\nfinding = "{found.key}"\n')
    assert job.request == found.request
    with pytest.raises(InputError, match="finding"):
        load(_HEAD + '[request]\ncomplaint = "low velocity"\nfinding = "nothing_like_it"\n')


@pytest.mark.parametrize(
    ("text", "line", "mistake"),
    [
        (_HEAD + "[reqest]\n", 10, "reqest is no table of a job file. Did you mean request"),
        (_HEAD + "[request]\nwrok = []\n", 11, "request.wrok is no field. Did you mean work"),
        (_HEAD + "[request]\nwork = 3\n", 11, "request.work must be a list of texts"),
        (_HEAD + '[request]\nwork = ["bond_baering"]\n', 11, '"bond_baering" is no action of this gun. Did you mean bond_'),
        (_HEAD + '[request]\njob = "tea"\n', 11, 'no job is called "tea"'),
        (_HEAD + '[start]\nparts_off = ["pistn"]\n', 10, '"pistn" is no part of this gun. Did you mean piston'),
        (_HEAD.replace("version 3", "version 4"), 8, '"version 4" is no variation of a gun. Did you mean version_3'),
        (_HEAD + "[limits.seal]\nhigh = 3\n", 10, "limits.seal is no check that a number decides"),
        (_HEAD + "[limits.trial_float]\nhigh = 3\n", 11, 'must be a text with its unit. Write high = "0.05 mm"'),
        (_HEAD + '[limits.trial_float]\nhigh = "3 N"\n', 11, "cannot be read"),
        (_HEAD + '[limits.trial_float]\nhigh = "0.01 mm"\nlow = "0.02 mm"\n', 10, "lies above high"),
        (_HEAD + "[event]\nnumber = 1\n", 10, "event must be a list of tables. Write [[event]]"),
        (_HEAD + '\n[[event]]\nnumber = 1\nchek = "seal"\n', 11, 'event 1: chek "seal" is no field of an event'),
        (_HEAD + _OPENED + '\n[[event]]\nnumber = 4\ncheck = "x"\n', 32, 'event 4: number "4" stands after event 4'),
        (
            _HEAD + _OPENED + '\n[[event]]\nnumber = 9\ncheck = "sael"\npassed = true\n',
            32,
            'event 9: check "sael" is no check that is',
        ),
        (_HEAD + _OPENED + _REJECT.replace("5", "4"), 32, 'grade 4: number "4" is that of an event'),
        (_HEAD + _OPENED + _REJECT.replace("ring_shape", "ring_shap"), 32, 'grade 5: "ring_shap" is no look'),
    ],
)
def test_a_slip_is_told_with_its_line(load: Load, text: str, line: int, mistake: str) -> None:
    """One message: file, line, what, and what would be right."""
    with pytest.raises(InputError) as caught:
        load(text)
    assert mistake in str(caught.value)
    assert (Path(str(caught.value.file)).name, caught.value.line) == ("job.toml", line)


def test_a_file_with_several_slips_says_on_which_lines_the_others_are(load: Load) -> None:
    """Unknown fields and tables are told at once, and so are events that cannot be read."""
    with pytest.raises(InputError, match=r"line 4.*title2 is no field.*There are 2 more mistakes: lines 12, 14\."):
        load(_HEAD.replace("gun =", 'title2 = "x"\ngun =') + '\n[requests]\n[start]\nparts_of = ["motor"]\n')
    events = '[[event]]\nnumber = 1\nchek = "sound"\n[[event]]\nnumber = 2\naction = "open_up"\n[[event]]\nnumber = "3"\n'
    with pytest.raises(InputError, match=r"chek .sound. is no field.*There is one more mistake: line 17\."):
        load(_HEAD + "\n" + events)
