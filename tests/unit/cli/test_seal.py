from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main

_GLAND = ["seal", "gland", "--section", "1.78 mm", "--depth", "1.42 mm", "--width", "2.4 mm"]
_SET = ["seal", "set", "--original", "3.53 mm", "--compressed", "2.65 mm"]
_TIMED = ["seal", "leak", "--load", "30 N", "--distance", "30 mm", "--time", "1.2 s"]
_WHOSE = ["--bore", "23.8 mm", "--drag", "4 N"]
_LOG = ["--volume", "30 cm3", "--reading", "0 s", "2 bar", "--reading", "5 s", "1.2 bar", "--reading", "12 s", "0.5 bar"]


def _printed(runner: CliRunner, words: list[str]) -> str:
    outcome = runner.invoke(main, words)
    assert outcome.exit_code == 0, outcome.output
    return " ".join(outcome.stdout.split())


def test_a_gland_is_printed_with_each_band_and_its_standing(runner: CliRunner) -> None:
    """Squeeze and fill, where they lie, on whose word."""
    printed = _printed(runner, _GLAND)
    assert "suits its gland" in printed
    assert "squeeze 20.2 % 15 to 30 % inside" in printed
    assert "Footing: published" in printed


def test_a_gland_is_drawn_when_asked_for(runner: CliRunner, tmp_path: Path) -> None:
    """One picture."""
    _printed(runner, [*_GLAND, "--pictures", str(tmp_path / "out")])
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["gland.svg"]


def test_json_of_a_gland_places_each_figure(runner: CliRunner) -> None:
    """Fractions, and the place by name."""
    answer = json.loads(_printed(runner, [*_GLAND, "--inner", "20 mm", "--groove", "20.4 mm", "--json"]))
    assert answer["squeeze"] == pytest.approx(0.36 / 1.78)
    assert {verdict["name"]: verdict["place"] for verdict in answer["verdicts"]} == dict.fromkeys(
        ("squeeze", "fill", "stretch"), "inside"
    )


def test_a_floating_ring_has_no_squeeze(runner: CliRunner) -> None:
    """Room is told, and that no table is for it."""
    words = ["--section", "2.4 mm", "--inner", "18.8 mm", "--groove", "18.4 mm", "--width", "2.8 mm", "--bore", "23.8 mm"]
    printed = _printed(runner, ["seal", "ring", *words])
    assert "The ring floats" in printed
    assert "No squeeze table" in printed


def test_a_set_is_printed_with_its_uncertainty(runner: CliRunner) -> None:
    """26.1 %, for three uses."""
    printed = _printed(runner, [*_SET, "--recovered", "3.30 mm", "--hardness", "70"])
    assert "Compression set 26.1 % ± 5.8 %" in printed
    assert "the standard's test presses by 25 %" in printed


def test_hardness_takes_readings_as_people_write_them(runner: CliRunner) -> None:
    """Parted by spaces, commas or semicolons; a comma inside a number is a decimal sign."""
    words = ["seal", "hardness", "--scale", "shore-m", "--json", "--new", "70 71; 70,5"]
    answer = json.loads(_printed(runner, [*words, "--used", "81, 83, 82"]))
    assert answer["new_mean"] == pytest.approx(70.5)
    assert answer["used_mean"] == pytest.approx(82.0)
    assert answer["finding"] == "reject"
    assert "hardened: replace" in _printed(runner, [*words[:4], "--new", "70", "--used", "82"])


def test_a_timed_test_alone_cannot_tell_hole_from_gap(runner: CliRunner) -> None:
    """And asks for a second pressure."""
    printed = _printed(runner, [*_TIMED, *_WHOSE])
    assert "test at a second pressure" in printed
    assert "timed test" in printed


def test_a_log_tells_how_the_leak_grows(runner: CliRunner) -> None:
    """Two pressures from one log; JSON carries both readings."""
    answer = json.loads(_printed(runner, ["seal", "leak", *_LOG, "--json"]))
    assert len(answer["readings"]) == 2
    assert answer["least_area_m2"] < answer["leak_area_m2"] < answer["greatest_area_m2"]


def test_both_tests_are_put_together(runner: CliRunner) -> None:
    """Three readings of one leak."""
    answer = json.loads(_printed(runner, [*_TIMED, *_WHOSE, *_LOG, "--json"]))
    assert [reading["how"] for reading in answer["readings"]] == ["timed test", "gauge test", "gauge test"]


def test_leak_and_drag_have_a_price_on_the_real_model(runner: CliRunner, gun_file: Path) -> None:
    """Bore and drag are the gun's; a larger leak is slower, and twice the drag too."""
    leak = json.loads(_printed(runner, [*_TIMED, "--json", "--ball", "0.25 g", str(gun_file)]))["cost"]
    speeds = [leak[name]["shot"]["muzzle_speed_m_per_s"] for name in ("tight", "at_least", "measured", "at_most")]
    assert speeds == sorted(speeds, reverse=True)
    assert leak["ball_mass_kg"] == pytest.approx(0.25e-3)
    assert "what the leak costs" in _printed(runner, [*_TIMED, str(gun_file)])
    drag = json.loads(_printed(runner, ["seal", "drag", str(gun_file), "--drag", "8 N", "--json"]))
    assert 0.03 < drag["speed_lost"] < 0.08
    assert "velocity" in _printed(runner, ["seal", "drag", str(gun_file), "--drag", "8 N"])


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([*_GLAND[:-1], "1.5 mm"], "larger than its gland"),
        ([*_GLAND, "--inner", "20 mm"], "--groove is missing, so the stretch is not known"),
        ([*_SET, "--recovered", "3.6 mm"], "swollen, or the two are swapped"),
        ([*_SET, "--recovered", "3.3"], "--recovered"),
        (["seal", "hardness", "--scale", "irhd", "--used-scale", "shore-a", "--new", "70", "--used", "80"], "no conversion"),
        (["seal", "hardness", "--scale", "irhd", "--new", "seventy", "--used", "80"], "--new"),
        (["seal", "hardness", "--scale", "irhd", "--new", "", "--used", "80"], "no reading"),
        (["seal", "leak"], "Neither a timed nor a gauge test"),
        (_TIMED, "--bore is missing, --drag is missing: a timed test"),
        (["seal", "leak", "--load", "30 N", *_WHOSE], "--distance is missing, --time is missing: a timed test"),
        (["seal", "leak", *_LOG[2:]], "--volume"),
        (["seal", "leak", *_LOG[:5]], "two readings at least"),
        (["seal", "leak", "--load", "3 N", "--distance", "30 mm", "--time", "1 s", *_WHOSE], "does not exceed the drag"),
        (["seal", "drag", "missing.toml", "--drag", "8 N"], "missing.toml"),
    ],
)
def test_a_mistake_gets_one_message(runner: CliRunner, words: list[str], says: str) -> None:
    """Exit code 2, what is wrong, and no traceback."""
    outcome = runner.invoke(main, words)
    assert outcome.exit_code == 2
    assert says in " ".join(outcome.stderr.split())
    assert "Traceback" not in outcome.output
