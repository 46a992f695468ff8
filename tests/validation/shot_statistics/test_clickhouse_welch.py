"""Welch's test against the worked example of a database's manual, and against SciPy."""

from __future__ import annotations

import pytest

from stripdown.core.shot_statistics import compare_strings
from tests.published import Published

ONE, OTHER = (20.3, 22.1, 21.9), (18.9, 20.3, 19.0)


@pytest.mark.source("clickhouse_manual", "welchTTest with confidence interval", because="digits printed")
def test_clickhouse_manual_welch(published: Published) -> None:
    """Statistic, chance and interval are the printed ones."""
    found = compare_strings(OTHER, ONE)
    assert found.speed.statistic is not None
    published("t", found=found.speed.statistic, expected=2.79887195, unit="1", atol=5e-9)
    published("p", found=found.p_value, expected=0.05180736, unit="1", atol=5e-9)
    published("lower end", found=found.interval.low, expected=-0.0262943, unit="1", atol=6e-8)
    published("upper end", found=found.interval.high, expected=4.0929610, unit="1", atol=6e-8)


@pytest.mark.source("scipy", "stats.ttest_ind, equal_var=False", rtol=1e-10, because="two programs for one formula")
@pytest.mark.parametrize("seed", range(4))
def test_scipy_welch(published: Published, seed: int) -> None:
    """Two strings of different length and scatter compare as SciPy compares them."""
    numpy, stats = pytest.importorskip("numpy"), pytest.importorskip("scipy.stats")
    generator = numpy.random.default_rng(seed)
    before, after = generator.normal(88.0, 1.5, 5 + 3 * seed), generator.normal(97.0, 0.3, 12 - 2 * seed)
    found, oracle = compare_strings(before, after, confidence=0.99), stats.ttest_ind(after, before, equal_var=False)
    interval = oracle.confidence_interval(0.99)
    assert found.degrees_of_freedom is not None
    published("p", found=found.p_value, expected=oracle.pvalue, unit="1", rtol=1e-8)
    published("degrees of freedom", found=found.degrees_of_freedom, expected=oracle.df, unit="1")
    published("lower end", found=found.interval.low, expected=interval.low, unit="m/s")
    published("upper end", found=found.interval.high, expected=interval.high, unit="m/s")
