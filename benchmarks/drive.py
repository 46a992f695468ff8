"""How many cycles of the drive a second, on one core, against SciPy's method of order eight on the same compiled rates.

``python -m benchmarks.drive``. Both run a burst of ten with events at the same angles, at an error of at most 1e-5 in the last
release's time against a reference at 1e-11; SciPy at the loosest tolerance of a ladder that keeps it, restarted at each angle.
SciPy calls Python for each evaluation, though the rates themselves are compiled: evaluations stand beside the times.
"""

from __future__ import annotations

import math
import time

import numpy as np
from scipy.integrate import solve_ivp

from stripdown.core.drive_cycle import DriveEventKind, kernel, sector_angles, simulate_drive
from stripdown.core.drive_cycle.simulate import constants_row
from stripdown.core.numerics.rows import blank_rows, pack
from tests.ordinary_drive import ORDINARY

SHOTS = 10
ALLOWED = 1e-5
LADDER = (1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8)


def by_scipy(tolerance: float) -> tuple[float, int]:
    """Time of the last release, and how often SciPy asked for rates."""
    drive, angles = ORDINARY, sector_angles(ORDINARY.sector, stroke=ORDINARY.load.stroke)
    constants, mode = constants_row(drive, angles, shots=SHOTS), blank_rows(kernel.MODE)
    row, c, m = pack(drive)[0], constants[0], mode[0]
    mode["on"] = 1
    out, state = np.zeros(kernel.SIZE), np.zeros(kernel.SIZE)
    state[kernel.ANGLE], state[kernel.WINDING], state[kernel.HOUSING] = c["start"], 293.15, 293.15
    now, asked = 0.0, 0

    def change(_: float, s: np.ndarray) -> np.ndarray:
        kernel.rates(row, c, m, s, out)
        return out.copy()

    stops = sorted(
        base + 2.0 * math.pi * turn
        for turn in range(-1, SHOTS)
        for base in (angles.pick_up, angles.release, drive.tappet.pull_start, drive.tappet.pull_end)
        if c["start"] < base + 2.0 * math.pi * turn <= angles.release + 2.0 * math.pi * (SHOTS - 1)
    )
    for stop in stops:

        def arrives(_: float, s: np.ndarray, stop: float = stop) -> float:
            return float(s[kernel.ANGLE] - stop)

        arrives.terminal = True  # type: ignore[attr-defined]
        done = solve_ivp(change, (now, now + 1.0), state, "DOP853", events=arrives, rtol=tolerance, atol=tolerance * 1e-2)
        state, now, asked = done.y_events[0][0].copy(), float(done.t_events[0][0]), asked + int(done.nfev)
        state[kernel.ANGLE] = stop
        if abs((stop - angles.pick_up) / (2 * math.pi) - round((stop - angles.pick_up) / (2 * math.pi))) < 1e-9:
            mode["drawn"] = 1
            state[kernel.SPEED] *= drive.motor.inertia / (drive.motor.inertia + c["piston_inertia"])
        if abs((stop - angles.release) / (2 * math.pi) - round((stop - angles.release) / (2 * math.pi))) < 1e-9:
            mode["drawn"] = 0
    return now, asked


def main() -> None:
    """Measure and print."""
    exact = [e.time for e in simulate_drive(ORDINARY, shots=SHOTS, tolerance=1e-11).events if e.kind is DriveEventKind.RELEASE]
    truth = exact[SHOTS - 1]
    peer, error, asked, tolerance = 0.0, 0.0, 0, 0.0
    for tolerance in LADDER:
        begun = time.perf_counter()
        found, asked = by_scipy(tolerance)
        peer, error = time.perf_counter() - begun, abs(found - truth)
        if error <= ALLOWED:
            break
    ours, repeats = math.inf, 50
    burst = simulate_drive(ORDINARY, shots=SHOTS, tolerance=1e-6)
    for _ in range(repeats):
        begun = time.perf_counter()
        burst = simulate_drive(ORDINARY, shots=SHOTS, tolerance=1e-6)
        ours = min(ours, time.perf_counter() - begun)
    last = [e.time for e in burst.events if e.kind is DriveEventKind.RELEASE][SHOTS - 1]
    print(
        f"ours, with its records: {SHOTS / ours:8.0f} cycles/s, error {abs(last - truth):.1e} s, {burst.evaluations} evaluations"
    )
    print(f"SciPy DOP853, {tolerance:.0e}:   {SHOTS / peer:8.0f} cycles/s, error {error:.1e} s, {asked} evaluations")
    print(f"ratio of times {peer / ours:.0f}, of evaluations {asked / burst.evaluations:.1f}")


if __name__ == "__main__":
    main()
