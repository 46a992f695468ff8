"""Shots that do not belong with the others: named, never removed."""

from __future__ import annotations

import enum
import functools
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

import numpy as np

from stripdown.core.shot_statistics.distributions import t_quantile
from stripdown.core.shot_statistics.levels import check_share, check_sides
from stripdown.core.shot_statistics.moments import Centred, centre, finite_numbers
from stripdown.core.shot_statistics.rounded import scatters_behind, sound_strings

_FEWEST: Final = 3  # with two numbers each is as far from the mean as the other
_SHARE_LOOKED_AT: Final = 5  # at most one shot in so many can be named
_MOST: Final = 10
_FURTHER: Final = 0.1  # every candidate after the first is held to a tenth of the level: several looks, hardly more false alarms


class End(enum.Enum):
    """Which end of the readings a one-sided test looks at."""

    HIGH = "high"
    LOW = "low"


@dataclass(frozen=True, slots=True, kw_only=True)
class GrubbsTest:
    """Result of Grubbs' test for one outlier.

    Parameters
    ----------
    statistic
        Distance of the farthest reading from the mean, in standard deviations.
    critical
        Distance that only a share `level` of sound strings exceeds.
    index
        Place of that reading, counted from 0; None when all readings are equal.
    value
        That reading, in the unit of the others; None when all readings are equal.
    level
        False-alarm rate for a sound string.
    """

    statistic: float
    critical: float
    index: int | None
    value: float | None
    level: float

    @property
    def is_outlier(self) -> bool:
        """Whether the reading is farther out than chance would have it."""
        return self.statistic > self.critical


def grubbs(values: Iterable[float], *, level: float = 0.05, sides: int = 2, end: End = End.HIGH) -> GrubbsTest:
    """Test whether the farthest reading is an outlier.

    Parameters
    ----------
    values
        Three finite numbers or more, all in the same unit.
    level
        Chance of naming an outlier in a sound string, a number between 0 and 1.
    sides
        2 looks at both ends, 1 only at `end`.
    end
        Which end a one-sided test looks at.

    Returns
    -------
    GrubbsTest

    Raises
    ------
    OutOfRange
        For fewer than three readings, one that is not finite, or a level outside 0 to 1.

    Notes
    -----
    ``G = max|x - mean|/s``; critical ``(n - 1)/sqrt(n)·sqrt(t²/(n - 2 + t²))`` with t at level/(2n), or level/n for one side.
    Two outliers on the same side hide each other; `name_outliers` looks for several.

    References
    ----------
    nist_handbook, section 1.3.5.17.1; berthouex_brown, for printed critical values.
    """
    check_share("level", level)
    check_sides(sides)
    sample = centre(finite_numbers(values, field="values", at_least=_FEWEST))
    index, statistic = _farthest(sample, sides, end)
    return GrubbsTest(
        statistic=statistic,
        critical=_critical(sample.count, level / (sides * sample.count)),
        index=index,
        value=None if index is None else sample.values[index],
        level=level,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlier:
    """One reading that does not belong with the others.

    Parameters
    ----------
    index
        Its place in the string, counted from 0.
    value
        The reading, in the unit of the others.
    statistic
        Its distance from the mean of what was left, in standard deviations of what was left.
    critical
        Number of standard deviations that it had to exceed.
    is_fast
        Whether it lies above the others.
    """

    index: int
    value: float
    statistic: float
    critical: float
    is_fast: bool = False


def name_outliers(values: tuple[float, ...], *, level: float = 0.05, resolution: float = 0.0) -> tuple[Outlier, ...]:
    """Name the readings that do not belong, several if need be.

    Parameters
    ----------
    values
        Finite numbers, any unit.
    level
        Chance of naming one in a sound string, between 0 and 1; further candidates add a tenth of it each.
    resolution
        Smallest step of the readings, in their unit; 0 if not known.

    Returns
    -------
    tuple of Outlier
        Farthest first; empty for fewer than three readings.

    Notes
    -----
    Generalised extreme studentized deviate: the farthest is taken away, again and again, up to one reading in five;
    the last step whose distance is critical decides how many are named. The first step is Grubbs' test. The published
    procedure holds every step to the full level and then names outliers in 7 of 100 sound strings of ten, not in 5;
    hence the stricter level of the further steps. Where the display's steps are coarse beside the scatter, a distance must also
    be rare among sound strings that are rounded as the readings are: one step beside nine equal readings is no outlier.

    References
    ----------
    nist_handbook, section 1.3.5.17.3.
    """
    candidates: list[Outlier] = []
    named = 0
    left = list(enumerate(values))
    for _ in range(min(_MOST, max(1, len(values) // _SHARE_LOOKED_AT))):
        if len(left) < _FEWEST:
            break
        sample = centre(tuple(value for _, value in left))
        place, statistic = _farthest(sample, 2, End.HIGH)
        if place is None:
            break
        allowed = level * (_FURTHER if candidates else 1.0)
        critical = max(
            _critical(len(left), allowed / (2 * len(left))),
            *(_rounded_critical(len(left), scatter, allowed) for scatter in scatters_behind(sample, resolution)),
        )
        index, value = left.pop(place)
        is_fast = sample.deviations[place] > 0.0
        candidates.append(Outlier(index=index, value=value, statistic=statistic, critical=critical, is_fast=is_fast))
        if statistic > critical * (1.0 + 1e-9):
            named = len(candidates)
    return tuple(candidates[:named])


def _farthest(sample: Centred, sides: int, end: End) -> tuple[int | None, float]:
    deviation = sample.scaled_deviation
    if deviation == 0.0:
        return None, 0.0
    sign = 1.0 if end is End.HIGH else -1.0
    distances = [abs(d) if sides == 2 else sign * d for d in sample.deviations]
    farthest = max(distances)
    return distances.index(farthest), farthest / deviation


def _critical(count: int, tail: float) -> float:
    t = t_quantile(tail, count - 2)
    return (count - 1) / math.sqrt(count) * math.sqrt(t * t / (count - 2 + t * t))


@functools.lru_cache(maxsize=256)
def _rounded_critical(count: int, scatter: float, level: float) -> float:
    """Largest distance that is exceeded no more often than so among sound strings as a coarse display shows them."""
    if math.isinf(scatter):
        return 0.0
    strings = sound_strings(count, scatter)
    centred = strings - strings.mean(axis=1, keepdims=True)
    distances = np.sort(np.abs(centred).max(axis=1) / centred.std(axis=1, ddof=1))
    return float(distances[min(math.ceil((1.0 - level) * len(distances)), len(distances) - 1)])
