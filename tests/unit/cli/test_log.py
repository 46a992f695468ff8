"""`stripdown visit new` and `stripdown log`: a visit kept by the terminal alone."""

from __future__ import annotations

import json
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from stripdown.cli.main import main
from stripdown.files.visit import load_visit
from stripdown.procedures.standing import Standing
from stripdown.studies.service_job import study_job
from tests.documents.typed_characters import answers_to

_BY_HAND = """\
# kept by hand; mind the odd spacing
[visit]
title   = "Rack 7"   # the green one

[variation]
layout = "version 2"

[request]
job = "full service"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A visit in which nothing has happened yet."""
    (tmp_path / "visit.toml").write_text(_BY_HAND, encoding="utf-8")
    return tmp_path


def _log(runner: CliRunner, folder: Path, *words: str) -> Result:
    return runner.invoke(main, ["log", str(folder), *words])


def _flat(text: str) -> str:
    return " ".join(text.split())


def test_a_visit_is_walked_with_the_terminal_alone(runner: CliRunner, tmp_path: Path) -> None:
    """As the README has it: a folder, a plan, what was done by its printed numbers, a failure, a remark, and one taken back."""
    place = tmp_path / "rack7"
    new = runner.invoke(
        main, ["visit", "new", str(place), "--name", "Rack 7", "--variation", "version 2", "--job", "full service"]
    )
    assert new.exit_code == 0
    assert sorted(path.name for path in place.iterdir()) == ["after.csv", "before.csv", "gun.toml", "visit.toml"]
    plan = study_job(load_visit(place)).plan
    first = plan.steps[0]
    assert f"[ ] 1 {first.name.capitalize()}" in _flat(runner.invoke(main, ["plan", str(place)]).stdout)
    assert f"[{first.step.name}]" in _flat(runner.invoke(main, ["plan", str(place)]).stdout)
    told = _log(runner, place, "done", *answers_to(plan, list(plan.steps[:6])))
    assert told.exit_code == 0, told.stderr
    left = study_job(load_visit(place)).plan.steps
    assert [step.step for step in left] == [step.step for step in plan.steps[6:]]
    assert f"[ ] 1 {left[0].name.capitalize()}" in _flat(told.stdout)  # what comes next, by its number in the plan from there
    before = {key: one.standing for key, one in load_visit(place).known.items()}
    assert _log(runner, place, "failed", "make:sound").exit_code == 0
    assert load_visit(place).known["sound"].standing is Standing.FAILED
    assert _log(runner, place, "undo").exit_code == 0
    assert {key: one.standing for key, one in load_visit(place).known.items()} == before
    assert _log(runner, place, "note", "grip", "screw", "was", "loose").exit_code == 0
    assert load_visit(place).events[-1].note == "grip screw was loose"


def test_what_was_typed_stays_as_it_was(runner: CliRunner, folder: Path) -> None:
    """Comments, spacing and order are the person's; what is new stands below, with number, moment and name."""
    _log(runner, folder, "done", "take off the magazine", "--who", "R.", "--when", "2026-05-03")
    written = (folder / "visit.toml").read_text(encoding="utf-8")
    assert (
        written == f'{_BY_HAND}\n[[event]]\nnumber = 1\nwhen = 2026-05-03\nwho = "R."\naction = "take_off"\npart = "magazine"\n'
    )


@pytest.mark.parametrize(("text", "end"), [(_BY_HAND.replace("\n", "\r\n"), "\r\n"), (_BY_HAND.rstrip("\n"), "\n")])
def test_a_file_of_another_editor_is_kept(runner: CliRunner, folder: Path, text: str, end: str) -> None:
    """Line ends as they are, also where the last line has none."""
    before = text.encode()
    (folder / "visit.toml").write_bytes(before)
    assert _log(runner, folder, "done", "take_off:magazine").exit_code == 0
    after = (folder / "visit.toml").read_bytes()
    assert after.startswith(before)
    assert after.count(end.encode()) == after.count(b"\n")
    assert load_visit(folder).parts_off == {"magazine"}


def test_the_moment_of_an_entry_has_its_offset(runner: CliRunner, folder: Path) -> None:
    """Whoever reads it elsewhere, or after the clocks were changed, knows when it was."""
    _log(runner, folder, "note", "x")
    assert re.search(
        r"^when = \d{4}-\d\d-\d\d(T\d\d:\d\d:\d\d[+-]\d\d:\d\d)?$", (folder / "visit.toml").read_text("utf-8"), re.MULTILINE
    )


