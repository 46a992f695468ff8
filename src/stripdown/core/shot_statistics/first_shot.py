"""Whether the first shot is low, as after a rest with a stuck ring or an oiled hop-up."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from stripdown.core.shot_statistics.distributions import t_above
from stripdown.core.shot_statistics.moments import centre

_FEWEST: Final = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstShotTest:
    """The first shot against the others.

    Parameters
    ----------
    shortfall
        Mean of the others minus the first shot, in the unit of the readings.
    chance
        Chance that the first shot of a sound string is as low.
    level
        A chance below this counts as low; also the false-alarm rate.
    """

    shortfall: float
    chance: float
    level: float

    @property
    def is_low(self) -> bool:
        """Whether the first shot is lower than chance would have it."""
        return self.chance < self.level


def first_shot_test(values: tuple[float, ...], *, level: float) -> FirstShotTest | None:
    """Test whether the first shot is low.

    Parameters
    ----------
    values
        Readings in m/s in the order in which they were fired, the first after a rest.
    level
        False-alarm rate, between 0 and 1.

    Returns
    -------
    FirstShotTest or None
        None for fewer than four shots, or when all the others are equal.

    Notes
    -----
    The first shot is held against the predictive interval of the others, one-sided: exact for normal scatter.
    """
    if len(values) < _FEWEST:
        return None
    others = centre(values[1:])
    if others.scaled_deviation == 0.0:
        return None
    spread = others.scaled_deviation * math.sqrt(1.0 + 1.0 / others.count)
    shortfall = others.mean - values[0]
    return FirstShotTest(shortfall=shortfall, chance=t_above(shortfall / others.scale / spread, others.count - 1), level=level)
