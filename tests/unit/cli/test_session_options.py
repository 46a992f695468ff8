from __future__ import annotations

import dataclasses
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from stripdown.cli.readings import SessionOptions, load_session, session_options
from stripdown.core.shot_statistics import FireMode, HopState, Occasion
from stripdown.errors import InputError, OutOfRange, UnitError

NOTHING = SessionOptions(
    ball=None, distance=None, hop=None, selector=None, unit=None, uncertainty=None, setup_uncertainty=None, set_aside=()
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
