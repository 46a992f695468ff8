"""Readings move along the ball's path and back, with their uncertainty."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.mechanics.ball_drag import BallFlight, fly
from stripdown.core.shot_statistics import (
    Chronograph,
    muzzle_from_reading,
    reading_from_muzzle,
    two_screen_uncertainty,
)
from stripdown.errors import OutOfRange, OutsideValidity

BALL = 0.2e-3


@given(st.floats(30, 200), st.floats(0.12e-3, 0.48e-3), st.floats(0.2, 10), st.floats(0, 0.4), st.floats(-2, 2))
def test_there_and_back(speed: float, ball_mass: float, distance: float, spacing: float, bias: float) -> None:
    """The muzzle speed of the reading of a muzzle speed is that muzzle speed."""
    chronograph = Chronograph(screen_spacing=spacing, bias=bias)
    reading = reading_from_muzzle(speed, ball_mass=ball_mass, distance=distance, chronograph=chronograph)
    found = muzzle_from_reading(reading.speed, ball_mass=ball_mass, distance=distance, chronograph=chronograph)
    assert found.speed == pytest.approx(speed, rel=1e-9)
    assert found.ratio > 1.0


def test_at_the_muzzle_nothing_changes() -> None:
    """A chronograph at the muzzle is taken at its word."""
    found = muzzle_from_reading(98.0, ball_mass=BALL, distance=0.0)
    assert (found.speed, found.standard_uncertainty, found.ratio) == (98.0, 0.0, 1.0)
    assert found.energy == pytest.approx(0.5 * BALL * 98.0**2)


def test_uncertainty_grows_with_the_distance_moved() -> None:
    """Drag is known to a few per cent only, so a far chronograph says less of the muzzle."""
    near, far = (muzzle_from_reading(98.0, ball_mass=BALL, distance=distance) for distance in (0.3, 3.0))
    assert 0.0 < near.standard_uncertainty < far.standard_uncertainty
    expected = math.log(far.ratio) * BallFlight().drag_uncertainty * far.speed
    assert far.standard_uncertainty == pytest.approx(expected)


def test_parts_of_the_uncertainty_add_in_squares() -> None:
    """Instrument, place and drag are independent."""
    chronograph = Chronograph(relative_uncertainty=0.005, distance_uncertainty=0.05)
    flight = BallFlight(drag_coefficient=0.45)
    found = muzzle_from_reading(98.0, ball_mass=BALL, distance=1.0, chronograph=chronograph, flight=flight)
    k = 0.5 * flight.air_density * 0.45 * math.pi * 0.25 * flight.ball_diameter**2 / BALL
    expected = math.hypot(0.005, k * flight.drag_uncertainty, k * 0.05)
    assert found.standard_uncertainty / found.speed == pytest.approx(expected)
    assert found.energy_standard_uncertainty / found.energy == pytest.approx(2.0 * expected)


def test_many_speeds_fly_as_one_does() -> None:
    """An array gives what its elements give."""
    together, _ = fly(np.array([60.0, 100.0, 140.0]), 2.0, ball_mass=BALL, flight=BallFlight())
    alone = [fly(np.array([speed]), 2.0, ball_mass=BALL, flight=BallFlight())[0][0] for speed in (60.0, 100.0, 140.0)]
    assert list(together) == alone


def test_a_screen_behind_the_muzzle_is_refused() -> None:
    """The distance counts to the middle between the screens."""
    with pytest.raises(OutOfRange, match="first screen behind the muzzle"):
        muzzle_from_reading(98.0, ball_mass=BALL, distance=0.1, chronograph=Chronograph(screen_spacing=0.3))


@pytest.mark.parametrize(
    ("reading", "mass", "distance"), [(0.0, BALL, 1.0), (98.0, 0.0, 1.0), (98.0, BALL, -1.0), (math.nan, BALL, 1.0)]
)
def test_the_impossible_is_refused(reading: float, mass: float, distance: float) -> None:
    """No speed, no mass, a chronograph behind the gun."""
    with pytest.raises(OutOfRange):
        muzzle_from_reading(reading, ball_mass=mass, distance=distance)


def test_beyond_the_drag_law_is_said() -> None:
    """A ball past a Reynolds number of 2e5 is outside what is known, and just below it is not."""
    edge = 2e5 * 1.8134e-5 / (1.2041 * 0.00595)
    with pytest.raises(OutsideValidity, match="Reynolds"):
        reading_from_muzzle(1.001 * edge, ball_mass=BALL, distance=1.0)
    assert reading_from_muzzle(0.999 * edge, ball_mass=BALL, distance=1.0).speed < edge


def test_a_longer_base_is_surer() -> None:
    """Spacing and timing both weigh less on a long base."""
    short = two_screen_uncertainty(100.0, spacing=0.1, spacing_uncertainty=0.001, time_uncertainty=1e-6)
    long = two_screen_uncertainty(100.0, spacing=0.5, spacing_uncertainty=0.001, time_uncertainty=1e-6)
    assert short == pytest.approx(math.hypot(0.01, 0.001))
    assert long == pytest.approx(short / 5.0)
