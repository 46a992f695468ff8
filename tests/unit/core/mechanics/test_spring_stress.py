"""Stress in spring wire: limits of the factors, and what an impossible index is told."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.mechanics.spring_stress import bergstraesser_factor, shear_stress, wahl_factor, wire_tensile_strength
from stripdown.errors import OutOfRange


@given(index=st.floats(1.5, 1e4), step=st.floats(0.01, 10.0))
def test_wider_coils_have_less_curvature_stress(index: float, step: float) -> None:
    """Both factors fall towards one as the coil gets wider."""
    for factor in (wahl_factor, bergstraesser_factor):
        assert 1.0 < factor(index + step) < factor(index)


def test_a_straight_bar_needs_no_factor() -> None:
    """In the limit of a huge coil both factors are one."""
    assert wahl_factor(1e9) == pytest.approx(1.0, abs=1e-8)
    assert bergstraesser_factor(1e9) == pytest.approx(1.0, abs=1e-8)


@pytest.mark.parametrize("index", [1.0, 0.5, 0.0, -4.0, math.nan, math.inf])
def test_an_index_of_one_or_less_is_refused(index: float) -> None:
    """Such a coil could not be wound."""
    for factor in (wahl_factor, bergstraesser_factor):
        with pytest.raises(OutOfRange, match="spring_index"):
            factor(index)


def test_stress_is_that_of_a_bar_in_torsion() -> None:
    """Force at the lever of half the coil twists the wire: torque over polar section modulus."""
    torque, modulus = 60.0 * 12.6e-3 / 2, math.pi * 1.4e-3**3 / 16
    assert shear_stress(force=60.0, wire_diameter=1.4e-3, mean_diameter=12.6e-3) == pytest.approx(torque / modulus, rel=1e-12)


def test_thin_wire_is_stronger() -> None:
    """Wire of one millimetre has the strength that the law is named for; thinner wire more, thicker less."""
    law = {"strength_at_one_millimetre": 2211e6, "exponent": 0.145}
    assert wire_tensile_strength(wire_diameter=1e-3, **law) == pytest.approx(2211e6, rel=1e-12)
    assert wire_tensile_strength(wire_diameter=0.5e-3, **law) > 2211e6 > wire_tensile_strength(wire_diameter=2e-3, **law)
