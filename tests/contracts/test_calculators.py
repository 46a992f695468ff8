"""A calculator is declared once: each room that has a part in it knows the same keys, and so do the steps that lead to it."""

from __future__ import annotations

from pathlib import Path

import click
import pytest

from stripdown.bench.calculators import CALCULATORS, OF_READINGS, Calculator
from stripdown.charts.pictures import DRAWN
from stripdown.cli.acts import calculator_command
from stripdown.cli.main import main
from stripdown.plain.calculators import PRICED
from stripdown.procedures.loading import load_procedures
from stripdown.quantities import own_fields
from stripdown.studies.calculators import ANSWERED
from stripdown.studies.prices import PRICES
from stripdown.words.calculators import WORDS, WORDS_OF_PRICES

_GUIDE = Path(__file__).parents[2] / "docs" / "models" / "README.md"
_ALL = CALCULATORS.keys()


def test_every_calculator_answers_and_is_said() -> None:
    """A function, an answer in words, and a picture for each that declares one."""
    assert _ALL == ANSWERED == WORDS.keys()
    assert DRAWN.keys() == {key for key, one in CALCULATORS.items() if one.picture}


def test_what_costs_a_gun_something_is_said_and_plain() -> None:
    """Of a drag nothing but its price is said, so that its own answer is it."""
    assert PRICES.keys() == PRICED <= _ALL
    assert PRICES.keys() - {"drag"} == WORDS_OF_PRICES.keys()


@pytest.mark.parametrize("key", [*CALCULATORS, *sorted(OF_READINGS)])
def test_every_calculator_is_a_command(key: str) -> None:
    """What a step leads to can be typed."""
    command: click.Command | None = main
    for word in calculator_command(key).removeprefix("stripdown ").split():
        assert isinstance(command, click.Group)
        command = command.get_command(click.Context(command), word)
    assert command is not None


def test_steps_lead_to_calculators_by_their_keys() -> None:
    """And to nothing that is neither declared nor asked with readings."""
    procedures = load_procedures()
    named = {one.table.fields.get("calculator", "") for one in (*procedures.checks.values(), *procedures.actions.values())}
    assert named - {""}
    assert named - {""} <= _ALL | OF_READINGS


@pytest.mark.parametrize("calculator", CALCULATORS.values(), ids=lambda one: one.key)
def test_what_a_calculator_is_asked_is_declared(calculator: Calculator) -> None:
    """Numbers with the label that options and later forms show; the fields of a table are those of the record."""
    fields = own_fields(calculator.record)
    assert [leaf.path for leaf in fields if leaf.quantity is not None and not leaf.quantity.label] == []
    assert set(calculator.fields.values()) | set(calculator.of_gun) == {leaf.path for leaf in fields}


@pytest.mark.parametrize("key", _ALL)
def test_every_calculator_stands_in_the_guide(key: str) -> None:
    """With its command."""
    assert f"`{calculator_command(key)}`" in _GUIDE.read_text(encoding="utf-8")
