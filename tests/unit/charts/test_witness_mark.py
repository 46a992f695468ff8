from __future__ import annotations

import math
from typing import Any

import pytest

from stripdown.charts.render import to_spec
from stripdown.charts.themes import PAPER, SCREEN, Theme
from stripdown.charts.witness_mark import witness_mark_and_pad
from stripdown.core.part_condition.engagement import EngagementPad, engagement_pad
from tests.unit.charts.specs import tables


def _pad(height: float = 0.5e-3, module: float = 1e-3) -> EngagementPad:
    return engagement_pad(witness_height=height, pressure_angle=math.radians(20.0), module=module)


def _outline(pad: EngagementPad, name: str, theme: Theme = SCREEN) -> list[dict[str, Any]]:
    return next(table for table in tables(witness_mark_and_pad(pad, theme=theme)) if table[0].get("what") == name)


def _length(rows: list[dict[str, Any]]) -> float:
    return float(max(row["x"] for row in rows) - min(row["x"] for row in rows))


@pytest.mark.parametrize("theme", [SCREEN, PAPER])
def test_a_millimetre_is_as_wide_as_it_is_high(theme: Theme) -> None:
    """Drawn to scale, on screen and on paper, and not wider than the sheet."""
    drawing = to_spec(witness_mark_and_pad(_pad(), theme=theme))
    x, y = (drawing["layer"][0]["encoding"][axis]["scale"]["domain"] for axis in ("x", "y"))
    assert drawing["width"] / (x[1] - x[0]) == pytest.approx(drawing["height"] / (y[1] - y[0]), rel=1e-3)
    assert drawing["width"] <= theme.width


def test_pad_and_pitch_are_as_long_as_they_are() -> None:
    """In mm."""
    assert _length(_outline(_pad(), "pad, as pressed")) == pytest.approx(1.556, abs=1e-3)
    assert _length(_outline(_pad(), "one pitch")) == pytest.approx(math.pi, abs=1e-3)


def test_the_mark_lies_on_the_flank_at_its_height() -> None:
    """The middle of the bar: half a millimetre up, and as far across as the flank leans."""
    rows = _outline(_pad(), "witness mark")[:4]
    middle = (sum(row["x"] for row in rows) / 4.0, sum(row["y"] for row in rows) / 4.0)
    assert middle == pytest.approx((0.25 * math.pi + 0.5 * math.tan(math.radians(20.0)), 0.5), abs=2e-3)


def test_a_suspect_pad_says_so_in_words() -> None:
    """Not by colour alone."""
    assert "wrong tooth?" in str(to_spec(witness_mark_and_pad(_pad(1e-3), theme=PAPER))["title"])
    assert "wrong tooth?" not in str(to_spec(witness_mark_and_pad(_pad(), theme=PAPER)))
