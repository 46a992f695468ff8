from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.charts.gland import gland_section, pressed_ring
from stripdown.charts.render import to_spec
from stripdown.charts.themes import PAPER, SCREEN, Theme
from stripdown.core.part_condition.o_ring_gland import OringGland, o_ring_gland
from tests.unit.charts.specs import tables


def _gland(**more: float) -> OringGland:
    return o_ring_gland(cross_section=1.78e-3, gland_depth=1.42e-3, gland_width=2.4e-3, **more)


def _area(outline: list[tuple[float, float]]) -> float:
    """By the surveyor's formula."""
    pairs = zip(outline, [*outline[1:], outline[0]], strict=True)
    return 0.5 * abs(sum(here[0] * there[1] - there[0] * here[1] for here, there in pairs))


@given(depth=st.floats(1.15, 1.9), width=st.floats(2.2, 4.0))
def test_the_pressed_ring_keeps_its_area_and_its_gland(depth: float, width: float) -> None:
    """Rubber does not shrink: it is drawn flat and wide, and inside the groove."""
    outline = pressed_ring(1.78, depth, width)
    assert _area(outline) == pytest.approx(0.25 * math.pi * 1.78**2, rel=2e-3)
    assert max(point[0] for point in outline) <= 0.5 * width + 1e-9
    assert max(point[1] for point in outline) == pytest.approx(min(depth, 1.78), rel=1e-9)


@pytest.mark.parametrize("theme", [SCREEN, PAPER])
def test_a_millimetre_is_as_wide_as_it_is_high(theme: Theme) -> None:
    """Drawn to scale, on screen and on paper, and not wider than the sheet."""
    drawing = to_spec(gland_section(_gland(), theme=theme))
    x, y = (drawing["layer"][0]["encoding"][axis]["scale"]["domain"] for axis in ("x", "y"))
    assert drawing["width"] / (x[1] - x[0]) == pytest.approx(drawing["height"] / (y[1] - y[0]), rel=1e-3)
    assert drawing["width"] <= theme.width


def test_the_figures_stand_beside_the_drawing() -> None:
    """Stretch only where it is known."""

    def said(gland: OringGland) -> list[Any]:
        return [row["words"] for table in tables(gland_section(gland, theme=SCREEN)) for row in table if "words" in row]

    assert said(_gland())[:2] == ["squeeze 20.2 %", "fill 73.0 %"]
    assert "stretch 2.0 %" in said(_gland(inner_diameter=20e-3, gland_inner_diameter=20.4e-3))
    assert not any("stretch" in words for words in said(_gland()))
