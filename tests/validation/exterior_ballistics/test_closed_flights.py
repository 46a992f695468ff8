"""Flights that have a formula: constant drag on a flat path, fall, throw upward, vacuum, spin."""

from __future__ import annotations

import math

import pytest

from stripdown.core.exterior_ballistics import Flight, FlightAir, simulate_flight
from stripdown.core.exterior_ballistics.spin_decay import SOLID_SPHERE
from tests.published import Published

G = 9.80665
DIAMETER = 0.006
AREA = math.pi * DIAMETER**2 / 4
AIR = FlightAir(density=1.2, viscosity=1.8134e-5, speed_of_sound=343.2)
NO_AIR = FlightAir(density=0.0, viscosity=1.8134e-5, speed_of_sound=343.2)
DRAG = 0.45


def _flight(mass: float, speed: float, *, until: float, up: float = 0.0, **how: object) -> Flight:
    return simulate_flight(
        ball_mass=mass,
        velocity=(speed, 0.0, up),
        air=AIR,
        drag=DRAG,
        lift=None,
        until=until,
        **how,  # type: ignore[arg-type]
    )


@pytest.mark.source("derived", "v0·exp(-k·x), k = rho·CD·A/(2m)", because="gravity turns the path a little")
@pytest.mark.parametrize(("mass", "speed"), [(0.20e-3, 100.0), (0.25e-3, 90.0), (0.43e-3, 120.0), (0.12e-3, 120.0)])
def test_speed_with_constant_drag(published: Published, mass: float, speed: float) -> None:
    """Over ten metres a ball loses the same share of its speed in each metre."""
    k = AIR.density * DRAG * AREA / (2 * mass)
    found = _flight(mass, speed, until=10.0).at_distance(10.0)
    published("speed after 10 m", found=found.velocity[0], expected=speed * math.exp(-10 * k), unit="m/s", rtol=1e-4)
    published("time to 10 m", found=found.time, expected=math.expm1(10 * k) / (k * speed), unit="s", rtol=1e-4)


@pytest.mark.source("derived", "flat fire: -g/(4k²v0²)·(e^(2kx) - 1 - 2kx)", rtol=1e-3, because="the path is taken for flat")
@pytest.mark.parametrize("distance", [10.0, 20.0, 30.0])
def test_drop_of_flat_fire(published: Published, distance: float) -> None:
    """The drop of a level shot while its path is flat."""
    k = AIR.density * DRAG * AREA / (2 * 0.20e-3)
    drop = -G / (4 * k**2 * 100.0**2) * (math.expm1(2 * k * distance) - 2 * k * distance)
    found = _flight(0.20e-3, 100.0, until=distance).at_distance(distance)
    published(f"height at {distance:g} m", found=found.position[2], expected=drop, unit="m")


@pytest.mark.source(
    "derived", "the same with lift: + (kL/2)·x²", rtol=1e-2, because="small differences of two terms, on a flat path"
)
def test_drop_with_constant_lift(published: Published) -> None:
    """Backspin of a constant lift coefficient adds a parabola."""
    k, lift = AIR.density * DRAG * AREA / (2 * 0.20e-3), AIR.density * 0.0116 * AREA / (2 * 0.20e-3)
    expected = -G / (4 * k**2 * 1e4) * (math.expm1(2 * k * 20.0) - 2 * k * 20.0) + 0.5 * lift * 20.0**2
    found = simulate_flight(
        ball_mass=0.20e-3, velocity=(100.0, 0.0, 0.0), air=AIR, drag=DRAG, lift=0.0116, spin=(0.0, -100.0, 0.0), until=20.0
    ).at_distance(20.0)
    published("height at 20 m", found=found.position[2], expected=expected, unit="m")


@pytest.mark.source("derived", "vt·tanh(g·t/vt), (vt²/g)·ln cosh(g·t/vt)", rtol=1e-6, because="the formula is exact")
@pytest.mark.parametrize("time", [0.5, 1.0])
def test_fall_from_rest(published: Published, time: float) -> None:
    """A ball that is let go."""
    terminal = math.sqrt(2 * 0.20e-3 * G / (AIR.density * DRAG * AREA))
    flight = simulate_flight(
        ball_mass=0.20e-3, velocity=(0.0, 0.0, 0.0), position=(0.0, 0.0, 20.0), air=AIR, drag=DRAG, lift=None
    )
    found = flight.at_time(time)
    published(f"speed after {time:g} s", found=found.speed, expected=terminal * math.tanh(G * time / terminal), unit="m/s")
    fallen = terminal**2 / G * math.log(math.cosh(G * time / terminal))
    published(f"fall in {time:g} s", found=20.0 - found.position[2], expected=fallen, unit="m")