def test_one_answer_is_taken_back_whole(runner: CliRunner, folder: Path) -> None:
    """Nothing is deleted: later events take back each that the answer entered; then the answer before it can go."""
    _log(runner, folder, "done", "take_off:magazine")
    _log(runner, folder, "done", "chamber_clear", "take_off:battery")
    said = _log(runner, folder, "undo").stdout
    assert "Taken back: take off the battery (number 3). Taken back: prove: clear chamber (number 2)." in _flat(said)
    visit = load_visit(folder)
    assert visit.parts_off == {"magazine"}
    assert [(event.number, event.supersedes, event.act) for event in visit.events[3:]] == [(4, 3, None), (5, 2, 4)]
    assert _log(runner, folder, "undo").exit_code == 0
    assert not load_visit(folder).parts_off
    assert "there is nothing to take back" in _log(runner, folder, "undo").stderr


def test_work_that_makes_another_gun_is_entered_and_taken_back(runner: CliRunner, folder: Path) -> None:
    """What only the old gun had keeps its name, and the plan goes on as it stood; taken back, it is the old gun again."""
    (folder / "visit.toml").write_text(_BY_HAND.replace('job = "full service"', 'work = ["leave_out_latch"]'), encoding="utf-8")
    steps = [step.step.name for step in study_job(load_visit(folder)).plan.steps]
    upto = steps.index("do:leave_out_latch") + 1
    said = _log(runner, folder, "done", *(step for step in steps[:upto] if not step.startswith("as_found:"))).stdout
    assert "Take off the latch spring. " in _flat(said)
    visit = load_visit(folder)
    assert visit.procedure.choices["latch"].key == "latch_deleted"
    assert "latch_bite" not in visit.known
    assert [step.step.name for step in study_job(visit).plan.steps] == steps[upto:]
    assert _log(runner, folder, "undo").exit_code == 0
    assert load_visit(folder).procedure.choices["latch"].key == "latch_present"


def test_grades_are_entered_and_taken_back(runner: CliRunner, folder: Path) -> None:
    """One look by its words; the rest of a part at once; a grade counts no more when its answer is taken back."""
    assert _log(runner, folder, "graded", "piston", "pick-up tooth", "reject", "rounded").exit_code == 0
    rest = _log(runner, folder, "graded", "piston", "sound")
    assert "pick-up tooth" not in rest.stdout
    assert [one.look.key for one in load_visit(folder).grades if one.blocks_release] == ["pick_up_tooth"]
    _log(runner, folder, "undo")
    assert [one.look.key for one in load_visit(folder).grades] == ["pick_up_tooth"]
    _log(runner, folder, "undo")
    assert load_visit(folder).grades == ()


def test_several_fluids_are_entered_in_one_answer(runner: CliRunner, folder: Path) -> None:
    """Each with its parts, as one says it."""
    for part in ("magazine", "battery"):
        _log(runner, folder, "done", f"take off the {part}")
    text = (folder / "visit.toml").read_text("utf-8")
    for number, part in ((3, "piston"), (4, "cylinder head")):
        text += f'\n[[event]]\nnumber = {number}\naction = "open up"\npart = "{part}"\n'
    (folder / "visit.toml").write_text(text, encoding="utf-8")
    said = "isopropyl alcohol on cylinder; water on piston, piston ring"
    assert (
        _log(runner, folder, "done", "clean cylinder, head and piston", said.replace("piston ring", "piston_ring")).exit_code == 0
    )
    fluids = load_visit(folder).events[-1].fluids
    assert [(one.fluid, one.parts) for one in fluids] == [
        ("isopropyl alcohol", ("cylinder",)),
        ("water", ("piston", "piston_ring")),
    ]


