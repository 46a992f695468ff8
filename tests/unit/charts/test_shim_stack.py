from __future__ import annotations

from typing import Any

import pytest

from stripdown.charts.render import AnyChart, to_spec, to_svg
from stripdown.charts.shim_stack import shim_stack
from stripdown.charts.themes import PAPER, SCREEN, Theme
from stripdown.core.shim_selection import GearSeat, ShimmedGear, choose_shims, choose_split
from tests.unit.charts.specs import table_with

_TRAY = {0.1e-3: 4, 0.15e-3: 4, 0.2e-3: 4, 0.3e-3: 2}
_BAND = (0.05e-3, 0.15e-3)


def _layers(chart: AnyChart, row: str) -> list[tuple[str, float, float]]:
    found: list[dict[str, Any]] = table_with(chart, "kind", "from", "to")
    unique = {(value["kind"], value["from"], value["to"]) for value in found if value["row"] == row}
    return sorted(unique, key=lambda layer: layer[1])


def test_a_pack_is_drawn_to_scale_with_what_is_left() -> None:
    """0.30 and 0.10 of a play of 0.47: two shims end to end, then 0.07 of float, up to the play."""
    choice = choose_shims(gap=0.47e-3, gap_uncertainty=0.0, float_band=(0.06e-3, 0.11e-3), stock=_TRAY)
    chart = shim_stack(choice, theme=SCREEN, most=2)
    assert _layers(chart, "pack 1") == [("shim", 0.0, 0.3), ("shim", 0.3, 0.4), ("float left", 0.4, 0.47)]
    assert _layers(chart, "pack 2") == [("shim", 0.0, 0.2), ("shim", 0.2, 0.4), ("float left", 0.4, 0.47)]
    assert _layers(chart, "pack 3") == []


def test_a_gear_has_its_shims_on_both_faces_and_its_float_between() -> None:
    """Left shims from the left bearing, right shims from the right one."""
    seat = GearSeat(
        gear=ShimmedGear.SECTOR,
        gap=0.7e-3,
        gap_uncertainty=0.0,
        float_band=_BAND,
        height=0.35e-3,
        height_tolerance=0.06e-3,
    )
    chart = shim_stack(choose_split(seats=[seat], stock={0.3e-3: 2}), theme=SCREEN)
    assert _layers(chart, "sector") == [
        ("shim, left face", 0.0, 0.3),
        ("float left", 0.3, 0.4),
        ("shim, right face", 0.4, 0.7),
    ]


def test_a_miss_is_drawn_beside_what_buying_would_give() -> None:
    """And in words: over the band, then in it; nothing is told by colour alone."""
    choice = choose_shims(gap=0.47e-3, gap_uncertainty=0.0, float_band=_BAND, stock={0.3e-3: 1})
    told = to_spec(shim_stack(choice, theme=PAPER))["description"]
    assert "nearest miss" in told
    assert "0.170 left, over the band" in told
    assert "after buying" in told
    assert "in the band" in told


@pytest.mark.parametrize("theme", [SCREEN, PAPER], ids=lambda theme: theme.name)
def test_the_picture_can_be_drawn_for_screen_and_paper(theme: Theme) -> None:
    """Also with nothing to draw: then the reason stands below the title."""
    choice = choose_shims(gap=0.47e-3, gap_uncertainty=0.0, float_band=_BAND, stock=_TRAY)
    assert "common practice, no source" in to_svg(shim_stack(choice, theme=theme))
    rejected = choose_shims(gap=7e-3, gap_uncertainty=0.0, float_band=_BAND, stock=_TRAY)
    assert "reject" in to_spec(shim_stack(rejected, theme=theme))["description"]
    assert to_svg(shim_stack(rejected, theme=theme)).startswith("<svg")
