"""Tolerances of O-rings, ISO 3601-1 class B as a distributor's table quotes them."""

from __future__ import annotations

import pytest

from stripdown.core.part_condition.o_ring_tolerance import cross_section_tolerance, inner_diameter_tolerance
from tests.published import Published


@pytest.mark.source("iso_3601_1", "class B, tolerances of the cross-section", atol=1e-12, because="a table, taken over as it is")
@pytest.mark.parametrize(
    ("section", "tolerance"),
    [(1.78, 0.08), (2.25, 0.08), (2.62, 0.09), (3.15, 0.09), (3.53, 0.10), (5.33, 0.13), (6.99, 0.15), (8.40, 0.15)],
)
def test_iso_3601_section(section: float, tolerance: float, published: Published) -> None:
    """Five classes of thickness, ends included."""
    published(f"tolerance of {section} mm", found=cross_section_tolerance(section * 1e-3) * 1e3, expected=tolerance, unit="mm")


@pytest.mark.source(
    "iso_3601_1", "class B, tolerances of the inner diameter", atol=0.0051, because="the table is printed to a hundredth"
)
@pytest.mark.parametrize(
    ("diameter", "tolerance"),
    [(5, 0.15), (10, 0.19), (20, 0.26), (40, 0.41), (80, 0.69), (160, 1.23), (320, 2.27), (640, 4.28)],
)
def test_iso_3601_inner_diameter(diameter: float, tolerance: float, published: Published) -> None:
    """Eight diameters of the printed table."""
    found = inner_diameter_tolerance(diameter * 1e-3) * 1e3
    published(f"tolerance of {diameter} mm", found=found, expected=tolerance, unit="mm")
