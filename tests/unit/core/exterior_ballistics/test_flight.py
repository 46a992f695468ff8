"""One flight and a fan: where they end, what can be asked of them, and what is refused."""

from __future__ import annotations

import copy
import math
import pickle

import numpy as np
import pytest

from stripdown.core.exterior_ballistics import (
    Flight,
    Wind,
    air_state,
    drag_coefficient,
    integrate_fan,
    integrate_flight,
    lift_coefficient,
    simulate_flight,
)
from stripdown.errors import InputError, OutOfRange, OutsideValidity

AIR = air_state(temperature=293.15, relative_humidity=0.5)


def _flight(**how: object) -> Flight:
    given = {
        "ball_mass": 0.20e-3,
        "velocity": (100.0, 0.0, 1.0),
        "position": (0.0, 0.0, 1.5),
        "air": AIR,
        "spin": (0.0, -600.0, 0.0),
    }
    return simulate_flight(**(given | how))  # type: ignore[arg-type]


def test_the_end_stands_on_the_plane_that_was_asked_for() -> None:
    """A distance, or the ground, to the last digit."""
    assert _flight(until=40.0).end.position[0] == 40.0
    assert _flight().end.position[2] == pytest.approx(0.0, abs=1e-12)


def test_a_path_can_be_asked_at_a_distance_a_speed_and_an_energy() -> None:
    """Each answer has what was asked, and the others agree with it."""
    flight = _flight()
    there = flight.at_distance(20.0)
    assert there.position[0] == pytest.approx(20.0, abs=1e-9)
    assert flight.at_speed(there.speed).position[0] == pytest.approx(20.0, abs=1e-6)
    assert flight.at_energy(flight.energy(there)).position[0] == pytest.approx(20.0, abs=1e-6)
    assert flight.at_distance(0.0).speed == pytest.approx(math.hypot(100.0, 1.0))


def test_the_apex_is_level_and_the_highest_place() -> None:
    """No upward speed there, and no node above it."""
    flight = _flight()
    assert flight.apex.velocity[2] == pytest.approx(0.0, abs=1e-8)
    assert flight.apex.position[2] >= flight.position[:, 2].max() - 1e-12


def test_what_only_falls_has_its_apex_at_the_start() -> None:
    """A level shot without spin."""
    assert _flight(velocity=(100.0, 0.0, 0.0), spin=(0.0, 0.0, 0.0)).apex.time == 0.0


def test_a_flight_to_a_distance_passes_the_ground_on_its_way() -> None:
    """The plane counts, whatever the ground; where it met the ground is still told."""
    far = _flight(until=60.0)
    assert far.end.position[2] < 0.0
    assert far.ground is not None
    landed = _flight().ground
    assert landed is not None
    assert far.ground.position[0] == pytest.approx(landed.position[0], abs=1e-6)
    assert _flight(until=5.0).ground is None


def test_wind_blows_with_the_height() -> None:
    """A cross wind carries the ball to its side, more where the wind was measured lower down."""
    blown = _flight(wind=Wind(across=3.0, height=2.0), until=40.0).end.position[1]
    stronger = _flight(wind=Wind(across=3.0, height=0.5), until=40.0).end.position[1]
    assert 0.0 < blown < stronger


def test_spin_to_the_side_hooks() -> None:
    """Backspin that is tilted drifts toward the side to which its axis leans."""
    assert _flight(spin=(0.0, -600.0, 100.0), until=30.0).end.position[1] > 0.0


def test_a_result_stays_read_only_when_it_is_kept() -> None:
    """Pickled and copied, and still nothing can be written to."""
    for kept in (pickle.loads(pickle.dumps(_flight())), copy.deepcopy(_flight())):  # noqa: S301  our own
        assert not kept.position.flags.writeable


def test_work_is_bounded() -> None:
    """A usual flight takes under 120 steps, none of a fan more than 60."""
    assert _flight().steps <= 120
    fan = integrate_fan(_flight().parameters, variations={"launch.speed_x": np.linspace(80, 120, 64)}, until=40.0)
    assert fan.evaluations <= 64 * 6 * 60


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"until": -5.0}, "not in front of the muzzle"),
        ({"until": 0.0}, "not in front of the muzzle"),
        ({"position": (0.0, 0.0, -1.0)}, "above the ground"),
        ({"position": (0.0, 0.0, 0.0), "velocity": (50.0, 0.0, 0.0)}, "above the ground"),
        ({"ball_mass": -0.1}, "impossible"),
        ({"ball_mass": math.nan}, "impossible"),
    ],
)
def test_what_cannot_be_is_refused(how: dict[str, object], said: str) -> None:
    """With the field, and what would be right."""
    with pytest.raises(OutOfRange, match=said):
        _flight(**how)


