"""What a master would answer, written by hand before the program was asked: energy, readings as found, waits, hands, other guns.

A scenario that asks for what is not built yet stands in not_yet.toml; it leaves that list when it passes.
"""

from __future__ import annotations

import tomllib

import pytest

from tests.unit.procedures import told

TOLD = told.read()
NOT_YET = frozenset(tomllib.loads((told.FOLDER / "not_yet.toml").read_text(encoding="utf-8"))["not_yet"])


@pytest.mark.parametrize(
    "one",
    [pytest.param(one, id=one.name, marks=[pytest.mark.xfail(strict=True)] if one.name in NOT_YET else []) for one in TOLD],
)
def test_the_program_answers_as_the_trade_does(one: told.Told) -> None:
    """Every answer of a scenario is the program's own."""
    told.ask(one)


def test_every_scenario_asks_something_and_has_its_own_name() -> None:
    """No field is misspelt, no answer missing, no key there twice, and nothing is listed that is not there."""
    names = [one.name for one in TOLD]
    assert len(names) == len(set(names)) >= 120
    fields = {field for one in TOLD for field in one.scenario}
    assert fields - told.QUESTION - told.ASKED.keys() == set()
    assert [one.name for one in TOLD if not one.scenario.keys() & told.ASKED.keys()] == []
    assert NOT_YET - set(names) == set()
