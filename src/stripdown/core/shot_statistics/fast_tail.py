"""Whether a string has a long fast tail: now and then a shot far above the others, which a mean and a deviation hide."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from stripdown.core.shot_statistics.distributions import Array
from stripdown.core.shot_statistics.moments import Centred
from stripdown.core.shot_statistics.rounded import scatters_behind, sound_strings

_FEWEST: Final = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class FastTailTest:
    """How lopsided a string is toward fast shots.

    Parameters
    ----------
    skewness
        Third moment over the 3/2 power of the second, a pure number; above zero with a fast tail.
    chance
        Chance that a sound string (normal scatter) is as lopsided toward fast shots.
    level
        A chance below this counts as a fast tail; also the false-alarm rate.
    """

    skewness: float
    chance: float
    level: float

    @property
    def has_fast_tail(self) -> bool:
        """Whether the fast shots reach farther out than normal scatter has them."""
        return self.chance < self.level


def fast_tail_test(sample: Centred, *, level: float, resolution: float = 0.0) -> FastTailTest | None:
    """Test whether a string has a long fast tail.

    Parameters
    ----------
    sample
        The readings; their order does not matter.
    level
        False-alarm rate, between 0 and 1.
    resolution
        Smallest step of the readings, in their unit; 0 if not known.

    Returns
    -------
    FastTailTest or None
        None for fewer than five shots, or when all are equal.

    Notes
    -----
    The sample's skewness, one side, against that of simulated sound strings of the same length, rounded as the readings are.

    References
    ----------
    nist_handbook, section 1.3.5.11, for the skewness.
    """
    if sample.count < _FEWEST or sample.sum_of_squares == 0.0:
        return None
    skewness = float(_skewness(np.array([sample.deviations]))[0])
    chance = max(_chance(skewness, _sound_skewnesses(sample.count, scatter)) for scatter in scatters_behind(sample, resolution))
    return FastTailTest(skewness=skewness, chance=chance, level=level)


def _skewness(strings: Array) -> Array:
    deviations = strings - strings.mean(axis=1, keepdims=True)
    squares = (deviations**2).mean(axis=1)
    return np.asarray((deviations**3).mean(axis=1) / (squares * np.sqrt(squares)), dtype=np.float64)


def _chance(skewness: float, sound: Array) -> float:
    at_least = len(sound) - int(np.searchsorted(sound, skewness - 1e-12 * max(1.0, math.fabs(skewness))))
    return (1 + at_least) / (1 + len(sound))


@functools.lru_cache(maxsize=64)
def _sound_skewnesses(count: int, scatter: float) -> Array:
    """Skewnesses of simulated sound strings, in rising order."""
    return np.sort(_skewness(sound_strings(count, scatter)))
