"""Laws of gear teeth: form factor, bending, pressure on the flank, and what they refuse."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.mechanics.gear_teeth import (
    RACK_TEETH,
    barth_factor,
    flank_radius,
    hertz_pressure,
    lewis_form_factor,
    lewis_stress,
    tooth_normal_force,
)
from stripdown.errors import OutOfRange, OutsideValidity

_FLANKS = {
    "normal_force": 100.0,
    "contact_length": 5e-3,
    "first_radius": 3e-3,
    "second_radius": 9e-3,
    "first_youngs_modulus": 205e9,
    "second_youngs_modulus": 3e9,
}
_TOOTH = {"tangential_force": 100.0, "face_width": 5e-3, "module": 1e-3, "form_factor": 0.3}


@given(teeth=st.floats(10.0, 1e5), more=st.floats(0.01, 1e4))
def test_more_teeth_make_a_stronger_form(teeth: float, more: float) -> None:
    """The factor rises with the count, from ten teeth to the rack."""
    assert 0.201 <= lewis_form_factor(teeth) < lewis_form_factor(teeth + more) <= lewis_form_factor(RACK_TEETH) == 0.485


@pytest.mark.parametrize(
    ("teeth", "factor"), [(10, 0.201), (12, 0.245), (16, 0.296), (20, 0.322), (75, 0.435), (math.inf, 0.485)]
)
def test_the_entries_of_the_table_are_met(teeth: float, factor: float) -> None:
    """Between them the factor is straight in one over the count; at them it is the table's."""
    assert lewis_form_factor(teeth) == pytest.approx(factor, abs=1e-12)


@pytest.mark.parametrize("teeth", [9, 9.99, 0, -12, math.nan, -math.inf])
def test_fewer_than_ten_teeth_are_beyond_the_table(teeth: float) -> None:
    """Said with the count that was asked for."""
    with pytest.raises(OutsideValidity, match="begins at 10 teeth"):
        lewis_form_factor(teeth)


def test_pressure_does_not_depend_on_the_order() -> None:
    """Which of the two is called the first is indifferent."""
    swapped = {
        **_FLANKS,
        "first_radius": 9e-3,
        "second_radius": 3e-3,
        "first_youngs_modulus": 3e9,
        "second_youngs_modulus": 205e9,
    }
    assert hertz_pressure(**swapped) == pytest.approx(hertz_pressure(**_FLANKS), rel=1e-12)


@given(radius=st.floats(1e-4, 1.0), more=st.floats(1.01, 100.0))
def test_rounder_contacts_press_harder(radius: float, more: float) -> None:
    """A larger radius spreads the load, and a flat most."""
    sharp, blunt, flat = (hertz_pressure(**{**_FLANKS, "second_radius": second}) for second in (radius, radius * more, math.inf))
    assert sharp > blunt > flat


def test_nothing_pressed_is_no_pressure() -> None:
    """And no force bends nothing."""
    assert hertz_pressure(**{**_FLANKS, "normal_force": 0.0}) == 0.0
    assert lewis_stress(**{**_TOOTH, "tangential_force": 0.0}) == 0.0


def test_the_rule_of_barth_starts_at_one() -> None:
    """At rest nothing is added; at its own speed, 600 feet a minute, the load is twice what it was."""
    assert barth_factor(pitch_line_speed=0.0) == 1.0
    assert barth_factor(pitch_line_speed=600 * 0.3048 / 60) == pytest.approx(2.0)


def test_a_rack_is_flat_and_a_gear_round() -> None:
    """Sixteen teeth of module 1 have 2.74 mm at 20 degrees."""
    assert flank_radius(module=1e-3, tooth_count=16) == pytest.approx(8e-3 * math.sin(math.radians(20.0)))
    assert flank_radius(module=1e-3, tooth_count=RACK_TEETH) == math.inf


@pytest.mark.parametrize(
    ("ask", "complaint"),
    [
        (lambda: lewis_stress(**{**_TOOTH, "tangential_force": -1.0}), "tangential_force"),
        (lambda: lewis_stress(**{**_TOOTH, "module": 0.0}), "module"),
        (lambda: lewis_stress(**{**_TOOTH, "form_factor": 0.0}), "form_factor"),
        (lambda: tooth_normal_force(tangential_force=1.0, pressure_angle=20.0), "pressure_angle"),
        (lambda: flank_radius(module=1e-3, tooth_count=-16), "tooth_count"),
        (lambda: hertz_pressure(**{**_FLANKS, "normal_force": -1.0}), "normal_force"),
        (lambda: hertz_pressure(**{**_FLANKS, "second_radius": 0.0}), "second_radius"),
        (lambda: hertz_pressure(**{**_FLANKS, "first_radius": math.inf, "second_radius": math.inf}), "Two flats"),
        (lambda: hertz_pressure(**_FLANKS, second_poisson_ratio=0.7), "second_poisson_ratio"),
        (lambda: hertz_pressure(**{**_FLANKS, "first_youngs_modulus": 205.0}), "first_youngs_modulus"),
        (lambda: barth_factor(pitch_line_speed=-1.0), "pitch_line_speed"),
    ],
)
def test_what_cannot_be_is_refused(ask: Callable[[], float], complaint: str) -> None:
    """One message each: the field, its value, what would be right."""
    with pytest.raises(OutOfRange, match=complaint):
        ask()
