"""`stripdown complaint`: what it prints, what it gives to programs, how it refuses."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main


def _flat(text: str) -> str:
    return " ".join(text.split())


def test_a_tree_is_printed_with_what_each_answer_asks_for(runner: CliRunner) -> None:
    """Questions numbered and timed, answers that go on or end in keys of work and checks, cautions first."""
    result = runner.invoke(main, ["complaint", "bursts", "on", "semi"])
    assert result.exit_code == 0
    said = _flat(result.stdout)
    for words in (
        "extra shots counted",
        "1. Does it stop",
        "(2 min)",
        "=> go to 2",
        "prove: over-spin on semi [over_spin]",
        "read as found:",
    ):
        assert words in said
    assert said.index("Cautions") < said.index("1. Does it stop")


def test_a_variation_has_its_own_tree(runner: CliRunner) -> None:
    """An electronic unit is asked for its setting first."""
    said = _flat(runner.invoke(main, ["complaint", "bursts on semi", "--variation", "electronic"]).stdout)
    assert "1. Is the unit set to single shots?" in said


def test_without_words_all_complaints_are_listed(runner: CliRunner) -> None:
    """With what people call them."""
    said = _flat(runner.invoke(main, ["complaint"]).stdout)
    assert "fires, no ball: no ball, dry fire" in said
    assert "too_much_lift" in json.loads(runner.invoke(main, ["complaint", "--json"]).stdout)["complaints"]


def test_a_tree_is_data(runner: CliRunner) -> None:
    """Each finding either goes on or holds a request as a job file takes it."""
    answer = json.loads(runner.invoke(main, ["complaint", "jams", "--json"]).stdout)
    assert answer["complaint"] == "jams_in_mid_cycle"
    first = answer["questions"][0]
    assert (first["question"], first["time_min"]) == ("pack", 1.0)
    assert first["findings"][0]["request"]["work"] == ["charge_battery"]
    assert first["findings"][1]["then"] == "when"


@pytest.mark.parametrize(
    ("arguments", "complaint"),
    [
        (["banana"], "It may be one of: will not fire"),
        (["velocity"], "low velocity; wide velocity; drifting velocity"),
        (["whine", "--variation", "version 2, version 3"], "cannot be both"),
    ],
)
def test_a_mistake_ends_with_two_and_one_message(runner: CliRunner, arguments: list[str], complaint: str) -> None:
    """On standard error, with nothing on standard output."""
    result = runner.invoke(main, ["complaint", *arguments])
    assert result.exit_code == 2
    assert complaint in result.stderr
    assert "Traceback" not in result.stderr
    assert result.stdout == ""
