"""How one chronograph reads against another, learned from guns that were read on both."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from stripdown.core.shot_statistics.distributions import normal_quantile, t_quantile
from stripdown.core.shot_statistics.intervals import Interval
from stripdown.core.shot_statistics.reference_gun import relative_variance
from stripdown.core.shot_statistics.strings import StringStatistics
from stripdown.errors import OutOfRange

USUAL_BETWEEN_READINGS: Final = 0.005
"""Share by which two readings of one gun on two chronographs differ from gun to gun, before any was read: an estimate."""
_WORTH: Final = 4.0  # guns that the estimate counts for: few enough to give way, so many that two guns alone claim nothing
_FEWEST: Final = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class ChronographOffset:
    """One chronograph against another.

    Parameters
    ----------
    ratio
        Reading of the other over that of one's own, a pure number.
    standard_uncertainty
        Of that ratio, as a share.
    between_guns
        Standard deviation of the ratio from gun to gun, as a share.
    degrees_of_freedom
        Of `between_guns`: guns less one, and four for the estimate that it starts from.
    count
        Guns that were read on both.
    """

    ratio: float
    standard_uncertainty: float
    between_guns: float
    degrees_of_freedom: float
    count: int

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
        half = t_quantile(0.5 * (1.0 + confidence), self.degrees_of_freedom) * self.standard_uncertainty
        return Interval(self.ratio * math.exp(-half), self.ratio * math.exp(half))

    def of_next_gun(self, confidence: float = 0.95) -> float:
        """How uncertain the ratio is for one gun more.

        Parameters
        ----------
        confidence
            At which it is meant to hold, between 0 and 1.

        Returns
        -------
        float
            Standard uncertainty as a share: of the normal distribution whose interval at that confidence is as wide as
            Student's, so that it can stand beside the others.
        """
        level = 0.5 * (1.0 + confidence)
        one_more = math.hypot(self.standard_uncertainty, self.between_guns)
        return one_more * t_quantile(level, self.degrees_of_freedom) / normal_quantile(level)


def chronograph_offset(
    guns: Sequence[tuple[StringStatistics, StringStatistics]], *, between_readings: float = USUAL_BETWEEN_READINGS
) -> ChronographOffset:
    """Learn how one chronograph reads against another.

    Parameters
    ----------
    guns
        Of each gun a string read on one's own chronograph and one read on the other, with the same ball and setting, two shots
        or more each, with means above zero, in m/s.
    between_readings
        What the ratio is expected to differ by from gun to gun, before any was read, as a share above zero.

    Returns
    -------
    ChronographOffset

    Raises
    ------
    OutOfRange
        Without a gun, for strings of one shot, or an impossible share.

    Notes
    -----
    ``y = ln(other/own)`` of each gun; their mean is the offset. Their scatter is pooled with what is expected of it:
    ``s² = (4·(between² + v) + sum((y - mean)²))/(4 + k - 1)``, v the mean variance that scatter from shot to shot gives a y. So
    one gun is as uncertain as one gun is, and many count for themselves. Both chronographs are taken to err by a share of
    the reading, the same for all guns.

    References
    ----------
    jcgm_100, section 4.2.4, for the pooled variance; 4.3, for what is judged before it is observed.
    """
    if not (math.isfinite(between_readings) and between_readings > 0.0):
        raise OutOfRange(
            f"between_readings = {between_readings} is no share above zero.",
            field="between_readings",
            value=between_readings,
            hint="0.005 is half a per cent.",
        )
    if not guns or any(string.count < _FEWEST or string.mean <= 0.0 for gun in guns for string in gun):
        raise OutOfRange(
            "An offset needs a gun with two shots or more on both chronographs.",
            field="guns",
            hint="Read three guns on both, ten shots each.",
        )
    logs = [math.log(other.mean / own.mean) for own, other in guns]
    mean = math.fsum(logs) / len(logs)
    within = math.fsum(relative_variance(string) for gun in guns for string in gun) / len(guns)
    freedom = _WORTH + len(guns) - 1.0
    squares = math.fsum((log - mean) ** 2 for log in logs)
    between_guns = math.sqrt((_WORTH * (between_readings**2 + within) + squares) / freedom)
    return ChronographOffset(
        ratio=math.exp(mean),
        standard_uncertainty=between_guns / math.sqrt(len(guns)),
        between_guns=between_guns,
        degrees_of_freedom=freedom,
        count=len(guns),
    )
