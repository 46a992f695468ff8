"""An adiabatic air launcher against the worked answer of Serway and Jewett."""

from __future__ import annotations

import math

import pytest

from stripdown.core.interior_ballistics.closed_forms import IdealLaunch, adiabatic_launch_speed
from tests.published import Published


@pytest.mark.source("serway_jewett", "problem 21.56, solution", rtol=0.003, because="printed to three figures")
def test_serway_jewett_problem_21_56(published: Published) -> None:
    """The printed pressure drives 1.10 g over 50 cm to 120 m/s, atmosphere ignored as in the book."""
    launch = IdealLaunch(
        reservoir_pressure=5.74e6,
        reservoir_volume=12.0e-6,
        bore_diameter=math.sqrt(4 * 0.03e-4 / math.pi),
        travel=0.50,
        ball_mass=1.10e-3,
        pressure_ahead=0.0,
    )
    speed = adiabatic_launch_speed(launch)
    published("speed", found=speed, expected=120.0, unit="m/s")
    published("energy", found=0.5 * launch.ball_mass * speed**2, expected=7.92, unit="J")
    published("last volume", found=launch.reservoir_volume + launch.swept_volume, expected=13.5e-6, unit="m3")
