"""Whether a string falls into two heaps, as when the nozzle now and then does not come home."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from stripdown.core.shot_statistics.distributions import Array
from stripdown.core.shot_statistics.moments import Centred
from stripdown.core.shot_statistics.rounded import scatters_behind, sound_strings

_FEWEST: Final = 6
_SMALLEST_HEAP: Final = 2  # a single shot apart is an outlier, not a heap
_SMALLEST_SHARE: Final = 5  # and in a long string a heap is at least one shot in so many


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoHeapsTest:
    """Best split of a string into a slow and a fast heap.

    Parameters
    ----------
    separation
        Share of the squared scatter that the split explains, 0 to 1.
    chance
        Chance that a sound string (one normal heap) can be split as well.
    slow_mean, fast_mean
        Means of the two heaps, in the unit of the readings.
    slow_count, fast_count
        Number of shots in each.
    slow
        Places of the shots of the slow heap, counted from 0, in order.
    level
        A chance below this counts as two heaps; also the false-alarm rate.
    """

    separation: float
    chance: float
    slow_mean: float
    fast_mean: float
    slow_count: int
    fast_count: int
    slow: tuple[int, ...]
    level: float

    @property
    def has_two_heaps(self) -> bool:
        """Whether the split is too good for one heap."""
        return self.chance < self.level


def two_heaps_test(sample: Centred, *, level: float, resolution: float = 0.0) -> TwoHeapsTest | None:
    """Test whether a string falls into two heaps.

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
    TwoHeapsTest or None
        None for fewer than six shots, or when all are equal.

    Notes
    -----
    The sorted string is cut where the cut explains most of its squared scatter; neither heap may be a single shot nor
    less than a fifth. This is the likelihood ratio of two normal heaps of equal scatter against one. How well sound
    strings of the same length split is simulated, 8000 strings from a fixed seed, so the false-alarm rate is the
    stated one at every length. Where the display's steps are coarse beside the scatter, the sound strings are rounded as
    the readings are: two values next to each other are steps, not heaps. It judges shape only: a flat or skewed string
    of many shots is called two heaps as well, and so is a steady drift. Look at the picture.

    References
    ----------
    engelman_hartigan_1969, for the ratio.
    """
    count = sample.count
    if count < _FEWEST or sample.sum_of_squares == 0.0:
        return None
    order = sorted(range(count), key=sample.deviations.__getitem__)
    explained = _explained(np.array([[sample.deviations[place] for place in order]]))[0]
    cut = int(np.argmax(explained)) + _smallest(count)
    separation = float(explained.max())
    chance = max(_chance(separation, _sound_separations(count, scatter)) for scatter in scatters_behind(sample, resolution))
    slow = order[:cut]
    fast = order[cut:]
    return TwoHeapsTest(
        separation=min(separation, 1.0),
        chance=chance,
        slow_mean=_mean(sample, slow),
        fast_mean=_mean(sample, fast),
        slow_count=len(slow),
        fast_count=len(fast),
        slow=tuple(sorted(slow)),
        level=level,
    )


def _smallest(count: int) -> int:
    return max(_SMALLEST_HEAP, math.ceil(count / _SMALLEST_SHARE))


def _explained(ordered: Array) -> Array:
    """Share of squares between the heaps, for every string (row) and every allowed cut (column)."""
    count = ordered.shape[1]
    centred = ordered - ordered.mean(axis=1, keepdims=True)
    smallest = _smallest(count)
    cuts = np.arange(smallest, count - smallest + 1)
    sums = np.cumsum(centred, axis=1)[:, cuts - 1]
    between = sums**2 * (count / (cuts * (count - cuts)))
    return np.asarray(between / (centred**2).sum(axis=1, keepdims=True), dtype=np.float64)


def _chance(separation: float, sound: Array) -> float:
    at_least = len(sound) - int(np.searchsorted(sound, separation * (1.0 - 1e-12)))
    return (1 + at_least) / (1 + len(sound))


@functools.lru_cache(maxsize=64)
def _sound_separations(count: int, scatter: float) -> Array:
    """Separations of simulated sound strings, in rising order."""
    strings = np.sort(sound_strings(count, scatter), axis=1)
    best = [_explained(strings[start : start + 500]).max(axis=1) for start in range(0, len(strings), 500)]
    return np.sort(np.concatenate(best))


def _mean(sample: Centred, places: list[int]) -> float:
    return sample.mean + sample.scale * math.fsum(sample.deviations[place] for place in places) / len(places)
