"""Brushed motors against their data sheets and textbook motors."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.linalg import expm

from stripdown.core.drive_cycle import motor_operating_point, winding_temperature
from tests.published import Published

RPM = 2 * math.pi / 60
OUNCE_INCH = 7.0615518e-3  # N m
C33 = {"voltage": 36.0, "resistance": 0.85, "back_emf_constant": 12.10 / (1000 * RPM), "no_load_current": 0.48}


@pytest.mark.source(
    "magmotor_c33", "rated points at 25 °C", rtol=0.015, because="the sheet leaves the current without load out of its speeds"
)
@pytest.mark.parametrize(
    ("torque", "current", "speed", "efficiency", "power"),
    [(57.0, 4.0, 2731.0, 0.8068, 115.1), (105.0, 6.9, 2524.0, 0.7897, 196.1)],
)
def test_magmotor_rated_points(
    published: Published, torque: float, current: float, speed: float, efficiency: float, power: float
) -> None:
    """Current, speed, efficiency and power at two loads."""
    found = motor_operating_point(**C33, load_torque=torque * OUNCE_INCH)
    published(f"current at {torque:g} oz in", found=found.current, expected=current, unit="A")
    published(f"speed at {torque:g} oz in", found=found.speed / RPM, expected=speed, unit="1")
    published(f"efficiency at {torque:g} oz in", found=found.efficiency, expected=efficiency, unit="1")
    published(f"power at {torque:g} oz in", found=found.torque * found.speed, expected=power, unit="W")


@pytest.mark.source("magmotor_c33", "stall", rtol=0.01, because="three figures")
def test_magmotor_stall(published: Published) -> None:
    """A load that it does not bear."""
    found = motor_operating_point(**C33, load_torque=10.0)
    assert found.stalled
    published("current of the stalled motor", found=found.current, expected=42.4, unit="A")
    published("its torque", found=found.torque / OUNCE_INCH, expected=693.0, unit="1", rtol=0.02)


@pytest.mark.source(
    "magmotor_c33",
    "temperature rise at the two loads",
    rtol=0.06,
    because="the sheet leaves the current without load out of its losses",
)
@pytest.mark.parametrize(("torque", "rise"), [(57.0, 80.0), (105.0, 151.0)])
def test_magmotor_temperature_rise(published: Published, torque: float, rise: float) -> None:
    """Long after, with 2.9 K/W in all."""
    heat = motor_operating_point(**C33, load_torque=torque * OUNCE_INCH).heat
    winding, _ = winding_temperature(
        [(heat, 1e6)], winding_heat_capacity=20.0, housing_heat_capacity=60.0, winding_to_housing=1.0, housing_to_air=1.9
    )
    published(f"rise at {torque:g} oz in", found=winding - 293.15, expected=rise, unit="K")


@pytest.mark.source("pittman_9233", "constants", rtol=0.03, because="printed to two and three figures")
def test_pittman_no_load_speed(published: Published) -> None:
    """No-load speed at 24 V from torque constant, motor constant and the current that they leave."""
    constant, motor_constant = 0.0373, 0.0188
    resistance = (constant / motor_constant) ** 2
    found = motor_operating_point(
        voltage=24.0, resistance=resistance, back_emf_constant=constant, no_load_current=0.16, load_torque=0.0
    )
    published("no-load speed", found=found.speed / RPM, expected=5993.0, unit="1")
    stall = motor_operating_point(
        voltage=24.0, resistance=resistance, back_emf_constant=constant, no_load_current=0.0, load_torque=1.0
    )
    published("stall torque", found=stall.torque, expected=0.22, unit="N m", rtol=0.05)


@pytest.mark.source("fitzgerald", "example 11.5, page 573", rtol=0.001, because="four figures")
@pytest.mark.parametrize(("voltage", "speed"), [(40.0, 169.2), (50.0, 217.5)])
def test_fitzgerald_constant_power(published: Published, voltage: float, speed: float) -> None:
    """A load of 100 W at every speed: the motor's point with the torque that this speed asks for."""
    found = motor_operating_point(
        voltage=voltage, resistance=1.03, back_emf_constant=0.22, no_load_current=0.0, load_torque=100.0 / speed
    )
    published(f"speed at {voltage:g} V", found=found.speed, expected=speed, unit="rad/s")


@pytest.mark.source("dubey", "example 4.1: on 10 s, off 20 s, time constant 60 s", rtol=0.005, because="three figures")
def test_dubey_intermittent_load(published: Published) -> None:
    """A winding alone: from a valley of 40 K to the peak of its cycle, and what it would settle at."""
    alone = {"winding_heat_capacity": 60.0, "housing_heat_capacity": 1e8, "winding_to_housing": 1.0, "housing_to_air": 1e-3}
    # The book: loss at rest lets it settle at 15 K, under load at 104.4 K; after 10 s of load from 40 K it is at 49.9 K.
    peak, _ = winding_temperature([(104.4, 10.0)], **alone, winding_start=293.15 + 40.0)
    published("peak of the cycle", found=peak - 293.15, expected=49.9, unit="K")
    valley, _ = winding_temperature([(15.0, 20.0)], **alone, winding_start=peak)
    published("valley of the cycle", found=valley - 293.15, expected=40.0, unit="K", rtol=0.01)


@pytest.mark.source("derived", "two stores of heat: SciPy's matrix exponential", rtol=1e-9, because="both are exact")
def test_two_stores_of_heat(published: Published) -> None:
    """A pattern of load and rest."""
    c1, c2, r1, r2 = 17.0, 55.0, 3.0, 10.0
    matrix = np.array([[-1 / (c1 * r1), 1 / (c1 * r1)], [1 / (c2 * r1), -1 / (c2 * r1) - 1 / (c2 * r2)]])
    state = np.zeros(2)
    pattern = [(60.0, 4.0), (0.0, 30.0), (60.0, 8.0), (0.0, 100.0)]
    for power, duration in pattern:
        settled = np.array([power * (r1 + r2), power * r2])
        state = settled + expm(matrix * duration) @ (state - settled)
    winding, housing = winding_temperature(
        pattern, winding_heat_capacity=c1, housing_heat_capacity=c2, winding_to_housing=r1, housing_to_air=r2
    )
    published("winding", found=winding - 293.15, expected=float(state[0]), unit="K")
    published("housing", found=housing - 293.15, expected=float(state[1]), unit="K")
