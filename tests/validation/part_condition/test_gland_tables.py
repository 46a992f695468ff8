"""Squeeze of O-rings against a table of reciprocating glands and a handbook's limits."""

from __future__ import annotations

import math

import pytest

from stripdown.core.part_condition.o_ring_bands import STRETCH_BAND, squeeze_band
from stripdown.core.part_condition.o_ring_gland import o_ring_gland
from tests.published import Published

_INCH = 25.4e-3


@pytest.mark.source(
    "engineers_edge_o_rings",
    "reciprocating glands",
    atol=0.006,
    because="squeeze is printed to a per cent; tolerances of the section are ISO 3601-1's, in hundredths of a millimetre",
)
@pytest.mark.parametrize(
    ("section", "shallow", "deep", "least", "greatest"),
    [(0.070, 0.055, 0.057, 0.15, 0.25), (0.103, 0.088, 0.090, 0.10, 0.17)],
)
def test_engineers_edge_reciprocating_gland(
    section: float, shallow: float, deep: float, least: float, greatest: float, published: Published
) -> None:
    """Thickest ring in the shallowest gland, thinnest ring in the deepest."""
    glands = [
        o_ring_gland(cross_section=section * _INCH, gland_depth=depth * _INCH, gland_width=0.14 * _INCH)
        for depth in (shallow, deep)
    ]
    published(f"greatest squeeze of {section} in", found=glands[0].greatest_squeeze, expected=greatest, unit="1")
    published(f"least squeeze of {section} in", found=glands[1].least_squeeze, expected=least, unit="1")
    # What a ring that moves may have is inside what is asked of a ring at rest.
    band = squeeze_band(section * _INCH)
    published.within(f"squeeze of {section} in", found=glands[0].squeeze, low=band.low or 0.0, high=band.high or 0.0, unit="1")


@pytest.mark.source(
    "engineers_edge_o_rings", "reciprocating glands, least squeeze", atol=1e-12, because="a table, taken over as it is"
)
@pytest.mark.parametrize(("section", "least"), [(0.070, 0.15), (0.103, 0.10), (0.139, 0.09), (0.210, 0.08), (0.275, 0.11)])
def test_engineers_edge_least_squeeze(section: float, least: float, published: Published) -> None:
    """Five sections."""
    band = squeeze_band(section * _INCH)
    published(f"least squeeze of {section} in", found=band.low or 0.0, expected=least, unit="1")


@pytest.mark.source("mechanical_engineers_handbook_3", "page 290", atol=1e-12, because="a limit, taken over as it is")
def test_mechanical_engineers_handbook_page_290(published: Published) -> None:
    """At most 30 % for a ring at rest: 30 % passes, a hair more does not."""
    depth = 0.7 * 1.78e-3
    at, over = (o_ring_gland(cross_section=1.78e-3, gland_depth=depth * part, gland_width=2.8e-3) for part in (1.0001, 0.999))
    published("greatest squeeze", found=at.verdicts[0].band.high or 0.0, expected=0.30, unit="1")
    assert at.is_within_all_bands
    assert not over.is_within_all_bands


@pytest.mark.source("seal_makers_design_guides", "stretch on the groove", atol=1e-12, because="a band, taken over as it is")
def test_seal_makers_stretch(published: Published) -> None:
    """1 to 5 %, 2 % ideal."""
    published("least stretch", found=STRETCH_BAND.low or 0.0, expected=0.01, unit="1")
    published("greatest stretch", found=STRETCH_BAND.high or 0.0, expected=0.05, unit="1")
    ideal = o_ring_gland(
        cross_section=1.78e-3, gland_depth=1.42e-3, gland_width=2.4e-3, inner_diameter=20e-3, gland_inner_diameter=20.4e-3
    )
    published("ideal stretch", found=ideal.stretch or 0.0, expected=0.02, unit="1")


@pytest.mark.source("derived", "circle of 2.62 mm in a rectangle of 2.26 by 3.62 mm", rtol=1e-12, because="closed form")
def test_fill_is_area_over_area(published: Published) -> None:
    """A disc in a rectangle."""
    gland = o_ring_gland(cross_section=2.62e-3, gland_depth=2.26e-3, gland_width=3.62e-3)
    published("fill", found=gland.fill, expected=math.pi * 1.31**2 / (2.26 * 3.62), unit="1")
