"""Where shots, days and chronographs are not what the formulas suppose, what is said still comes true, or is not said."""

from __future__ import annotations

import math

import pytest

from tests.published import Published
from tests.validation.shot_statistics.beyond_assumptions import (
    STEADY,
    alike_neighbours,
    changes_between_days,
    false_unders,
    offsets_learned,
    seen_on_a_display,
)

FEW = 300


@pytest.mark.source("derived", "300 simulated strings of each feature", because="binomial scatter, 4.5 standard errors")
def test_no_warned_string_is_under(published: Published) -> None:
    """Of strings that climb by half their scatter a shot few are under, where the numbers alone put all."""
    found = {words: rates for words, *rates in false_unders(10, FEW)}
    by_numbers, called, _ = found["climbing by half the scatter a shot"]
    assert by_numbers > 0.9
    published.within("climbing by half the scatter a shot: called under", found=called, low=0.0, high=0.25, unit="1")
    _, called, seen = found[STEADY]
    slack = 4.5 * math.sqrt(0.07 * 0.93 / FEW)
    published.within("steady: a sign is found", found=seen, low=0.0, high=0.07 + slack, unit="1")
    published.within("steady: falsely under", found=called, low=0.0, high=0.05 + slack, unit="1")
    assert all(called <= by_numbers for by_numbers, called, _ in found.values())


@pytest.mark.source("derived", "300 simulated strings", because="binomial scatter, 4.5 standard errors")
@pytest.mark.parametrize("scatter", [0.3, 0.8, 2.0])
def test_alarms_stay_rare_on_a_coarse_display(published: Published, scatter: float) -> None:
    """At every step of the display."""
    found = seen_on_a_display(10, scatter, FEW)
    for words, promised in (("two heaps", 0.01), ("an outlier", 0.06), ("a fast tail", 0.025)):
        rate = found[f"{words} in a sound string"]
        slack = 4.5 * math.sqrt(promised * (1.0 - promised) / FEW)
        published.within(f"scatter of {scatter} steps: {words}", found=rate, low=0.0, high=promised + slack, unit="1")


@pytest.mark.source("derived", "400 simulated strings", because="binomial scatter, 4.5 standard errors")
def test_the_interval_widens_where_neighbours_are_alike(published: Published) -> None:
    """Counted as n shots it holds the mean in six of ten cases."""
    _, narrow, wide = alike_neighbours(20, 0.7, 400)
    assert narrow < 0.8
    published.within("neighbours alike by 0.7, 20 shots, found", found=wide, low=0.90, high=1.0, unit="1")


@pytest.mark.source("derived", "300 simulated sessions", because="binomial scatter, 4.5 standard errors")
def test_a_change_that_is_none_is_called_none(published: Published) -> None:
    """With the usual day, and with a reference gun; without a term for the day a null service tests as change half the time."""
    found = changes_between_days(0.004, 0.002, FEW)
    assert found["no term for the day"][0] < 0.7
    slack = 4.5 * math.sqrt(0.05 * 0.95 / FEW)
    for words in ("0.5 % a day", "a reference gun"):
        published.within(f"{words}: interval holds no change", found=found[words][0], low=0.95 - slack, high=1.0, unit="1")
    assert found["a reference gun"][1] < found["0.5 % a day"][1] < 0.02


@pytest.mark.source("derived", "300 simulated sessions", because="binomial scatter, 4.5 standard errors")
@pytest.mark.parametrize("guns", [1, 3])
def test_an_offset_holds_for_the_next_gun(published: Published, guns: int) -> None:
    """Whether one gun was read on both or three."""
    held, next_held, width = offsets_learned(guns, 0.005, FEW)
    slack = 4.5 * math.sqrt(0.05 * 0.95 / FEW)
    for words, rate in (("the offset", held), ("the next gun", next_held)):
        published.within(f"{guns} guns: interval holds {words}", found=rate, low=0.95 - slack, high=1.0, unit="1")
    assert width < 0.03
