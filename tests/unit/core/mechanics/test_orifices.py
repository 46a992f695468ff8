"""Flow through holes: limits, scaling, and what the impossible is told."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.mechanics.orifices import (
    discharge_coefficient_perry,
    mass_flow_rate,
    mass_flow_rate_iso6358,
    sonic_conductance_of,
)
from stripdown.errors import OutOfRange

SIDES = {"upstream_pressure": 3e5, "upstream_temperature": 293.15, "downstream_pressure": 1e5}
HOLE = SIDES | {"flow_area": 1e-6}
PART = SIDES | {"sonic_conductance": 0.2e-8, "critical_ratio": 0.4}

ratios = st.floats(0.0, 1.0)


def _hole(ratio: float) -> float:
    return mass_flow_rate(**(HOLE | {"downstream_pressure": ratio * 3e5}))


def _part(ratio: float) -> float:
    return mass_flow_rate_iso6358(**(PART | {"downstream_pressure": ratio * 3e5}))


@given(first=ratios, second=ratios)
def test_more_back_pressure_never_means_more_flow(first: float, second: float) -> None:
    """Both laws fall, or stay choked, as the downstream pressure rises."""
    low, high = sorted((first, second))
    for law in (_hole, _part):
        assert law(high) <= law(low) * (1.0 + 1e-12)


def test_equal_pressures_pass_nothing() -> None:
    """Without a difference of pressure nothing flows, even at zero pressure."""
    for pressure in (0.0, 1e5):
        equal = {"upstream_pressure": pressure, "downstream_pressure": pressure}
        assert mass_flow_rate(**(HOLE | equal)) == 0.0
        assert mass_flow_rate_iso6358(**(PART | equal)) == 0.0


def test_a_choked_hole_does_not_feel_the_far_side() -> None:
    """Below the critical ratio the flow is the same into vacuum."""
    assert _hole(0.0) == _hole(0.52)
    assert _hole(0.54) < _hole(0.52)
    assert _part(0.0) == _part(0.4)
    assert _part(0.41) < _part(0.4)


def test_flow_is_continuous_where_it_chokes() -> None:
    """There is no jump at the critical ratio."""
    critical = (2.0 / 2.4) ** 3.5
    assert _hole(critical * (1 + 1e-7)) == pytest.approx(_hole(critical), rel=1e-9)
    assert _part(0.4 * (1 + 1e-7)) == pytest.approx(_part(0.4), rel=1e-9)


def test_small_differences_follow_bernoulli() -> None:
    """Near equal pressures the flow is the root of twice density times pressure difference."""
    ratio = 0.9999
    density = 3e5 / (287.05 * 293.15)
    expected = 1e-6 * math.sqrt(2.0 * density * (1.0 - ratio) * 3e5)
    assert _hole(ratio) == pytest.approx(expected, rel=2e-4)


@given(factor=st.floats(0.1, 10.0))
def test_flow_scales_with_pressure_area_and_root_of_temperature(factor: float) -> None:
    """Both pressures up, flow up; hotter air, less flow by the root."""
    once = mass_flow_rate(**HOLE)
    pressed = HOLE | {"upstream_pressure": factor * 3e5, "downstream_pressure": factor * 1e5}
    assert mass_flow_rate(**pressed) == pytest.approx(factor * once, rel=1e-12)
    assert mass_flow_rate(**(HOLE | {"flow_area": factor * 1e-6})) == pytest.approx(factor * once, rel=1e-12)
    hotter = HOLE | {"upstream_temperature": factor * 293.15}
    assert mass_flow_rate(**hotter) == pytest.approx(once / math.sqrt(factor), rel=1e-12)


def test_the_discharge_coefficient_is_a_share_of_the_ideal_flow() -> None:
    """Half the coefficient, half the flow."""
    assert mass_flow_rate(**HOLE, discharge_coefficient=0.5) == pytest.approx(0.5 * mass_flow_rate(**HOLE), rel=1e-14)


def test_a_hole_given_by_its_conductance_passes_the_same_choked_flow() -> None:
    """The two ways to state the size of a hole agree when it is choked."""
    conductance = sonic_conductance_of(effective_area=1e-6)
    found = mass_flow_rate_iso6358(**SIDES, sonic_conductance=conductance, critical_ratio=0.5283)
    assert found == pytest.approx(mass_flow_rate(**HOLE), rel=1e-12)


@pytest.mark.parametrize("law", [mass_flow_rate, mass_flow_rate_iso6358])
def test_a_swapped_pair_of_pressures_is_told_so(law: Callable[..., float]) -> None:
    """Flow against the pressure is refused, with the advice to swap the sides."""
    given = HOLE if law is mass_flow_rate else PART
    with pytest.raises(OutOfRange, match="give the higher one as upstream") as caught:
        law(**given | {"downstream_pressure": 3.1e5})
    assert caught.value.field == "downstream_pressure"


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("upstream_pressure", -1.0),
        ("upstream_pressure", math.nan),
        ("upstream_temperature", 0.0),
        ("downstream_pressure", -1.0),
        ("flow_area", -1e-6),
        ("discharge_coefficient", 1.2),
    ],
)
def test_an_impossible_hole_is_refused_by_name(field: str, value: float) -> None:
    """The message names the quantity that cannot be."""
    with pytest.raises(OutOfRange, match=field):
        mass_flow_rate(**(HOLE | {field: value}))


@pytest.mark.parametrize(("field", "value"), [("sonic_conductance", -1.0), ("critical_ratio", 1.0), ("critical_ratio", -0.1)])
def test_an_impossible_part_is_refused_by_name(field: str, value: float) -> None:
    """The message names the quantity that cannot be."""
    with pytest.raises(OutOfRange, match=field):
        mass_flow_rate_iso6358(**(PART | {field: value}))


@given(first=ratios, second=ratios)
def test_a_sharp_hole_passes_a_smaller_share_towards_equal_pressures(first: float, second: float) -> None:
    """Perry's coefficient falls from vacuum to equal pressures."""
    low, high = sorted((first, second))
    assert discharge_coefficient_perry(high) <= discharge_coefficient_perry(low) + 1e-12


@pytest.mark.parametrize("ratio", [-0.01, 1.01, math.nan])
def test_a_pressure_ratio_beyond_one_is_refused(ratio: float) -> None:
    """The relation holds from 0 to 1."""
    with pytest.raises(OutOfRange, match="pressure_ratio"):
        discharge_coefficient_perry(ratio)
