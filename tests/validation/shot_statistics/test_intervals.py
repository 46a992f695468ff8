"""Intervals of one string against printed factors and SciPy."""

from __future__ import annotations

import itertools
import math

import pytest

from stripdown.core.shot_statistics import NextShot, analyse_string
from tests.published import Published

numpy = pytest.importorskip("numpy")
stats = pytest.importorskip("scipy.stats")

PRINTED = {5: 1.24, 10: 0.72, 20: 0.47, 30: 0.37}


def _string(n: int) -> list[float]:
    return list(numpy.random.default_rng(n).normal(97.0, 0.4, n))


@pytest.mark.source(
    "berthouex_brown", "factors of the confidence interval of a mean", atol=0.0051, because="printed to two decimals"
)
@pytest.mark.parametrize("n", PRINTED)
def test_berthouex_brown_mean_interval(published: Published, n: int) -> None:
    """Half the interval of the mean, in standard deviations, is the printed factor."""
    found = analyse_string(_string(n), ball_mass=None)
    assert found.mean_interval is not None
    assert found.standard_deviation is not None
    half = 0.5 * (found.mean_interval.high - found.mean_interval.low) / found.standard_deviation
    published(f"n = {n}", found=half, expected=PRINTED[n], unit="1")


@pytest.mark.source("scipy", "stats.ttest_1samp, stats.chi2, stats.t", rtol=1e-10, because="two programs for one formula")
@pytest.mark.parametrize("n", [2, 3, 10, 30])
def test_scipy_intervals(published: Published, n: int) -> None:
    """Intervals of mean, standard deviation and next shot are SciPy's."""
    string = _string(n)
    found = analyse_string(string, ball_mass=None, confidence=0.9)
    mean, s = float(numpy.mean(string)), float(numpy.std(string, ddof=1))
    expected = stats.ttest_1samp(string, 0.0).confidence_interval(0.9)
    assert found.mean_interval is not None
    assert found.standard_deviation_interval is not None
    assert found.next_shot_interval is not None
    published("mean, low", found=found.mean_interval.low, expected=expected.low, unit="m/s")
    published("mean, high", found=found.mean_interval.high, expected=expected.high, unit="m/s")
    low, high = (s * math.sqrt((n - 1) / stats.chi2.ppf(tail, n - 1)) for tail in (0.95, 0.05))
    published("standard deviation, low", found=found.standard_deviation_interval.low, expected=low, unit="m/s")
    published("standard deviation, high", found=found.standard_deviation_interval.high, expected=high, unit="m/s")
    reach = s * math.sqrt(1 + 1 / n) * stats.t.ppf(0.95, n - 1)
    published("next shot, high", found=found.next_shot_interval.high, expected=mean + reach, unit="m/s")


@pytest.mark.source(
    "derived", "convolution of Student's t with a normal, by adaptive quadrature", rtol=1e-7, atol=1e-15, because="quadrature"
)
@pytest.mark.parametrize("count", [2, 5, 10, 30])
@pytest.mark.parametrize("common", [0.05, 0.5, 5.0])
def test_next_shot_with_instrument(published: Published, count: int, common: float) -> None:
    """The chance of a faster shot is the double integral over scatter and instrument."""
    integrate = pytest.importorskip("scipy.integrate")
    shot = NextShot(mean=97.0, standard_deviation=0.5, count=count, common_uncertainty=common)
    for threshold in (97.3, 98.5, 103.0):

        def given(shift: float, threshold: float = threshold) -> float:
            above = stats.t.sf((threshold - 97.0 - common * shift) / shot.spread, count - 1)
            return float(stats.norm.pdf(shift) * above)

        edge = (threshold - 97.0) / common
        pieces = sorted({-9.0, 9.0, *(min(9.0, max(-9.0, edge + d * shot.spread / common)) for d in (-8, -2, 0, 2, 8))})
        expected = sum(
            integrate.quad(given, low, high, epsabs=1e-13, epsrel=1e-10, limit=200)[0] for low, high in itertools.pairwise(pieces)
        )
        published(f"threshold {threshold}", found=shot.chance_above(threshold), expected=expected, unit="1")


@pytest.mark.source("scipy", "stats.linregress on the shot's number", rtol=1e-9, because="two programs for one formula")
def test_scipy_drift(published: Published) -> None:
    """Slope of a string and its chance are those of a regression on the shot's number."""
    string = [value + 0.08 * place for place, value in enumerate(_string(12))]
    found, oracle = analyse_string(string, ball_mass=None).signs.drift, stats.linregress(range(12), string)
    assert found is not None
    published("slope", found=found.slope, expected=oracle.slope, unit="m/s")
    published("chance", found=found.slope_chance, expected=oracle.pvalue, unit="1")
