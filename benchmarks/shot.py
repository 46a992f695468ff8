"""How many shots a second, on one core, to the muzzle, without trace, at an error of at most 1e-3 in muzzle speed.

Peers integrate the same compiled rates with the same guards and acts: SciPy's LSODA and Radau, and SUNDIALS CVODE. Each
method runs at the loosest tolerance of a ladder at which its worst error over the guns is within 1e-3.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable

import numpy as np

from benchmarks.peers import Solver, cvode_solver, muzzle_speed, scipy_solver
from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.simulate import run_batch, settings_row
from stripdown.core.numerics.rows import Rows, pack_many
from stripdown.quantities import leaves, replace_at

GREATEST_ERROR = 1e-3
LADDER = (1e-2, 3e-3, 1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 1e-6)
_VARIED = ("spring.", "piston.seal_drag", "leaks.", "nozzle.bore", "hop_up.normal_force", "barrel.length", "ball.mass")


def random_guns(count: int, seed: int = 20261125) -> Rows:
    """Catalogue guns with what differs most between guns drawn from the usual ranges."""
    generator = np.random.default_rng(seed)
    guns = [gun.parameters for gun in load_guns().values()]
    records: list[ShotParameters] = []
    for index in range(count):
        record = guns[index % len(guns)]
        for leaf in leaves(ShotParameters):
            if leaf.type is float and leaf.quantity is not None and leaf.path.startswith(_VARIED):
                usual = leaf.quantity.usual
                if usual is not None:
                    record = replace_at(record, leaf.path, float(generator.uniform(*usual)))
        records.append(record)
    return pack_many(records)


def our_speeds(rows: Rows, tolerance: float, threads: int = 1) -> np.ndarray:
    """Muzzle speeds by our own kernel, to the muzzle."""
    return np.array(run_batch(rows, settings_row(tolerance=tolerance, until_muzzle=True), threads=threads)["muzzle_speed"])


def seconds(work: Callable[[], object], repeats: int = 3) -> float:
    """Shortest of some runs."""
    best = float("inf")
    for _ in range(repeats):
        begun = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - begun)
    return best


def loosest(errors: Callable[[float], float]) -> tuple[float, float]:
    """Loosest tolerance of the ladder whose worst error is small enough, and that error."""
    for tolerance in LADDER:
        worst = errors(tolerance)
        if worst <= GREATEST_ERROR:
            return tolerance, worst
    return LADDER[-1], worst


def main() -> int:
    """Print rates and ratios."""
    few = random_guns(8)
    many = random_guns(2048)
    reference = our_speeds(few, 1e-9)
    wide_reference = our_speeds(many[:256], 1e-8)
    ours, ours_worst = loosest(lambda tolerance: float(np.max(np.abs(our_speeds(many[:256], tolerance) / wide_reference - 1.0))))
    settings = settings_row(tolerance=ours, until_muzzle=True)
    summaries = run_batch(many, settings, threads=1)
    one = seconds(lambda: run_batch(many, settings, threads=1)) / len(many)
    cores = os.cpu_count() or 1
    all_cores = seconds(lambda: run_batch(many, settings, threads=cores)) / len(many)
    print(
        f"stripdown            tolerance {ours:7.0e}  worst error {ours_worst:.1e}  {one * 1e6:9.1f} us/shot  {1 / one:9.0f} shots/s"
    )
    print(
        f"  per shot: {summaries['steps'].mean():.1f} steps, {summaries['rejected'].mean():.1f} thrown away or trial, "
        f"{summaries['evaluations'].mean():.0f} evaluations"
    )
    print(f"  {cores} threads: {1 / all_cores:.0f} shots/s, {one / all_cores:.2f} times one")
    peers: dict[str, Solver] = {
        "SUNDIALS CVODE": cvode_solver,
        "SciPy LSODA": scipy_solver("LSODA"),
        "SciPy Radau": scipy_solver("Radau"),
    }
    for name, solver in peers.items():

        def worst_error(tolerance: float, solver: Solver = solver) -> float:
            speeds = np.array([muzzle_speed(row, solver, tolerance)[0] for row in few])
            return float(np.max(np.abs(speeds / reference - 1.0)))

        tolerance, worst = loosest(worst_error)
        each = seconds(lambda s=solver, t=tolerance: [muzzle_speed(row, s, t) for row in few], repeats=2) / len(few)
        evaluations = np.mean([muzzle_speed(row, solver, tolerance)[1] for row in few])
        print(
            f"{name:20s} tolerance {tolerance:7.0e}  worst error {worst:.1e}  {each * 1e6:9.1f} us/shot  "
            f"{evaluations:6.0f} evaluations  ratio {each / one:6.1f}"
        )
    return 0


if __name__ == "__main__":
    sys.exit(main())
