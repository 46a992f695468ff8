"""Drift, two heaps and a low first shot are seen where they are, and rarely where they are not."""

from __future__ import annotations

import numpy as np
import pytest

from stripdown.core.shot_statistics.drift import drift_test
from stripdown.core.shot_statistics.first_shot import first_shot_test
from stripdown.core.shot_statistics.moments import centre
from stripdown.core.shot_statistics.two_heaps import two_heaps_test

LEVEL = 0.01


def _strings(n: int, count: int, seed: int = 0) -> list[tuple[float, ...]]:
    draws = np.random.default_rng((seed, n)).normal(97.0, 0.4, (count, n))
    return [tuple(map(float, string)) for string in draws]


@pytest.mark.parametrize("n", [6, 10, 30])
def test_false_alarms_are_as_rare_as_stated(n: int) -> None:
    """Of 1500 sound strings each look accuses about one in a hundred; drift, with two looks, at most two."""
    strings = [(centre(string), string) for string in _strings(n, 1500)]
    heaps = [two_heaps_test(sample, level=LEVEL) for sample, _ in strings]
    drifts = [drift_test(sample, level=LEVEL) for sample, _ in strings]
    firsts = [first_shot_test(string, level=LEVEL) for _, string in strings]
    assert np.mean([test.has_two_heaps for test in heaps if test]) < 0.019
    assert np.mean([test.has_drift for test in drifts if test]) < 0.029
    assert np.mean([test.is_low for test in firsts if test]) < 0.019


def test_two_heaps_are_seen_and_counted() -> None:
    """Six fast and four slow shots are parted as they were made."""
    string = (97.0, 97.2, 92.1, 97.1, 91.9, 96.9, 92.0, 97.0, 92.2, 97.1)
    found = two_heaps_test(centre(string), level=LEVEL)
    assert found is not None
    assert found.has_two_heaps
    assert (found.slow_count, found.fast_count, found.slow) == (4, 6, (2, 4, 6, 8))
    assert found.slow_mean == pytest.approx(92.05)
    assert found.fast_mean == pytest.approx(97.05)


def test_a_single_stray_is_no_heap() -> None:
    """One shot apart is an outlier, so the string is not called two heaps."""
    found = two_heaps_test(centre((97.0, 97.2, 97.1, 96.9, 97.0, 97.1, 97.05, 96.95, 97.15, 93.0)), level=LEVEL)
    assert found is not None
    assert not found.has_two_heaps


def test_the_same_string_gets_the_same_chance() -> None:
    """The simulation behind it starts from a fixed seed, and neither shift nor scale matters."""
    (string,) = _strings(12, 1)
    one = two_heaps_test(centre(string), level=LEVEL)
    other = two_heaps_test(centre(tuple(3.0 * speed - 100.0 for speed in string)), level=LEVEL)
    assert one is not None
    assert other is not None
    assert one.chance == other.chance


def test_a_perfect_ramp_drifts_for_certain() -> None:
    """Equal steps leave no doubt."""
    found = drift_test(centre((1.0, 2.0, 3.0, 4.0, 5.0)), level=LEVEL)
    assert found is not None
    assert (found.slope, found.change, found.slope_chance) == (1.0, 4.0, 0.0)


def test_a_step_in_the_middle_is_wandering() -> None:
    """A jump and back, with no slope over all, is seen by the likeness of neighbours."""
    low, high = (95.0, 95.1, 94.9, 95.0, 95.1), (97.0, 97.1, 96.9, 97.0, 97.1)
    found = drift_test(centre((*low, *high, *high, *low)), level=LEVEL)
    assert found is not None
    assert found.is_wandering
    assert not found.is_steady_trend


def test_alternation_is_no_drift() -> None:
    """Neighbours that are unlike are not called drift."""
    found = drift_test(centre((95.0, 97.0) * 6), level=LEVEL)
    assert found is not None
    assert not found.has_drift


def test_a_low_first_shot_is_seen() -> None:
    """The shot after a rest is held against the others alone."""
    found = first_shot_test((94.0, 97.0, 97.2, 96.9, 97.1, 97.0), level=LEVEL)
    assert found is not None
    assert found.is_low
    assert found.shortfall == pytest.approx(97.04 - 94.0)


def test_a_high_first_shot_is_not_low() -> None:
    """Only one side is looked at."""
    found = first_shot_test((99.0, 97.0, 97.2, 96.9, 97.1, 97.0), level=LEVEL)
    assert found is not None
    assert not found.is_low


@pytest.mark.parametrize("string", [(97.0,), (97.0, 98.0, 97.5), (97.0,) * 10])
def test_too_few_or_equal_shots_tell_nothing(string: tuple[float, ...]) -> None:
    """The looks answer None where they cannot look."""
    sample = centre(string)
    assert drift_test(sample, level=LEVEL) is None
    assert two_heaps_test(sample, level=LEVEL) is None
    assert first_shot_test(string, level=LEVEL) is None
