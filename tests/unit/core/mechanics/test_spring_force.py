"""Spring laws: scaling, limits, and what an impossible spring is told."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.mechanics.spring_force import (
    SpringEnds,
    active_coil_mass,
    natural_frequency,
    solid_length,
    spring_rate,
    stored_energy,
)
from stripdown.errors import OutOfRange

MAIN_SPRING = {"wire_diameter": 1.4e-3, "mean_diameter": 12.6e-3, "active_coils": 34.0, "shear_modulus": 81.5e9}


def test_a_plausible_main_spring_has_a_plausible_rate() -> None:
    """A main spring's usual wire and coils give a rate in the usual range of gearbox springs."""
    assert 350.0 < spring_rate(**MAIN_SPRING) < 900.0


@given(factor=st.floats(1.01, 2.0))
def test_rate_scales_with_wire_coil_and_steel(factor: float) -> None:
    """Fourth power of the wire, inverse third of the coil, inverse of the number of coils, proportional to the modulus."""
    rate = spring_rate(**MAIN_SPRING)
    for name, power in (("wire_diameter", 4.0), ("mean_diameter", -3.0), ("active_coils", -1.0), ("shear_modulus", 1.0)):
        changed = MAIN_SPRING | {name: factor * MAIN_SPRING[name]}
        assert spring_rate(**changed) == pytest.approx(factor**power * rate, rel=1e-12), name


def test_two_springs_in_series_are_one_with_all_the_coils() -> None:
    """Cutting a spring in two halves doubles the rate of each: the compliances add."""
    whole = spring_rate(**MAIN_SPRING)
    half = spring_rate(**(MAIN_SPRING | {"active_coils": 17.0}))
    assert 1.0 / half + 1.0 / half == pytest.approx(1.0 / whole, rel=1e-12)


@pytest.mark.parametrize("field", list(MAIN_SPRING))
@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
def test_an_impossible_spring_is_refused_by_name(field: str, value: float) -> None:
    """The message names the field that cannot be."""
    with pytest.raises(OutOfRange, match=field):
        spring_rate(**(MAIN_SPRING | {field: value}))


def test_wire_as_thick_as_the_coil_is_refused() -> None:
    """A coil needs a hole: the mean diameter must exceed the wire's."""
    with pytest.raises(OutOfRange, match="leaves no hole"):
        spring_rate(**(MAIN_SPRING | {"mean_diameter": 1.4e-3}))


def test_ringing_follows_from_rate_and_moving_mass() -> None:
    """A spring held at both ends rings at half the root of rate over mass, however many coils carry it."""
    steel = MAIN_SPRING | {"density": 7850.0}
    coils = {name: steel[name] for name in ("wire_diameter", "mean_diameter", "active_coils", "density")}
    found = natural_frequency(**steel)
    assert found == pytest.approx(0.5 * math.sqrt(spring_rate(**MAIN_SPRING) / active_coil_mass(**coils)), rel=1e-12)
    assert natural_frequency(**(steel | {"active_coils": 17.0})) == pytest.approx(2.0 * found, rel=1e-12)


def test_mass_is_that_of_the_wire_unrolled() -> None:
    """The active coils weigh as much as a straight wire of their length."""
    wire = 34.0 * math.pi * 12.6e-3
    mass = active_coil_mass(wire_diameter=1.4e-3, mean_diameter=12.6e-3, active_coils=34.0, density=7850.0)
    assert mass == pytest.approx(7850.0 * wire * math.pi * 0.7e-3**2, rel=1e-12)


def test_ground_ends_save_one_wire_of_solid_length() -> None:
    """Twenty coils of 1.4 mm stack to 28 mm ground, and one wire more otherwise."""
    assert solid_length(wire_diameter=1.4e-3, total_coils=20, ends=SpringEnds.CLOSED_AND_GROUND) == pytest.approx(28e-3)
    for ends in (SpringEnds.CLOSED, SpringEnds.OPEN):
        assert solid_length(wire_diameter=1.4e-3, total_coils=20, ends=ends) == pytest.approx(29.4e-3)


@given(rate=st.floats(1.0, 1e5), start=st.floats(0.0, 0.3), middle=st.floats(0.0, 0.3), end=st.floats(0.0, 0.3))
def test_stored_energy_depends_on_the_ends_only(rate: float, start: float, middle: float, end: float) -> None:
    """What is stored on the way and on the way back cancels; two parts of a way add up."""

    def energy(a: float, b: float) -> float:
        return stored_energy(rate=rate, compression_start=a, compression_end=b)

    assert energy(start, end) == -energy(end, start)
    assert energy(start, middle) + energy(middle, end) == pytest.approx(energy(start, end), abs=1e-12 * rate)


def test_stored_energy_is_mean_force_times_way() -> None:
    """A spring of 520 N/m from 55 to 107 mm takes up the mean of both forces over 52 mm."""
    expected = 0.5 * (520 * 0.055 + 520 * 0.107) * 0.052
    assert stored_energy(rate=520.0, compression_start=0.055, compression_end=0.107) == pytest.approx(expected, rel=1e-12)
