"""Commands that need readings only: string, compare, limits; no gun, no model."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main

TABLE = "occasion;ball;speed m/s\n" + "".join(
    f"{occasion};0.20 g;{speed + more}\n" for occasion, speed in (("before", 80), ("after", 100)) for more in (0, 1, -1)
)


@pytest.fixture
def readings(tmp_path: Path) -> Path:
    """Three shots before and three after, and a line that is none."""
    file = tmp_path / "readings.csv"
    file.write_text(f"{TABLE}after;0.20 g;Err\n", encoding="utf-8")
    return file


def test_a_string_is_printed_with_what_was_left_out(runner: CliRunner, readings: Path) -> None:
    """Mean, deviation, energy, and the line that gave no reading."""
    result = runner.invoke(main, ["string", str(readings)])
    assert result.exit_code == 0
    for words in ("80.0 m/s", "100.0 m/s", "1.00 J", "0.64 J", "readings.csv, line 8: “after;0.20 g;Err” was not counted"):
        assert words in " ".join(result.stdout.split())


def test_a_string_is_data(runner: CliRunner, readings: Path) -> None:
    """SI with the unit in the key, derived from three readings."""
    answer = json.loads(runner.invoke(main, ["string", str(readings), "--json"]).stdout)
    before, after = answer["strings"]
    assert before["mean_m_per_s"] == pytest.approx(80.0)
    assert before["standard_deviation_m_per_s"] == pytest.approx(1.0)
    assert before["extreme_spread_m_per_s"] == pytest.approx(2.0)
    assert after["conditions"] == {
        "occasion": "after",
        "ball_mass_kg": pytest.approx(0.2e-3),
        "hop": None,
        "fire_mode": None,
        "distance_m": None,
        "temperature_K": None,
    }
    assert after["lines"] == [5, 6, 7]
    assert [(one["file"], one["line"]) for one in answer["left_out"]] == [("readings.csv", 8)]


def test_one_reading_says_what_one_reading_can(runner: CliRunner, tmp_path: Path) -> None:
    """A mean without scatter, and no interval."""
    file = tmp_path / "one.txt"
    file.write_text("98.2 m/s\n", encoding="utf-8")
    result = runner.invoke(main, ["string", str(file)])
    assert result.exit_code == 0
    assert "One shot shows no scatter" in result.stdout
    answer = json.loads(runner.invoke(main, ["string", str(file), "--json"]).stdout)
    assert answer["strings"][0]["standard_deviation_m_per_s"] is None
    assert answer["strings"][0]["mean_interval_m_per_s"] is None


def test_feet_are_shown_to_who_thinks_in_feet(runner: CliRunner, readings: Path) -> None:
    """Prints in ft/s; data stays in SI."""
    result = runner.invoke(main, ["string", str(readings), "--speed-unit", "ft/s"])
    assert "328 ft/s" in result.stdout
    answer = json.loads(runner.invoke(main, ["string", str(readings), "--speed-unit", "ft/s", "--json"]).stdout)
    assert answer["strings"][1]["mean_m_per_s"] == pytest.approx(100.0)


def test_before_and_after_are_compared(runner: CliRunner, readings: Path) -> None:
    """Twenty metres a second more, with its interval (Welch: t of four degrees of freedom is 2.776)."""
    answer = json.loads(runner.invoke(main, ["compare", str(readings), "--json"]).stdout)
    [pair] = answer["comparisons"]
    assert pair["speed"]["difference_m_per_s"] == pytest.approx(20.0)
    assert pair["speed"]["degrees_of_freedom"] == pytest.approx(4.0)
    half = 2.776 * (2.0 / 3.0) ** 0.5
    assert pair["speed"]["interval_m_per_s"]["low"] == pytest.approx(20.0 - half, abs=0.001)
    result = runner.invoke(main, ["compare", str(readings)])
    assert result.exit_code == 0
    assert "+20.0 m/s" in result.stdout


def test_two_files_are_before_and_after(runner: CliRunner, tmp_path: Path) -> None:
    """Whatever they are called."""
    files = []
    for name, speed in (("monday.csv", 80), ("friday.csv", 100)):
        file = tmp_path / name
        file.write_text(f"{speed}\n{speed + 1}\n{speed - 1}\n", encoding="utf-8")
        files.append(str(file))
    answer = json.loads(runner.invoke(main, ["compare", *files, "--ball", "0.20 g", "--json"]).stdout)
    assert answer["comparisons"][0]["speed"]["difference_m_per_s"] == pytest.approx(20.0)
    assert answer["comparisons"][0]["energy"]["difference_J"] == pytest.approx(0.36)


def test_a_shot_is_set_aside_with_its_reason(runner: CliRunner, readings: Path) -> None:
    """It is not counted, and the reason is printed."""
    result = runner.invoke(main, ["string", str(readings), "--set-aside", "2 two balls at once"])
    assert "shot 1 set aside: two balls at once" in result.stdout


@pytest.mark.parametrize(
    ("text", "arguments", "complaint"),
    [
        ("after\n98\n99\n", [], "No string says that it was fired before the work"),
        ("98\n99\n", [], "No string says that it was fired before the work"),
        ("", [], "the file has no readings"),
        ("0\n0\n", [], "zero is a missed reading"),
        ("98\n99\n", ["--ball", "2 g"], "impossible"),
        ("98\n99\n", ["--unit", "knots"], "knots"),
    ],
)
def test_readings_that_cannot_be_compared_end_with_two(
    runner: CliRunner, tmp_path: Path, text: str, arguments: list[str], complaint: str
) -> None:
    """One message on standard error, no traceback, nothing on standard output."""
    file = tmp_path / "readings.csv"
    file.write_text(text, encoding="utf-8")
    result = runner.invoke(main, ["compare", str(file), *arguments])
    assert result.exit_code == 2
    assert complaint in result.stderr
    assert "Traceback" not in result.stderr
    assert result.stdout == ""


def test_different_balls_are_shown_without_a_difference(runner: CliRunner, tmp_path: Path) -> None:
    """Both means, and why they do not compare: a result, not an error."""
    file = tmp_path / "readings.csv"
    file.write_text(TABLE.replace("after;0.20 g", "after;0.25 g"), encoding="utf-8")
    result = runner.invoke(main, ["compare", str(file)])
    assert result.exit_code == 0
    assert "does not" in result.stdout
    assert "different masses" in result.stdout
    assert json.loads(runner.invoke(main, ["compare", str(file), "--json"]).stdout)["comparisons"][0]["obstacles"]


def test_ten_thousand_readings_are_one_string(runner: CliRunner, tmp_path: Path) -> None:
    """With a note that they may be several."""
    file = tmp_path / "long.csv"
    file.write_text("".join(f"{98 + place % 7 / 10:.1f}\n" for place in range(10_000)), encoding="utf-8")
    result = runner.invoke(main, ["string", str(file)])
    assert result.exit_code == 0
    assert "10000" in result.stdout
    assert "if they are several strings" in " ".join(result.stdout.split())


def test_a_hostile_line_cannot_steer_the_terminal(runner: CliRunner, tmp_path: Path) -> None:
    """What it says is shown, what it does is not done."""
    file = tmp_path / "readings.csv"
    file.write_text("98\n99\nx\x1b[31m\x07y\n", encoding="utf-8")
    result = runner.invoke(main, ["string", str(file)])
    assert "\x1b[31m" not in result.stdout
    assert "\x07" not in result.stdout


def test_the_limits_are_listed_with_whose_word_they_are(runner: CliRunner) -> None:
    """Key, amount, measuring point, source, read or quoted; and that this is no advice."""
    result = runner.invoke(main, ["limits"])
    assert result.exit_code == 0
    for words in ("uk_automatic", "1.30 J", "quoted: the rule itself was not read", "No legal advice"):
        assert words in result.stdout
    answer = json.loads(runner.invoke(main, ["limits", "--json"]).stdout)["limits"]
    assert answer["italy"]["energy_J"] == 1.0
    assert answer["italy"]["measuring_distance_m"] == 1.0
    assert answer["japan"]["energy_per_area_J_per_m2"] == pytest.approx(3.5e4)
    assert answer["site_350"]["was_read"] is False
