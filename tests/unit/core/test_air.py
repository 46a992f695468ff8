"""Moist air: limits, directions, and what an impossible day is told."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.air import air_density, air_gas_constant, air_heat_capacity_ratio, speed_of_sound, vapour_mole_fraction
from stripdown.core.constants import AIR_MOLAR_MASS, WATER_MOLAR_MASS
from stripdown.errors import OutOfRange, OutsideValidity

temperatures = st.floats(233.15, 323.15)
pressures = st.floats(60e3, 110e3)
humidities = st.floats(0.0, 1.0)


@given(temperature=temperatures, pressure=pressures, low=humidities, high=humidities)
def test_damp_air_is_lighter(temperature: float, pressure: float, low: float, high: float) -> None:
    """At the same temperature and pressure more vapour never makes air heavier."""
    low, high = sorted((low, high))
    drier = air_density(temperature=temperature, pressure=pressure, relative_humidity=low)
    damper = air_density(temperature=temperature, pressure=pressure, relative_humidity=high)
    assert damper <= drier * (1.0 + 1e-12)


@given(temperature=temperatures, pressure=pressures, humidity=humidities)
def test_air_is_nearly_an_ideal_mixture(temperature: float, pressure: float, humidity: float) -> None:
    """The density is that of an ideal mixture of air and vapour within two parts in a thousand."""
    vapour = vapour_mole_fraction(temperature=temperature, pressure=pressure, relative_humidity=humidity)
    mixture = AIR_MOLAR_MASS + vapour * (WATER_MOLAR_MASS - AIR_MOLAR_MASS)
    ideal = pressure * mixture / (8.314462618 * temperature)
    assert air_density(temperature=temperature, pressure=pressure, relative_humidity=humidity) == pytest.approx(ideal, rel=2e-3)


@given(temperature=temperatures, pressure=pressures, humidity=humidities)
def test_gas_constant_gives_the_density_back(temperature: float, pressure: float, humidity: float) -> None:
    """An ideal gas with the constant of the day has the density of the day."""
    day = {"temperature": temperature, "pressure": pressure, "relative_humidity": humidity}
    assert pressure / (air_gas_constant(**day) * temperature) == pytest.approx(air_density(**day), rel=1e-14)


def test_vapour_is_proportional_to_humidity() -> None:
    """Half the humidity is half the vapour, none is none."""
    day = {"temperature": 298.15, "pressure": 1e5}
    full = vapour_mole_fraction(**day, relative_humidity=1.0)
    assert vapour_mole_fraction(**day, relative_humidity=0.5) == pytest.approx(0.5 * full, rel=1e-14)
    assert vapour_mole_fraction(**day, relative_humidity=0.0) == 0.0


def test_sound_is_faster_in_warm_and_in_damp_air() -> None:
    """Both warmth and vapour quicken sound."""
    cool = speed_of_sound(temperature=283.15, pressure=1e5, relative_humidity=0.2)
    warm = speed_of_sound(temperature=303.15, pressure=1e5, relative_humidity=0.2)
    damp = speed_of_sound(temperature=303.15, pressure=1e5, relative_humidity=0.9)
    assert cool < warm < damp


def test_dry_air_has_the_ratio_of_a_gas_of_two_atoms() -> None:
    """Without vapour the ratio of heat capacities is 1.4; with it less."""
    assert air_heat_capacity_ratio(temperature=303.15, pressure=1e5, relative_humidity=0.0) == pytest.approx(1.4, rel=1e-14)
    assert 1.38 < air_heat_capacity_ratio(temperature=303.15, pressure=1e5, relative_humidity=1.0) < 1.4


@pytest.mark.parametrize("celsius", [-40.0, 50.0])
def test_density_is_known_at_both_ends_of_the_range(celsius: float) -> None:
    """The range includes its ends."""
    assert air_density(temperature=celsius + 273.15, pressure=1e5, relative_humidity=0.5) > 1.0


@pytest.mark.parametrize("celsius", [-40.01, 50.01, -100.0, 200.0])
def test_density_beyond_the_range_is_refused_with_its_source(celsius: float) -> None:
    """Air colder than -40 or warmer than 50 °C is outside the formula, and the refusal says so."""
    with pytest.raises(OutsideValidity, match="temperature") as caught:
        air_density(temperature=celsius + 273.15, pressure=1e5, relative_humidity=0.5)
    assert caught.value.quantity == "temperature"
    assert caught.value.reference == "picard_2008"
    assert caught.value.limits == pytest.approx((233.15, 323.15))


def test_density_of_very_high_pressure_is_refused() -> None:
    """Above 10 bar the formula is not vouched for."""
    assert air_density(temperature=293.15, pressure=1e6, relative_humidity=0.0) > 11.0
    with pytest.raises(OutsideValidity, match="pressure"):
        air_density(temperature=293.15, pressure=1.01e6, relative_humidity=0.0)


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("temperature", -5.0),
        ("temperature", 0.0),
        ("temperature", math.nan),
        ("pressure", 0.0),
        ("pressure", -1e5),
        ("pressure", math.inf),
        ("relative_humidity", -0.1),
        ("relative_humidity", 1000.0),
        ("relative_humidity", math.nan),
    ],
)
def test_impossible_air_is_refused_by_name(field: str, value: float) -> None:
    """The message names the quantity that cannot be."""
    day = {"temperature": 293.15, "pressure": 1e5, "relative_humidity": 0.5, field: value}
    with pytest.raises(OutOfRange, match=field) as caught:
        air_density(**day)
    assert caught.value.field == field


def test_humidity_in_per_cent_is_told_the_fraction() -> None:
    """Fifty is not a humidity; the message offers 0.5."""
    with pytest.raises(OutOfRange, match=r"50 % is 0\.5"):
        air_density(temperature=293.15, pressure=1e5, relative_humidity=50.0)


def test_vapour_cannot_press_more_than_the_air() -> None:
    """Saturated air of 50 °C cannot have a pressure of a tenth of an atmosphere."""
    with pytest.raises(OutOfRange, match="vapour"):
        air_density(temperature=323.15, pressure=1e4, relative_humidity=1.0)
    assert air_density(temperature=323.15, pressure=1e4, relative_humidity=0.0) > 0.1
