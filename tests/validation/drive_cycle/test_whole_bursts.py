"""Whole bursts: against equations written anew and integrated by SciPy, and against the mean-power method of a heavy flywheel."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from stripdown.core.drive_cycle import DriveEventKind, simulate_drive
from tests.ordinary_drive import DEGREE, ordinary
from tests.published import Published

Vector = NDArray[np.float64]

# The plainest drive: fixed voltage, one resistance, no friction but the motor's own, no piston, no air, hardly a tappet spring.
PLAIN: dict[str, Any] = {
    "battery__fixed_voltage": 11.1,
    "battery__resistance": 0.0,
    "wiring__lead_resistance": 0.0,
    "wiring__switch_resistance": 0.0,
    "motor__resistance": 0.215,
    "motor__back_emf_constant": 0.0040,
    "motor__no_load_current": 1.2,
    "motor__winding_heat_capacity": 1e6,
    "gears__ratio": 18.0,
    "gears__efficiency": 0.85,
    "gears__friction_torque": 0.0,
    "sector__rack_efficiency": 1.0,
    "sector__round_teeth": 2 * 50 / (200 * DEGREE),
    "sector__full_teeth": 15,
    "sector__lead": 1e-3,
    "load__rate": 500.0,
    "load__preload": 0.04,
    "load__stroke": 0.05,
    "load__mass": 0.0,
    "load__seal_drag": 0.0,
    "day__air_density": 0.0,
    "tappet__travel": 1e-4,
    "tappet__feed_closes": 8e-5,
    "tappet__lips_touch": 1e-5,
    "tappet__spring_force": 0.01,
    "tappet__spring_rate": 0.1,
    "tappet__friction": 0.0,
}
K, R, I0, V, RATIO, ETA, RATE, PRELOAD, STROKE = 0.0040, 0.215, 1.2, 11.1, 18.0, 0.85, 500.0, 0.04, 0.05
ARC = 200 * DEGREE


def _by_scipy(inertia: float, turns: int) -> tuple[Vector, Vector, Vector]:
    """Times, charges and integrals of the squared current at each pick-up, from rest at a pick-up."""
    state, now, marks = np.zeros(4), 0.0, [np.zeros(4)]
    times = [0.0]
    for phase in range(2 * turns):
        drawn = phase % 2 == 0

        def change(_: float, s: Vector, *, drawn: bool = drawn) -> Vector:
            current = (V - K * s[1]) / R
            force = RATE * (PRELOAD + STROKE / ARC * (s[0] % (2 * math.pi))) if drawn else 0.0
            torque = K * (current - I0) - STROKE / ARC * force / (RATIO * ETA)
            return np.array([s[1] / RATIO, torque / inertia, current, current**2])

        goal = 2 * math.pi * (phase // 2) + (ARC if drawn else 2 * math.pi)

        def arrives(_: float, s: Vector, goal: float = goal) -> float:
            return float(s[0] - goal + 1e-12)

        arrives.terminal = True  # type: ignore[attr-defined]
        done = solve_ivp(change, (now, now + 5.0), state, "DOP853", events=arrives, rtol=1e-10, atol=1e-10, max_step=0.02)
        state, now = done.y_events[0][0], float(done.t_events[0][0])
        state[0] = goal
        if not drawn:
            times.append(now)
            marks.append(state.copy())
    columns = np.array(marks)
    return np.array(times), columns[:, 2], columns[:, 3]


@pytest.mark.source(
    "scipy",
    "integrate.solve_ivp, DOP853 at 1e-10, on equations written anew",
    rtol=5e-4,
    because="a tappet spring of next to nothing is in ours",
)
@pytest.mark.parametrize(("inertia", "turns"), [(4e-5, 14), (4e-6, 12)])
def test_scipy_plain_drive(published: Published, inertia: float, turns: int) -> None:
    """Rate and currents of each cycle, from rest at a pick-up."""
    times, charges, squares = _by_scipy(inertia, turns)
    parameters = ordinary(motor__inertia=inertia, **PLAIN)
    from_pick_up = 2 * math.pi - ARC
    burst = simulate_drive(parameters, shots=turns + 1, start_angle=from_pick_up - 1e-6, tolerance=1e-10)
    found = [event.time for event in burst.events if event.kind is DriveEventKind.PICK_UP]
    published("first cycle", found=found[1] - found[0], expected=float(times[1]), unit="s", rtol=2e-3)
    published("last cycle", found=found[turns] - found[turns - 1], expected=float(times[-1] - times[-2]), unit="s")
    if inertia > 1e-5:  # far from settled after so few turns, and its currents are taken from release to release
        return
    period = times[-1] - times[-2]
    published("rate", found=burst.rate, expected=float(1.0 / period), unit="1/s")
    published("mean current", found=burst.current_mean, expected=float((charges[-1] - charges[-2]) / period), unit="A", rtol=0.01)
    published(
        "rms current",
        found=burst.current_rms,
        expected=float(math.sqrt((squares[-1] - squares[-2]) / period)),
        unit="A",
        rtol=0.01,
    )


@pytest.mark.source(
    "derived",
    "mean power: ki - M_f carries the work of a turn over 2πi",
    rtol=1e-3,
    because="a flywheel that is heavy, not endless",
)
@pytest.mark.parametrize("changes", [{}, {"gears__ratio": 16.0}, {"load__rate": 600.0}])
def test_a_heavy_flywheel_is_the_mean_power_method(published: Published, changes: dict[str, float]) -> None:
    """The speed settles where the mean torque does the work of a turn; a piston takes its motion along."""
    drive = ordinary(
        motor__inertia=5e-5,
        motor__winding_heat_capacity=1e6,
        battery__fixed_voltage=11.1,
        day__air_density=0.0,
        tappet__travel=1e-4,
        tappet__feed_closes=8e-5,
        tappet__lips_touch=1e-5,
        tappet__spring_force=0.01,
        tappet__spring_rate=0.1,
        tappet__friction=0.0,
        **changes,
    )
    load, gears, motor = drive.load, drive.gears, drive.motor
    radius = 0.5 * drive.sector.module * drive.sector.round_teeth
    resistance = motor.resistance + drive.battery.resistance + drive.wiring.lead_resistance + drive.wiring.switch_resistance
    spring = 0.5 * load.rate * ((load.preload + load.stroke) ** 2 - load.preload**2)
    friction = motor.no_load_current * motor.back_emf_constant + gears.friction_torque
    speed = 2500.0
    for _ in range(50):
        # At each pick-up the piston is brought to the rack's speed: its energy, and as much again lost in the blow.
        moving = load.mass * (speed * radius / gears.ratio) ** 2
        work = (spring + load.seal_drag * load.stroke) / (gears.efficiency * drive.sector.rack_efficiency) + moving
        torque = friction + work / (2 * math.pi * gears.ratio)
        speed = (11.1 - torque / motor.back_emf_constant * resistance) / motor.back_emf_constant
    burst = simulate_drive(drive, shots=200)
    published("rate of fire", found=burst.rate, expected=speed / (2 * math.pi * gears.ratio), unit="1/s", rtol=0.01)
