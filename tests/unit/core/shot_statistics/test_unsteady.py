"""No string is under a limit by its own warning: drift, two heaps or a fast tail make it close, with what to fire next."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest

from stripdown.core.shot_statistics import (
    Chronograph,
    EnergyLimit,
    FireNext,
    MeasuredState,
    Unsteady,
    analyse_string,
    compare_strings,
    limit_verdict,
)

BALL = 0.2e-3
LIMIT = EnergyLimit(name="1 J at the muzzle", energy=1.0, measuring_distance=0.0)  # 100 m/s
STEADY = (90.1, 89.8, 90.3, 89.9, 90.2, 89.7, 90.0, 90.4, 89.6, 90.0)
CLIMBING = tuple(88.0 + 0.3 * place + 0.05 * (-1) ** place for place in range(10))
HEAPS = (90.0, 84.1, 90.1, 89.9, 84.0, 90.0, 83.9, 90.1, 84.0, 89.9)
FAST_TAIL = (90.0, 90.1, 89.9, 90.0, 90.1, 89.9, 90.0, 90.05, 89.95, 92.5)


def _states(speeds: tuple[float, ...]) -> tuple[MeasuredState, tuple[Unsteady, ...], FireNext | None]:
    found = limit_verdict(speeds, ball_mass=BALL, limit=LIMIT, distance=0.0)
    return found.state, found.unsteady, found.fire_next


def test_a_steady_string_far_below_is_under() -> None:
    """Nothing is found in it, and nothing more need be fired."""
    assert _states(STEADY) == (MeasuredState.UNDER, (), None)


@pytest.mark.parametrize(
    ("speeds", "sign", "next_string"),
    [
        (CLIMBING, Unsteady.DRIFT, FireNext.UNTIL_STEADY),
        (HEAPS, Unsteady.TWO_HEAPS, FireNext.AFTER_THE_CAUSE),
        (FAST_TAIL, Unsteady.FAST_TAIL, FireNext.THIRTY_SHOTS),
    ],
)
def test_a_warned_string_is_close_however_far_below(speeds: tuple[float, ...], sign: Unsteady, next_string: FireNext) -> None:
    """All three numbers are under the limit, and suppose what the sign denies. Once such strings were under it."""
    found = limit_verdict(speeds, ball_mass=BALL, limit=LIMIT, distance=0.0)
    assert found.tolerance_speed is not None
    assert found.tolerance_speed < 100.0
    assert (found.state, found.unsteady, found.fire_next) == (MeasuredState.CLOSE, (sign,), next_string)
    assert any("no such string is under" in note for note in found.notes)


def test_a_shot_over_stays_over() -> None:
    """A sign softens nothing."""
    assert _states((*CLIMBING, 101.0))[0] is MeasuredState.OVER


def test_a_slow_outlier_holds_nothing_back() -> None:
    """Only what may come faster than the string says does."""
    assert _states((*STEADY, 85.0))[:2] == (MeasuredState.UNDER, ())


@pytest.mark.parametrize(("mean", "next_string"), [(98.85, FireNext.MORE_SHOTS), (99.4, None)])
def test_more_shots_are_asked_for_only_where_they_can_help(mean: float, next_string: FireNext | None) -> None:
    """Ten shots of scatter 0.4 m/s: without end, the mean must keep 1.96·0.4 = 0.78 m/s from 100 m/s; of ten, 2.91·0.4 = 1.16."""
    pattern = (1, -1, 0.5, -0.5, 0, 1, -1, -0.5, 0.5, 0)
    norm = math.sqrt(sum(x * x for x in pattern) / 9)
    state, unsteady, found = _states(tuple(mean + 0.4 * x / norm for x in pattern))
    assert (state, unsteady, found) == (MeasuredState.CLOSE, (), next_string)


def test_one_shot_asks_for_ten() -> None:
    """Nothing can be said of it."""
    assert _states((90.0,)) == (MeasuredState.UNSAID, (), FireNext.TEN_SHOTS)


def test_the_steps_of_a_display_are_no_sign() -> None:
    """Sound strings on a display of whole m/s are held back about as seldom as promised: 1 + 1 + 1 + 2.5 %, and fast outliers."""
    generator = np.random.default_rng(20_261_130)
    whole = Chronograph(resolution=1.0)
    strings = np.round(90.0 + generator.uniform(size=(300, 1)) + 0.6 * generator.standard_normal((300, 10)))
    held = [
        bool(limit_verdict(speeds, ball_mass=BALL, limit=LIMIT, distance=0.0, chronograph=whole).unsteady) for speeds in strings
    ]
    assert np.mean(held) < 0.08 + 3.0 * math.sqrt(0.08 * 0.92 / 300)


def test_skewness_is_the_third_moment_over_the_power_of_the_second() -> None:
    """Nine readings of 0 and one of 1: moments 0.072 and 0.09, so 0.072/0.09^1.5 = 2.667."""
    found = analyse_string([0.0] * 9 + [1.0], ball_mass=None).signs.fast_tail
    assert found is not None
    assert found.skewness == pytest.approx(0.072 / 0.09**1.5)
    assert found.has_fast_tail


WANDERING = (0, 1, 2, 3, 4, 4, 3, 2, 1, 0, -1, -2, -3, -4, -4, -3, -2, -1, 0, 1)


def test_where_neighbours_are_alike_the_interval_widens() -> None:
    """Lag-one autocorrelation by hand, its bias put right, and c as published; n shots count as n/c.

    The numbers are small, so that mean, squares and products of neighbours are reckoned here from the definition.
    """
    speeds = [95.0 + 0.1 * step for step in WANDERING]
    n, mean = 20, sum(WANDERING) / 20
    centred = [step - mean for step in WANDERING]
    squares = sum(step * step for step in centred)
    lag_one = sum(a * b for a, b in itertools.pairwise(centred)) / squares
    likeness = min(lag_one + (1.0 + 3.0 * lag_one) / n, 0.9)
    alike = 1.0 + 2.0 * sum((1.0 - lag / n) * likeness**lag for lag in range(1, n))
    inflation = alike / max(1.0 - (alike - 1.0) / (n - 1), 0.1)
    found = analyse_string(speeds, ball_mass=None)
    assert found.signs.drift is not None
    assert found.signs.drift.is_wandering
    assert found.signs.drift.inflation == pytest.approx(inflation)
    assert found.mean_interval is not None
    stats = pytest.importorskip("scipy.stats")
    half = 0.1 * math.sqrt(squares / 19 * inflation / 20) * stats.t.ppf(0.975, max(20 / inflation - 1.0, 4.0))
    assert found.mean_interval.high - found.mean == pytest.approx(half)
    compared = compare_strings(speeds, [speed + 1.0 for speed in STEADY], confidence=0.95)
    assert any("Neighbouring shots before are alike" in note for note in compared.notes)
    assert compared.speed.standard_uncertainty > 0.1 * math.sqrt(squares / 19 * inflation / 20)
