"""Stress in the corners of stepped bars: the polynomials against what two textbooks read off a chart."""

from __future__ import annotations

import pytest

from stripdown.core.part_condition.corners import stress_concentration
from stripdown.core.part_condition.parameters import Loading
from tests.published import Published


@pytest.mark.source("sadhu_singh", "example 4.1, page 102", rtol=0.08, because="the example reads the factor off a chart")
def test_sadhu_singh_example_4_1(published: Published) -> None:
    """A plate stepped from 50 to 40 mm at a radius of 5 mm, in tension; the chart's figure lies in the stated spread."""
    found = stress_concentration(full_width=50e-3, net_width=40e-3, radius=5e-3)
    published("factor in tension", found=found.factor, expected=1.75, unit="1")
    published.within("chart's figure in the stated spread", found=1.75, low=found.low, high=found.high, unit="1")


@pytest.mark.source("boresi_schmidt", "example 14.3, page 529", rtol=0.11, because="the example reads the factor off a chart")
def test_boresi_schmidt_example_14_3(published: Published) -> None:
    """A beam stepped from 200 to 100 mm at a radius of 10 mm, bent by 1.5 kN at 1.4 m, has the printed peak within the spread."""
    found = stress_concentration(full_width=200e-3, net_width=100e-3, radius=10e-3, loading=Loading.BENDING)
    nominal = 6.0 * 1.5e3 * 1.4 / (40e-3 * 100e-3**2)
    published("factor in bending", found=found.factor, expected=1.77, unit="1")
    published("peak stress", found=found.factor * nominal, expected=55.75e6, unit="Pa")
    published.within("chart's figure in the stated spread", found=1.77, low=found.low, high=found.high, unit="1")
