"""`stripdown inspect`: what it prints, what it gives to programs, how it refuses."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main

_OWN = """
[limit_set]
name = "rack rules"
version = 3
[[amend]]
entry = "look.pick_up_tooth"
measure = { reject_above = 0.3 }
footing = "common_practice"
"""


def _flat(text: str) -> str:
    return " ".join(text.split())


def test_a_part_is_printed_with_looks_grades_work_and_damage(runner: CliRunner) -> None:
    """Everything that somebody needs who holds the part under the lamp, each grade as a word."""
    result = runner.invoke(main, ["inspect", "Piston"])
    assert result.exit_code == 0
    said = _flat(result.stdout)
    for words in (
        "pick-up tooth",
        "SOUND: at most 0.2 mm",
        "WATCH: above 0.2 mm",
        "REJECT: above 0.5 mm",
        "replace the piston [replace_piston]",
        "common practice, no source; common bench limits, version 1",
        "likely: Pre-engagement",
        "eye protection",
    ):
        assert words in said


def test_gears_are_printed_with_the_words_of_the_standard(runner: CliRunner) -> None:
    """With the remark that the grades are this bench's."""
    said = _flat(runner.invoke(main, ["inspect", "gears"]).stdout)
    assert "Words of ISO 10825, with the grades of this bench" in said
    assert "It gives no cause and no limit" in said
    assert "REJECT scuffing" in said


def test_grids_for_new_parts_say_so(runner: CliRunner) -> None:
    """Nobody shall judge a ring that has run by them."""
    said = _flat(runner.invoke(main, ["inspect", "seals"]).stdout)
    assert "NEW parts only: O-rings, imperfections of grade N" in said


def test_without_a_part_all_parts_are_listed(runner: CliRunner) -> None:
    """By group, of the variation that is asked for."""
    said = _flat(runner.invoke(main, ["inspect", "--variation", "latch deleted"]).stdout)
    assert "inner barrel (4)" in said
    assert "latch spring" not in said
    answer = json.loads(runner.invoke(main, ["inspect", "--json"]).stdout)
    assert answer["groups"]["seals"]["parts"][0] == "piston_ring"
    assert "pick_up_tooth" in answer["looks"]["piston"]


def test_a_part_is_data(runner: CliRunner) -> None:
    """Limits in SI, the unit in each key; standing and source by key; what a reject asks for."""
    answer = json.loads(runner.invoke(main, ["inspect", "piston", "--json"]).stdout)
    look = next(one for one in answer["parts"]["piston"] if one["look"] == "pick_up_tooth")
    assert look["limits"]["watch_above_m"] == pytest.approx(0.2e-3, rel=1e-12)
    assert look["limits"]["reject_below_m"] is None
    assert look["on_reject"] == {"work": ["replace_piston"], "wanted": ["engagement_angle"]}
    assert look["footing"] == "common_practice"
    assert answer["variation"]["layout"] == "version_2"
    assert {one["damage"] for one in answer["damage"]} >= {"middle_teeth_chewed"}
    rings = json.loads(runner.invoke(main, ["inspect", "piston_ring", "--json"]).stdout)
    row = rings["grids_for_new_parts"]["new_o_rings"]["rows"][0]
    assert row["up_to_m"] == pytest.approx(2.25e-3, rel=1e-12)
    assert row["limits_m"][0] == pytest.approx(0.08e-3, rel=1e-12)


def test_limits_of_ones_own_are_used_and_named(runner: CliRunner, tmp_path: Path) -> None:
    """The limit, and the set that gave it, on its own line and at the head."""
    file = tmp_path / "rack.toml"
    file.write_text(_OWN, encoding="utf-8")
    said = _flat(runner.invoke(main, ["inspect", "piston", "--limits", str(file)]).stdout)
    assert "REJECT: above 0.3 mm" in said
    assert "amended by rack rules, version 3" in said


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        (["pistn"], "Did you mean piston"),
        (["stock"], "has nothing to look at of its own"),
        (["piston", "--variation", "version 9"], "is no variation of a gun"),
        (["piston", "--limits", "not-there.toml"], "there is no such file"),
    ],
)
def test_a_mistake_ends_with_two_and_one_message(runner: CliRunner, arguments: list[str], complaint: str) -> None:
    """On standard error, with nothing on standard output."""
    result = runner.invoke(main, ["inspect", *arguments])
    assert result.exit_code == 2
    assert complaint in result.stderr
    assert "Traceback" not in result.stderr
    assert result.stdout == ""


def test_a_mistake_in_own_limits_names_the_file(runner: CliRunner, tmp_path: Path) -> None:
    """And the entry in it."""
    file = tmp_path / "rack.toml"
    file.write_text(_OWN.replace("pick_up_tooth", "pick_up_toth"), encoding="utf-8")
    result = runner.invoke(main, ["inspect", "piston", "--limits", str(file)])
    assert result.exit_code == 2
    assert "rack.toml" in result.stderr
    assert "Did you mean look.pick_up_tooth" in result.stderr
