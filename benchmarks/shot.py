"""How many shots a second, on one core, to the muzzle, without trace, at an error of at most 1e-3 in muzzle speed.

Peers integrate the same compiled rates with the same guards and acts: SciPy's LSODA and Radau, and SUNDIALS CVODE, each with
and without our Jacobian; the faster is shown. Every method runs at the loosest tolerance of one ladder at which its worst error
is within 1e-3: ours over 256 random guns, a peer's over the first 24 of them, on which all are then timed. Peers call Python
for every evaluation; what that costs is shown beside the ratios.
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from benchmarks.peers import Costs, Run, Solver, costs, cvode_solver, run_to_muzzle, scipy_solver
from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.simulate import run_batch, settings_row
from stripdown.core.numerics.rows import Rows, Vector, pack_many
from stripdown.quantities import leaves, replace_at

GREATEST_ERROR = 1e-3
LADDER = (1e-2, 5e-3, 2e-3, 1e-3, 5e-4, 2e-4, 1e-4, 5e-5, 2e-5, 1e-5, 5e-6, 2e-6, 1e-6)
COMPARED = 24
JUDGED = 256
MANY = 2048
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


def our_speeds(rows: Rows, tolerance: float) -> Vector:
    """Muzzle speeds by our own kernel."""
    return np.array(run_batch(rows, settings_row(tolerance=tolerance, until_muzzle=True), threads=1)["muzzle_speed"])


def seconds(work: Callable[[], object], repeats: int) -> float:
    """Shortest of some runs."""
    best = float("inf")
    for _ in range(repeats):
        begun = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - begun)
    return best


def loosest(worst_error: Callable[[float], float]) -> tuple[float, float]:
    """Loosest tolerance of the ladder whose worst error is small enough, and that error; the last, if none is."""
    tolerance = error = np.nan
    for tolerance in LADDER:
        error = worst_error(tolerance)
        if error <= GREATEST_ERROR:
            break
    return tolerance, error


@dataclass(frozen=True)
class Timed:
    """A method at its loosest tolerance: its worst error, s for each shot, evaluations of the rates for each shot."""

    name: str
    tolerance: float
    error: float
    each: float
    evaluations: float

    def line(self) -> str:
        """All that, in one line."""
        return (
            f"{self.name:30s} tolerance {self.tolerance:5.0e}  worst error {self.error:.1e}  "
            f"{self.each * 1e6:8.1f} us/shot  {self.evaluations:5.0f} evaluations"
        )


def time_ours(rows: Rows) -> Timed:
    """Our kernel, on one thread."""
    reference = our_speeds(rows, 1e-8)
    tolerance, error = loosest(lambda given: float(np.max(np.abs(our_speeds(rows, given) / reference - 1.0))))
    settings = settings_row(tolerance=tolerance, until_muzzle=True)
    repeated = np.tile(rows[:COMPARED], 8)
    each = seconds(lambda: run_batch(repeated, settings, threads=1), repeats=40) / len(repeated)
    evaluations = float(run_batch(repeated, settings, threads=1)["evaluations"].mean())
    return Timed("stripdown", tolerance, error, each, evaluations)


def time_peer(name: str, solver: Solver, rows: Rows, reference: Vector) -> Timed:
    """A peer, on one thread."""

    def runs(tolerance: float) -> list[Run]:
        return [run_to_muzzle(row, solver, tolerance) for row in rows]

    def worst_error(tolerance: float) -> float:
        return float(np.max(np.abs(np.array([found.speed for found in runs(tolerance)]) / reference - 1.0)))

    tolerance, error = loosest(worst_error)
    each = seconds(lambda: runs(tolerance), repeats=3) / len(rows)
    return Timed(name, tolerance, error, each, float(np.mean([found.evaluations for found in runs(tolerance)])))


def time_peers(rows: Rows, reference: Vector) -> list[Timed]:
    """Every peer, the faster of with and without our Jacobian."""
    makers: dict[str, Callable[[bool], Solver]] = {
        "SUNDIALS CVODE": lambda given: cvode_solver(with_jacobian=given),
        "SciPy LSODA": lambda given: scipy_solver("LSODA", with_jacobian=given),
        "SciPy Radau": lambda given: scipy_solver("Radau", with_jacobian=given),
    }
    found = []
    for name, make in makers.items():
        both = [time_peer(f"{name}{', our Jacobian' if given else ''}", make(given), rows, reference) for given in (False, True)]
        found.append(min(both, key=lambda timed: timed.each))
    return found


def print_limits(ours: Timed, rows: Rows, asked: Costs) -> None:
    """Where our time goes."""
    summaries = run_batch(rows, settings_row(tolerance=ours.tolerance, until_muzzle=True), threads=1)
    steps = float(summaries["steps"].mean())
    in_rates = ours.evaluations * asked.rates / ours.each
    in_jacobian = steps * asked.jacobian / ours.each
    print(f"  per shot {steps:.1f} steps and {summaries['rejected'].mean():.1f} thrown away")
    print(
        f"  what limits it: rates {in_rates:.0%} of the time ({asked.rates * 1e9:.0f} ns each), Jacobians {in_jacobian:.0%} "
        f"({asked.jacobian * 1e9:.0f} ns each), linear algebra, events and figures {1.0 - in_rates - in_jacobian:.0%}"
    )


def print_many(ours: Timed) -> None:
    """Many guns, on one thread and on all."""
    rows = random_guns(MANY)
    settings = settings_row(tolerance=ours.tolerance, until_muzzle=True)
    threads = os.cpu_count() or 1
    one = seconds(lambda: run_batch(rows, settings, threads=1), repeats=5) / MANY
    every = seconds(lambda: run_batch(rows, settings, threads=threads), repeats=5) / MANY
    print(f"  {MANY} random guns: {1.0 / one:.0f} shots/s on one thread, {1.0 / every:.0f} on {threads}: {one / every:.2f} times")


def main() -> int:
    """Print rates and ratios."""
    judged = random_guns(JUDGED)
    rows = judged[:COMPARED]
    asked = costs(rows[0])
    ours = time_ours(judged)
    print(f"{ours.line()}  {1.0 / ours.each:.0f} shots/s")
    print_limits(ours, rows, asked)
    print_many(ours)
    print(
        f"For each evaluation of the rates, all told, we take {ours.each / ours.evaluations * 1e6:.2f} us. A peer calls Python, "
        f"{asked.rates_from_python * 1e6:.2f} us instead of {asked.rates * 1e6:.2f} us, and asks and restarts through it too."
    )
    for peer in time_peers(rows, our_speeds(rows, 1e-9)):
        print(
            f"{peer.line()}  {peer.each / ours.each:5.0f} times our time, {peer.evaluations / ours.evaluations:.1f} times our "
            f"evaluations, {peer.each / peer.evaluations * 1e6:.1f} us for each"
        )
    return 0


if __name__ == "__main__":
    sys.exit(main())
