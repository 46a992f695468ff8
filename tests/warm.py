"""Compile every kernel, in one process, so that test processes find the machine code: ``python -m tests.warm``."""

from __future__ import annotations

import time

from stripdown.catalogue import load_guns
from stripdown.core.drive_cycle import simulate_drive
from stripdown.core.exterior_ballistics import air_state, integrate_fan, simulate_flight
from stripdown.core.interior_ballistics.reservoir import simulate_reservoir_launch
from stripdown.core.interior_ballistics.simulate import integrate_shot, integrate_shots
from tests.ordinary_drive import ORDINARY


def main() -> None:
    """Run every kernel once: a single shot, a batch, a reservoir launch, a flight, a fan, a burst."""
    started = time.perf_counter()
    gun = next(iter(load_guns().values())).parameters
    integrate_shot(gun)
    integrate_shots(gun, variations={"ball.mass": [0.20e-3, 0.25e-3]})
    simulate_reservoir_launch(reservoir_pressure=3e5, reservoir_volume=25e-6, bore_diameter=6.05e-3, travel=0.3, ball_mass=0.2e-3)
    flight = simulate_flight(ball_mass=0.2e-3, velocity=(100.0, 0.0, 1.0), air=air_state())
    integrate_fan(flight.parameters, variations={"launch.speed_x": [95.0, 100.0]})
    simulate_drive(ORDINARY, shots=1)
    print(f"kernels are compiled: {time.perf_counter() - started:.0f} s")  # noqa: T201  it is run by hand


if __name__ == "__main__":
    main()
