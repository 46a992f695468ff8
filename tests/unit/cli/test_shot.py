from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main
from stripdown.files.gun import load_gun
from stripdown.studies.whole_gun import simulate_shot
from tests.synthetic_shots import LEDGER
from tests.unit.cli.conftest import GUN


def test_what_was_asked_for_reaches_the_study(runner: CliRunner, gun_file: Path, asked: list[dict[str, Any]]) -> None:
    """Ball, day and tolerance arrive in SI."""
    options = [
        "--ball",
        "0,25 g",
        "--temperature",
        "12 degC",
        "--pressure",
        "990 hPa",
        "--humidity",
        "80 %",
        "--tolerance",
        "1e-6",
    ]
    assert runner.invoke(main, ["shot", str(gun_file), *options]).exit_code == 0
    [call] = asked
    assert call["gun"].name == "Rack 7"
    assert call["ball_mass"] == pytest.approx(0.25e-3)
    assert call["tolerance"] == 1e-6
    assert call["conditions"].temperature == pytest.approx(285.15)
    assert call["conditions"].pressure == pytest.approx(99_000)
    assert call["conditions"].relative_humidity == pytest.approx(0.8)


def test_nothing_asked_for_is_the_files_ball_and_the_workshop(
    runner: CliRunner, gun_file: Path, asked: list[dict[str, Any]]
) -> None:
    """The defaults are those of the study, not a second set."""
    runner.invoke(main, ["shot", str(gun_file)])
    assert asked[0]["ball_mass"] is None
    assert asked[0]["conditions"] is None


@pytest.mark.usefixtures("asked")
def test_json_is_all_that_is_printed(runner: CliRunner, gun_file: Path) -> None:
    """Standard output is one JSON object in SI, the unit in each key; with provenance and digest."""
    result = runner.invoke(main, ["shot", str(gun_file), "--json", "--speed-unit", "ft/s"])
    answer = json.loads(result.stdout)
    assert answer["gun"] == "Rack 7"
    assert answer["muzzle_speed_m_per_s"] == 100.0
    assert answer["muzzle_energy_J"] == pytest.approx(1.0)
    assert answer["ledger_J"]["ball_flight"] == LEDGER.ball_flight
    assert {"peak_pressure_Pa", "peak_temperature_K", "slam_speed_m_per_s", "time_to_rest_s", "spin_ratio"} <= set(answer)
    assert answer["outcome"] == "left_muzzle"
    assert len(answer["input_digest"]) == 64
    assumed = {entry["field"]: entry for entry in answer["assumed"]}
    assert "spring.rate" not in assumed
    assert assumed["spring.preload"]["unit"] == "m"
    assert isinstance(answer["notes"], list)


@pytest.mark.usefixtures("asked")
def test_json_of_two_guns_is_a_list_of_shots(runner: CliRunner, gun_file: Path) -> None:
    """Each as it would be alone."""
    alone = json.loads(runner.invoke(main, ["shot", str(gun_file), "--json"]).stdout)
    both = json.loads(runner.invoke(main, ["shot", str(gun_file), str(gun_file), "--json"]).stdout)
    del alone["program_version"]
    assert both["shots"] == [alone, alone]


@pytest.mark.usefixtures("asked")
def test_people_read_units_of_their_choice(runner: CliRunner, gun_file: Path) -> None:
    """100 m/s are 328 ft/s; the choice may stand in the environment."""
    assert "100.0 m/s" in runner.invoke(main, ["shot", str(gun_file)]).stdout
    assert "328 ft/s" in runner.invoke(main, ["shot", str(gun_file), "--speed-unit", "ft/s"]).stdout
    assert "328 ft/s" in runner.invoke(main, ["shot", str(gun_file)], env={"STRIPDOWN_SPEED_UNIT": "ft/s"}).stdout


@pytest.mark.usefixtures("asked")
def test_what_was_assumed_is_counted_and_named_when_asked_for(runner: CliRunner, gun_file: Path) -> None:
    """One line with a count, which says how to see them all; what the file gives is not among them."""
    short = " ".join(runner.invoke(main, ["shot", str(gun_file)]).stdout.split())
    full = " ".join(runner.invoke(main, ["shot", str(gun_file), "--assumed"]).stdout.split())
    assert "of the gun's dimensions and 13 coefficients of the model. (--assumed lists them.)" in short
    assert "preload" not in short
    assert "preload 55 mm" in full
    assert "spring.rate" not in full


