"""Tolerance factors against printed tables, and against integration that shares nothing with ours."""

from __future__ import annotations

import math

import pytest

from stripdown.core.shot_statistics import tolerance_factor
from tests.published import Published

TABLE_21_1 = {5: (4.29, 5.08, 6.60), 10: (2.86, 3.39, 4.44), 20: (2.32, 2.76, 3.62), 30: (2.15, 2.55, 3.35)}


@pytest.mark.source("berthouex_brown", "table 21.1", atol=0.0051, because="printed to two decimals")
@pytest.mark.parametrize("n", TABLE_21_1)
def test_berthouex_brown_table_21_1(published: Published, n: int) -> None:
    """Two-sided factors with 95 % confidence are the printed ones."""
    for content, printed in zip((0.90, 0.95, 0.99), TABLE_21_1[n], strict=True):
        found = tolerance_factor(n, content=content, confidence=0.95, sides=2)
        published(f"n = {n}, content {content:.0%}", found=found, expected=printed, unit="1")


@pytest.mark.source(
    "nist_handbook", "section 7.2.6.3", because="it prints approximations: 1.8752 and 2.2173 for 1.8740 and 2.2228"
)
def test_nist_handbook_7_2_6_3(published: Published) -> None:
    """The resistivities of 43 wafers get the bounds of the handbook's example."""
    mean, deviation = 97.07, 0.0268
    one = tolerance_factor(43, content=0.90, confidence=0.99, sides=1)
    two = tolerance_factor(43, content=0.90, confidence=0.99, sides=2)
    published("one-sided factor", found=one, expected=1.8752, unit="1", rtol=0.001)
    published("two-sided factor", found=two, expected=2.2173, unit="1", rtol=0.003)
    published("lower bound", found=mean - two * deviation, expected=97.0106, unit="1", atol=2e-4)
    published("upper bound", found=mean + two * deviation, expected=97.1294, unit="1", atol=2e-4)
    published("upper bound, one-sided", found=mean + one * deviation, expected=97.1203, unit="1", atol=1e-4)


@pytest.mark.source("scipy", "stats.nct.ppf", rtol=1e-9, because="two programs for one distribution")
@pytest.mark.parametrize("n", [2, 3, 5, 10, 30, 200])
def test_scipy_noncentral_t(published: Published, n: int) -> None:
    """One-sided factors are quantiles of noncentral t."""
    stats = pytest.importorskip("scipy.stats")
    for content, confidence in ((0.90, 0.95), (0.95, 0.95), (0.99, 0.95), (0.95, 0.99)):
        expected = stats.nct.ppf(confidence, n - 1, stats.norm.ppf(content) * math.sqrt(n)) / math.sqrt(n)
        found = tolerance_factor(n, content=content, confidence=confidence, sides=1)
        published(f"n = {n}, {content:.0%}/{confidence:.0%}", found=found, expected=expected, unit="1")


@pytest.mark.source(
    "derived",
    "definition of the two-sided factor, by adaptive quadrature and noncentral chi-square",
    rtol=1e-8,
    because="quadrature",
)
@pytest.mark.parametrize("n", [2, 5, 20, 100])
def test_two_sided_definition(published: Published, n: int) -> None:
    """With our factor the stated share is covered as often as stated."""
    stats = pytest.importorskip("scipy.stats")
    integrate = pytest.importorskip("scipy.integrate")
    factor = tolerance_factor(n, content=0.95, confidence=0.90, sides=2)

    def covered(mean: float) -> float:
        reach = math.sqrt(stats.ncx2.ppf(0.95, 1, mean**2)) if mean else stats.norm.ppf(0.975)
        return float(stats.norm.pdf(mean, scale=1 / math.sqrt(n)) * stats.chi2.sf((n - 1) * (reach / factor) ** 2, n - 1))

    found = 2.0 * integrate.quad(covered, 0.0, 8.5 / math.sqrt(n), epsabs=1e-11, epsrel=1e-11)[0]
    published(f"n = {n}: confidence", found=found, expected=0.90, unit="1")
