"""The Jacobian of the shot's rates against differences of the rates themselves, in every mode and under every law."""

from __future__ import annotations

import numpy as np
import pytest

from stripdown.core.interior_ballistics import kernel
from stripdown.core.interior_ballistics.jacobian import jacobian
from stripdown.core.numerics.rows import Vector
from tests.random_states import PHASES, Phase, problems
from tests.shot_problem import ShotProblem

# One entry is shifted by this part of its size; the difference of two shifts tells how far differences can be trusted.
_SHIFT = 2e-4
_AGREES = 1e-6


def by_formula(problem: ShotProblem) -> Vector:
    """The Jacobian as the integrator gets it."""
    out = np.full((kernel.DYNAMIC, kernel.SIZE), np.nan)
    jacobian(problem.constants, problem.mode, problem.state, out, np.zeros(kernel.FORCES))
    return out


def by_differences(problem: ShotProblem) -> tuple[Vector, Vector]:
    """Central differences, extrapolated, and how much the extrapolation changed them."""
    slopes = np.empty((kernel.DYNAMIC, kernel.SIZE))
    doubts = np.empty_like(slopes)
    for j in range(kernel.DYNAMIC):
        wide, narrow = (_difference(problem, j, part * _shift(problem, j)) for part in (1.0, 0.5))
        slopes[j] = (4.0 * narrow - wide) / 3.0
        doubts[j] = np.abs(narrow - wide)
    return slopes, doubts


def _shift(problem: ShotProblem, j: int) -> float:
    if problem.mode.direction < 0.0 and j in {kernel.BALL_SPEED, kernel.BALL_SPIN}:
        # The friction of the floor turns within the stiction speed.
        return (
            0.01
            * float(problem.constants.stiction_speed)
            / (1.0 if j == kernel.BALL_SPEED else float(problem.constants.ball_radius))
        )
    if j == kernel.PISTON_SPEED:
        return 0.01 * float(problem.constants.stiction_speed)
    return _SHIFT * abs(float(problem.state[j])) + 1e-12


def _difference(problem: ShotProblem, j: int, shift: float) -> Vector:
    ahead, behind = problem.state.copy(), problem.state.copy()
    ahead[j] += shift
    behind[j] -= shift
    return np.asarray((problem.rates(ahead) - problem.rates(behind)) / (ahead[j] - behind[j]))


def effects(problem: ShotProblem, slopes: Vector, of_these: Vector) -> Vector:
    """What slopes mean: change of a rate for a change of an entry by its own size, as part of the most that any entry does."""
    sizes = np.abs(problem.state[: kernel.DYNAMIC, None])
    return np.asarray(np.abs(of_these) * sizes / ((np.abs(slopes) * sizes).max(axis=0) + 1e-300))


@pytest.fixture(scope="module")
def states() -> list[tuple[Phase, ShotProblem]]:
    """Random states in every mode; flow laws and heat laws take turns."""
    found = list(problems(20261125, each=16))
    for phase, problem in found:
        if phase.piston == kernel.PISTON_HOME:
            # At the stroke's very end the wall's area has a corner, on which no difference can stand.
            problem.state[kernel.PISTON_TRAVEL] *= 0.999
    return found


def test_the_jacobian_agrees_with_differences_in_every_mode(states: list[tuple[Phase, ShotProblem]]) -> None:
    """No entry is off by more than a millionth of what its rate can change by, beyond what differences cannot tell."""
    worst = dict.fromkeys(PHASES, 0.0)
    for phase, problem in states:
        slopes, doubts = by_differences(problem)
        excess = np.maximum(np.abs(by_formula(problem) - slopes) - doubts, 0.0)
        worst[phase] = max(worst[phase], float(effects(problem, slopes, excess).max()))
    assert {phase: error for phase, error in worst.items() if error > _AGREES} == {}


def test_differences_can_tell(states: list[tuple[Phase, ShotProblem]]) -> None:
    """All but one in a hundred of the differences that matter are good to a thousandth, so agreement means something."""
    doubtful = total = 0
    for _, problem in states:
        slopes, doubts = by_differences(problem)
        matters = effects(problem, slopes, slopes) > 1e-4
        total += int(matters.sum())
        doubtful += int((doubts[matters] > 1e-3 * np.abs(slopes[matters])).sum())
    assert total > 10_000
    assert doubtful < 0.01 * total


def test_integrals_feed_nothing_back(states: list[tuple[Phase, ShotProblem]]) -> None:
    """The rates do not change with the integrals, so that the Jacobian needs no columns for them."""
    for _, problem in states[::7]:
        changed = problem.state.copy()
        changed[kernel.DYNAMIC :] += 1.0
        assert np.array_equal(problem.rates(changed), problem.rates())
