"""`stripdown plan`, `standing` and `why`: what they print, what they give to programs, how they refuse."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main

_JOB = Path(__file__).parents[3] / "examples" / "brackenmoor-12" / "job.toml"


def _flat(text: str) -> str:
    return " ".join(text.split())


def test_a_plan_is_printed_with_what_to_fetch_and_what_can_hurt(runner: CliRunner) -> None:
    """Tools up front, steps by place with a box, cautions and limits at the step, and what must have cured."""
    result = runner.invoke(main, ["plan", str(_JOB)])
    assert result.exit_code == 0, result.output
    said = _flat(result.stdout)
    for words in (
        "Gun and events are invented.",
        "Tools Plastic pick, cloth, torch",
        "Calculated for this job Shims, Brackenmoor 12 (invented) Shims at hand leave every gear its float",
        "Ring in its gland, cylinder head A ring of 2.40 mm suits its gland.",
        "Footing: published",
        "About 3 h 40 min of the hands",
        "[ ] 1 Take off the nozzle's inner ring",
        "Not before 24 h have passed since event 29 on 22 November",
        "- Surplus reaches barrel and lips",
        "Trial closing: upper shell half, shell screws, sector gear, spur gear, bevel gear on for this check, and off again.",
        "0.05 to 0.12 mm",
        "local law and a qualified person come first",
    ):
        assert words in said
    assert "Lift the ring out of its groove" not in said
    assert "Lift the ring out of its groove" in _flat(runner.invoke(main, ["plan", str(_JOB), "--how"]).stdout)


def test_the_trained_read_a_plan_in_short(runner: CliRunner) -> None:
    """What is done in a few words, and how a passed check looks; not the whole of it as well."""
    said = _flat(runner.invoke(main, ["plan", str(_JOB), "--short"]).stdout)
    assert "Metal with alcohol; rings and plastics with soapy water; dry." in said
    assert "Passed: springs back" in said
    assert "Lift the ring out of its groove" not in said


def test_a_full_service_says_what_is_graded_where_until_it_was(runner: CliRunner, tmp_path: Path) -> None:
    """Each part with its looks at the step at which it is in the hand, less those that were graded in this visit."""
    job = tmp_path / "job.toml"
    asked = '[job]\ntitle = "A gun"\n[variation]\nlayout = "version_2"\n[request]\njob = "full service"\n'
    job.write_text(asked, encoding="utf-8")
    said = _flat(runner.invoke(main, ["plan", str(job)]).stdout)
    assert "Grade in the hand: main spring (free length, coils)" in said
    assert said.count("Grade in the hand") > 20
    grade = '[[grade]]\nnumber = 1\npart = "main_spring"\nlook = "coils"\ngrade = "sound"\n'
    job.write_text(asked + grade, encoding="utf-8")
    assert "Grade in the hand: main spring (free length)" in _flat(runner.invoke(main, ["plan", str(job)]).stdout)


def test_what_work_brings_is_still_to_do_once_the_work_is_done(runner: CliRunner, tmp_path: Path) -> None:
    """A new piston lies in the hand, and the plan that is made anew has not forgotten that its rack must be cut."""
    job = tmp_path / "job.toml"
    events = ({"action": "open_up", "part": "piston"}, {"action": "replace_piston"})
    lines = ['[job]\ntitle = "A gun"\n[variation]\nstroke = "short_stroked_release"\n[request]\nwork = ["replace_piston"]']
    for number, event in enumerate(events, start=1):
        lines += ["[[event]]", f"number = {number}", *(f'{field} = "{value}"' for field, value in event.items())]
    job.write_text("\n".join(lines), encoding="utf-8")
    steps = [step["step"] for step in json.loads(runner.invoke(main, ["plan", str(job), "--json"]).stdout)["steps"]]
    assert "do:replace_piston" not in steps
    assert steps.index("do:short_stroke_release") < steps.index("put_back:piston")


def test_a_plan_is_data(runner: CliRunner) -> None:
    """Steps by name, in order, with all that the paper says."""
    answer = json.loads(runner.invoke(main, ["plan", str(_JOB), "--json"]).stdout)
    names = [step["step"] for step in answer["steps"]]
    assert names.index("make:bevel_shim_pack") < names.index("put_back:shell_half") < names.index("make:string_hop_off")
    assert answer["states_visited"] == 1
    assert answer["left_open"] == {}
    assert {"number", "name", "place", "cautions", "expect", "trial_closing"} <= answer["steps"][0].keys()
    first = next(step for step in answer["steps"] if step["step"] == "take_off:nozzle_ring")
    assert (first["purpose"], first["for_work"]) == ("to replace the nozzle's inner ring", ["replace_nozzle_ring"])
    [pack] = [step for step in answer["steps"] if step["step"] == "make:bevel_shim_pack"]
    assert pack["not_before_event"] == 29


def test_what_was_calculated_is_data(runner: CliRunner, tmp_path: Path) -> None:
    """Each answer in SI, of the shape that its own command prints; a job that asks nothing has none."""
    found = json.loads(runner.invoke(main, ["plan", str(_JOB), "--json"]).stdout)["answers"]
    assert [(one["calculator"], one["name"]) for one in found] == [
        ("shims", "Brackenmoor 12 (invented)"),
        ("pad", ""),
        ("gland", "cylinder head"),
    ]
    shims, pad, ring = (one["answer"] for one in found)
    assert [gear["gear"] for gear in shims["gears"]] == ["sector", "spur", "bevel"]
    assert pad["thickness_m"] == pytest.approx(2 * 0.4e-3 / math.sin(math.radians(40)))
    assert ring["squeeze"] == pytest.approx((2.4 - 2.0) / 2.4)
    alone = json.loads(runner.invoke(main, ["pad", "--mark", "0.4 mm", "--json"]).stdout)
    assert {**pad, "program_version": alone["program_version"]} == alone
    (tmp_path / "job.toml").write_text('[request]\njob = "re-shim"\n', encoding="utf-8")
    result = runner.invoke(main, ["plan", str(tmp_path / "job.toml"), "--json"])
    assert json.loads(result.stdout)["answers"] == []


def test_a_mark_of_an_edge_stops_no_plan(runner: CliRunner, tmp_path: Path) -> None:
    """The plan says to measure again, and stands."""
    text = '[request]\njob = "re-shim"\n[pad]\nwitness_height = "0.4 mm"\nedge = true\n'
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    result = runner.invoke(main, ["plan", str(tmp_path / "job.toml")])
    assert result.exit_code == 0
    assert "Pad for the angle of engagement Not computable: measure again." in _flat(result.stdout)
    [data] = json.loads(runner.invoke(main, ["plan", str(tmp_path / "job.toml"), "--json"]).stdout)["answers"]
    assert data["answer"] is None
    assert data["refused"].startswith("Not computable")


def test_a_plan_is_written_as_a_sheet(runner: CliRunner, tmp_path: Path) -> None:
    """A PDF for the bench."""
    file = tmp_path / "job.pdf"
    assert runner.invoke(main, ["plan", str(_JOB), "--pdf", str(file)]).exit_code == 0
    assert file.read_bytes().startswith(b"%PDF")


def test_standing_is_printed_with_signs_reasons_and_what_blocks(runner: CliRunner) -> None:
    """Sign and word for each, never colour; the reason with its days; what keeps the gun on the bench."""
    said = _flat(runner.invoke(main, ["standing", str(_JOB)]).stdout)
    for words in (
        "~ stale shim pack of the bevel gear: stale since the bevel's left bearing was bonded on 22 November",
        "the shim pack of the bevel gear was chosen on 21 November",
        "+ fresh shim pack of the sector gear",
        "Never made, and disturbed by what is in the log: first power after closing",
        "Not ready to leave:",
        "graded reject for shape",
    ):
        assert words in said
    every = _flat(runner.invoke(main, ["standing", str(_JOB), "--all"]).stdout)
    assert "- never first power after closing was never proved, and the motor was taken off on 20 November" in every


def test_standing_is_data_and_a_picture(runner: CliRunner, tmp_path: Path) -> None:
    """By check, with the events that made it and undid it; and the graph of checks."""
    answer = json.loads(runner.invoke(main, ["standing", str(_JOB), "--json"]).stdout)
    pack = answer["checks"]["bevel_shim_pack"]
    assert (pack["standing"], pack["made"], pack["since"], pack["for_release"]) == ("stale", 23, 29, True)
    assert (pack["touched"], pack["base"]) == ("bevel_bearing_left", None)
    trial = answer["checks"]["trial_float"]
    assert (trial["touched"], trial["base"]) == ("bevel_bearing_left", "bevel_shim_pack")
    assert answer["is_ready"] is False
    assert len(answer["blocks"]) == len(answer["release"]["blocks"])
    reject = answer["release"]["blocks"][-1]
    assert reject == {"kind": "reject", "key": "ring_shape", "parts": ["piston_ring"], "event": 12}
    assert "graded reject for shape" in answer["blocks"][-1]
    assert runner.invoke(main, ["standing", str(_JOB), "--pictures", str(tmp_path)]).exit_code == 0
    assert (tmp_path / "standing.svg").read_text(encoding="utf-8").startswith("<svg")


def test_why_names_the_reasons(runner: CliRunner) -> None:
    """In the plan of a job, or in the plan that the two steps ask for; the wrong way round is said."""
    job = _flat(runner.invoke(main, ["why", "make:bevel_shim_pack", "before", "make:trial_float", "--job", str(_JOB)]).stdout)
    assert "rests on the shim pack of the bevel gear" in job
    alone = _flat(runner.invoke(main, ["why", "do:bond_bevel_bearing_left before make:bevel_shim_pack"]).stdout)
    assert "1. A bond that has not cured lets the support move" in alone
    turned = runner.invoke(main, ["why", "make:bevel_shim_pack", "before", "do:bond_bevel_bearing_left"])
    assert turned.stdout.startswith("It is the other way round.")
    data = json.loads(runner.invoke(main, ["why", "take_off:battery before take_off:gearbox", "--json"]).stdout)
    assert data["reasons"][0]["first"] == "take_off:battery"


def test_jobs_that_have_a_name_are_listed(runner: CliRunner) -> None:
    """With what they are for; a job file is not needed."""
    assert "re_shim" in runner.invoke(main, ["plan", "--jobs"]).stdout
    assert json.loads(runner.invoke(main, ["plan", "--jobs", "--json"]).stdout)["jobs"]["full_service"]["name"] == "full service"
    names = json.loads(runner.invoke(main, ["plan", "--names", "--json"]).stdout)
    assert {"bevel_bearing_left", "cylinder_seal", "bond_bevel_bearing_left"} <= {
        *names["parts"],
        *names["checks"],
        *names["work"],
    }
    assert "bond_bevel_bearing_left" in runner.invoke(main, ["plan", "--names"]).stdout
    assert "Name a visit's folder or a job file" in runner.invoke(main, ["plan"]).stderr


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (["plan", "nowhere.toml"], "there is no such file"),
        (["why", "one step"], "does not name two steps"),
        (["why", "make:sael before put_back:shell_half"], "Did you mean make:"),
        (["why", "make:cylinder_seal before make:nozzle_seal", "--variation", "version 9"], "is no variation of a gun"),
    ],
)
def test_a_slip_ends_with_one_message(runner: CliRunner, words: list[str], complaint: str) -> None:
    """Exit code 2, what was wrong, and no traceback."""
    result = runner.invoke(main, words)
    assert result.exit_code == 2
    assert complaint in result.stderr
    assert "Traceback" not in result.output


def test_what_cannot_be_done_has_its_own_exit_code(runner: CliRunner, tmp_path: Path) -> None:
    """Exit code 5, and the circle in words."""
    pair = '[[pair]]\nfirst = "do:{}"\nthen = "do:{}"\nwhy = "it was declared"\n'
    own = pair.format("clean_gears", "clean_shell") + pair.format("clean_shell", "clean_gears")
    (tmp_path / "own.toml").write_text(own, encoding="utf-8")
    text = '[job]\nown_steps = "own.toml"\n[request]\nwork = ["clean_gears", "clean_shell"]\n'
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    result = runner.invoke(main, ["plan", str(tmp_path / "job.toml")])
    assert result.exit_code == 5
    assert 'before "clean the shell" (It was declared)' in _flat(result.stderr)


@pytest.mark.parametrize("command", ["plan", "standing"])
def test_the_folder_of_a_job_says_what_its_file_says(runner: CliRunner, command: str) -> None:
    """A visit is its folder; an old job file in it is read either way."""
    by_folder, by_file = (runner.invoke(main, [command, str(path), "--json"]) for path in (_JOB.parent, _JOB))
    assert by_folder.exit_code == by_file.exit_code == 0
    assert json.loads(by_folder.stdout) == json.loads(by_file.stdout)
