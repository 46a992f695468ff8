"""Grubbs' critical values against a printed table with a misprint."""

from __future__ import annotations

import pytest

from stripdown.core.shot_statistics import grubbs
from tests.published import Published

PRINTED = {5: 1.715, 6: 1.887, 8: 2.126, 10: 2.290, 15: 2.549}


@pytest.mark.source(
    "harvey_analytical", "appendix, critical values for Grubbs' test, two-sided 0.05", atol=0.0011, because="three decimals"
)
@pytest.mark.parametrize("n", PRINTED)
def test_harvey_analytical_grubbs(published: Published, n: int) -> None:
    """The critical distance of a string of this length is the printed one."""
    published(f"n = {n}", found=grubbs(range(n)).critical, expected=PRINTED[n], unit="1")


@pytest.mark.source(
    "harvey_analytical",
    "the same table, n = 7: it prints 2.202 for 2.020",
    atol=0.0,
    because="two digits changed places in print",
)
def test_harvey_analytical_misprint(published: Published) -> None:
    """For seven shots the value lies between its neighbours, as the printed 2.202 does not."""
    six, seven, eight = (grubbs(range(n)).critical for n in (6, 7, 8))
    published.within("n = 7, between n = 6 and n = 8", found=seven, low=six, high=eight, unit="1")
    published("n = 7, digits as they should stand", found=seven, expected=2.020, unit="1", atol=0.0005)


@pytest.mark.source(
    "derived", "Grubbs' critical value by simulation of 200 000 sound strings", because="binomial scatter, five standard errors"
)
@pytest.mark.parametrize(("n", "sides"), [(5, 1), (10, 1), (10, 2), (30, 2)])
def test_grubbs_by_simulation(published: Published, n: int, sides: int) -> None:
    """A sound string exceeds the critical distance in one case of twenty."""
    numpy = pytest.importorskip("numpy")
    strings = numpy.random.default_rng((2, n, sides)).standard_normal((200_000, n))
    distance = (strings - strings.mean(axis=1, keepdims=True)) / strings.std(axis=1, ddof=1, keepdims=True)
    farthest = (numpy.abs(distance) if sides == 2 else distance).max(axis=1)
    found = float((farthest > grubbs(range(n), sides=sides).critical).mean())
    published(f"n = {n}, sides {sides}: exceeded", found=found, expected=0.05, unit="1", atol=0.0025)
