"""How many flights a second, on one core, against SciPy's method of order eight on the same rates; and a fan of 10 000.

``python -m benchmarks.flight``. Both fly to 40 m at an error of at most a millimetre against a reference at 1e-12; SciPy at the
loosest tolerance of a ladder that keeps it. SciPy calls Python for each evaluation, though the rates themselves are compiled:
evaluations stand beside the times.
"""

from __future__ import annotations

import dataclasses
import os
import time

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from stripdown.core.exterior_ballistics import FlightParameters, air_state, integrate_fan, integrate_flight, simulate_flight
from stripdown.core.exterior_ballistics.kernel import SIZE, rates
from stripdown.core.numerics.rows import pack

DISTANCE = 40.0
MILLIMETRE = 1e-3
LADDER = (1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8)
PEERS, OURS, FAN = 40, 4000, 10_000

Vector = NDArray[np.float64]


def flights(count: int) -> list[FlightParameters]:
    """Balls of 0.20 to 0.40 g at about a joule, with some backspin, slightly raised."""
    generator = np.random.default_rng(20261130)
    air = air_state(temperature=293.15, relative_humidity=0.5)
    found = []
    for _ in range(count):
        mass = generator.uniform(0.20e-3, 0.40e-3)
        speed, spin = np.sqrt(2.0 / mass) * generator.uniform(0.9, 1.0), -generator.uniform(0.0, 900.0)
        found.append(
            simulate_flight(
                ball_mass=mass, velocity=(speed, 0.0, 2.0), position=(0.0, 0.0, 1.5), spin=(0.0, spin, 0.0), air=air, until=1.0
            ).parameters
        )
    return found


def by_scipy(parameters: FlightParameters, tolerance: float) -> tuple[Vector, int]:
    """Where SciPy's DOP853 has the ball at the distance, and how often it asked for rates."""
    row, out, launch = pack(parameters)[0], np.zeros(SIZE), parameters.launch

    def change(_: float, state: Vector) -> Vector:
        rates(row, state, out)
        return out.copy()

    def arrives(_: float, state: Vector) -> float:
        return float(state[0] - DISTANCE)

    arrives.terminal = True  # type: ignore[attr-defined]
    start = np.array([launch.x, launch.y, launch.z, launch.speed_x, launch.speed_y, launch.speed_z, 1.0])
    done = solve_ivp(change, (0.0, 20.0), start, "DOP853", events=arrives, rtol=tolerance, atol=tolerance)
    return np.asarray(done.y_events[0][0][:3]), int(done.nfev)


def _loosest(some: list[FlightParameters], truth: list[tuple[float, float, float]]) -> tuple[float, float, float, float]:
    """SciPy's loosest tolerance whose worst error is small enough; with s a flight, that error, evaluations a flight."""
    tried = (0.0, 0.0, 0.0, 0.0)
    for tolerance in LADDER:
        begun = time.perf_counter()
        found = [by_scipy(one, tolerance) for one in some]
        spent = (time.perf_counter() - begun) / PEERS
        error = max(float(np.abs(place - expected).max()) for (place, _), expected in zip(found, truth, strict=True))
        tried = (tolerance, spent, error, sum(count for _, count in found) / PEERS)
        if error <= MILLIMETRE:
            break
    return tried


def main() -> None:
    """Measure and print."""
    some = flights(PEERS)
    integrate_flight(some[0], until=DISTANCE)
    truth = [integrate_flight(one, until=DISTANCE, tolerance=1e-12).end.position for one in some]
    tolerance, peer, error, asked = _loosest(some, truth)
    many = {"launch.speed_x": np.linspace(80.0, 110.0, OURS)}
    integrate_fan(some[0], variations=many, until=DISTANCE, threads=1)
    begun = time.perf_counter()
    fan = integrate_fan(some[0], variations=many, until=DISTANCE, threads=1)
    ours = (time.perf_counter() - begun) / OURS
    tight = integrate_fan(some[0], variations=many, until=DISTANCE, tolerance=1e-11)
    off = float(np.abs(fan.position - tight.position).max())
    print(f"ours, one core:       {1 / ours:9.0f} flights/s, error {off:.1e} m, {fan.evaluations / OURS:.0f} evaluations each")
    print(f"SciPy DOP853, {tolerance:.0e}: {1 / peer:9.0f} flights/s, error {error:.1e} m, {asked:.0f} evaluations each")
    print(f"ratio of times {peer / ours:.0f}, of evaluations {asked / (fan.evaluations / OURS):.1f}")
    generator = np.random.default_rng(1)
    scattered = {"launch.speed_x": generator.normal(95.0, 0.5, FAN), "launch.spin_y": generator.normal(-600.0, 20.0, FAN)}
    begun = time.perf_counter()
    integrate_fan(dataclasses.replace(some[0]), variations=scattered, until=DISTANCE)
    print(f"a fan of {FAN}: {time.perf_counter() - begun:.2f} s on {os.cpu_count()} cores")


if __name__ == "__main__":
    main()
