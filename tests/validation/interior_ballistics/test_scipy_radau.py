"""The shot's own integration against SciPy's implicit Runge-Kutta method, on the same rates, guards and jumps.

SciPy steps, looks for events in its own dense output and starts anew after each; nothing of the project's integrator is used,
nor its Jacobian. What is compared is therefore the integration alone: step control, events, dense output, order of jumps.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
import scipy
from numpy.typing import NDArray
from scipy.integrate import Radau
from scipy.optimize import brentq

from stripdown.core.interior_ballistics import kernel
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.simulate import run_batch, settings_row
from stripdown.core.numerics.rows import pack_many
from tests.properties.strategies import draw_usual
from tests.published import Published
from tests.shot_problem import ShotProblem

GUNS = 50
SEED = 20261125
# Four decades below what is asked of the default tolerance.
RADAU_TOLERANCE = 1e-8
PLACE = f"integrate.Radau at a tolerance of 1e-8 with optimize.brentq for events, SciPy {scipy.__version__}"

State = NDArray[np.float64]
Guards = Callable[[State], State]


@pytest.fixture(scope="module")
def guns() -> list[ShotParameters]:
    """Fifty guns, every number even in its usual range, up to three rings of ports."""
    generator = np.random.default_rng(SEED)
    return [draw_usual(ShotParameters, generator) for _ in range(GUNS)]


@pytest.fixture(scope="module")
def expected(guns: list[ShotParameters]) -> State:
    """Their muzzle speeds by SciPy, in m/s."""
    return np.array([radau_muzzle_speed(gun) for gun in guns])


def errors(guns: list[ShotParameters], expected: State, tolerance: float) -> State:
    """How far the project's muzzle speeds are off, relative to SciPy's."""
    found = run_batch(pack_many(guns), settings_row(tolerance=tolerance, until_muzzle=True), threads=1)["muzzle_speed"]
    assert ((found > 0.0) == (expected > 0.0)).all()
    return np.asarray(np.abs(found - expected) / np.where(expected > 0.0, expected, 1.0))


@pytest.mark.source("scipy", PLACE, atol=1e-6, because="the two integrators' own errors at 1e-9 and 1e-8")
def test_scipy_radau_tight(published: Published, guns: list[ShotParameters], expected: State) -> None:
    """At a tight tolerance both integrators find the same muzzle speeds."""
    off = errors(guns, expected, 1e-9)
    published("largest relative difference of 50 muzzle speeds at 1e-9", found=float(off.max()), expected=0.0, unit="1")


@pytest.mark.source("scipy", PLACE, atol=1e-4, because="what is promised of the default tolerance")
def test_scipy_radau_default(published: Published, guns: list[ShotParameters], expected: State) -> None:
    """At the default tolerance every muzzle speed is right to a ten-thousandth, half of them to a hundred-thousandth."""
    off = errors(guns, expected, 1e-4)
    published("median relative error of 50 muzzle speeds at 1e-4", found=float(np.median(off)), expected=0.0, unit="1", atol=1e-5)
    published("largest relative error of 50 muzzle speeds at 1e-4", found=float(off.max()), expected=0.0, unit="1")


def radau_muzzle_speed(gun: ShotParameters) -> float:
    """Muzzle speed by SciPy, which stops at every event by its own dense output, jumps, and starts anew; 0 if the ball stays."""
    problem = ShotProblem(gun)
    time, state = 0.0, problem.state[: kernel.DYNAMIC].copy()
    scales = np.array(problem.work.scale[: kernel.DYNAMIC])
    full = problem.state.copy()

    def rates(_: float, dynamic: State) -> State:
        full[: kernel.DYNAMIC] = dynamic
        return problem.rates(full)[: kernel.DYNAMIC]

    def guards(dynamic: State) -> State:
        full[: kernel.DYNAMIC] = dynamic
        return problem.guards(full)

    while time < gun.laws.longest_time:
        solver = Radau(
            rates, time, state, gun.laws.longest_time, rtol=RADAU_TOLERANCE, atol=RADAU_TOLERANCE * scales, first_step=1e-7
        )
        before = guards(state)
        while True:
            solver.step()
            assert solver.status != "failed"
            after = guards(solver.y)
            crossed = np.flatnonzero((before < 0.0) & (after >= 0.0))
            if crossed.size or solver.status == "finished":
                break
            before = after
        if not crossed.size:
            return 0.0
        time, state = _first_event(solver, guards, crossed)
        problem.state[: kernel.DYNAMIC] = state
        for event in crossed[guards(state)[crossed] >= 0.0]:
            problem.act(int(event))
        if problem.mode.ball == kernel.BALL_GONE:
            return float(problem.state[kernel.BALL_SPEED])
        state = problem.state[: kernel.DYNAMIC].copy()
    return 0.0


def _first_event(solver: Radau, guards: Guards, crossed: NDArray[np.intp]) -> tuple[float, State]:
    """Time of the first crossing within the last step, on its far side, and the state there."""
    inside = solver.dense_output()
    ends = []
    for guard in crossed:
        root = brentq(lambda t, at=guard: guards(inside(t))[at], solver.t_old, solver.t, xtol=1e-18, rtol=1e-15)
        while guards(inside(root))[guard] < 0.0:
            root = min(np.nextafter(root + 1e-16, np.inf), solver.t)
        ends.append(root)
    first = min(ends)
    return float(first), np.asarray(inside(first) if first < solver.t else solver.y, dtype=np.float64)
