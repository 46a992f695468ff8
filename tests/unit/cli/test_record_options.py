"""Complaints of a study name the option that was typed, and no parameter of the program."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from stripdown.cli.main import main


@pytest.mark.parametrize(
    ("typed", "complaint"),
    [
        ('pad --mark "1.5 mm"', "--mark = 1.5 mm lies beyond the rack's tip"),
        ('corner --bar "1 mm" --radius "0.3 mm" --to "1.5 mm"', "--to = 1.5 mm is larger than the section"),
        ("screw M3 --boss cheese", '--boss = "cheese" is not a material of the catalogue'),
        ("screw M3 --class 4", '--class = "4" is not a property class'),
        ("screw M7", 'THREAD = "M7" does not exist'),
        ('shims --play "0.47 mm" --tray "0.1 mm" --bearing X', '--bearing: "X" is no clearance class'),
        (
            'seal set --original "1.5 mm" --compressed "2.65 mm" --recovered "1.4 mm"',
            "--compressed = 2.65 mm is not below --original",
        ),
        ('seal hardness --scale shore-a --new "70" --used ""', "--used: there is no reading"),
        (
            'seal ring --section "2.4 mm" --inner "18.8 mm" --groove "18.4 mm" --width "2.8 mm" --bore "15 mm"',
            "--groove = 18.4 mm leaves no gland",
        ),
        (
            'seal leak --load "30 N" --load-at-end "20 N" --distance "30 mm" --time "1 s" --bore "23.8 mm" --drag "4 N"',
            "--trapped is missing",
        ),
    ],
)
def test_the_option_is_named(runner: CliRunner, typed: str, complaint: str) -> None:
    """The words of the command line, so that one knows what to type otherwise."""
    result = runner.invoke(main, typed)
    assert result.exit_code == 2
    assert complaint in result.stderr


def test_what_is_outside_a_model_names_its_source_for_people(runner: CliRunner) -> None:
    """Author and title, not the key by which the program cites it."""
    result = runner.invoke(main, 'tooth --force "110 N" --width "5 mm" --teeth 5')
    assert result.exit_code == 3
    assert "Range of the model: J. E. Shigley" in result.stderr


def test_a_boss_is_called_by_its_name(runner: CliRunner) -> None:
    """Words, not the key with underscores that was typed."""
    printed = runner.invoke(main, "screw M2.5 --boss polyamide_glass").stdout
    assert "polyamide 66 with glass fibre" in printed
    assert "polyamide_glass" not in printed


def test_the_same_words_are_not_printed_as_standing_and_as_source(runner: CliRunner) -> None:
    """What has no source says so once."""
    printed = runner.invoke(main, 'rating nozzle "silicone oil" --made-of POM').stdout
    assert printed.count("common practice, no source") == 1
