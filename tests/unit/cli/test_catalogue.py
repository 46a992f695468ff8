"""`stripdown catalogue`: lists, finds, says where to look further, and gives the same to programs."""

from __future__ import annotations

import json

from click.testing import CliRunner

from stripdown.catalogue.index import catalogue_entries
from stripdown.cli.main import main


def test_words_find_entries_and_all_is_said_of_a_few(runner: CliRunner) -> None:
    """With figures, footing and the cautions."""
    result = runner.invoke(main, ["catalogue", "propan-2-ol"])
    assert result.exit_code == 0
    for words in ("isopropyl alcohol", "also called", "IPA", "on whose word", "no flame or spark"):
        assert words in result.stdout


def test_without_words_everything_is_listed(runner: CliRunner) -> None:
    """How many there are, each kind with its entries, and how to find some."""
    said = runner.invoke(main, ["catalogue"]).stdout
    assert f"{len(catalogue_entries())} entries. Words behind the command" in said
    assert all(words in said for words in ("Springs by trade label", "m140", "Energy limits", "italy", "Threads", "M2.5"))


def test_entries_are_data(runner: CliRunner) -> None:
    """Key, names, footing and source of each, and its figures with their units."""
    [entry] = json.loads(runner.invoke(main, ["catalogue", "music", "wire", "--json"]).stdout)["entries"][:1]
    assert (entry["kind"], entry["key"], entry["footing"], entry["source"]) == ("wire", "music_wire", "published", "astm_a228")
    assert entry["as_written"] == {"shear_modulus": "79.3 GPa"}


def test_what_is_not_there_is_answered_with_the_nearest(runner: CliRunner) -> None:
    """One line, and the exit code of what somebody can put right."""
    result = runner.invoke(main, ["catalogue", "nitryle"])
    assert result.exit_code == 2
    assert result.stderr == 'stripdown: nothing in the catalogue is called "nitryle". Did you mean nitrile?\n'
