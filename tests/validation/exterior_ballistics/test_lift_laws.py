"""Lift of spinning spheres: the laws as evaluated, and what was measured of other balls."""

from __future__ import annotations

import math

import pytest

from stripdown.core.exterior_ballistics import lift_coefficient
from tests.published import Published


@pytest.mark.source(
    "loth_2008", "the formula, evaluated by hand above a Reynolds number of 2000", atol=5e-4, because="printed to four places"
)
@pytest.mark.parametrize(
    ("ratio", "expected"), [(0.025, 0.0125), (0.1, 0.0490), (0.3, 0.1386), (0.5, 0.2159), (1.0, 0.3500), (2.0, 0.3952)]
)
def test_loth(published: Published, ratio: float, expected: float) -> None:
    """Loth's law where it no longer depends on the Reynolds number."""
    turned = 2 * ratio
    by_hand = turned * (1 - (0.675 + 0.15 * (1 + math.tanh(0.28 * (turned - 2)))))
    assert by_hand == pytest.approx(expected, abs=5e-4)
    published(f"lift at a spin ratio of {ratio:g}", found=lift_coefficient(ratio, reynolds=2e4), expected=by_hand, unit="1")


@pytest.mark.source(
    "loth_2008", "creeping flow: twice the spin ratio", rtol=0.02, because="a Reynolds number of a thousandth is not none"
)
def test_loth_in_creeping_flow(published: Published) -> None:
    """In creeping flow Loth's law is Rubinow and Keller's."""
    published("lift at a spin ratio of 0.1", found=lift_coefficient(0.1, reynolds=1e-3), expected=0.2, unit="1")


@pytest.mark.source("pyfme_sphere_table", "lift of a football by spin ratio", because="a rough ball lifts more than a smooth one")
@pytest.mark.parametrize(("ratio", "measured"), [(0.10, 0.16), (0.20, 0.23), (0.40, 0.33)])
def test_football_lifts_between_the_laws(published: Published, ratio: float, measured: float) -> None:
    """What was measured of a football lies between the law of smooth particles and that of baseballs, within a tenth."""
    low, high = lift_coefficient(ratio), lift_coefficient(ratio, law="sawicki")
    published.within(f"lift at a spin ratio of {ratio:g}", found=measured, low=low, high=1.1 * high, unit="1")
