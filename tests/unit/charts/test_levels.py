from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.charts.levels import apart


def test_words_that_do_not_touch_stay_where_they_belong() -> None:
    """Ten pixels are enough for a gap of ten."""
    assert apart([10.0, 30.0, 20.0], 10.0) == [10.0, 30.0, 20.0]


def test_two_that_touch_part_by_the_same_way() -> None:
    """Wished at 10 and 12, ten apart: their middle stays at 11."""
    assert apart([12.0, 10.0], 10.0) == pytest.approx([16.0, 6.0])


def test_a_third_that_is_pushed_into_joins_the_heap() -> None:
    """Three wished at 10, 12 and 18 stand about their mean of 13.33."""
    assert apart([10.0, 12.0, 18.0], 10.0) == pytest.approx([10 / 3, 40 / 3, 70 / 3])


@given(st.lists(st.floats(-1e3, 1e3), min_size=1, max_size=8), st.floats(0.1, 50.0))
def test_neighbours_keep_their_gap_and_their_order(places: list[float], gap: float) -> None:
    """Whatever the wishes: no two words are written into each other, and none overtakes another."""
    moved = apart(places, gap)
    order = sorted(range(len(places)), key=lambda index: places[index])
    for one, two in itertools.pairwise(order):
        assert moved[two] - moved[one] >= gap * (1 - 1e-9) - 1e-9
    assert sum(moved) == pytest.approx(sum(places), abs=1e-6)
