"""End play of small ball bearings: classes of radial clearance, and the geometry by another way."""

from __future__ import annotations

import math

import pytest
from scipy.optimize import brentq

from stripdown.core.shim_selection import bearing_end_play, class_clearance
from tests.published import Published


@pytest.mark.source("iso_5753", "bores of 2.5 to 10 mm", atol=0.0, because="the table in whole micrometres")
@pytest.mark.parametrize(
    ("name", "low", "high"), [("C2", 0, 8), ("CN", 2, 13), ("C3", 8, 23), ("C4", 14, 29), ("C5", 20, 37)], ids=str
)
def test_iso_5753_small_bores(published: Published, name: str, low: int, high: int) -> None:
    """Radial clearance by class, in any case of letters."""
    found = class_clearance(name.lower())
    published(f"{name}, least", found=found[0], expected=low * 1e-6, unit="m", rtol=1e-12)
    published(f"{name}, greatest", found=found[1], expected=high * 1e-6, unit="m", rtol=1e-12)


@pytest.mark.source("derived", "a ball that touches both grooves, found by moving the rings", rtol=1e-6, because="a root search")
@pytest.mark.parametrize("clearance", [2e-6, 8e-6, 13e-6, 28e-6])
@pytest.mark.parametrize("ball", [1.0e-3, 1.588e-3, 2.0e-3])
def test_rings_pushed_along_until_the_ball_touches_both(published: Published, clearance: float, ball: float) -> None:
    """Place the groove centres, push the inner ring along, and stop where no gap is left between ball and grooves."""
    groove = 0.52 * ball

    def gap(along: float) -> float:
        """What is free between two grooves that look at each other, measured through both centres."""
        across = (groove - ball / 2) * 2 - clearance / 2  # centres of the grooves, radially apart with rings centred
        return 2 * groove - math.hypot(across, along) - ball

    along = brentq(gap, 0.0, 1e-3, xtol=1e-15)
    found = bearing_end_play(radial_clearance=clearance, ball_diameter=ball).end_play
    published(f"end play, ball {ball * 1e3:g} mm, clearance {clearance * 1e6:g} um", found=found, expected=2 * along, unit="m")
