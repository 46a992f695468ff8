"""The integrator against closed forms: order, dense output, error in units of the tolerance, stiffness, integrals, failure."""

from __future__ import annotations

import math

import numpy as np
import pytest

from stripdown.core.numerics import stiff
from tests.stiff_problems import (
    DECAY_AND_SWING_START,
    DYNAMIC,
    SIZE,
    answer,
    decay_and_swing,
    decay_and_swing_exactly,
    integrate,
    workspace,
)

NEVER_REJECT = 1e30  # a tolerance so loose that every step is taken


def test_halving_the_step_divides_the_error_by_sixteen() -> None:
    """The method is of order four: the error at a fixed time falls with the fourth power of the step."""
    errors = []
    for steps in (20, 40, 80):
        # A length that binary numbers hold exactly, so that the last step is as long as the others.
        run = integrate(decay_and_swing, DECAY_AND_SWING_START, end=2.5, fixed_step=2.5 / steps, tolerance=NEVER_REJECT)
        errors.append(np.abs(run.end - decay_and_swing_exactly(run.times[-1])))
    orders = np.log2(np.array(errors[:-1]) / np.array(errors[1:]))
    assert orders == pytest.approx(np.full_like(orders, 4.0), abs=0.25)


@pytest.mark.parametrize("part", [0.25, 0.5, 0.75])
def test_dense_output_is_of_order_three(part: float) -> None:
    """Inside one step the interpolated state errs with the fourth power of the step, integrals included."""
    errors = []
    inside = np.zeros(SIZE)
    for step in (0.05, 0.025):
        work = workspace(DECAY_AND_SWING_START, end=1.0, tolerance=NEVER_REJECT)
        stiff.begin(work, step)
        answer(work, decay_and_swing, None)
        stiff.interpolate(work, part, inside)
        errors.append(float(np.abs(inside - decay_and_swing_exactly(part * step)).max()))
    assert math.log2(errors[0] / errors[1]) > 3.7


def test_dense_output_meets_both_ends_of_the_step() -> None:
    """The interpolated state starts where the step starts and ends where it ends."""
    work = workspace(DECAY_AND_SWING_START, end=1.0, tolerance=1e-3)
    stiff.begin(work, 0.1)
    answer(work, decay_and_swing, None)
    inside = np.zeros(SIZE)
    stiff.interpolate(work, 0.0, inside)
    assert inside == pytest.approx(np.array([*DECAY_AND_SWING_START, 0.0, 0.0]), abs=1e-15)
    stiff.interpolate(work, 1.0, inside)
    assert inside == pytest.approx(np.array(work.state), rel=1e-14, abs=1e-15)


@pytest.mark.parametrize("tolerance", [1e-3, 1e-5, 1e-7, 1e-9])
def test_the_error_stays_below_five_tolerances(tolerance: float) -> None:
    """Over one swing, at the end of every step, no entry errs by more than five times what a step is allowed."""
    run = integrate(decay_and_swing, DECAY_AND_SWING_START, end=3.0, tolerance=tolerance)
    exactly = np.array([decay_and_swing_exactly(time) for time in run.times])
    in_tolerances = np.abs(run.states - exactly) / (tolerance * (1.0 + np.abs(exactly)))
    assert run.code == stiff.END_REACHED
    assert in_tolerances.max() < 5.0


@pytest.mark.parametrize("tolerance", [1e-4, 1e-6, 1e-8])
def test_a_tolerance_ten_thousand_times_finer_takes_ten_times_the_steps(tolerance: float) -> None:
    """Work grows with the fourth root of the accuracy: no more than 16 steps a swing at 1e-4, and no step thrown away."""
    run = integrate(decay_and_swing, DECAY_AND_SWING_START, end=3.0, tolerance=tolerance)
    assert run.steps <= 24 * (1e-4 / tolerance) ** 0.25
    assert run.rejected <= 2


def test_each_step_costs_one_look_at_the_rates_for_each_colour_and_six_more() -> None:
    """Evaluations are one at the start, one a colour for the Jacobian and five for the stages."""
    run = integrate(decay_and_swing, DECAY_AND_SWING_START, end=3.0, tolerance=1e-6)
    assert run.evaluations == run.steps * (1 + DYNAMIC + 5) + 5 * run.rejected


