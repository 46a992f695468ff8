"""Closed forms: limits, robust roots, and what the impossible is told."""

from __future__ import annotations

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.interior_ballistics.closed_forms import (
    IdealLaunch,
    adiabatic_launch_speed,
    closed_cylinder_compression,
    isothermal_launch_speed,
    open_reservoir_launch_speed,
)
from stripdown.errors import OutOfRange

CYLINDER = {"volume": 23e-6, "pressure": 101325.0, "temperature": 293.15}
LAUNCH = IdealLaunch(
    reservoir_pressure=6e5, reservoir_volume=5e-6, bore_diameter=6.05e-3, travel=0.353, ball_mass=0.2e-3, friction_force=0.02
)


def _work_of(ratio: float) -> float:
    """Work for a volume ratio in 23 cm3 of the atmosphere, straight from the energy balance."""
    return 101325.0 * 23e-6 * ((math.pow(ratio, 0.4) - 1.0) / 0.4 - (1.0 - 1.0 / ratio))


@given(ratio=st.floats(1.05, 200.0))
def test_compression_inverts_the_energy_balance(ratio: float) -> None:
    """The work of a known compression gives that compression back."""
    found = closed_cylinder_compression(**CYLINDER, work=_work_of(ratio))
    assert found.volume_ratio == pytest.approx(ratio, rel=1e-9)
    assert found.pressure == pytest.approx(101325.0 * ratio**1.4, rel=1e-8)
    assert found.temperature == pytest.approx(293.15 * ratio**0.4, rel=1e-8)


@given(work=st.floats(0.0, 1e6))
def test_compression_answers_any_work(work: float) -> None:
    """From nothing to absurd the answer is finite and keeps the mass: p V / T stays."""
    found = closed_cylinder_compression(**CYLINDER, work=work)
    assert found.volume_ratio >= 1.0
    assert found.pressure / found.volume_ratio / found.temperature == pytest.approx(101325.0 / 293.15, rel=1e-9)


@pytest.mark.parametrize("work", [0.0, 5e-324, 1e-300, 1e-30])
def test_hardly_any_work_hardly_compresses(work: float) -> None:
    """Vanishing work leaves the air as it was."""
    found = closed_cylinder_compression(**CYLINDER, work=work)
    assert found.volume_ratio == pytest.approx(1.0, abs=1e-12)


def test_small_work_compresses_as_a_spring() -> None:
    """A small compression costs g p V x^2 / 2, x the share of the volume: air is then a spring."""
    work = 1e-8
    found = closed_cylinder_compression(**CYLINDER, work=work)
    assert found.volume_ratio - 1.0 == pytest.approx(math.sqrt(2 * work / (1.4 * 101325.0 * 23e-6)), rel=1e-3)


def test_beyond_ten_bar_the_answer_carries_a_note() -> None:
    """The note begins where the ideal gas errs by one per cent, and the answer is still given."""
    at_ten_bar = _work_of((1e6 / 101325.0) ** (1 / 1.4))
    assert closed_cylinder_compression(**CYLINDER, work=0.999 * at_ten_bar).notes == ()
    beyond = closed_cylinder_compression(**CYLINDER, work=1.001 * at_ten_bar)
    assert "10 bar" in beyond.notes[0]


@pytest.mark.parametrize(
    ("field", "value"),
    [("volume", 0.0), ("pressure", -1.0), ("temperature", 0.0), ("work", -1.0), ("work", math.nan), ("volume", math.inf)],
)
def test_an_impossible_cylinder_is_refused_by_name(field: str, value: float) -> None:
    """The message names the quantity that cannot be."""
    with pytest.raises(OutOfRange, match=field):
        closed_cylinder_compression(**(CYLINDER | {"work": 1.0} | {field: value}))


@given(pressure=st.floats(1.2e5, 5e6), travel=st.floats(1e-3, 2.0), mass=st.floats(1e-5, 1e-2))
def test_warm_air_drives_harder_than_air_that_cools(pressure: float, travel: float, mass: float) -> None:
    """The isothermal launch is never slower than the adiabatic one."""
    launch = dataclasses.replace(LAUNCH, reservoir_pressure=pressure, travel=travel, ball_mass=mass)
    assert isothermal_launch_speed(launch) >= adiabatic_launch_speed(launch)


def test_a_huge_reservoir_pushes_with_constant_pressure() -> None:
    """Both laws become force times way over half the mass when the reservoir is endless."""
    launch = dataclasses.replace(LAUNCH, reservoir_volume=1e3)
    force = (6e5 - 101325.0) * math.pi * 6.05e-3**2 / 4 - 0.02
    expected = math.sqrt(2 * force * 0.353 / 0.2e-3)
    assert adiabatic_launch_speed(launch) == pytest.approx(expected, rel=1e-6)
    assert isothermal_launch_speed(launch) == pytest.approx(expected, rel=1e-6)


def test_energy_does_not_depend_on_the_balls_mass() -> None:
    """Without inertia of the air the work goes into any ball alike: speed as the inverse root of the mass."""
    heavy = dataclasses.replace(LAUNCH, ball_mass=0.8e-3)
    assert adiabatic_launch_speed(LAUNCH) == pytest.approx(2.0 * adiabatic_launch_speed(heavy), rel=1e-12)


def test_a_ball_that_stops_before_the_end_has_no_speed() -> None:
    """Too weak a reservoir, or too long a bore, leaves the ball standing: zero, not an error."""
    weak = dataclasses.replace(LAUNCH, reservoir_pressure=1.0e5)
    long = dataclasses.replace(LAUNCH, travel=50.0)
    for launch in (weak, long):
        assert adiabatic_launch_speed(launch) == 0.0
        assert isothermal_launch_speed(launch) == 0.0


@pytest.mark.parametrize("field", ["reservoir_pressure", "reservoir_volume", "bore_diameter", "ball_mass"])
def test_an_impossible_launch_is_refused_by_name(field: str) -> None:
    """The message names the quantity that cannot be."""
    with pytest.raises(OutOfRange, match=field):
        adiabatic_launch_speed(dataclasses.replace(LAUNCH, **{field: 0.0}))


@given(travel=st.floats(1e-3, 100.0), step=st.floats(1e-3, 10.0), mass=st.floats(1e-5, 1.0))
def test_an_evacuated_tube_speeds_up_towards_its_limit(travel: float, step: float, mass: float) -> None:
    """A longer tube is never slower, and none passes the limit."""
    tube = {"pressure": 101325.0, "density": 1.204, "bore_diameter": 0.038, "ball_mass": mass}
    shorter = open_reservoir_launch_speed(**tube, travel=travel)
    longer = open_reservoir_launch_speed(**tube, travel=travel + step)
    assert shorter <= longer <= math.sqrt(101325.0 / 1.204) * (1 + 1e-12)


def test_a_short_evacuated_tube_feels_only_the_ball() -> None:
    """At first the air behind weighs nothing: v^2 = 2 p A x / m."""
    speed = open_reservoir_launch_speed(pressure=1e5, density=1.2, bore_diameter=0.038, travel=1e-4, ball_mass=0.02)
    assert speed == pytest.approx(math.sqrt(2 * 1e5 * math.pi * 0.038**2 / 4 * 1e-4 / 0.02), rel=1e-4)
