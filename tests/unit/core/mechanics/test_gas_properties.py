"""Viscosity and conductivity of air: shape of the laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.mechanics.gas_properties import sutherland_viscosity, thermal_conductivity


@given(temperature=st.floats(150.0, 1500.0), step=st.floats(0.1, 100.0))
def test_both_grow_with_temperature(temperature: float, step: float) -> None:
    """Warmer air is more viscous and conducts better."""
    assert sutherland_viscosity(temperature + step) > sutherland_viscosity(temperature)
    assert thermal_conductivity(temperature + step) > thermal_conductivity(temperature)


def test_hot_air_approaches_the_square_root_law() -> None:
    """At very high temperature the viscosity grows as the root of the temperature."""
    assert sutherland_viscosity(4e8) / sutherland_viscosity(1e8) == pytest.approx(2.0, rel=1e-5)
    assert thermal_conductivity(4e8) / thermal_conductivity(1e8) == pytest.approx(2.0, rel=1e-5)


def test_the_laws_are_the_same_without_the_compiler() -> None:
    """Machine code and Python agree to the last digits."""
    for law in (sutherland_viscosity, thermal_conductivity):
        plain = getattr(law, "py_func", law)
        assert math.isclose(law(317.3), plain(317.3), rel_tol=1e-14)