def test_columns_that_share_no_row_may_be_shifted_together() -> None:
    """Two colours instead of four give the same answer when decay, growth and swing are told apart by their rows."""
    pattern = np.zeros((DYNAMIC, SIZE))
    for column, rows in enumerate(([0, 4], [1], [3], [2, 5])):
        pattern[column, rows] = 1.0
    coloured = integrate(
        decay_and_swing, DECAY_AND_SWING_START, end=3.0, tolerance=1e-6, colour=(0, 0, 0, 1), pattern=pattern.tolist()
    )
    full = integrate(decay_and_swing, DECAY_AND_SWING_START, end=3.0, tolerance=1e-6)
    assert coloured.end == pytest.approx(full.end, rel=1e-9)
    assert coloured.evaluations == coloured.steps * (1 + 2 + 5) + 5 * coloured.rejected


def test_a_jacobian_of_ones_own_saves_the_looks_for_differences() -> None:
    """Given by formula, the Jacobian costs no evaluation, and the answer is that of differences."""

    def formula(state: np.ndarray) -> list[list[float]]:
        return [
            [-1.0, 0.0, 0.0, 0.0, 1.0, 0.0],
            [0.0, 1.0 - 2.0 * state[1], 0.0, 0.0, 0.0, 0.0],
            [0.0, 0.0, 0.0, -4.0, 0.0, 0.0],
            [0.0, 0.0, 1.0, 0.0, 0.0, 1.0],
        ]

    own = integrate(decay_and_swing, DECAY_AND_SWING_START, end=3.0, tolerance=1e-6, jacobian=formula)
    differences = integrate(decay_and_swing, DECAY_AND_SWING_START, end=3.0, tolerance=1e-6)
    assert own.evaluations == own.steps * (1 + 5) + 5 * own.rejected
    assert own.end == pytest.approx(differences.end, rel=1e-8)


@pytest.mark.parametrize("stiffness", [1e2, 1e4, 1e6, 1e9, 1e12])
def test_a_stiff_decay_takes_few_steps(stiffness: float) -> None:
    """An entry that follows another 1e2 to 1e12 times faster than that moves costs at most 50 steps."""

    def follow(point: np.ndarray) -> tuple[float, ...]:
        return (-stiffness * (point[0] - point[1]), -point[1])

    run = integrate(follow, (2.0, 1.0), end=1.0, tolerance=1e-5)
    assert run.code == stiff.END_REACHED
    assert run.steps + run.rejected <= 50
    assert run.end[0] == pytest.approx(stiffness / (stiffness - 1.0) * math.exp(-1.0), abs=5e-5)


@pytest.mark.parametrize("stiffness", [1e4, 1e8, 1e12])
def test_one_giant_step_damps_a_stiff_decay_to_nothing(stiffness: float) -> None:
    """The method is L-stable: what one step leaves of a decay falls with the product of stiffness and step."""
    work = workspace((1.0,), end=10.0, tolerance=NEVER_REJECT)
    stiff.begin(work, 1.0)
    answer(work, lambda point: (-stiffness * point[0],))
    assert abs(float(work.state[0])) < 10.0 / stiffness


def test_a_step_at_a_pole_of_the_method_is_thrown_away() -> None:
    """A step whose first pivot is exactly zero gives way to one of a fifth: compared with the stages solved by NumPy."""
    at_pole = 0.25
    pole = 4.0 / at_pole  # one over step times the method's gamma of a quarter
    step = 0.2 * at_pole
    matrix = np.array([[pole, -30.0, 0.0, 1.0], [30.0, -1.0, 2.0, 0.0], [0.0, 5.0, -7.0, 1.0], [1.0, 0.0, 3.0, -2.0]])
    start = np.array([1.0, -0.5, 0.25, 2.0])
    work = workspace(start.tolist(), end=10.0, tolerance=NEVER_REJECT)
    stiff.begin(work, at_pole)
    answer(work, lambda point: (matrix @ point[:DYNAMIC]).tolist(), None)
    assert work.rejected == 1
    # For linear rates every stage solves the same system, so the step is a rational function of the matrix: its value
    # on the eigenvectors is the step of a single number.
    values, vectors = np.linalg.eig(matrix)
    weights = np.linalg.solve(vectors, start.astype(complex))
    expected = (vectors @ (weights * np.array([_growth(step * value) for value in values]))).real
    assert np.array(work.state[:DYNAMIC]) == pytest.approx(expected, rel=1e-6)


def _growth(z: complex) -> complex:
    """Growth over one step of a single number, as a function of rate times step.

    An L-stable method of six stages and order four has the denominator (1 - z/4)^6 and a numerator of degree five that agrees
    with the exponential up to z^4; its last coefficient is read off one real step.
    """
    numerator = _series_numerator()
    return complex(sum(coefficient * z**power for power, coefficient in enumerate(numerator)) / (1.0 - 0.25 * z) ** 6)


