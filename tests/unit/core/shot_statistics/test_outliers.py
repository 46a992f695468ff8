"""Outliers are named, several if need be, and hardly ever in a sound string."""

from __future__ import annotations

import numpy as np
import pytest

from stripdown.core.shot_statistics import End, grubbs
from stripdown.core.shot_statistics.outliers import name_outliers
from stripdown.errors import OutOfRange

SOUND = (97.1, 96.8, 97.4, 97.0, 96.9, 97.3, 97.2, 96.7, 97.1, 97.0)


def test_the_farthest_reading_is_tested() -> None:
    """Index, value and distance are those of the farthest reading."""
    found = grubbs((*SOUND, 90.0))
    assert found.is_outlier
    assert (found.index, found.value) == (10, 90.0)
    everything = (*SOUND, 90.0)
    assert found.statistic == pytest.approx(abs(90.0 - np.mean(everything)) / np.std(everything, ddof=1))


def test_a_sound_string_has_none() -> None:
    """The farthest of ten sound shots is no outlier."""
    assert not grubbs(SOUND).is_outlier
    assert name_outliers(SOUND) == ()


def test_one_side_looks_at_its_end_only() -> None:
    """A low outlier is seen from the low end and not from the high one."""
    assert grubbs((*SOUND, 90.0), sides=1, end=End.LOW).is_outlier
    high = grubbs((*SOUND, 90.0), sides=1)
    assert not high.is_outlier
    assert high.value == 97.4


def test_equal_readings_have_no_farthest() -> None:
    """Where nothing differs nothing is an outlier."""
    found = grubbs([98.0] * 5)
    assert (found.statistic, found.index, found.value, found.is_outlier) == (0.0, None, None, False)


def test_two_that_hide_each_other_are_both_named() -> None:
    """Two low shots widen the scatter, so that one test misses both; the repeated one does not."""
    string = (*SOUND, *SOUND, 92.0, 92.1)
    assert {outlier.index for outlier in name_outliers(string)} == {20, 21}


@pytest.mark.parametrize("n", [3, 10, 20])
def test_sound_strings_are_rarely_accused(n: int) -> None:
    """The false-alarm rate is near the stated level, and above it by little where several candidates are looked at."""
    strings = np.random.default_rng(n).standard_normal((1500, n))
    rate = np.mean([bool(name_outliers(tuple(map(float, string)), level=0.05)) for string in strings])
    assert 0.03 < rate < 0.075


@pytest.mark.parametrize(
    ("values", "options", "complaint"),
    [
        ([1.0, 2.0], {}, "2 readings"),
        (SOUND, {"level": 1.0}, "level"),
        (SOUND, {"sides": 3}, "sides"),
        (SOUND, {"level": 5}, "0.95"),
    ],
)
def test_what_cannot_be_tested_is_refused(values: list[float], options: dict[str, float], complaint: str) -> None:
    """Too few readings, a level outside 0 to 1, three sides."""
    with pytest.raises(OutOfRange, match=complaint):
        grubbs(values, **options)  # type: ignore[arg-type]
