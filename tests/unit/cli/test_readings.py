"""Commands that need readings, and the session that their options make of the files."""

from __future__ import annotations

import dataclasses
import json
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from stripdown.cli.main import main
from stripdown.cli.readings import SessionOptions, load_session, session_options
from stripdown.core.shot_statistics import FireMode, HopState, Occasion
from stripdown.errors import InputError, OutOfRange, UnitError

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
        "day": None,
        "gun": None,
        "chronograph": None,
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
    """Twenty metres a second more, with its interval: Welch, and 0.5 % of the middle of 80 and 100 m/s for each day, 0.45 m/s.

    Variance 2·1/3 + 2·0.45² = 1.0717; effective degrees of freedom 2·1.0717²/(1/3)² = 20.67/2 = 10.34, of which t is 2.2186.
    """
    answer = json.loads(runner.invoke(main, ["compare", str(readings), "--json"]).stdout)
    [pair] = answer["comparisons"]
    assert pair["speed"]["difference_m_per_s"] == pytest.approx(20.0)
    assert pair["speed"]["degrees_of_freedom"] == pytest.approx(10.336, abs=0.001)
    half = 2.2186 * 1.0717**0.5
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
    assert "(shot 1: two balls at once)" in " ".join(result.stdout.split())


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


NOTHING = SessionOptions(
    ball=None,
    distance=None,
    hop=None,
    selector=None,
    unit=None,
    uncertainty=None,
    setup_uncertainty=None,
    between_days=None,
    set_aside=(),
)


@click.command
@session_options
def _echo(said: SessionOptions) -> None:
    click.echo(repr(said))


def _said(*words: str) -> SessionOptions:
    result = CliRunner().invoke(_echo, words)
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    found = eval(result.stdout, {"SessionOptions": SessionOptions})  # noqa: S307  what this test printed itself
    assert isinstance(found, SessionOptions)
    return found


def _file(folder: Path, name: str, text: str) -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_what_is_not_said_is_none() -> None:
    """A command without options adds nothing to the file."""
    assert _said() == NOTHING


def test_an_uncertainty_is_a_speed_or_a_share() -> None:
    """By its unit; a bare number is neither."""
    for typed, value, is_share in (("1.5 ft/s", 0.4572, False), ("0,4 %", 0.004, True)):
        found = _said("--uncertainty", typed).uncertainty
        assert found is not None
        assert found[0] == pytest.approx(value)
        assert found[1] is is_share
    with pytest.raises(UnitError, match="has no unit"):
        _said("--uncertainty", "0.4")


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (("--ball", "2 g"), "is impossible"),
        (("--distance", "-1 m"), "is impossible"),
        (("--uncertainty", "60 %"), "is impossible"),
    ],
)
def test_impossible_values_are_refused(words: tuple[str, ...], complaint: str) -> None:
    """A ball ten times too heavy, a chronograph behind the muzzle, one that knows nothing."""
    with pytest.raises(OutOfRange, match=complaint):
        _said(*words)


def test_options_fill_the_gaps_of_a_file(tmp_path: Path) -> None:
    """Ball, distance, hop-up, selector and unit, where the readings do not say."""
    file = _file(tmp_path, "x.csv", "ball;speed\n;300\n0.25 g;310\n")
    said = dataclasses.replace(NOTHING, ball=0.2e-3, distance=0.3, hop="off", selector="semi", unit="ft/s")
    first, second = load_session([file], said).strings
    assert first.conditions.ball_mass == 0.2e-3
    assert second.conditions.ball_mass == pytest.approx(0.25e-3)
    assert (first.conditions.hop, first.conditions.fire_mode) == (HopState.OFF, FireMode.SEMI)
    assert first.speeds[0] == pytest.approx(91.44)


def test_of_two_files_the_first_is_before(tmp_path: Path) -> None:
    """If asked for in turn, and neither words nor names say otherwise."""
    files = [_file(tmp_path, name, "98\n99\n") for name in ("one.csv", "two.csv")]

    def occasions(paths: list[Path], *, in_turn: bool) -> list[Occasion | None]:
        session = load_session(paths, NOTHING, in_turn=in_turn)
        return [string.conditions.occasion for string in session.strings]

    assert occasions(files, in_turn=True) == [Occasion.BEFORE, Occasion.AFTER]
    assert occasions(files, in_turn=False) == [None, None]
    named = [_file(tmp_path, name, "98\n99\n") for name in ("after.csv", "before.csv")]
    assert occasions(named, in_turn=True) == [Occasion.AFTER, Occasion.BEFORE]


def test_a_reading_is_set_aside_by_its_line(tmp_path: Path) -> None:
    """With the reason; of two files with the file's name."""
    one, two = (_file(tmp_path, name, "98\n99\n70\n") for name in ("one.csv", "two.csv"))
    session = load_session([one], dataclasses.replace(NOTHING, set_aside=("3 two balls",)))
    assert session.strings[0].set_aside == {2: "two balls"}
    session = load_session([one, two], dataclasses.replace(NOTHING, set_aside=("two.csv:3 two balls",)))
    assert [string.set_aside for string in session.strings] == [{}, {2: "two balls"}]


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("3", "is not a line with a reason"),
        ("two balls", "is not a line with a reason"),
        ("0 two balls", "is not a line with a reason"),
        ("9 two balls", "line 9 of .* holds no reading that counts"),
        ("on.csv:3 two balls", "is none of the readings. Did you mean one.csv"),
    ],
)
def test_a_line_that_cannot_be_set_aside_is_refused(tmp_path: Path, text: str, complaint: str) -> None:
    """No reason, no line, no such line, no such file."""
    file = _file(tmp_path, "one.csv", "98\n99\n70\n")
    with pytest.raises(InputError, match=complaint):
        load_session([file], dataclasses.replace(NOTHING, set_aside=(text,)))
