"""Whole flights against SciPy's method of order eight, on equations written anew from the laws as printed."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from stripdown.core.exterior_ballistics import FlightAir, Wind, simulate_flight
from tests.published import Published

Vector = NDArray[np.float64]
AIR = FlightAir(density=1.2041, viscosity=1.8134e-5, speed_of_sound=343.2)
DIAMETER, TORQUE = 0.006, 0.019
CASES = {
    "level, no spin": (0.20e-3, (100.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0)),
    "backspin": (0.20e-3, (100.0, 0.0, 0.0), (0.0, -1000.0, 0.0), (0.0, 0.0)),
    "heavy ball, raised": (0.40e-3, (80.0, 0.0, 2.0), (0.0, -1500.0, 0.0), (0.0, 0.0)),
    "tilted spin, cross wind": (0.28e-3, (95.0, 1.0, 1.0), (200.0, -900.0, 300.0), (-2.0, 4.0)),
    "light ball, head wind": (0.15e-3, (140.0, 0.0, 5.0), (0.0, -500.0, 0.0), (-3.0, 0.0)),
}


def _equations(mass: float, spin: Vector, wind: tuple[float, float]) -> Callable[[float, Vector], Vector]:
    area, radius = math.pi * DIAMETER**2 / 4, DIAMETER / 2
    inertia = 0.4 * mass * radius**2

    def change(_: float, s: Vector) -> Vector:
        growth = (max(s[2], 0.0) / 2.0) ** (1 / 7)
        blown = s[3:6] - np.array([wind[0] * growth, wind[1] * growth, 0.0])
        speed = float(np.linalg.norm(blown))
        re = AIR.density * speed * DIAMETER / AIR.viscosity
        cd = 24 / re * (1 + 0.15 * re**0.687) + 0.42 / (1 + 42500 * re**-1.16)
        force = -0.5 * AIR.density * area * cd * speed * blown
        magnus = np.cross(s[6] * spin, blown)
        across = float(np.linalg.norm(magnus))
        if across > 0.0:
            turned = 2 * radius * across / speed**2
            cl = turned * (1 - (0.675 + 0.15 * (1 + math.tanh(0.28 * (turned - 2)))) * math.tanh(0.18 * re**0.5))
            force = force + 0.5 * AIR.density * area * cl * speed**2 * magnus / across
        decay = -TORQUE * 0.5 * AIR.density * area * radius**2 * speed / inertia * s[6]
        return np.concatenate([s[3:6], force / mass - np.array([0.0, 0.0, 9.80665]), [decay]])

    return change


@pytest.mark.source(
    "scipy",
    "integrate.solve_ivp, DOP853 at 1e-12, on the same laws written anew",
    atol=1e-3,
    because="a millimetre at 50 m was asked for",
)
@pytest.mark.parametrize("case", CASES)
def test_scipy_dop853(published: Published, case: str) -> None:
    """Place at 10, 30 and 50 m within a millimetre, speed within a millimetre a second; in truth a hundred times nearer."""
    mass, velocity, spin, wind = CASES[case]
    flight = simulate_flight(
        ball_mass=mass,
        velocity=velocity,
        position=(0.0, 0.0, 30.0),
        spin=spin,
        air=AIR,
        wind=Wind(along=wind[0], across=wind[1], height=2.0),
        until=50.0,
    )
    start = np.array([0.0, 0.0, 30.0, *velocity, 1.0])
    for distance in (10.0, 30.0, 50.0):

        def passes(_: float, s: Vector, distance: float = distance) -> float:
            return float(s[0] - distance)

        passes.terminal = True  # type: ignore[attr-defined]
        done = solve_ivp(
            _equations(mass, np.array(spin), wind), (0.0, 20.0), start, "DOP853", events=passes, rtol=1e-12, atol=1e-12
        )
        expected, found = done.y_events[0][0], flight.at_distance(distance)
        off = max(abs(float(one) - other) for one, other in zip(expected[1:3], found.position[1:], strict=True))
        published(f"{case}: distance from SciPy's place at {distance:g} m", found=off, expected=0.0, unit="m", atol=1e-5)
        speed = float(np.linalg.norm(expected[3:6]))
        published(f"{case}: speed at {distance:g} m", found=found.speed, expected=speed, unit="m/s", atol=1e-6)
        published(f"{case}: time to {distance:g} m", found=found.time, expected=float(done.t_events[0][0]), unit="s", atol=1e-6)