@pytest.mark.usefixtures("asked")
def test_a_prediction_is_called_one_and_judges_nothing(runner: CliRunner, gun_file: Path) -> None:
    """No predicted speed says that a gun may be used."""
    printed = runner.invoke(main, ["shot", str(gun_file)]).stdout
    assert "Predicted from the parts as described, not measured" in printed
    assert "marshal" in printed
    assert "passes" not in printed
    assert " pass " not in printed


@pytest.mark.usefixtures("asked")
def test_lines_fit_a_small_terminal(runner: CliRunner, gun_file: Path) -> None:
    """Eighty columns, for one gun and for two with long names."""
    other = gun_file.with_name("other.toml")
    other.write_text(GUN.replace("Rack 7", "The one that came back from the long skirmish last week"), encoding="utf-8")
    for files in ([str(gun_file)], [str(gun_file), str(other)]):
        printed = runner.invoke(main, ["shot", *files]).stdout
        assert max(len(line.rstrip()) for line in printed.splitlines()) <= 80


def test_a_mistake_in_the_second_file_is_told_before_anything_is_fired(
    runner: CliRunner, gun_file: Path, asked: list[dict[str, Any]]
) -> None:
    """Every file is read first."""
    result = runner.invoke(main, ["shot", str(gun_file), str(gun_file.with_name("missing.toml"))])
    assert result.exit_code == 2
    assert "missing.toml: there is no such file" in result.stderr
    assert asked == []


@pytest.mark.usefixtures("asked")
@pytest.mark.parametrize(("kind", "start"), [("svg", b"<svg"), ("png", b"\x89PNG"), ("html", b"<!DOCTYPE html>")])
def test_pictures_are_written_beside_the_answer(runner: CliRunner, gun_file: Path, kind: str, start: bytes) -> None:
    """Ledger, pressure and speed, in the format asked for; where they are is told on standard error."""
    folder = gun_file.with_name("out")
    result = runner.invoke(main, ["shot", str(gun_file), "--pictures", str(folder), "--format", kind, "--json"])
    assert json.loads(result.stdout)["gun"] == "Rack 7"
    names = [f"rack-7-{subject}.{kind}" for subject in ("ledger", "pressure", "speed")]
    assert sorted(path.name for path in folder.iterdir()) == names
    assert all((folder / name).read_bytes().startswith(start) for name in names)
    assert result.stderr.count("Written: ") == 3


@pytest.mark.usefixtures("asked")
def test_two_guns_share_their_pictures_and_three_have_their_own(runner: CliRunner, gun_file: Path) -> None:
    """A picture of differences holds two."""
    others = [gun_file.with_name(f"{name}.toml") for name in ("b", "c")]
    for other in others:
        other.write_text(GUN, encoding="utf-8")
    files = [str(path) for path in (gun_file, *others)]
    pair, three = gun_file.with_name("pair"), gun_file.with_name("three")
    runner.invoke(main, ["shot", *files[:2], "--pictures", str(pair)])
    runner.invoke(main, ["shot", *files, "--pictures", str(three)])
    assert sorted(path.stem for path in pair.iterdir()) == [
        f"rack-7-and-b-{subject}" for subject in ("ledger", "pressure", "speed")
    ]
    assert len(list(three.iterdir())) == 9


@pytest.mark.usefixtures("asked")
def test_guns_whose_files_are_called_alike_have_pictures_of_their_own(runner: CliRunner, gun_file: Path) -> None:
    """Three folders, each with its gun.toml: none is drawn over another."""
    files = [gun_file.parent / str(folder) / "gun.toml" for folder in ("a", "b", "c")]
    for file in files:
        file.parent.mkdir()
        file.write_text(GUN, encoding="utf-8")
    pictures = gun_file.with_name("three")
    runner.invoke(main, ["shot", *map(str, files), "--pictures", str(pictures)])
    assert len(list(pictures.iterdir())) == 9


def test_the_answer_is_the_studys(runner: CliRunner, gun_file: Path) -> None:
    """End to end on the real model: what the command prints is what the study says, to the last bit."""
    expected = simulate_shot(load_gun(gun_file), ball_mass=0.25e-3)
    answer = json.loads(runner.invoke(main, ["shot", str(gun_file), "--ball", "0.25 g", "--json"]).stdout)
    assert answer["muzzle_speed_m_per_s"] == expected.figures.muzzle_speed
    assert answer["ledger_J"]["residual"] == expected.ledger.residual
