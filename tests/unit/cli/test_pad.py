from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main


def test_the_pad_is_printed_with_what_it_rests_on(runner: CliRunner) -> None:
    """Thickness, share of a pitch, standing, caution."""
    printed = " ".join(runner.invoke(main, ["pad", "--mark", "0.5 mm"]).stdout.split())
    assert "Pad 1.56 mm as pressed" in printed
    assert "50 % of a pitch" in printed
    assert "Footing: derived" in printed
    assert "Cautions" in printed


def test_json_is_si(runner: CliRunner) -> None:
    """Metres and radians, the unit in the key."""
    answer = json.loads(runner.invoke(main, ["pad", "--mark", "0.5 mm", "--json"]).stdout)
    assert answer["thickness_m"] == pytest.approx(1.5557e-3, rel=1e-4)
    assert answer["is_suspect"] is False
    assert answer["basis"]["footing"] == "derived"
    assert "cost" not in answer


def test_the_wrong_tooth_is_told(runner: CliRunner) -> None:
    """More than nine tenths of a pitch, in capitals."""
    assert "SUSPECT: the wrong tooth?" in runner.invoke(main, ["pad", "--mark", "1 mm"]).stdout


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["--mark", "0.5 mm", "--edge"], 3),
        (["--mark", "0.95 mm", "--sector-teeth", "16"], 3),
        (["--mark", "1.2 mm"], 2),
        (["--mark", "-1 mm"], 2),
        (["--mark", "0.5"], 2),
        (["--mark", "0.5 mm", "--angle", "20 rad"], 2),
        ([], 2),
    ],
)
def test_a_mistake_gets_one_message(runner: CliRunner, words: list[str], code: int) -> None:
    """And no traceback; what cannot be computed has a code of its own."""
    outcome = runner.invoke(main, ["pad", *words])
    assert outcome.exit_code == code
    assert "Traceback" not in outcome.output


def test_the_price_is_told_on_the_real_model(runner: CliRunner, gun_file: Path) -> None:
    """End to end, with the picture."""
    folder = gun_file.with_name("out")
    outcome = runner.invoke(main, ["pad", str(gun_file), "--mark", "0.5 mm", "--pictures", str(folder), "--json"])
    cost = json.loads(outcome.stdout)["cost"]
    assert 0.0 < cost["speed_lost"] < cost["stroke_lost"]
    assert cost["predicted"] is True
    assert [path.name for path in folder.iterdir()] == ["witness-mark.svg"]
    printed = runner.invoke(main, ["pad", str(gun_file), "--mark", "0.5 mm"]).stdout
    assert "muzzle speed" in printed
    assert "pass" not in printed.lower().split()
