"""A reference gun read on two days: what day, air and chronograph did to every reading alike."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from stripdown.core.shot_statistics.distributions import normal_quantile
from stripdown.core.shot_statistics.intervals import Interval
from stripdown.core.shot_statistics.moments import check_uncertainty
from stripdown.core.shot_statistics.strings import StringStatistics
from stripdown.errors import OutOfRange

_FEWEST: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class DayFactor:
    """What lies between two days, by a gun that nothing was done to.

    Parameters
    ----------
    ratio
        Readings of the later day over those of the earlier one, a pure number.
    standard_uncertainty
        Of that ratio, as a share: scatter of the reference gun's strings, and its own two days.
    own_day
        Share by which the mean of one gun differs from day to day by itself.
    count
        Pairs of strings that it rests on.
    """

    ratio: float
    standard_uncertainty: float
    own_day: float
    count: int

    @property
    def left_between_days(self) -> float:
        """What still lies between the two days of another gun, once the ratio is taken out.

        Returns
        -------
        float
            Standard uncertainty of one of the two days, as a share: both together are the square root of two of it.
        """
        return math.hypot(self.standard_uncertainty / math.sqrt(2.0), self.own_day)

    def interval(self, confidence: float = 0.95) -> Interval:
        """Interval of the ratio.

        Parameters
        ----------
        confidence
            Share of such intervals that hold it, between 0 and 1.

        Returns
        -------
        Interval
            Of the pure number.
        """
        half = normal_quantile(0.5 * (1.0 + confidence)) * self.standard_uncertainty
        return Interval(self.ratio * math.exp(-half), self.ratio * math.exp(half))


def day_factor(pairs: Sequence[tuple[StringStatistics, StringStatistics]], *, own_day: float) -> DayFactor:
    """Find what lies between two days from strings of one reference gun.

    Parameters
    ----------
    pairs
        String of the earlier day and of the later one, with the same ball and setting, at least one pair of two shots or more
        each, with means above zero, in m/s.
    own_day
        Share by which the mean of one gun differs from day to day by itself, zero or more.

    Returns
    -------
    DayFactor

    Raises
    ------
    OutOfRange
        Without a pair, for strings of one shot, or an impossible share.

    Notes
    -----
    The mean of ``ln(later/earlier)`` over the pairs; its variance is that of the means, ``c·s²/(n·m²)`` for each string
    (`drift_test` for c), and ``2·own_day²`` once: all pairs are of the same two days. Calibration, light, air and place act
    as a share on the readings of all guns of a day, and cancel in the ratio of ratios.
    """
    check_uncertainty("own_day", own_day)
    if not pairs or any(string.count < _FEWEST or string.mean <= 0.0 for pair in pairs for string in pair):
        raise OutOfRange(
            "A reference gun needs strings of two shots or more on both days.",
            field="pairs",
            hint="Fire ten before each session.",
        )
    logs = [math.log(later.mean / earlier.mean) for earlier, later in pairs]
    scatter = math.fsum(relative_variance(string) for pair in pairs for string in pair) / len(pairs) ** 2
    return DayFactor(
        ratio=math.exp(math.fsum(logs) / len(logs)),
        standard_uncertainty=math.sqrt(scatter + 2.0 * own_day**2),
        own_day=own_day,
        count=len(pairs),
    )


def relative_variance(string: StringStatistics) -> float:
    """Variance of the mean of a string from scatter alone.

    Parameters
    ----------
    string
        Of two shots or more.

    Returns
    -------
    float
        As a share of the mean, squared.
    """
    inflation = 1.0 if string.signs.drift is None else string.signs.drift.inflation
    return inflation * ((string.standard_deviation or 0.0) / string.mean) ** 2 / string.count
