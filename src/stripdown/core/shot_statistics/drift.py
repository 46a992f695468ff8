"""Whether a string drifts: its shots rise, fall or wander instead of scattering about one mean."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from stripdown.core.shot_statistics.distributions import normal_below, t_above
from stripdown.core.shot_statistics.moments import Centred, lag_one_autocorrelation

_FEWEST: Final = 4
_LARGEST: Final = 0.9  # likeness of neighbours beyond which a string is too short to tell it from a drift
_ROUNDING: Final = 1e-13  # share of the squares below which what a line leaves over is rounding


@dataclass(frozen=True, slots=True, kw_only=True)
class DriftTest:
    """What the order of the shots says.

    Parameters
    ----------
    slope
        Change per shot of the straight line through the string, in the unit of the readings.
    change
        Change of that line from the first shot to the last, same unit.
    slope_chance
        Chance that a string without drift shows a slope as steep, up or down.
    wander_chance
        Chance that a string without drift has neighbours as alike.
    level
        A chance below this counts as drift; the false-alarm rate of both looks together is at most twice that.
    inflation
        How many times the square of the mean's standard error is what independent shots would have: 1 unless the string wanders.
    """

    slope: float
    change: float
    slope_chance: float
    wander_chance: float
    level: float
    inflation: float = 1.0

    @property
    def is_steady_trend(self) -> bool:
        """Whether the string rises or falls."""
        return self.slope_chance < self.level

    @property
    def is_wandering(self) -> bool:
        """Whether neighbouring shots are more alike than chance would have it."""
        return self.wander_chance < self.level

    @property
    def has_drift(self) -> bool:
        """Whether either look finds drift."""
        return self.is_steady_trend or self.is_wandering


def drift_test(sample: Centred, *, level: float) -> DriftTest | None:
    """Test whether a string drifts.

    Parameters
    ----------
    sample
        Readings in the order in which they were fired.
    level
        False-alarm rate of each of the two looks, between 0 and 1.

    Returns
    -------
    DriftTest or None
        None for fewer than four shots, or when all are equal.

    Notes
    -----
    Two looks. A straight line on the shot's number, with the t test of its slope: it sees warming up and setting. The
    mean square of successive differences against the variance, ``C = 1 - sum(d²)/(2·sum(x²))``, which for scatter has
    mean 0 and variance ``(n - 2)/((n - 1)(n + 1))``: it sees wandering and steps. Its chance is taken from the normal
    distribution, which errs toward "no drift" in short strings. Alternating heaps are no drift and are not seen here.

    Where it wanders, the mean is less sure than the shots are many: ``c = 1 + 2·sum((1 - k/n)·r^k)``, over what the deviation
    within one string misses of the whole, ``1 - (c - 1)/(n - 1)``; r is the lag-one autocorrelation, put right for its bias
    by ``(1 + 3r)/n`` (`marriott_pope_1954`) and at most 0.9.

    References
    ----------
    young_1941, for C and its variance.
    """
    count, squares = sample.count, sample.sum_of_squares
    if count < _FEWEST or squares == 0.0:
        return None
    middle = 0.5 * (count - 1)
    spread = count * (count * count - 1) / 12.0
    slope = math.fsum((place - middle) * d for place, d in enumerate(sample.deviations)) / spread
    left = squares - slope * slope * spread
    if left <= _ROUNDING * squares:
        slope_chance = 0.0
    else:
        slope_chance = 2.0 * t_above(abs(slope) * math.sqrt(spread * (count - 2) / left), count - 2)
    successive = math.fsum((b - a) ** 2 for a, b in zip(sample.deviations[:-1], sample.deviations[1:], strict=True))
    likeness = (1.0 - successive / (2.0 * squares)) / math.sqrt((count - 2) / ((count - 1) * (count + 1)))
    wander_chance = normal_below(-likeness)
    return DriftTest(
        slope=slope * sample.scale,
        change=slope * (count - 1) * sample.scale,
        slope_chance=slope_chance,
        wander_chance=wander_chance,
        level=level,
        inflation=_inflation(sample) if wander_chance < level else 1.0,
    )


def _inflation(sample: Centred) -> float:
    """How many times the variance of the mean is that of independent shots, for a string that wanders as this does."""
    count, found = sample.count, lag_one_autocorrelation(sample) or 0.0
    likeness = min(max(found + (1.0 + 3.0 * found) / count, 0.0), _LARGEST)
    alike = 1.0 + 2.0 * math.fsum((1.0 - lag / count) * likeness**lag for lag in range(1, count))
    return alike / max(1.0 - (alike - 1.0) / (count - 1), 1.0 - _LARGEST)
