"""Corners: what every factor must do, the gain of a radius, and what impossible corners are told."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from stripdown.core.part_condition.corners import (
    SPREAD,
    CornerShape,
    corner_radius_gain,
    stress_concentration,
)
from stripdown.core.part_condition.parameters import Loading
from stripdown.errors import OutOfRange, OutsideValidity
from stripdown.references import load_references

_KINK = 1.015  # the fits of the two ranges part by up to a per cent where they meet


@given(
    net=st.floats(2e-3, 40e-3),
    step=st.floats(0.05, 1.0),
    radii=st.floats(0.11, 19.0),
    larger=st.floats(1.0, 5.0),
    loading=st.sampled_from(Loading),
)
def test_a_larger_radius_never_concentrates_more(net: float, step: float, radii: float, larger: float, loading: Loading) -> None:
    """The factor is at least one and does not rise with the radius, in both ranges of the charts and across their seam."""
    height = step * net
    small, large = height / radii, min(height / radii * larger, height / 0.1001)
    assume(large <= net)
    before, after = (
        stress_concentration(full_width=net + 2 * height, net_width=net, radius=radius, loading=loading)
        for radius in (small, large)
    )
    assert 1.0 <= after.factor <= before.factor * _KINK
    assert before.low <= before.factor <= before.high
    assert before.high == pytest.approx((1.0 + SPREAD) * before.factor)


@given(depth=st.floats(0.01, 0.29), radii=st.floats(2.01, 19.9), scale=st.floats(0.1, 10.0))
def test_only_proportions_count(depth: float, radii: float, scale: float) -> None:
    """A corner drawn larger or smaller concentrates the same, and a deeper or sharper notch more than a bar's fillet."""
    full = 20e-3
    one, other = (
        stress_concentration(
            full_width=full * size,
            net_width=full * size * (1.0 - depth),
            radius=full * size * depth / radii,
            shape=CornerShape.EDGE_NOTCH,
        )
        for size in (1.0, scale)
    )
    assert other.factor == pytest.approx(one.factor, rel=1e-9)
    assert one.factor > 1.0


def test_a_choice_may_be_given_by_its_word() -> None:
    """A script need not import the enumerations."""
    by_member = stress_concentration(full_width=20e-3, net_width=10e-3, radius=1e-3, loading=Loading.BENDING)
    by_word = stress_concentration(full_width=20e-3, net_width=10e-3, radius=1e-3, loading="bending")  # type: ignore[arg-type]
    assert by_word == by_member


@given(before=st.floats(0.51e-3, 1.0e-3), more=st.floats(1.2, 3.0), step=st.floats(0.5, 1.0))
def test_the_gain_is_a_ratio_with_a_tenth_either_way(before: float, more: float, step: float) -> None:
    """Nearly the same for every step of half the bar or more; the interval holds at least a tenth either way."""
    bar = 10e-3
    gain = corner_radius_gain(bar_width=bar, step=step * bar, radius_before=before, radius_after=before * more)
    assert gain.ratio == pytest.approx(gain.before.factor / gain.after.factor)
    assert gain.ratio > 1.0
    assert gain.low <= 0.9 * gain.ratio * (1 + 1e-12)
    assert gain.high >= 1.1 * gain.ratio * (1 - 1e-12)
    usual = corner_radius_gain(bar_width=bar, radius_before=before, radius_after=before * more)
    assert gain.ratio == pytest.approx(usual.ratio, rel=0.035)


def test_a_notch_widens_the_interval_where_its_chart_reaches() -> None:
    """The window's corner lies between bar and notch, so the upper end goes by the notch."""
    gain = corner_radius_gain(bar_width=8e-3, step=2e-3, radius_before=0.25e-3, radius_after=1e-3)
    assert gain.notch_ratio is not None
    assert gain.notch_ratio == pytest.approx(3.88 / 2.21, rel=0.005)
    assert gain.notch_ratio > gain.ratio
    assert gain.high == pytest.approx(1.1 * gain.notch_ratio)
    bent = corner_radius_gain(bar_width=8e-3, step=2e-3, radius_before=0.25e-3, radius_after=1e-3, loading=Loading.BENDING)
    assert bent.notch_ratio is None


@pytest.mark.parametrize("radius", [0.0, -1e-3, math.nan, math.inf, 11e-3])
def test_a_radius_of_zero_or_larger_than_the_section_is_refused(radius: float) -> None:
    """One message that names the field and what would be right."""
    with pytest.raises(OutOfRange, match=r"radius = .* must lie above 0 and up to 10 mm"):
        stress_concentration(full_width=20e-3, net_width=10e-3, radius=radius)
    with pytest.raises(OutOfRange, match=r"radius_after = .* must lie above 0 and up to 10 mm"):
        corner_radius_gain(bar_width=10e-3, radius_before=0.5e-3, radius_after=radius)


@pytest.mark.parametrize(
    ("given", "complaint"),
    [
        ({"net_width": 20e-3}, "not narrower"),
        ({"net_width": -1e-3}, "net_width"),
        ({"full_width": math.inf}, "full_width"),
        ({"loading": "shear"}, 'loading = "shear" is not known'),
        ({"shape": "hole"}, 'Choose from "shoulder", "edge_notch"'),
        ({"shape": CornerShape.EDGE_NOTCH, "loading": Loading.BENDING}, "tension only"),
    ],
)
def test_what_is_no_corner_is_refused(given: dict[str, object], complaint: str) -> None:
    """One message each."""
    whole: dict[str, object] = {"full_width": 20e-3, "net_width": 10e-3, "radius": 1e-3, **given}
    with pytest.raises(OutOfRange, match=complaint):
        stress_concentration(**whole)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("given", "complaint"),
    [
        ({"radius": 0.2e-3}, r"0.1 to 20; this corner has 25. .* a radius of 0.25 to 50 mm"),
        ({"full_width": 10.8e-3, "radius": 5e-3}, "0.1 to 20"),
        ({"shape": CornerShape.EDGE_NOTCH, "radius": 6e-3}, "2 to 20"),
        ({"shape": CornerShape.EDGE_NOTCH, "radius": 1e-3}, "ends at 0.3 of the width"),
    ],
)
def test_beyond_the_charts_there_is_no_answer(given: dict[str, object], complaint: str) -> None:
    """The range is enforced at both ends, and said in millimetres."""
    whole: dict[str, object] = {"full_width": 20e-3, "net_width": 10e-3, "radius": 1e-3, **given}
    with pytest.raises(OutsideValidity, match=complaint):
        stress_concentration(**whole)  # type: ignore[arg-type]


@pytest.mark.parametrize("radii", [0.1, 20.0])
def test_the_ends_of_the_chart_belong_to_it(radii: float) -> None:
    """A step of exactly a tenth, and of exactly twenty radii."""
    net, step = 10e-3, 0.5e-3
    assert stress_concentration(full_width=net + 2 * step, net_width=net, radius=step / radii).factor > 1.0


def test_every_answer_says_what_it_rests_on() -> None:
    """A source of the register, a range and a caution that a crack is a reject."""
    gain = corner_radius_gain(bar_width=8e-3, radius_before=0.3e-3, radius_after=1e-3)
    for basis in (gain.basis, gain.before.basis):
        assert basis.source in load_references()
        assert basis.holds_for
        assert "crack is always a reject" in basis.caution
