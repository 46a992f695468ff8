"""Polynomials for corners and notches: against a second formula of their source, and against what every such fit must do."""

from __future__ import annotations

import math

import pytest

from stripdown.core.part_condition.corners import CornerShape, corner_radius_gain, stress_concentration
from stripdown.core.part_condition.parameters import Loading
from tests.published import Published


@pytest.mark.source(
    "pilkey_peterson",
    "shallow notch in the edge of a half-plane, tension: 0.855 + 2.21 sqrt(d/r)",
    rtol=0.03,
    because="two fits of one source",
)
@pytest.mark.parametrize("radii", [2.0, 4.0, 8.0, 16.0])
def test_pilkey_peterson_shallow_notch(published: Published, radii: float) -> None:
    """A notch that is shallow against the width of the bar has the factor of a notch in a half-plane."""
    depth = 1e-3
    found = stress_concentration(full_width=10.0, net_width=10.0 - depth, radius=depth / radii, shape=CornerShape.EDGE_NOTCH)
    published(f"depth of {radii:g} radii", found=found.factor, expected=0.855 + 2.21 * math.sqrt(radii), unit="1")


@pytest.mark.source(
    "derived",
    "half-ellipse in an edge, nearly that of the elliptic hole: 1 + 2 sqrt(d/r)",
    rtol=0.05,
    because="the free edge raises the peak of the hole by some per cent",
)
@pytest.mark.parametrize("radii", [4.0, 8.0, 16.0])
def test_derived_notch_is_near_the_ellipse(published: Published, radii: float) -> None:
    """The notch is close to the half-ellipse of the same depth and radius."""
    found = stress_concentration(full_width=10.0, net_width=10.0 - 1e-3, radius=1e-3 / radii, shape=CornerShape.EDGE_NOTCH)
    published(f"depth of {radii:g} radii", found=found.factor, expected=1.0 + 2.0 * math.sqrt(radii), unit="1")


@pytest.mark.source(
    "derived",
    "the polynomials written out at y = 0.5 with t/r = 20, 10, 5, 2.5 (sharp) and 5/3 (blunt)",
    rtol=0.003,
    because="worked to three figures",
)
@pytest.mark.parametrize(
    ("radius", "tension", "bending"),
    [(0.25, 3.99, 2.95), (0.5, 3.18, 2.42), (1.0, 2.51, 1.95), (2.0, 1.98, 1.56), (3.0, 1.77, 1.39)],
)
def test_derived_half_width_step(published: Published, radius: float, tension: float, bending: float) -> None:
    """A bar stepped from 20 to 10 mm. At 3 mm in bending it is 1.39: the sign that was read for one coefficient gives 1.31."""
    for loading, expected in ((Loading.TENSION, tension), (Loading.BENDING, bending)):
        found = stress_concentration(full_width=20e-3, net_width=10e-3, radius=radius * 1e-3, loading=loading)
        published(f"{loading.value}, radius {radius:g} mm", found=found.factor, expected=expected, unit="1")


@pytest.mark.source(
    "derived", "the polynomial of the notch written out at d/W = 0.2", rtol=0.003, because="worked to three figures"
)
@pytest.mark.parametrize(("radius", "expected"), [(0.25, 3.88), (0.5, 2.90), (1.0, 2.21)])
def test_derived_edge_notch(published: Published, radius: float, expected: float) -> None:
    """A notch 2 mm deep in a bar of 10 mm, stress on the 8 mm that are left."""
    found = stress_concentration(full_width=10e-3, net_width=8e-3, radius=radius * 1e-3, shape=CornerShape.EDGE_NOTCH)
    published(f"radius {radius:g} mm", found=found.factor, expected=expected, unit="1")


@pytest.mark.source(
    "derived", "one function of the radius, fitted in two ranges that meet at t/r = 2", rtol=0.015, because="two fits"
)
@pytest.mark.parametrize("loading", list(Loading))
@pytest.mark.parametrize("depth", [0.1, 0.3, 0.5, 0.7, 0.75])
def test_derived_the_two_ranges_meet(published: Published, loading: Loading, depth: float) -> None:
    """Just above and just below t/r = 2 the factors agree; with the sign as it was read those in bending part by a third."""
    step = 0.5 * depth * 20e-3
    sharp, blunt = (
        stress_concentration(full_width=20e-3, net_width=20e-3 - 2.0 * step, radius=step / radii, loading=loading).factor
        for radii in (2.000001, 1.999999)
    )
    published(f"{loading.value}, step of {depth:g} of the width", found=blunt, expected=sharp, unit="1")


@pytest.mark.source(
    "derived",
    "benefit of a radius: 3.99/1.98 by the polynomials at y = 0.5",
    rtol=0.005,
    because="worked to three figures",
)
def test_derived_a_radius_halves_the_peak(published: Published) -> None:
    """From 0.25 to 2 mm at a bar of 10 mm: half the peak is gone, give or take a tenth."""
    gain = corner_radius_gain(bar_width=10e-3, step=5e-3, radius_before=0.25e-3, radius_after=2e-3)
    published("gain", found=gain.ratio, expected=3.99 / 1.98, unit="1")
    published("least gain", found=gain.low, expected=0.9 * 3.99 / 1.98, unit="1")
    published("largest gain", found=gain.high, expected=1.1 * 3.99 / 1.98, unit="1")
