"""Tolerance factors behave as bounds do."""

from __future__ import annotations

import pytest

from stripdown.core.shot_statistics import tolerance_factor
from stripdown.core.shot_statistics.next_shot import NextShot
from stripdown.errors import OutOfRange


@pytest.mark.parametrize("sides", [1, 2])
def test_more_shots_bring_the_bound_nearer(sides: int) -> None:
    """It falls with the number of shots toward the normal quantile, and never below it."""
    factors = [tolerance_factor(n, content=0.95, confidence=0.95, sides=sides) for n in (2, 3, 5, 10, 30, 100, 10_000)]
    assert factors == sorted(factors, reverse=True)
    limit = 1.644854 if sides == 1 else 1.959964
    assert limit < factors[-1] < 1.02 * limit


@pytest.mark.parametrize("sides", [1, 2])
def test_more_content_or_confidence_takes_it_farther(sides: int) -> None:
    """Who wants to be surer, or to cover more, must go farther out."""
    usual = tolerance_factor(10, content=0.90, confidence=0.90, sides=sides)
    assert tolerance_factor(10, content=0.95, confidence=0.90, sides=sides) > usual
    assert tolerance_factor(10, content=0.90, confidence=0.95, sides=sides) > usual


@pytest.mark.parametrize(
    ("n", "options", "complaint"),
    [
        (1, {}, "1 shots"),
        (10, {"content": 95}, "Write 0.95"),
        (10, {"confidence": 0.0}, "confidence"),
        (10, {"sides": 0}, "sides"),
    ],
)
def test_nonsense_is_refused(n: int, options: dict[str, float], complaint: str) -> None:
    """One shot, per cent, zero, no side."""
    arguments = {"content": 0.95, "confidence": 0.95, "sides": 1, **options}
    with pytest.raises(OutOfRange, match=complaint):
        tolerance_factor(n, **arguments)


@pytest.mark.parametrize("uncertainty", [0.0, 0.1, 3.0])
@pytest.mark.parametrize("scatter", [0.0, 0.4])
@pytest.mark.parametrize("chance", [1e-4, 0.025, 0.5, 0.9])
def test_offset_and_chance_of_the_next_shot_are_inverse(uncertainty: float, scatter: float, chance: float) -> None:
    """A threshold that far above the mean is exceeded with that chance."""
    shot = NextShot(mean=97.0, standard_deviation=scatter, count=8, common_uncertainty=uncertainty)
    if scatter == uncertainty == 0.0:
        assert shot.offset(chance) == 0.0
        assert (shot.chance_above(96.0), shot.chance_above(97.0), shot.chance_above(98.0)) == (1.0, 0.5, 0.0)
        return
    assert shot.chance_above(97.0 + shot.offset(chance)) == pytest.approx(chance, rel=1e-6)