@pytest.mark.parametrize(
    ("how", "said"),
    [
        ({"until": "moon"}, "no end of a flight"),
        ({"drag": "newton"}, "no law of drag.*clift_gauvin"),
        ({"lift": "wing"}, "no law of lift.*loth"),
        ({"spin_decay": "soon"}, "no law of spin decay"),
        ({"velocity": (1.0, 2.0)}, "no vector of three numbers"),
        ({"tolerance": 1.0}, "cannot be kept"),
    ],
)
def test_what_is_not_understood_is_named(how: dict[str, object], said: str) -> None:
    """With the names that are known."""
    with pytest.raises(InputError, match=said):
        _flight(**how)


def test_a_ball_near_the_speed_of_sound_is_refused() -> None:
    """Above Mach 0.9 no law here holds, with the Mach factor or without."""
    with pytest.raises(OutsideValidity, match=r"0\.9 of mach"):
        _flight(velocity=(330.0, 0.0, 0.0))


def test_a_target_that_the_ball_never_reaches_is_told() -> None:
    """With how far it comes."""
    with pytest.raises(OutsideValidity, match="never gets to 500 m"):
        _flight(until=500.0)


def test_a_law_outside_its_range_is_refused_or_marked() -> None:
    """Extrapolation only when asked, and then the result says so."""
    with pytest.raises(OutsideValidity, match="Tsuji"):
        _flight(lift="tsuji")
    assert _flight(lift="tsuji", extrapolate=True).remarks == ("lift_extrapolated",)
    assert _flight(mach=True).remarks == ("mach_factor",)
    assert _flight().remarks == ()
    with pytest.raises(OutsideValidity):
        drag_coefficient(3e5)
    with pytest.raises(OutsideValidity):
        lift_coefficient(0.8, law="tsuji")


def test_the_mach_factor_slows_a_fast_ball_more() -> None:
    """Two per cent of drag at 100 m/s, six at 170."""
    still, fast = drag_coefficient(4e4), drag_coefficient(4e4, mach=100.0 / 343.2)
    assert fast / still == pytest.approx(1.022, abs=0.002)
    assert drag_coefficient(6.7e4, mach=170.0 / 343.2) / drag_coefficient(6.7e4) == pytest.approx(1.060, abs=0.004)


def test_humidity_above_all_air_is_refused() -> None:
    """A fraction, and no percentage."""
    with pytest.raises(OutOfRange, match="fraction"):
        air_state(relative_humidity=50.0)
    with pytest.raises(InputError, match="height and a pressure"):
        air_state(altitude=500.0, pressure=95000.0)
    assert air_state(density=1.1, viscosity=1.7e-5).density == 1.1


def test_a_fan_names_the_flight_that_fails() -> None:
    """By its number."""
    parameters = _flight(spin=(0.0, 0.0, 0.0)).parameters
    with pytest.raises(OutsideValidity, match="Flight 2 of 3"):
        integrate_fan(parameters, variations={"launch.speed_x": [100.0, 1.0, 90.0]}, until=30.0)
    with pytest.raises(OutOfRange, match="no number"):
        integrate_fan(parameters, variations={"launch.speed_x": [100.0, math.nan]}, until=30.0)
    with pytest.raises(InputError, match="no quantity called"):
        integrate_fan(parameters, variations={"launch.speed": [100.0]}, until=30.0)
    with pytest.raises(InputError, match="No variations"):
        integrate_fan(parameters, variations={}, until=30.0)


def test_an_impossible_value_in_a_fan_is_refused() -> None:
    """A ball without mass flies nowhere."""
    with pytest.raises(OutOfRange):
        integrate_fan(_flight().parameters, variations={"ball.mass": [0.20e-3, 0.0]}, until=30.0)
    integrate_flight(_flight().parameters)
