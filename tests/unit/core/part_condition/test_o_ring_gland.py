from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.part_condition.band import BandPlace
from stripdown.core.part_condition.o_ring_gland import OringGland, o_ring_gland
from stripdown.errors import OutOfRange, OutsideValidity

_RING = {"cross_section": 1.78e-3, "gland_depth": 1.42e-3, "gland_width": 2.4e-3}
_ON_GROOVE = {"inner_diameter": 20.0e-3, "gland_inner_diameter": 20.4e-3}


def _gland(**changed: float) -> OringGland:
    return o_ring_gland(**(_RING | changed))


def _place(gland: OringGland, name: str) -> BandPlace:
    return next(verdict.place for verdict in gland.verdicts if verdict.name == name)


def test_the_three_figures_of_a_good_ring() -> None:
    """Squeeze (1.78 - 1.42)/1.78, fill pi 1.78²/4 over 1.42 x 2.4, stretch 0.4/20."""
    gland = _gland(**_ON_GROOVE)
    assert gland.squeeze == pytest.approx(0.36 / 1.78)
    assert gland.fill == pytest.approx(0.25 * math.pi * 1.78**2 / (1.42 * 2.4))
    assert gland.stretch == pytest.approx(0.02)
    assert gland.is_within_all_bands


def test_without_diameters_there_is_no_stretch() -> None:
    """It is left out, not guessed."""
    gland = _gland()
    assert gland.stretch is None
    assert gland.stretched_section is None
    assert {verdict.name for verdict in gland.verdicts} == {"squeeze", "fill"}


def test_a_stretched_ring_keeps_its_volume() -> None:
    """Section times length of the cord, before and after."""
    gland = _gland(inner_diameter=18e-3, gland_inner_diameter=19e-3)
    section = gland.stretched_section
    assert section is not None
    assert section**2 * (19e-3 + section) == pytest.approx(1.78e-3**2 * (18e-3 + 1.78e-3), rel=1e-12)
    assert section < 1.78e-3


@given(depth=st.floats(1.2e-3, 1.7e-3), more=st.floats(1e-6, 5e-5))
def test_a_deeper_gland_squeezes_and_fills_less(depth: float, more: float) -> None:
    """Monotone, as it must be."""
    shallow, deep = _gland(gland_depth=depth), _gland(gland_depth=depth + more)
    assert deep.squeeze < shallow.squeeze
    assert deep.fill < shallow.fill
    assert shallow.least_squeeze < shallow.squeeze < shallow.greatest_squeeze


@pytest.mark.parametrize(
    ("changed", "name", "place"),
    [
        ({"gland_depth": 1.2e-3, "gland_width": 2.8e-3}, "squeeze", BandPlace.ABOVE),
        ({"gland_depth": 1.6e-3}, "squeeze", BandPlace.BELOW),
        ({"gland_width": 1.9e-3}, "fill", BandPlace.ABOVE),
        ({**_ON_GROOVE, "gland_inner_diameter": 21.5e-3}, "stretch", BandPlace.ABOVE),
        ({**_ON_GROOVE, "gland_inner_diameter": 19.9e-3}, "stretch", BandPlace.BELOW),
    ],
)
def test_each_figure_is_held_against_its_band(changed: dict[str, float], name: str, place: BandPlace) -> None:
    """Below, inside or above; and the whole is then not within."""
    gland = _gland(**changed)
    assert _place(gland, name) is place
    assert not gland.is_within_all_bands


def test_a_ring_that_does_not_reach_the_wall_is_told() -> None:
    """Negative squeeze is a finding, not an error."""
    gland = _gland(gland_depth=1.9e-3)
    assert gland.squeeze < 0.0
    assert any("does not reach the wall" in note for note in gland.notes)


def test_the_tolerance_of_the_ring_is_remembered() -> None:
    """At 15.5 % of squeeze a thin ring within its tolerance falls out of the band."""
    gland = _gland(gland_depth=1.504e-3)
    assert _place(gland, "squeeze") is BandPlace.INSIDE
    assert any("tolerance" in note for note in gland.notes)
    assert not any("tolerance" in note for note in _gland(gland_depth=1.42e-3, tolerance=0.01e-3).notes)


@pytest.mark.parametrize(
    "changed",
    [
        {"gland_width": 1.7e-3},
        {"gland_depth": 0.9e-3, "gland_width": 1.9e-3},
        {"inner_diameter": 24e-3, "gland_inner_diameter": 20.4e-3},
    ],
)
def test_a_ring_larger_than_its_gland_is_refused(changed: dict[str, float]) -> None:
    """Too wide for the groove, more rubber than room, or a ring that lies outside the wall."""
    with pytest.raises(OutOfRange, match="larger than its gland"):
        _gland(**changed)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"cross_section": -1e-3}, "cross_section"),
        ({"gland_depth": 0.0}, "gland_depth"),
        ({"gland_width": math.inf}, "gland_width"),
        ({"inner_diameter": 20e-3}, "gland_inner_diameter"),
        ({"gland_inner_diameter": 20e-3}, "inner_diameter"),
        ({"inner_diameter": -1.0, "gland_inner_diameter": 20e-3}, "inner_diameter"),
        ({"tolerance": -1e-5}, "tolerance"),
    ],
)
def test_what_cannot_be_is_refused_by_name(changed: dict[str, Any], field: str) -> None:
    """Negative or missing sizes: one message with the field."""
    with pytest.raises(OutOfRange) as refused:
        _gland(**changed)
    assert refused.value.field == field
    assert refused.value.hint


def test_beyond_the_table_the_tolerance_is_asked_for() -> None:
    """A section of 10 mm has none in the table, and needs none if it is given."""
    big = {"cross_section": 10e-3, "gland_depth": 8e-3, "gland_width": 14e-3}
    with pytest.raises(OutsideValidity, match="give the tolerance yourself"):
        _gland(**big)
    assert _gland(**big, tolerance=0.2e-3).squeeze == pytest.approx(0.2)