def test_what_was_left_out_on_the_way_is_said(runner: CliRunner, folder: Path) -> None:
    """The numbers are those of the plan as printed now; a step that was passed over stays in it."""
    assert _log(runner, folder, "done", "1-2").exit_code == 0
    said = _flat(_log(runner, folder, "done", "3").stdout)
    assert "Still to be done, though it stood before: " in said


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (["done"], "no step was named"),
        (["done", "make:trial_float"], "wants its axial float"),
        (["done", "make:rate_and_current"], "Write the reading behind it: "),
        (["done", "999"], "the plan has no step 999. Its steps are 1 to"),
        (["done", "0"], "the plan has no step 0"),
        (["done", "6-2"], '"6-2" runs backwards. Write 2-6.'),
        (["done", "take off the batery"], "no step of this gun is called"),
        (["done", "take off the batery"], "Did you mean take_off:battery"),
        (["done", "take_off:piston"], "cannot have been taken off"),
        (["failed", "take_off:magazine"], "is no check, and cannot fail"),
        (["failed", "piston_drag", "thirteen"], "cannot have been done"),
        (["note", " "], "the note is empty"),
        (["undo"], "there is nothing to take back"),
        (["undo", "3"], "undo takes no words"),
        (["touched", "piston"], "touched says too little"),
        (["touched", "pistn", "clean"], '"pistn" is no part of this gun. Did you mean piston'),
        (["touched", "magazine", "scrubbed"], "is no kind of touch"),
        (["graded"], "graded says too little"),
        (["graded", "piston"], "no grade was given"),
        (["graded", "piston", "teeth", "sound"], '"teeth" is no look at the piston'),
        (["graded", "piston", "pick_up_tooth"], 'no grade was given for "pick_up_tooth"'),
        (["graded", "pistn", "sound"], "Did you mean piston"),
        (["done", "6", "--when", "yesterday"], '--when: "yesterday" is no day'),
        (["dune", "6"], "'dune' is not one of"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_entered(runner: CliRunner, folder: Path, words: list[str], complaint: str) -> None:
    """One message each, with what would be right; the file is as it was."""
    result = _log(runner, folder, *words)
    assert result.exit_code == 2
    assert complaint in _flat(result.stderr)
    assert (folder / "visit.toml").read_text(encoding="utf-8") == _BY_HAND


def test_events_in_one_list_are_not_appended_to(runner: CliRunner, folder: Path) -> None:
    """TOML knows no way to add to a list that is closed; the file is as it was."""
    text = _BY_HAND.replace("# kept", 'event = [{ number = 1, action = "take_off", part = "magazine" }]\n# kept')
    (folder / "visit.toml").write_text(text, encoding="utf-8")
    result = _log(runner, folder, "note", "x")
    assert "Write each event under [[event]]" in _flat(result.stderr)
    assert (folder / "visit.toml").read_text(encoding="utf-8") == text


def test_what_was_entered_is_data(runner: CliRunner, folder: Path) -> None:
    """Events with their numbers, whether each check passed, and the plan from there."""
    answer = json.loads(_log(runner, folder, "failed", "make:sound", "--json").stdout)
    assert [(one["number"], one["check"], one["has_passed"]) for one in answer["events"]] == [(1, "sound", False)]
    assert answer["left"][0]["number"] == 1
    assert answer["is_ready"] is False


def test_a_new_visit_leaves_alone_what_is_there(runner: CliRunner, tmp_path: Path) -> None:
    """Not one file is written if one of them is there."""
    (tmp_path / "gun.toml").write_text("mine", encoding="utf-8")
    result = runner.invoke(main, ["visit", "new", str(tmp_path)])
    assert result.exit_code == 2
    assert "there is a gun.toml already. Name another folder; nothing was written." in _flat(result.stderr)
    assert [path.name for path in tmp_path.iterdir()] == ["gun.toml"]


@pytest.mark.parametrize(
    ("options", "complaint"),
    [
        (["--job", "ful servis"], 'no job is called "ful servis". Did you mean full_service'),
        (["--variation", "version 9"], '"version 9" is no variation of a gun'),
        (["--layout", "x"], '"x" is no layout of the catalogue'),
    ],
)
def test_a_new_visit_of_something_unknown_is_refused(
    runner: CliRunner, tmp_path: Path, options: list[str], complaint: str
) -> None:
    """With the nearest names, and nothing written."""
    result = runner.invoke(main, ["visit", "new", str(tmp_path / "new"), *options])
    assert complaint in _flat(result.stderr)
    assert not (tmp_path / "new").exists()


def test_a_new_visit_says_only_what_was_said(tmp_path: Path, runner: CliRunner) -> None:
    """The choices that nobody made stand behind a #, as assumed ones; readings are not missed before any was fired."""
    runner.invoke(main, ["visit", "new", str(tmp_path / "new"), "--variation", "version 3, bushings"])
    text = (tmp_path / "new" / "gun.toml").read_text(encoding="utf-8")
    assert '\nlayout = "version 3"\n' in text
    assert '\nsupports = "bushings"\n' in text
    assert '\n# guide = "fixed spring guide"\n' in text
    assert '\n# motor = "motor in a cage on the box"\n' in text
    visit = load_visit(tmp_path / "new")
    assert visit.variation.choices["supports"] == "bushings"
    assert visit.notes == ("before.csv has no readings yet.", "after.csv has no readings yet.")


def test_several_readings_stand_behind_one_check(runner: CliRunner, folder: Path) -> None:
    """The three floats in the order in which the step names them; two of three are asked for again."""
    text = (folder / "visit.toml").read_text("utf-8")
    for number, part in enumerate(("spur_gear", "sector_gear", "bevel_gear", "main_spring", "piston"), start=1):
        text += f'\n[[event]]\nnumber = {number}\naction = "open_up"\npart = "{part}"\n'
    (folder / "visit.toml").write_text(text, encoding="utf-8")
    two = _log(runner, folder, "done", "make:trial_float", "0.08 mm", "0.11 mm")
    assert "has 3 readings" in _flat(two.stderr)
    assert (folder / "visit.toml").read_text("utf-8") == text
    assert _log(runner, folder, "done", "make:trial_float", "0.08 mm", "0.11 mm", "0.19 mm").exit_code == 0
    visit = load_visit(folder)
    assert [key for key, _ in visit.events[-1].readings] == [one.key for one in visit.procedure.checks["trial_float"].readings]
    assert visit.known["trial_float"].standing is Standing.FAILED  # the one furthest from the middle is judged


def test_the_readmes_visit_is_walked(runner: CliRunner, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every line of it, in its order, in a folder in which nothing is: each ends well, and the last answer is taken back."""
    monkeypatch.chdir(tmp_path)
    page = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")
    [block] = [block for block in re.findall(r"```sh\n(.*?)```", page, re.DOTALL) if "stripdown visit new rack7" in block]
    commands = [shlex.split(line, comments=True)[1:] for line in block.splitlines()]
    assert len(commands) == 8
    for words in commands:
        result = runner.invoke(main, words)
        assert result.exit_code == 0, (words, result.stderr)
    visit = load_visit(tmp_path / "rack7")
    assert visit.parts_off == {"magazine"}
    assert visit.known["sound"].standing is Standing.FAILED
    assert visit.events[-1].is_withdrawal


def test_a_log_is_listed_as_it_counts(runner: CliRunner, folder: Path) -> None:
    """With number, day, hand and outcome; what was taken back is counted, and stays in the file."""
    assert "Nothing is in the log yet." in _log(runner, folder).stdout
    _log(runner, folder, "done", "take off the magazine", "--who", "R.", "--when", "2026-05-03")
    _log(runner, folder, "failed", "make:sound", "--when", "2026-05-03")
    _log(runner, folder, "undo")
    _log(runner, folder, "graded", "hop_up_rubber", "sound")
    said = _flat(_log(runner, folder).stdout)
    assert "1 2026-05-03 R. Take off the magazine." in said
    assert "Prove: sound" not in said
    assert "The hop-up rubber was graded sound" in said
    assert "2 entries more were corrected or taken back" in said
    listed = json.loads(_log(runner, folder, "--json").stdout)
    assert [one["number"] for one in listed["events"]] == [1, 2, 3]


def test_a_reading_that_was_forgotten_is_entered_where_it_was_read(runner: CliRunner, folder: Path) -> None:
    """It takes the next number, and counts after the entry that it names; for anything else the option means nothing."""
    _log(runner, folder, "done", "take off the magazine")
    _log(runner, folder, "note", "looked at it")
    late = _log(runner, folder, "done", "as found: sound of the running gun", "--after", "0")
    assert late.exit_code == 0, late.stderr
    assert [(event.number, event.after) for event in load_visit(folder).events] == [(1, None), (2, None), (3, 0)]
    assert [one.event.number for one in load_visit(folder).log] == [3, 1, 2]
    assert "--after means nothing for note" in _log(runner, folder, "note", "x", "--after", "1").stderr
    assert "must be the number of an earlier event" in _flat(
        _log(runner, folder, "done", "take_off:battery", "--after", "9").stderr
    )
