"""The same shot, to the muzzle, by other solvers: same compiled rates and Jacobian, same guards, same acts at events."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp
from sksundae.cvode import CVODE

from stripdown.core.interior_ballistics import kernel, run
from stripdown.core.interior_ballistics.flows import CONSTANTS
from stripdown.core.interior_ballistics.jacobian import jacobian
from stripdown.core.interior_ballistics.simulate import settings_row
from stripdown.core.numerics import stiff
from stripdown.core.numerics.compiled import compiled
from stripdown.core.numerics.rows import Rows, Vector, blank_rows

_LONGEST = 0.1  # s; every gun here is done with its ball long before
_NEVER = -1.0  # what a guard says that cannot happen in this mode
# Guards are forces in N, speeds in m/s and lengths in m. One that has just acted stands at zero within rounding.
_TRIFLE = 1e-9
_PAST = 1e-9  # s


@dataclass(frozen=True)
class Segment:
    """Where a peer stopped: time, state, the guards that were hit there."""

    time: float
    state: Vector
    hits: tuple[int, ...]


class Problem:
    """One gun's shot, held in the kernel's own rows, for solvers that call Python functions."""

    def __init__(self, row: Any) -> None:
        self.constants = blank_rows(CONSTANTS)
        self.mode = blank_rows(kernel.MODE)
        self.work = stiff.workspace(dynamic=kernel.DYNAMIC, integrals=kernel.SIZE - kernel.DYNAMIC, guards=kernel.GUARDS)
        settings = settings_row(tolerance=1e-4, until_muzzle=True)
        self.forces = np.zeros(kernel.FORCES)
        self.evaluations = 0
        self.jacobians = 0
        self.slopes = np.zeros((kernel.DYNAMIC, kernel.SIZE))
        self._slope = np.zeros(kernel.SIZE)
        self._values = np.empty(kernel.GUARDS)
        self._armed = np.zeros(kernel.GUARDS, dtype=bool)
        self._looked_at = np.nan
        run.begin_shot(row, self.constants[0], self.mode[0], self.work[0], settings[0])

    @property
    def scale(self) -> Vector:
        """Sizes below which the entries of the state count as small."""
        return np.asarray(self.work["scale"][0])

    def rates(self, state: Vector, out: Vector) -> None:
        """Write the rates at a state."""
        self.evaluations += 1
        _rates(self.constants, self.mode, state, out, self.forces)

    def fill_jacobian(self, state: Vector, out: Vector) -> None:
        """Write the Jacobian at a state, rates down and entries across; nothing changes with the integrals."""
        self.jacobians += 1
        _jacobian(self.constants, self.mode, state, self.slopes, self.forces)
        out[:, : kernel.DYNAMIC] = self.slopes.T

    def arm(self, state: Vector) -> list[int]:
        """Look which guards can be hit from here; one that stands at zero counts as not yet there until it has been negative."""
        _guards(self.constants, self.mode, state, self._values, self.forces)
        self._armed = self._values < -_TRIFLE
        self._looked_at = np.nan
        return [index for index in range(kernel.GUARDS) if self._values[index] != _NEVER]

    def guards(self, at: float, state: Vector) -> Vector:
        """The guards at a time and state; several are asked for at one time, so they are remembered."""
        if at != self._looked_at:
            self._looked_at = at
            _guards(self.constants, self.mode, state, self._values, self.forces)
            self._armed |= self._values < -_TRIFLE
            self._values[~self._armed] = -_TRIFLE
        return self._values

    def act(self, state: Vector, hits: tuple[int, ...]) -> None:
        """Do what events do, a trifle past them: a solver may stop on either side, within rounding, and ours stops beyond."""
        _rates(self.constants, self.mode, state, self._slope, self.forces)
        state += _PAST * self._slope
        for event in hits:
            kernel.act(self.constants[0], self.mode[0], state, event, self.forces)


Solver = Callable[[Problem, float, Vector, float], Segment]


# Whole arrays in, so that a call from Python costs a peer as little as it can.


@compiled
def _rates(constants: Rows, mode: Rows, state: Vector, out: Vector, forces: Vector) -> None:
    kernel.rates(constants[0], mode[0], state, out, forces)


@compiled
def _guards(constants: Rows, mode: Rows, state: Vector, out: Vector, forces: Vector) -> None:
    kernel.guards(constants[0], mode[0], state, out, forces)


@compiled
def _jacobian(constants: Rows, mode: Rows, state: Vector, out: Vector, forces: Vector) -> None:
    jacobian(constants[0], mode[0], state, out, forces)


@compiled
def _many_rates(constants: Rows, mode: Rows, state: Vector, out: Vector, forces: Vector, count: int) -> None:
    for _ in range(count):
        kernel.rates(constants[0], mode[0], state, out, forces)
        state[0] += 1e-15


@compiled
def _many_jacobians(constants: Rows, mode: Rows, state: Vector, out: Vector, forces: Vector, count: int) -> None:
    for _ in range(count):
        jacobian(constants[0], mode[0], state, out, forces)
        state[0] += 1e-15


@dataclass(frozen=True)
class Costs:
    """What one question costs, in s: the rates and the Jacobian inside a kernel, and the rates when Python asks."""

    rates: float
    jacobian: float
    rates_from_python: float


def costs(row: Any) -> Costs:
    """Measure them with the ball moving."""
    problem = Problem(row)
    state = np.array(problem.work["state"][0])
    problem.act(state, (kernel.BALL_STARTS,))
    slope = np.zeros(kernel.SIZE)
    rows = (problem.constants, problem.mode, state)
    count = 20_000

    def asked_from_python() -> None:
        for _ in range(count):
            problem.rates(state, slope)

    def best(work: Callable[[], object]) -> float:
        work()
        times = []
        for _ in range(7):
            begun = time.perf_counter()
            work()
            times.append(time.perf_counter() - begun)
        return min(times) / count

    return Costs(
        rates=best(lambda: _many_rates(*rows, slope, problem.forces, count)),
        jacobian=best(lambda: _many_jacobians(*rows, problem.slopes, problem.forces, count)),
        rates_from_python=best(asked_from_python),
    )


@dataclass(frozen=True)
class Run:
    """What a peer found, and how often it asked."""

    speed: float
    evaluations: int
    jacobians: int


def run_to_muzzle(row: Any, solver: Solver, tolerance: float) -> Run:
    """Run one shot with a peer, restarting it at every event."""
    problem = Problem(row)
    state = np.array(problem.work["state"][0])
    now = 0.0
    while problem.mode["ball"][0] != kernel.BALL_GONE:
        segment = solver(problem, now, state, tolerance)
        if not segment.hits:
            return Run(0.0, problem.evaluations, problem.jacobians)
        now, state = segment.time, np.array(segment.state)
        problem.act(state, segment.hits)
    return Run(float(state[kernel.BALL_SPEED]), problem.evaluations, problem.jacobians)


def scipy_solver(method: str, *, with_jacobian: bool) -> Solver:
    """One of SciPy's solvers, given the guards as terminal events."""

    def solve(problem: Problem, start: float, state: Vector, tolerance: float) -> Segment:
        def rates(_time: float, at: Vector) -> Vector:
            out = np.empty(kernel.SIZE)
            problem.rates(at, out)
            return out

        def slopes(_time: float, at: Vector) -> Vector:
            out = np.zeros((kernel.SIZE, kernel.SIZE))
            problem.fill_jacobian(at, out)
            return out

        def guard(index: int) -> Callable[[float, Vector], float]:
            def value(moment: float, at: Vector) -> float:
                return float(problem.guards(moment, at)[index])

            value.terminal = True  # type: ignore[attr-defined]
            value.direction = 1.0  # type: ignore[attr-defined]
            return value

        active = problem.arm(state)
        found: Any = solve_ivp(
            rates,
            (start, start + _LONGEST),
            state,
            method=method,
            rtol=tolerance,
            atol=tolerance * problem.scale,
            events=[guard(index) for index in active],
            jac=slopes if with_jacobian else None,
        )
        hits = tuple(index for index, times in zip(active, found.t_events, strict=True) if len(times))
        return Segment(time=float(found.t[-1]), state=found.y[:, -1], hits=hits)

    return solve


