"""The pressure-decay leak: signs, symmetry, units, and what cannot be measured."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.mechanics.pressure_decay import pressure_decay_leak
from stripdown.errors import OutOfRange

TEST = {
    "volume": 30e-6,
    "pressure_start": 3.0e5,
    "pressure_end": 2.9e5,
    "temperature_start": 293.15,
    "temperature_end": 293.15,
    "duration": 10.0,
}

pressures = st.floats(1.1e5, 8e5)


def test_a_fall_is_a_leak_outwards_and_positive() -> None:
    """Air lost counts positive, in moles, in mass and as a hole."""
    leak = pressure_decay_leak(**TEST)
    assert leak.molar_rate > 0.0
    assert leak.mass_rate > 0.0
    assert leak.leak_area > 0.0
    assert leak.notes == ()


def test_a_vacuum_that_fills_is_a_leak_inwards_and_negative() -> None:
    """Air gained counts negative, in moles, in mass and as a hole; the size of the hole is still found."""
    leak = pressure_decay_leak(**(TEST | {"pressure_start": 2e4, "pressure_end": 3e4}))
    assert leak.molar_rate < 0.0
    assert leak.mass_rate < 0.0
    assert leak.leak_area < 0.0
    assert leak.notes == ()


@given(start=pressures, end=pressures)
def test_swapping_the_readings_turns_the_signs(start: float, end: float) -> None:
    """A rise is the same fall read backwards: opposite sign, same size."""
    fall = pressure_decay_leak(**(TEST | {"pressure_start": start, "pressure_end": end}))
    rise = pressure_decay_leak(**(TEST | {"pressure_start": end, "pressure_end": start}))
    assert rise.molar_rate == pytest.approx(-fall.molar_rate, rel=1e-12)
    assert rise.mass_rate == pytest.approx(-fall.mass_rate, rel=1e-12)
    assert rise.leak_area == pytest.approx(-fall.leak_area, rel=1e-9)


def test_a_rise_above_the_air_outside_is_no_leak_and_says_so() -> None:
    """Gas does not leak into a higher pressure: the numbers come with a note."""
    leak = pressure_decay_leak(**(TEST | {"pressure_start": 2.9e5, "pressure_end": 3.0e5}))
    assert leak.leak_area < 0.0
    assert "against the pressure" in leak.notes[0]


def test_a_fall_below_the_air_outside_is_no_leak_and_says_so() -> None:
    """A fall that passes the outside pressure cannot be a leak all the way."""
    leak = pressure_decay_leak(**(TEST | {"pressure_start": 1.2e5, "pressure_end": 0.8e5}))
    assert math.isfinite(leak.leak_area)
    assert leak.notes


def test_mass_is_moles_times_the_molar_mass_of_air() -> None:
    """The two rates are one."""
    leak = pressure_decay_leak(**TEST)
    assert leak.mass_rate / leak.molar_rate == pytest.approx(0.028965, rel=1e-4)


def test_no_change_is_no_leak() -> None:
    """A tight volume leaks nothing, under pressure and open to the air."""
    for pressure in (3e5, 101325.0):
        leak = pressure_decay_leak(**(TEST | {"pressure_start": pressure, "pressure_end": pressure}))
        assert (leak.molar_rate, leak.mass_rate, leak.leak_area, leak.notes) == (0.0, 0.0, 0.0, ())


def test_cooling_alone_is_no_leak() -> None:
    """A fall in proportion to the absolute temperature loses no air: one kelvin in 293 at 3 bar is 10 mbar."""
    cooled = TEST | {"temperature_end": 292.15, "pressure_end": 3.0e5 * 292.15 / 293.15}
    leak = pressure_decay_leak(**cooled)
    assert leak.molar_rate == pytest.approx(0.0, abs=1e-18)
    assert abs(leak.leak_area) < 1e-20
    assert cooled["pressure_start"] - cooled["pressure_end"] == pytest.approx(1.02e3, rel=0.01)


def test_warming_at_constant_pressure_is_a_leak() -> None:
    """Air that warms without pressing more has lost some: the area is the integral over the warming."""
    leak = pressure_decay_leak(**(TEST | {"pressure_end": 3.0e5, "temperature_end": 296.15}))
    nearly = pressure_decay_leak(**(TEST | {"pressure_end": 3.0e5 - 1e-3, "temperature_end": 296.15}))
    assert leak.leak_area > 0.0
    assert nearly.leak_area == pytest.approx(leak.leak_area, rel=1e-6)


@given(split=st.floats(0.05, 0.95))
def test_a_fall_read_in_two_parts_is_the_same_hole(split: float) -> None:
    """Areas of two waits, weighted with their durations, make the area of the whole, whatever the hole does between."""
    middle = 6e5 + split * (1.3e5 - 6e5)
    whole = pressure_decay_leak(**(TEST | {"pressure_start": 6e5, "pressure_end": 1.3e5}))
    first = pressure_decay_leak(**(TEST | {"pressure_start": 6e5, "pressure_end": middle}))
    second = pressure_decay_leak(**(TEST | {"pressure_start": middle, "pressure_end": 1.3e5}))
    assert first.leak_area + second.leak_area == pytest.approx(whole.leak_area, rel=1e-9)


def test_a_fall_all_the_way_to_the_air_outside_has_a_hole() -> None:
    """An ideal hole empties a volume in finite time: the slope at equal pressures does no harm."""
    leak = pressure_decay_leak(**(TEST | {"pressure_end": 101325.0}))
    near = pressure_decay_leak(**(TEST | {"pressure_end": 101325.0 * (1 + 1e-10)}))
    assert leak.leak_area == pytest.approx(near.leak_area, rel=1e-4)


def test_air_that_came_without_a_difference_of_pressure_is_refused() -> None:
    """Temperature alone, open to the air, tells nothing about a leak."""
    with pytest.raises(OutOfRange, match="no pressure stood across"):
        pressure_decay_leak(**(TEST | {"pressure_start": 101325.0, "pressure_end": 101325.0, "temperature_end": 300.0}))


def test_a_vacuum_chamber_outside_is_allowed() -> None:
    """Testing in a vacuum chamber: outside pressure zero, choked all the way."""
    inside = pressure_decay_leak(**TEST, ambient_pressure=0.0)
    assert inside.leak_area == pytest.approx(pressure_decay_leak(**TEST).leak_area, rel=1e-12)


@pytest.mark.parametrize("field", list(TEST))
@pytest.mark.parametrize("value", [0.0, -1.0, math.nan, math.inf])
def test_an_impossible_reading_is_refused_by_name(field: str, value: float) -> None:
    """The message names the reading that cannot be; pressures are absolute."""
    with pytest.raises(OutOfRange, match=field):
        pressure_decay_leak(**(TEST | {field: value}))
