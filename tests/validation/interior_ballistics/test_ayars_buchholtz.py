"""The evacuated tube of Ayars and Buchholtz: a highest speed whatever bore and mass."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import solve_ivp

from stripdown.core.interior_ballistics.closed_forms import open_reservoir_launch_speed
from tests.published import Published

PRESSURE, DENSITY = 101325.0, 1.204


@pytest.mark.source(
    "ayars_buchholtz_2004", "abstract: limit independent of bore and mass, below sound", rtol=0.001, because="a very long tube"
)
@pytest.mark.parametrize(("bore", "mass"), [(0.006, 0.2e-3), (0.038, 2.7e-3), (0.038, 20e-3)])
def test_ayars_buchholtz_limit(published: Published, bore: float, mass: float) -> None:
    """Any ball in a very long evacuated tube nears one speed, well below that of sound."""
    speed = open_reservoir_launch_speed(pressure=PRESSURE, density=DENSITY, bore_diameter=bore, travel=1e4, ball_mass=mass)
    published("limit speed", found=speed, expected=math.sqrt(PRESSURE / DENSITY), unit="m/s")
    published.within("limit speed below sound", found=speed, low=0.0, high=0.9 * math.sqrt(1.4 * PRESSURE / DENSITY), unit="m/s")


@pytest.mark.source(
    "scipy", "solve_ivp, DOP853, of d(m v + rho A x v)/dt = p A", rtol=1e-6, because="tolerance of the integration"
)
@pytest.mark.parametrize("travel", [0.1, 1.0, 5.0])
def test_scipy_evacuated_tube(published: Published, travel: float) -> None:
    """The closed form solves the momentum of ball and entrained air."""
    area, mass = math.pi * 0.038**2 / 4, 2.7e-3

    def slope(_: float, state: list[float]) -> list[float]:
        position, momentum = state
        return [momentum / (mass + DENSITY * area * position), PRESSURE * area]

    def arrived(_: float, state: list[float]) -> float:
        return state[0] - travel

    arrived.terminal = True  # type: ignore[attr-defined]
    end = solve_ivp(slope, (0.0, 1.0), [0.0, 0.0], method="DOP853", rtol=1e-11, atol=1e-12, events=arrived).y[:, -1]
    found = open_reservoir_launch_speed(pressure=PRESSURE, density=DENSITY, bore_diameter=0.038, travel=travel, ball_mass=mass)
    published(f"speed after {travel:g} m", found=found, expected=end[1] / (mass + DENSITY * area * travel), unit="m/s")
