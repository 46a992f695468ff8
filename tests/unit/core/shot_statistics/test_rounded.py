"""Steps of a display are neither heaps nor outliers, and what is neither does not hide what is."""

from __future__ import annotations

import math

import numpy as np
import pytest

from stripdown.core.shot_statistics import Chronograph, analyse_string
from stripdown.core.shot_statistics.moments import centre
from stripdown.core.shot_statistics.rounded import NOT_ROUNDED, scatters_behind, sound_strings
from stripdown.core.shot_statistics.strings import StringStatistics

_STRINGS = 150
_WHOLE = Chronograph(resolution=1.0)


def _read(speeds: np.ndarray[tuple[int], np.dtype[np.float64]]) -> StringStatistics:
    return analyse_string(np.round(speeds).tolist(), ball_mass=None, chronograph=_WHOLE)


@pytest.mark.parametrize("scatter", [0.2, 0.35, 0.6, 1.0, 2.0, 6.0])
@pytest.mark.parametrize("count", [10, 20])
def test_a_sound_gun_on_a_coarse_display_is_sound(count: int, scatter: float) -> None:
    """False alarms stay at the promised 1 % and 5 % (here: three standard errors above them at most), whatever the steps."""
    generator = np.random.default_rng((count, round(10 * scatter)))
    found = [_read(300.0 + generator.uniform() + scatter * generator.standard_normal(count)) for _ in range(_STRINGS)]
    heaps, outliers = (np.mean([each.has_two_heaps for each in found]), np.mean([bool(each.outliers) for each in found]))
    assert heaps <= 0.01 + 3.0 * math.sqrt(0.01 * 0.99 / _STRINGS)
    assert outliers <= 0.05 + 3.0 * math.sqrt(0.05 * 0.95 / _STRINGS)


def test_real_heaps_and_real_outliers_are_still_seen() -> None:
    """A third of the shots ten scatters slow, and one shot ten scatters low."""
    generator = np.random.default_rng(5)
    speeds = 300.0 + 1.5 * generator.standard_normal(15)
    slow = speeds.copy()
    slow[::3] -= 15.0
    assert _read(slow).has_two_heaps
    speeds[4] -= 15.0
    assert [outlier.index for outlier in _read(speeds).outliers] == [4]


@pytest.mark.parametrize(("resolution", "deviation"), [(0.0, 0.1), (0.1, 0.5)])
def test_a_fine_display_is_not_rounded(resolution: float, deviation: float) -> None:
    """Unknown steps, or steps far below the scatter."""
    sample = centre((100.0 - deviation, 100.0, 100.0 + deviation))
    assert scatters_behind(sample, resolution) == NOT_ROUNDED


def test_the_scatters_behind_a_string_hold_the_true_one() -> None:
    """Sheppard's correction on a long string of known scatter: 0.6 steps lie among the scatters looked at."""
    generator = np.random.default_rng(3)
    sample = centre(tuple(np.round(0.6 * generator.standard_normal(2000) + 0.3).tolist()))
    behind = scatters_behind(sample, 1.0)
    assert min(behind) < 0.6 < max(behind)


def test_strings_on_a_coarse_display_hold_whole_steps() -> None:
    """Rounded, and none of them with all readings equal."""
    strings = sound_strings(6, 0.3)
    assert np.array_equal(strings, np.round(strings))
    assert (strings.min(axis=1) < strings.max(axis=1)).all()
    assert sound_strings(6, math.inf).shape == (8000, 6)
