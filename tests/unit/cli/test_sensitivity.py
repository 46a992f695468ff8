from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from stripdown.cli import shot
from stripdown.cli.main import main
from stripdown.studies.sensitivity import Sensitivity
from tests.synthetic_studies import make_sensitivity


@pytest.fixture
def varied(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    """What the study was asked for."""
    calls: list[dict[str, Any]] = []

    def speed_sensitivity(gun: object, *, progress: Any, **settings: Any) -> Sensitivity:
        calls.append({"gun": gun, **settings})
        progress(1, 5)
        return make_sensitivity()

    monkeypatch.setattr(shot, "speed_sensitivity", speed_sensitivity)
    return calls


def test_ball_and_day_reach_the_study(runner: CliRunner, gun_file: Path, varied: list[dict[str, Any]]) -> None:
    """In SI."""
    runner.invoke(main, ["sensitivity", str(gun_file), "--ball", "0.28 g", "--humidity", "30 %"])
    assert varied[0]["ball_mass"] == pytest.approx(0.28e-3)
    assert varied[0]["conditions"].relative_humidity == pytest.approx(0.3)


@pytest.mark.usefixtures("varied")
def test_the_table_tells_what_is_assumed_and_what_does_nothing(runner: CliRunner, gun_file: Path) -> None:
    """The strongest first, both ends of its tolerance, a star for what nobody measured."""
    printed = runner.invoke(main, ["sensitivity", str(gun_file)]).stdout
    lines = [" ".join(line.split()) for line in printed.splitlines()]
    assert "spring rate 520 ± 26 N/m +3.05 −3.05" in lines
    assert "piston drag in the cylinder * 4 ± 1 N −1.50 +1.50" in lines
    assert "- * assumed, as the gun's file leaves it out." in lines
    assert "- Without effect on this gun: piston.vent_area." in lines


@pytest.mark.usefixtures("varied")
def test_fewer_rows_say_how_many_are_left_out(runner: CliRunner, gun_file: Path) -> None:
    """Nothing is hidden in silence."""
    printed = runner.invoke(main, ["sensitivity", str(gun_file), "--rows", "1"]).stdout
    assert "piston drag" not in printed
    assert "1 more have less effect" in printed


@pytest.mark.usefixtures("varied")
def test_json_has_every_row(runner: CliRunner, gun_file: Path) -> None:
    """SI, whatever the rows shown to people."""
    answer = json.loads(runner.invoke(main, ["sensitivity", str(gun_file), "--rows", "1", "--json"]).stdout)
    assert [row["field"] for row in answer["rows"]] == ["spring.rate", "piston.seal_drag"]
    assert answer["rows"][0]["speed_change_up_m_per_s"] == 3.048
    assert answer["rows"][1]["is_assumed"] is True
    assert answer["muzzle_speed_m_per_s"] == 100.0


@pytest.mark.usefixtures("varied")
def test_the_bars_are_written_when_asked_for(runner: CliRunner, gun_file: Path) -> None:
    """One picture, named for the gun's file."""
    folder = gun_file.with_name("out")
    runner.invoke(main, ["sensitivity", str(gun_file), "--pictures", str(folder)])
    assert [path.name for path in folder.iterdir()] == ["rack-7-tolerances.svg"]


def test_a_stronger_spring_is_faster_on_the_real_model(runner: CliRunner, gun_file: Path) -> None:
    """End to end: the spring's rate moves the speed up when it goes up, and by more than the solver's noise."""
    answer = json.loads(runner.invoke(main, ["sensitivity", str(gun_file), "--json"]).stdout)
    spring = next(row for row in answer["rows"] if row["field"] == "spring.rate")
    assert spring["speed_change_up_m_per_s"] > 100 * answer["solver_noise_m_per_s"]
    assert spring["speed_change_down_m_per_s"] < 0
