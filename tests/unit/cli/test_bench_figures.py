"""Commands for corners, screws and teeth: what they print, what they give to programs, what they refuse."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main

_CORNER = ["corner", "--bar", "10 mm", "--step", "5 mm", "--radius", "0.25 mm"]
_SCREW = ["screw", "M3", "--boss", "zamak_3", "--engagement", "3 mm", "--class", "8.8"]
_TOOTH = ["tooth", "--force", "110 N", "--width", "5 mm", "--teeth", "16"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ([*_CORNER, "--to", "2 mm"], ["4.0 (3.6 to 4.4)", "2.0 (1.8 to 2.2)", "A crack is always a reject"]),
        ([*_CORNER, "--load", "bending"], ["peak over mean, bending, radius 0.25 mm", "--to", "published"]),
        (
            _SCREW,
            ["M3, class 8.8, at most", "0.89 N m", "half of what strips the boss", "3600 N", "boss strips before the screw"],
        ),
        (["screw", "m4", "--class", "8.8"], ["3.0 N m", "steel nut", "comes first"]),
        (["screw", "M2.5", "--boss", "polycarbonate"], ["In plastic the hand decides", "cracks polycarbonate", "no source"]),
        (_TOOTH, ["74 MPa", "45 MPa", "tooth of the rack", "rounded is a reject"]),
        ([*_TOOTH, "--mate-teeth", "30"], ["tooth of the gear of 30 teeth"]),
    ],
)
def test_an_answer_has_figures_and_what_they_rest_on(runner: CliRunner, words: list[str], said: list[str]) -> None:
    """Figures in two digits; standing, source, range and caution below them."""
    result = runner.invoke(main, words)
    assert result.exit_code == 0
    text = " ".join(result.stdout.split())
    for part in [*said, "Footing:", "Source:", "Holds for:", "Cautions"]:
        assert part in text


def test_a_small_gain_is_called_what_it_is(runner: CliRunner) -> None:
    """From 1 to 1.1 mm the charts cannot tell."""
    result = runner.invoke(main, ["corner", "--bar", "10 mm", "--radius", "1 mm", "--to", "1.1 mm"])
    assert "cannot tell this from no gain" in result.stdout


def test_answers_are_data(runner: CliRunner) -> None:
    """SI with the unit in the key, and the basis with the key of its source."""
    gain = json.loads(runner.invoke(main, [*_CORNER, "--to", "2 mm", "--json"]).stdout)
    assert gain["ratio"] == pytest.approx(2.014, abs=0.001)
    assert gain["before"]["radius_m"] == pytest.approx(0.25e-3)
    assert gain["basis"]["source"] == "pilkey_peterson"
    assert json.loads(runner.invoke(main, [*_CORNER, "--json"]).stdout)["factor"] == pytest.approx(3.994, abs=0.001)
    screw = json.loads(runner.invoke(main, [*_SCREW, "--json"]).stdout)
    assert screw["stripping_force_N"] == pytest.approx(3561, abs=1)
    assert screw["limited_by"] == "boss"
    assert screw["strips_first"] is True
    assert json.loads(runner.invoke(main, ["screw", "M3", "--json"]).stdout)["stripping_torque_N_m"] is None
    tooth = json.loads(runner.invoke(main, [*_TOOTH, "--json"]).stdout)
    assert tooth["bending_stress_Pa"] == pytest.approx(110 / (5e-6 * 0.296))
    assert tooth["mate_tooth_count"] is None


def test_a_square_corner_gets_a_least_answer(runner: CliRunner) -> None:
    """A radius of zero was refused, and 0.1 mm lay beyond the charts: now the sharpest of the charts is taken, and said to be."""
    square = runner.invoke(main, ["corner", "--bar", "6 mm", "--radius", "0 mm", "--to", "1.5 mm", "--json"])
    sharpest = runner.invoke(main, ["corner", "--bar", "6 mm", "--radius", "0.15 mm", "--to", "1.5 mm", "--json"])
    assert json.loads(square.stdout)["ratio"] == pytest.approx(json.loads(sharpest.stdout)["ratio"])
    said = runner.invoke(main, ["corner", "--bar", "6 mm", "--radius", "0 mm", "--to", "1.5 mm"]).stdout
    assert "peak and gain are at least these" in " ".join(said.split())


@pytest.mark.parametrize(
    ("words", "code", "complaint"),
    [
        (["screw", "M3.2"], 2, "Nearest are M3 (pitch 0.5 mm) and M3.5"),
        (["screw", "M3", "--boss", "zamac_3"], 2, "Did you mean zamak_3?"),
        (["screw", "M3", "--boss", "zinc", "--engagement", "6"], 2, "has no unit"),
        (["screw", "M3", "--engagement", "6 mm"], 2, "--boss is missing: the engagement is of a boss"),
        (["corner", "--bar", "10 mm", "--radius", "-1 mm"], 2, "--radius: -1 mm is impossible"),
        (["corner", "--bar", "10 mm", "--radius", "12 mm"], 2, "larger than the section"),
        (["corner", "--bar", "10 mm", "--radius", "0.1 mm"], 3, "radius of 0.25 to 50 mm"),
        (["corner", "--bar", "10 mm"], 2, "--radius"),
        (["tooth", "--force", "-5 N", "--width", "5 mm", "--teeth", "16"], 2, "-5 N is impossible"),
        (["tooth", "--force", "5 N", "--width", "5 mm", "--teeth", "8"], 3, "begins at 10 teeth"),
    ],
)
def test_a_mistake_is_told_once(runner: CliRunner, words: list[str], code: int, complaint: str) -> None:
    """One message on standard error, nothing on standard output, no traceback."""
    result = runner.invoke(main, words)
    assert result.exit_code == code
    assert result.stdout == ""
    assert complaint in " ".join(result.stderr.split())
    assert "Traceback" not in result.stderr
