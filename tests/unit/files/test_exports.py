"""Exports as spreadsheets and chronographs of many kinds write them: each is read as its answer, written first, says."""

from __future__ import annotations

import dataclasses
import tomllib
from pathlib import Path
from typing import Any

import pytest

from stripdown.core.shot_statistics.conditions import StringConditions
from stripdown.errors import InputError
from stripdown.files.readings import load_readings, read_readings
from stripdown.units import to_si

FOLDER = Path(__file__).parents[2] / "data" / "exports"
EXPORTS: list[dict[str, Any]] = tomllib.loads((FOLDER / "answers.toml").read_text(encoding="utf-8"))["export"]
READ = [export for export in EXPORTS if "whole" not in export]


def _named(exports: list[dict[str, Any]]) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("export", exports, ids=[export["file"] for export in exports])


def test_every_export_has_an_answer() -> None:
    """Sixty at least, and no file without one."""
    assert {export["file"] for export in EXPORTS} == {path.name for path in FOLDER.glob("[0-9]*")}
    assert len(EXPORTS) >= 60


@_named(READ)
def test_what_counts_and_what_does_not(export: dict[str, Any]) -> None:
    """The shots of each string, the lines that are statistics, those that give nothing, and those that are asked about."""
    readings = load_readings(FOLDER / export["file"])
    expected = [[to_si(speed, export["unit"]) for speed in string] for string in export["strings"]]
    assert [list(string.speeds) for string in readings.strings] == [pytest.approx(string, abs=1e-3) for string in expected]
    lines = {
        "no_shot": [one.line for one in readings.left_out if one.is_no_shot],
        "refused": [one.line for one in readings.left_out if not one.is_no_shot],
        "asked": [one.line for string in readings.strings for one in string.asked],
    }
    assert {key: sorted(found) for key, found in lines.items()} == {key: export.get(key, []) for key in lines}


@_named([export for export in READ if "said" in export])
def test_what_was_said_of_the_strings(export: dict[str, Any]) -> None:
    """Ball, hop-up, selector, distance, temperature, occasion and day as the file says them."""
    found = [_said(string.conditions) for string in load_readings(FOLDER / export["file"]).strings]
    assert found == [
        {key: value if isinstance(value, str) else pytest.approx(value) for key, value in one.items()} for one in export["said"]
    ]


@_named(READ)
def test_where_nothing_may_be_said_of_a_limit(export: dict[str, Any]) -> None:
    """Units are mixed, or most lines fall away: the string says so, and no other does."""
    doubts = {string.doubt for string in load_readings(FOLDER / export["file"]).strings}
    words = {"units": "units", "most": "most"}.get(export.get("no_verdict", ""), "")
    assert all(words in doubt for doubt in doubts) if words else doubts == {""}


@_named([export for export in EXPORTS if "whole" in export])
def test_what_is_refused_as_a_whole(export: dict[str, Any]) -> None:
    """With the line, and what would be right."""
    with pytest.raises(InputError, match=export["whole"]) as refused:
        load_readings(FOLDER / export["file"])
    assert refused.value.file == str(FOLDER / export["file"])


def _said(conditions: StringConditions) -> dict[str, Any]:
    """What a string says, in the words of the answers."""
    values = {
        "ball": None if conditions.ball_mass is None else conditions.ball_mass * 1e3,
        "distance": conditions.distance,
        "celsius": None if conditions.temperature is None else conditions.temperature - 273.15,
        **{key: getattr(conditions, field) for key, field in (("occasion", "occasion"), ("hop", "hop"), ("mode", "fire_mode"))},
        "day": conditions.day,
    }
    assert {"ball_mass", "distance", "temperature", "occasion", "hop", "fire_mode", "day"} <= {
        field.name for field in dataclasses.fields(conditions)
    }
    return {key: getattr(value, "value", value) for key, value in values.items() if value is not None}


@pytest.mark.parametrize("number", ["1e400", "1e-400", "1" + "0" * 320])
def test_a_number_that_no_float_holds_is_refused_by_line(number: str) -> None:
    """Found by hostile inputs: a power of ten without room ended in a traceback."""
    with pytest.raises(InputError, match=r"far\.csv"):
        read_readings(f"speed m/s\n{number}\n", file="far.csv")
