"""The same shot, to the muzzle, integrated by other solvers: same compiled rates, same guards, same acts at events."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp
from sksundae.cvode import CVODE

from stripdown.core.interior_ballistics import kernel, run
from stripdown.core.interior_ballistics.flows import CONSTANTS
from stripdown.core.interior_ballistics.simulate import settings_row
from stripdown.core.numerics import stiff
from stripdown.core.numerics.compiled import compiled
from stripdown.core.numerics.rows import Rows, Vector, blank_rows


@dataclass(frozen=True)
class Segment:
    """Where a peer stopped: time, state, the guards that are zero or past it there."""

    time: float
    state: Vector
    hits: tuple[int, ...]


Solver = Callable[["Problem", float, Vector, float], Segment]


class Problem:
    """One gun's shot, held in the kernel's own rows, for solvers that call Python functions."""

    def __init__(self, row: Any) -> None:
        self.constants = blank_rows(CONSTANTS)
        self.mode = blank_rows(kernel.MODE)
        self.work = stiff.workspace(dynamic=kernel.DYNAMIC, integrals=kernel.SIZE - kernel.DYNAMIC, guards=kernel.GUARDS)
        self.settings = settings_row(tolerance=1e-4, until_muzzle=True)
        self.forces = np.zeros(kernel.FORCES)
        self.evaluations = 0
        run.begin_shot(row, self.constants[0], self.mode[0], self.work[0], self.settings[0])

    def rates(self, state: Vector, out: Vector) -> None:
        """Write the rates at a state."""
        self.evaluations += 1
        _rates(self.constants, self.mode, state, out, self.forces)

    def guards(self, state: Vector, out: Vector) -> None:
        """Write the guards at a state."""
        _guards(self.constants, self.mode, state, out, self.forces)

    def active_guards(self, state: Vector) -> list[int]:
        """Guards that are on the near side of their event; one that has just acted may stand at zero and is left out."""
        values = np.empty(kernel.GUARDS)
        self.guards(state, values)
        return [index for index in range(kernel.GUARDS) if values[index] < -_AT_REST and values[index] != -1.0]


# Guards are forces in N, speeds in m/s and lengths in m; one that stands at zero within rounding is nobody's event.
_AT_REST = 1e-12


@compiled
def _rates(constants: Rows, mode: Rows, state: Vector, out: Vector, forces: Vector) -> None:
    """Whole arrays in, so that the call from Python costs a peer as little as it can."""
    kernel.rates(constants[0], mode[0], state, out, forces)


@compiled
def _guards(constants: Rows, mode: Rows, state: Vector, out: Vector, forces: Vector) -> None:
    kernel.guards(constants[0], mode[0], state, out, forces)


def muzzle_speed(row: Any, solver: Solver, tolerance: float) -> tuple[float, int]:
    """Run one shot to the muzzle with a peer, restarting it at every event; return speed in m/s and evaluations."""
    problem = Problem(row)
    state = np.array(problem.work["state"][0])
    time = 0.0
    while problem.mode["ball"][0] != kernel.BALL_GONE:
        segment = solver(problem, time, state, tolerance)
        if not segment.hits:
            return 0.0, problem.evaluations
        time, state = segment.time, np.array(segment.state)
        for event in segment.hits:
            kernel.act(problem.constants[0], problem.mode[0], state, event, problem.forces)
    return float(state[kernel.BALL_SPEED]), problem.evaluations


def scipy_solver(method: str) -> Solver:
    """One of SciPy's solvers, given the guards as terminal events."""

    def solve(problem: Problem, start: float, state: Vector, tolerance: float) -> Segment:
        out = np.empty(kernel.SIZE)
        values = np.empty(kernel.GUARDS)

        def rates(_time: float, at: Vector) -> Vector:
            problem.rates(at, out)
            return out.copy()

        def guard(index: int) -> Callable[[float, Vector], float]:
            def value(_time: float, at: Vector) -> float:
                problem.guards(at, values)
                return float(values[index])

            value.terminal = True  # type: ignore[attr-defined]
            value.direction = 1.0  # type: ignore[attr-defined]
            return value

        active = problem.active_guards(state)
        found: Any = solve_ivp(
            rates,
            (start, start + 0.1),
            state,
            method=method,
            rtol=tolerance,
            atol=tolerance * problem.work["scale"][0],
            events=[guard(index) for index in active],
        )
        hits = tuple(index for index, times in zip(active, found.t_events, strict=True) if len(times))
        return Segment(time=float(found.t[-1]), state=found.y[:, -1], hits=hits)

    return solve


def cvode_solver(problem: Problem, start: float, state: Vector, tolerance: float) -> Segment:
    """SUNDIALS CVODE through scikit-sundae, given the guards as terminal events."""
    active = problem.active_guards(state)
    values = np.empty(kernel.GUARDS)

    def rates(_time: float, at: Vector, out: Vector) -> None:
        problem.rates(at, out)

    def guards(_time: float, at: Vector, out: Vector) -> None:
        problem.guards(at, values)
        for place, index in enumerate(active):
            out[place] = values[index]

    guards.terminal = [True] * len(active)  # type: ignore[attr-defined]
    guards.direction = [1] * len(active)  # type: ignore[attr-defined]
    solver = CVODE(
        rates,
        rtol=tolerance,
        atol=tolerance * problem.work["scale"][0],
        eventsfn=guards,
        num_events=len(active),
        max_num_steps=100_000,
    )
    found = solver.solve(np.array([start, start + 0.1]), state)
    reached = found.i_events
    hits = () if reached is None else tuple(index for place, index in enumerate(active) if reached[-1][place] != 0)
    return Segment(time=float(found.t[-1]), state=np.array(found.y[-1]), hits=hits)
