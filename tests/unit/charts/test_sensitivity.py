from __future__ import annotations

import dataclasses

import pytest

from stripdown.charts.sensitivity import speed_sensitivity
from stripdown.charts.themes import SCREEN
from tests.synthetic_studies import make_sensitivity
from tests.unit.charts.specs import table_with


def test_each_dimension_has_two_bars_in_the_unit_asked_for() -> None:
    """A spring that moves the speed by +3.048 and -3.048 m/s moves it by ten feet per second each way."""
    chart = speed_sensitivity(make_sensitivity(), speed_unit="ft/s", theme=SCREEN)
    bars = [bar for bar in table_with(chart, "change") if bar["row"] == "spring.rate"]
    assert [bar["change"] for bar in bars] == pytest.approx([10.0, -10.0])
    assert [bar["end"] for bar in bars] == ["upper end", "lower end"]


def test_what_is_assumed_is_marked() -> None:
    """The synthetic gun knows its spring and assumes its drag."""
    bars = table_with(speed_sensitivity(make_sensitivity(), speed_unit="m/s", theme=SCREEN), "change")
    assert {bar["row"]: bar["assumed"] for bar in bars} == {"spring.rate": False, "piston.seal_drag": True}


def test_each_row_tells_value_and_tolerance() -> None:
    """In the units of the workshop, told once."""
    words = table_with(speed_sensitivity(make_sensitivity(), speed_unit="m/s", theme=SCREEN), "value")
    assert [(row["part"], row["value"]) for row in words] == [
        ("spring rate", "520 ± 26 N/m"),
        ("piston drag in the cylinder", "4 ± 1 N"),
    ]


def test_rows_are_drawn_as_they_come() -> None:
    """The study sorts them, and whoever asks takes from the top."""
    made = make_sensitivity()
    chart = speed_sensitivity(dataclasses.replace(made, rows=made.rows[:1]), speed_unit="m/s", theme=SCREEN)
    assert [row["row"] for row in table_with(chart, "value")] == ["spring.rate"]
