from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from stripdown.cli import shot
from stripdown.cli.main import main
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.studies.joule_creep import JouleCreep
from tests.synthetic_studies import make_creep


@pytest.fixture
def swept(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    """What the sweep was asked for; its heaviest ball stays in the barrel."""
    calls: list[dict[str, Any]] = []

    def sweep_ball_masses(gun: object, *, progress: Any, **settings: Any) -> JouleCreep:
        calls.append({"gun": gun, **settings})
        progress(1, 3)
        outcomes = [Outcome.LEFT_MUZZLE, Outcome.LEFT_MUZZLE, Outcome.STAYED_IN_BARREL]
        return make_creep([0.20e-3, 0.25e-3, 0.40e-3], [1.0, 1.1, 0.0], outcomes)

    monkeypatch.setattr(shot, "sweep_ball_masses", sweep_ball_masses)
    return calls


def test_the_balls_asked_for_reach_the_study(runner: CliRunner, gun_file: Path, swept: list[dict[str, Any]]) -> None:
    """In kilograms, in the order asked for."""
    runner.invoke(main, ["sweep", str(gun_file), "--balls", "0.20 g, 0.25 g, 0,4 g", "--temperature", "0 degC"])
    assert swept[0]["ball_masses"] == pytest.approx((0.2e-3, 0.25e-3, 0.4e-3))
    assert swept[0]["conditions"].temperature == pytest.approx(273.15)


@pytest.mark.usefixtures("swept")
def test_the_table_names_each_ball_and_the_highest_energy(runner: CliRunner, gun_file: Path) -> None:
    """A ball that stays is told in words; ten per cent of creep are counted from the lightest."""
    printed = runner.invoke(main, ["sweep", str(gun_file)]).stdout
    lines = [" ".join(line.split()) for line in printed.splitlines()]
    assert "0.20 g 100.0 m/s 1.00 J 10.0 ms 12.5 ms 4.0 m/s" in lines
    assert "0.40 g – – – 12.5 ms 4.0 m/s" in lines
    assert "- 0.40 g: the ball stays in the barrel." in lines
    assert "Most energy: 1.10 J with the 0.25 g ball, 10 % more than with 0.20 g." in " ".join(printed.split())
    assert "not measured" in printed


@pytest.mark.usefixtures("swept")
def test_json_has_a_row_for_each_ball(runner: CliRunner, gun_file: Path) -> None:
    """SI, the unit in each key, null for what did not happen."""
    shots = json.loads(runner.invoke(main, ["sweep", str(gun_file), "--json"]).stdout)["shots"]
    assert [shot["ball_mass_kg"] for shot in shots] == [0.20e-3, 0.25e-3, 0.40e-3]
    assert shots[1]["muzzle_energy_J"] == pytest.approx(1.1)
    assert shots[2]["time_to_muzzle_s"] is None
    assert shots[2]["outcome"] == "stayed_in_barrel"


@pytest.mark.usefixtures("swept")
def test_the_curve_is_written_when_asked_for(runner: CliRunner, gun_file: Path) -> None:
    """One picture, named for the gun's file."""
    folder = gun_file.with_name("out")
    runner.invoke(main, ["sweep", str(gun_file), "--pictures", str(folder)])
    assert [path.name for path in folder.iterdir()] == ["rack-7-ball-masses.svg"]


def test_the_usual_balls_are_fired_on_the_real_model(runner: CliRunner, gun_file: Path) -> None:
    """End to end: a heavier ball is slower, whatever its energy."""
    shots = json.loads(runner.invoke(main, ["sweep", str(gun_file), "--json"]).stdout)["shots"]
    speeds = [shot["muzzle_speed_m_per_s"] for shot in shots]
    assert len(speeds) == 9
    assert speeds == sorted(speeds, reverse=True)
