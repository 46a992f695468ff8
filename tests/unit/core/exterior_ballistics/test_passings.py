"""Many distances of one flight at once, and where an energy limit stands elsewhere."""

from __future__ import annotations

import math

import numpy as np
import pytest

from stripdown.core.exterior_ballistics import air_state, simulate_flight
from stripdown.core.mechanics.ball_drag import BallFlight
from stripdown.core.shot_statistics import energy_limit_at, muzzle_from_reading
from stripdown.errors import OutOfRange

AIR = air_state(temperature=293.15, relative_humidity=0.5)


def test_many_distances_are_each_what_one_is() -> None:
    """Place, speed, time and spin, to the last digits; no number behind the muzzle and beyond the ground."""
    flight = simulate_flight(
        ball_mass=0.2e-3, velocity=(100.0, 0.0, 1.0), position=(0.0, 0.0, 1.5), spin=(0.0, -600.0, 50.0), air=AIR
    )
    places = [0.0, 3.0, 20.0, 39.1]
    passed = flight.along([*places, -1.0, 500.0])
    for index, place in enumerate(places):
        one = flight.at_distance(place)
        assert passed.position[index] == pytest.approx(one.position, abs=1e-9)
        assert passed.velocity[index] == pytest.approx(one.velocity, abs=1e-7)
        assert passed.speed[index] == pytest.approx(one.speed, abs=1e-7)
        assert passed.time[index] == pytest.approx(one.time, abs=1e-11)
        assert passed.spin_left[index] * -600.0 == pytest.approx(one.spin[1], abs=1e-7)
    assert np.isnan(passed.time[4:]).all()
    assert np.isnan(passed.speed[4:]).all()


def test_a_limit_moves_as_a_ball_with_constant_drag_does() -> None:
    """E = E0·exp(−2kx), k = ρ·C_D·A/(2m), both ways."""
    flight = BallFlight(drag_coefficient=0.45)
    k = flight.air_density * 0.45 * 0.25 * math.pi * flight.ball_diameter**2 / (2 * 0.2e-3)
    there = energy_limit_at(1.0, ball_mass=0.2e-3, distance=2.0, flight=flight)
    assert there.energy == pytest.approx(math.exp(-4 * k), rel=1e-9)
    back = energy_limit_at(there.energy, ball_mass=0.2e-3, measured_at=2.0, distance=0.0, flight=flight)
    assert back.energy == pytest.approx(1.0, rel=1e-9)


def test_a_limit_agrees_with_a_reading() -> None:
    """A ball at the limit at one metre, read there, has the limit's energy at the muzzle."""
    at_muzzle = energy_limit_at(1.0, ball_mass=0.25e-3, measured_at=1.0, distance=0.0)
    read = muzzle_from_reading(math.sqrt(2 * 1.0 / 0.25e-3), ball_mass=0.25e-3, distance=1.0)
    assert at_muzzle.energy == pytest.approx(read.energy, rel=1e-9)
    assert at_muzzle.energy_standard_uncertainty == pytest.approx(read.energy_standard_uncertainty, rel=1e-6)


@pytest.mark.parametrize(
    ("field", "wrong"), [("energy", -1.0), ("energy", math.nan), ("ball_mass", 0.0), ("distance", -1.0), ("measured_at", 1e4)]
)
def test_an_impossible_limit_is_refused(field: str, wrong: float) -> None:
    """By the field."""
    given = {"energy": 1.0, "ball_mass": 0.2e-3, "distance": 1.0, "measured_at": 0.0} | {field: wrong}
    with pytest.raises(OutOfRange, match="distance" if field == "measured_at" else field):
        energy_limit_at(
            given["energy"], ball_mass=given["ball_mass"], distance=given["distance"], measured_at=given["measured_at"]
        )
