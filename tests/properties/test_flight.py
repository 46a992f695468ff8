"""Every flight, of usual balls and days: symmetry, energy, spin, what a heavier ball keeps, and that a fan is many flights."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.exterior_ballistics import (
    Flight,
    FlightLaws,
    FlightParameters,
    LiftLaw,
    Wind,
    integrate_fan,
    integrate_flight,
)
from stripdown.core.exterior_ballistics.spin_decay import SOLID_SPHERE
from tests.properties.strategies import usual_records

CALM = Wind()


@st.composite
def usual_flights(draw: st.DrawFn) -> FlightParameters:
    """Balls, launches and air as a field may have them, the default laws with some lift, calm."""
    drawn = draw(usual_records(FlightParameters))
    laws = FlightLaws(lift=LiftLaw.LOTH, lift_factor=draw(st.floats(0.0, 1.5)))
    return dataclasses.replace(drawn, wind=CALM, laws=laws)


def _fly(parameters: FlightParameters, until: float = 25.0) -> Flight:
    return integrate_flight(parameters, until=until, extrapolate=True)


def _mirrored(parameters: FlightParameters) -> FlightParameters:
    """Left and right changed: spins about the axes in the plane of the mirror turn round."""
    one = parameters.launch
    other = dataclasses.replace(one, y=-one.y, speed_y=-one.speed_y, spin_x=-one.spin_x, spin_z=-one.spin_z)
    return dataclasses.replace(parameters, launch=other)


@given(usual_flights())
def test_a_mirror_changes_left_and_right_and_nothing_else(parameters: FlightParameters) -> None:
    """The air knows no left."""
    one, other = _fly(parameters).end, _fly(_mirrored(parameters)).end
    assert other.position == pytest.approx((one.position[0], -one.position[1], one.position[2]), abs=1e-7)
    assert other.speed == pytest.approx(one.speed, abs=1e-6)


@given(usual_flights(), st.floats(-0.5, 0.5))
def test_a_turned_gun_shoots_the_same_path_in_another_direction(parameters: FlightParameters, angle: float) -> None:
    """Turned about the upright axis, all turns with it: time, height and speed at a time stay."""
    cos, sin = np.cos(angle), np.sin(angle)
    one = parameters.launch
    turned = dataclasses.replace(
        one,
        x=cos * one.x - sin * one.y,
        y=sin * one.x + cos * one.y,
        speed_x=cos * one.speed_x - sin * one.speed_y,
        speed_y=sin * one.speed_x + cos * one.speed_y,
        spin_x=cos * one.spin_x - sin * one.spin_y,
        spin_y=sin * one.spin_x + cos * one.spin_y,
    )
    straight = _fly(parameters, 20.0).at_time(0.1)
    aside = _fly(dataclasses.replace(parameters, launch=turned), 12.0)
    there = aside.at_time(min(0.1, float(aside.time[-1])))
    if there.time == 0.1:
        assert there.position[2] == pytest.approx(straight.position[2], abs=1e-7)
        assert there.speed == pytest.approx(straight.speed, abs=1e-6)


@given(usual_flights())
def test_energy_never_rises_in_still_air(parameters: FlightParameters) -> None:
    """Motion, height and spin together only lose."""
    flight, ball = _fly(parameters), parameters.ball
    spin = np.linalg.norm([parameters.launch.spin_x, parameters.launch.spin_y, parameters.launch.spin_z]) * flight.spin_left
    inertia = SOLID_SPHERE * ball.mass * (0.5 * ball.diameter) ** 2
    energy = 0.5 * ball.mass * (flight.velocity**2).sum(axis=1) + 0.5 * inertia * spin**2
    energy += ball.mass * parameters.laws.gravity * flight.position[:, 2]
    assert (np.diff(energy) <= 1e-9 * energy[0]).all()


@given(usual_flights(), st.floats(1.05, 2.0))
def test_a_heavier_ball_of_equal_energy_keeps_more_of_it(parameters: FlightParameters, times: float) -> None:
    """At every distance, with no lift and on a level path; that it carries further is no law of flat fire."""
    launch = dataclasses.replace(parameters.launch, speed_y=0.0, speed_z=0.0, spin_x=0.0, spin_y=0.0, spin_z=0.0)
    light = dataclasses.replace(parameters, launch=launch)
    heavy = dataclasses.replace(
        light,
        ball=dataclasses.replace(light.ball, mass=light.ball.mass * times),
        launch=dataclasses.replace(launch, speed_x=launch.speed_x / times**0.5),
    )
    one, other = _fly(light, 20.0), _fly(heavy, 20.0)
    for distance in (1.0, 5.0, 10.0, 20.0):
        assert other.energy(other.at_distance(distance)) > one.energy(one.at_distance(distance))


@given(usual_flights())
def test_a_fan_is_many_flights(parameters: FlightParameters) -> None:
    """Each row of a fan ends where its flight alone ends, within what the tolerances leave."""
    speeds = parameters.launch.speed_x * np.array([0.97, 1.0, 1.02])
    fan = integrate_fan(parameters, variations={"launch.speed_x": speeds}, until=20.0, extrapolate=True, threads=1)
    for row, speed in enumerate(speeds):
        launch = dataclasses.replace(parameters.launch, speed_x=float(speed))
        alone = _fly(dataclasses.replace(parameters, launch=launch), 20.0).end
        assert fan.position[row] == pytest.approx(alone.position, abs=1e-4)
        assert fan.speed[row] == pytest.approx(alone.speed, rel=1e-4)
        assert fan.time[row] == pytest.approx(alone.time, rel=1e-4)
