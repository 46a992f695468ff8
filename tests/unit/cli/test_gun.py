from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main
from stripdown.files.gun import load_gun


def test_a_new_file_can_be_fired_at_once(runner: CliRunner, tmp_path: Path) -> None:
    """What is written to start from is itself a gun, with the name asked for."""
    file = tmp_path / "rack-7.toml"
    result = runner.invoke(main, ["gun", "new", str(file), "--name", 'Rack "7"'])
    assert result.exit_code == 0
    assert f"Written: {file}" in result.stdout
    assert load_gun(file).name == 'Rack "7"'


def test_a_new_file_overwrites_nothing(runner: CliRunner, gun_file: Path) -> None:
    """A file that is there stays as it is."""
    before = gun_file.read_bytes()
    result = runner.invoke(main, ["gun", "new", str(gun_file)])
    assert result.exit_code == 2
    assert "already" in result.stderr
    assert gun_file.read_bytes() == before


def test_an_unknown_layout_writes_nothing_and_lists_those_known(runner: CliRunner, tmp_path: Path) -> None:
    """The message is the list."""
    result = runner.invoke(main, ["gun", "new", str(tmp_path / "gun.toml"), "--layout", "howitzer"])
    assert result.exit_code == 2
    assert "full_stroke_rifle" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_where_the_new_file_is_can_be_read_by_a_program(runner: CliRunner, tmp_path: Path) -> None:
    """JSON and nothing else."""
    file = tmp_path / "gun.toml"
    assert json.loads(runner.invoke(main, ["gun", "new", str(file), "--json"]).stdout)["file"] == str(file)


def test_a_gun_that_can_be_used_ends_well(runner: CliRunner, gun_file: Path) -> None:
    """What is missing is named, and that is no mistake."""
    result = runner.invoke(main, ["gun", "check", str(gun_file)])
    assert result.exit_code == 0
    assert "can be used" in result.stdout
    assert "spring.preload" in result.stdout


@pytest.mark.parametrize("options", [[], ["--json"]])
def test_a_gun_that_cannot_be_used_ends_with_two(runner: CliRunner, gun_file: Path, options: list[str]) -> None:
    """The complaint names file, line and field."""
    gun_file.write_text('[spring]\nrat = "524 N/m"\n', encoding="utf-8")
    result = runner.invoke(main, ["gun", "check", str(gun_file), *options])
    assert result.exit_code == 2
    assert "Did you mean rate?" in result.stdout


def test_a_check_can_be_read_by_a_program(runner: CliRunner, gun_file: Path) -> None:
    """Wrong, doubtful, assumed, computed and reworded, each with its place."""
    gun_file.write_text(
        '[spring]\nrate = "524 N/m"\nfree_length = "17,0 cm"\nfitted_length = "115 mm"\nmass = "2 kg"\n', encoding="utf-8"
    )
    answer = json.loads(runner.invoke(main, ["gun", "check", str(gun_file), "--json"]).stdout)
    assert answer["usable"] is False
    [wrong] = answer["wrong"]
    assert (wrong["line"], wrong["field"]) == (5, "spring.mass")
    assert answer["reworded"] == [{"line": 3, "field": "spring.free_length", "typed": "17,0 cm", "understood": "17.0 cm"}]
    assert [entry["field"] for entry in answer["computed"]] == ["spring.preload"]
    assert "piston.mass" in {entry["field"] for entry in answer["assumed"]}