@pytest.mark.source("derived", "vt²/(2g)·ln(1 + v0²/vt²); v0/sqrt(1 + v0²/vt²)", rtol=1e-6, because="the formula is exact")
def test_throw_upward(published: Published) -> None:
    """Straight up and down again: height and speed of return."""
    terminal = math.sqrt(2 * 0.20e-3 * G / (AIR.density * DRAG * AREA))
    flight = simulate_flight(ball_mass=0.20e-3, velocity=(0.0, 0.0, 100.0), air=AIR, drag=DRAG, lift=None)
    height = terminal**2 / (2 * G) * math.log1p((100.0 / terminal) ** 2)
    published("height", found=flight.apex.position[2], expected=height, unit="m")
    published("speed of return", found=flight.end.speed, expected=100.0 / math.sqrt(1 + (100.0 / terminal) ** 2), unit="m/s")


@pytest.mark.source(
    "derived", "range in vacuum: v·cos·(v·sin + sqrt((v·sin)² + 2gh))/g", rtol=1e-9, because="the formula is exact"
)
@pytest.mark.parametrize(("speed", "degrees", "height"), [(100.0, 45.0, 0.0), (100.0, 0.0, 1.5), (90.0, 2.0, 1.5)])
def test_vacuum(published: Published, speed: float, degrees: float, height: float) -> None:
    """Without air the parabola."""
    along, up = speed * math.cos(math.radians(degrees)), speed * math.sin(math.radians(degrees))
    flight = simulate_flight(ball_mass=0.20e-3, velocity=(along, 0.0, up), position=(0.0, 0.0, height), air=NO_AIR)
    expected = along * (up + math.sqrt(up**2 + 2 * G * height)) / G
    assert flight.ground is not None
    published(f"range at {degrees:g}°", found=flight.ground.position[0], expected=expected, unit="m")


@pytest.mark.source("derived", "S/S0 = exp((k - K)·x)", rtol=1e-4, because="gravity turns the path a little")
def test_spin_ratio_grows(published: Published) -> None:
    """The ball slows faster than its spin."""
    mass, torque = 0.20e-3, 0.0192
    k = AIR.density * DRAG * AREA / (2 * mass)
    decay = torque * AIR.density * AREA * 0.003**2 / (2 * SOLID_SPHERE * mass * 0.003**2)
    flight = simulate_flight(
        ball_mass=mass,
        velocity=(100.0, 0.0, 0.0),
        air=AIR,
        drag=DRAG,
        lift=None,
        spin=(0.0, -1000.0, 0.0),
        spin_decay=torque,
        until=20.0,
    )
    found = flight.at_distance(20.0)
    ratio = abs(found.spin[1]) / found.speed / (1000.0 / 100.0)
    published("growth of the spin ratio over 20 m", found=ratio, expected=math.exp((k - decay) * 20.0), unit="1", rtol=1e-3)


@pytest.mark.source(
    "sawatzki_1970", "torque of a sphere that turns in air at rest", rtol=2e-3, because="worked out by hand to three figures"
)
@pytest.mark.parametrize(("spin", "expected"), [(13333.0, 4.84), (3333.0, 9.19)])
def test_spin_in_air_at_rest(published: Published, spin: float, expected: float) -> None:
    """Time constant of the spin of a 0.20 g ball of 6 mm, beyond the range where the laminar law was tried."""
    turning = 1.2041 * spin * 0.003**2 / 1.8134e-5
    coefficient = 6.45 / math.sqrt(turning) + 32.1 / turning
    torque = 0.5 * 1.2041 * 0.003**5 * spin**2 * coefficient
    by_hand = 0.4 * 0.20e-3 * 0.003**2 * spin / torque
    assert by_hand == pytest.approx(expected, rel=2e-3)
    air = FlightAir(density=1.2041, viscosity=1.8134e-5, speed_of_sound=343.2)
    flight = simulate_flight(
        ball_mass=0.20e-3,
        velocity=(1.0, 0.0, 0.0),
        air=air,
        spin=(0.0, -spin, 0.0),
        spin_decay="still_fluid",
        lift=None,
        until=0.001,
    )
    published("time constant", found=-1.0 / float(flight.spin_lost[0]), expected=by_hand, unit="s")
