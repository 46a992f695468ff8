"""Intervals from a string: for the mean, for the standard deviation, for the next shot, for most shots."""

from __future__ import annotations

import math
from typing import Final, NamedTuple

from stripdown.core.shot_statistics.distributions import chi_square_quantile, t_quantile
from stripdown.core.shot_statistics.moments import Centred
from stripdown.core.shot_statistics.next_shot import NextShot
from stripdown.core.shot_statistics.tolerance import tolerance_factor

_FEWEST_TOLD: Final = 4.0  # degrees of freedom left to a string whose neighbours are alike


class Interval(NamedTuple):
    """Two ends, in the unit of what they bound."""

    low: float
    high: float

    def __contains__(self, value: object) -> bool:
        """Whether a number lies inside, ends included."""
        return isinstance(value, (int, float)) and self.low <= value <= self.high


def mean_interval(
    sample: Centred, *, confidence: float, common_uncertainty: float = 0.0, inflation: float = 1.0
) -> Interval | None:
    """Confidence interval of the mean.

    Parameters
    ----------
    sample
        The readings.
    confidence
        Share of such intervals that hold what they are for, between 0 and 1.
    common_uncertainty
        Standard uncertainty of what shifts all readings alike, same unit.
    inflation
        How many times the variance of the mean is that of independent readings, a number from 1: see `drift_test`.

    Returns
    -------
    Interval or None
        None for a single reading.

    Notes
    -----
    ``mean ± t·sqrt(c·s²/n + u²)`` with the effective degrees of freedom of Welch and Satterthwaite; plain Student
    without u. Where neighbours are alike, the inflation c counts n shots as n/c.

    References
    ----------
    jcgm_100, G.4.1.
    """
    deviation = sample.standard_deviation
    if deviation is None:
        return None
    error = deviation * math.sqrt(inflation / sample.count)
    half = _half_width(error, freedom_of(sample.count, inflation), common_uncertainty, confidence)
    return Interval(sample.mean - half, sample.mean + half)


def standard_deviation_interval(sample: Centred, *, confidence: float) -> Interval | None:
    """Confidence interval of the standard deviation, from chi-square.

    Parameters
    ----------
    sample
        The readings.
    confidence
        Share of such intervals that hold what they are for, between 0 and 1.

    Returns
    -------
    Interval or None
        None for a single reading.

    Notes
    -----
    Sensitive to outliers and two heaps: it holds for normal scatter only.
    """
    deviation = sample.standard_deviation
    if deviation is None:
        return None
    freedom = sample.count - 1
    tail = 0.5 * (1.0 - confidence)
    return Interval(
        deviation * math.sqrt(freedom / chi_square_quantile(1.0 - tail, freedom)),
        deviation * math.sqrt(freedom / chi_square_quantile(tail, freedom)),
    )


def next_shot_interval(sample: Centred, *, confidence: float, common_uncertainty: float = 0.0) -> Interval | None:
    """Interval in which the next shot will lie.

    Parameters
    ----------
    sample
        The readings.
    confidence
        Share of such intervals that hold what they are for, between 0 and 1.
    common_uncertainty
        Standard uncertainty of what shifts all readings alike, same unit.

    Returns
    -------
    Interval or None
        None for a single reading.
    """
    deviation = sample.standard_deviation
    if deviation is None:
        return None
    shot = NextShot(mean=sample.mean, standard_deviation=deviation, count=sample.count, common_uncertainty=common_uncertainty)
    half = shot.offset(0.5 * (1.0 - confidence))
    return Interval(sample.mean - half, sample.mean + half)


def tolerance_interval(sample: Centred, *, content: float, confidence: float) -> Interval | None:
    """Pair of bounds that hold a share of all shots between them.

    Parameters
    ----------
    sample
        The readings.
    content
        Share of all shots, between 0 and 1.
    confidence
        How often bounds made in this way hold that share, between 0 and 1.

    Returns
    -------
    Interval or None
        None for a single reading.
    """
    deviation = sample.standard_deviation
    if deviation is None:
        return None
    half = deviation * tolerance_factor(sample.count, content=content, confidence=confidence, sides=2)
    return Interval(sample.mean - half, sample.mean + half)


def freedom_of(count: int, inflation: float) -> float:
    """Degrees of freedom of a string whose neighbours are alike.

    Parameters
    ----------
    count
        Number of readings.
    inflation
        How many times the variance of the mean is that of independent readings, a number from 1.

    Returns
    -------
    float
        One less than the number of independent readings that would tell as much, but not less than four where there are as many:
        with fewer the interval would be far wider than simulated strings need to hold their mean in nine of ten cases.
    """
    return min(count - 1.0, max(count / inflation - 1.0, _FEWEST_TOLD))


def _half_width(error: float, freedom: float, common: float, confidence: float) -> float:
    total = math.hypot(error, common)
    if total == 0.0 or math.isinf(total):
        return total
    share = error / total
    effective = freedom / share**4 if share > 1e-6 else math.inf  # Welch-Satterthwaite; the common part has no end of freedom
    return total * t_quantile(0.5 * (1.0 + confidence), effective)