def _series_numerator() -> list[float]:
    exponential = [1.0 / math.factorial(k) for k in range(6)]
    denominator = [math.comb(6, k) * (-0.25) ** k for k in range(7)]
    numerator = [sum(exponential[i] * denominator[k - i] for i in range(k + 1)) for k in range(5)]
    work = workspace((1.0,), end=10.0, tolerance=NEVER_REJECT)
    stiff.begin(work, 1.0)
    answer(work, lambda point: (-1.0 * point[0],), None)
    known = sum(coefficient * (-1.0) ** power for power, coefficient in enumerate(numerator))
    numerator.append(-(float(work.state[0]) * 1.25**6 - known))
    return numerator


def test_sums_that_the_rates_keep_are_kept_to_rounding() -> None:
    """Where the rates of two entries cancel, their sum drifts by rounding only, however loose the tolerance."""
    run = integrate(decay_and_swing, DECAY_AND_SWING_START, end=10.0, tolerance=1e-2)
    kept = run.states[:, 0] + run.states[:, 4]
    swung = run.states[:, 2] - run.states[:, 5]
    assert kept == pytest.approx(np.ones_like(kept), abs=1e-13)
    assert swung == pytest.approx(np.ones_like(swung), abs=1e-12)


def test_an_integral_of_a_cubic_is_exact() -> None:
    """An integral has no column of its own, yet the integral of a clock's cube is exact to rounding in any step."""
    run = integrate(lambda point: (1.0, 0.0, 0.0, 0.0, point[0] ** 3), (0.0,), end=2.0, fixed_step=2.0, tolerance=NEVER_REJECT)
    assert run.steps == 1
    assert run.end[4] == pytest.approx(4.0, rel=1e-7)


def test_an_integral_feeds_nothing_back() -> None:
    """The dynamic entries are the same bit for bit whether their integrals are asked for or not."""
    with_integrals = integrate(decay_and_swing, DECAY_AND_SWING_START, end=3.0, fixed_step=0.125, tolerance=NEVER_REJECT)
    without = integrate(
        lambda point: decay_and_swing(point)[:DYNAMIC], DECAY_AND_SWING_START, end=3.0, fixed_step=0.125, tolerance=NEVER_REJECT
    )
    assert np.array_equal(with_integrals.states[:, :DYNAMIC], without.states[:, :DYNAMIC])


def test_rates_that_are_no_number_shorten_the_step() -> None:
    """A step that reaches where the rates do not exist is taken again, shorter, until it stays where they do."""

    def drain(point: np.ndarray) -> tuple[float, ...]:
        return (-math.sqrt(point[0]) if point[0] >= 0.0 else math.nan,)

    run = integrate(drain, (1.0,), end=1.9, first_step=5.0, tolerance=1e-6)
    assert run.code == stiff.END_REACHED
    assert run.rejected >= 1
    assert run.end[0] == pytest.approx((1.0 - 0.5 * 1.9) ** 2, abs=5e-6)


@pytest.mark.parametrize("nothing", [math.nan, math.inf, -math.inf])
def test_rates_that_never_are_a_number_end_with_a_step_too_small(nothing: float) -> None:
    """Rates without any number are a failure at the start, with the start state untouched, not an endless search."""
    run = integrate(lambda _: (nothing,), (1.0,), end=2.0)
    assert run.code == stiff.STEP_TOO_SMALL
    assert run.steps == 0
    assert run.end[0] == 1.0


def test_a_pole_ends_with_a_step_too_small_at_the_pole() -> None:
    """Growth by its own square blows up at time one, and that is where the integration gives up."""
    run = integrate(lambda point: (point[0] ** 2,), (1.0,), end=2.0, tolerance=1e-6)
    assert run.code == stiff.STEP_TOO_SMALL
    assert run.times[-1] == pytest.approx(1.0, abs=1e-5)


def test_a_run_stops_after_the_most_steps_allowed() -> None:
    """With five steps allowed, five are taken and the code says that more were needed."""
    run = integrate(decay_and_swing, DECAY_AND_SWING_START, end=3.0, most_steps=5)
    assert run.code == stiff.TOO_MANY_STEPS
    assert run.steps == 5


def test_every_run_reaches_its_end() -> None:
    """Whatever the length and the first step, a clock runs until its end and stops there."""
    generator = np.random.default_rng(0)
    codes = set()
    for _ in range(200):
        end, first_step = float(generator.uniform(0.1, 0.3)), float(generator.uniform(1e-4, 0.05))
        run = integrate(lambda _: (1.0,), (0.0,), end=end, first_step=first_step, tolerance=1e-3)
        codes.add(run.code)
        assert run.times[-1] == pytest.approx(end, rel=1e-15)
    assert codes == {stiff.END_REACHED}