def cvode_solver(*, with_jacobian: bool) -> Solver:
    """SUNDIALS CVODE through scikit-sundae, given the guards as terminal events."""

    def solve(problem: Problem, start: float, state: Vector, tolerance: float) -> Segment:
        active = problem.arm(state)

        def rates(_time: float, at: Vector, out: Vector) -> None:
            problem.rates(at, out)

        def slopes(_time: float, at: Vector, _rates: Vector, out: Vector) -> None:
            out[:] = 0.0
            problem.fill_jacobian(at, out)

        def guards(moment: float, at: Vector, out: Vector) -> None:
            out[:] = problem.guards(moment, at)[active]

        guards.terminal = [True] * len(active)  # type: ignore[attr-defined]
        guards.direction = [1] * len(active)  # type: ignore[attr-defined]
        solver = CVODE(
            rates,
            rtol=tolerance,
            atol=tolerance * problem.scale,
            eventsfn=guards,
            num_events=len(active),
            max_num_steps=10_000,
            jacfn=slopes if with_jacobian else None,
        )
        found = solver.solve(np.array([start, start + _LONGEST]), state)
        reached = found.i_events
        hits = () if reached is None else tuple(index for place, index in enumerate(active) if reached[-1][place] != 0)
        return Segment(time=float(found.t[-1]), state=np.array(found.y[-1]), hits=hits)

    return solve
