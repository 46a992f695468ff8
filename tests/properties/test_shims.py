"""Choosing shims against exhaustive search: packs are inside the band, none is missing, none is better; and monotone."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.shim_selection import ShimPack, choose_shims

_MICROMETRES = st.integers(min_value=10, max_value=600)
_STOCKS = st.dictionaries(_MICROMETRES, st.integers(min_value=0, max_value=4), min_size=1, max_size=5).filter(
    lambda stock: any(stock.values())
)


@dataclass(frozen=True)
class Problem:
    """One gear's play in whole micrometres."""

    gap: int
    uncertainty: int
    low: int
    high: int
    stock: dict[int, int]
    most: int

    def choose(self) -> tuple[ShimPack, ...]:
        """Packs that the program finds."""
        return choose_shims(**self.question()).packs

    def question(self) -> dict[str, Any]:
        """The same in SI."""
        return {
            "gap": self.gap * 1e-6,
            "gap_uncertainty": self.uncertainty * 1e-6,
            "float_band": (self.low * 1e-6, self.high * 1e-6),
            "stock": {thickness * 1e-6: count for thickness, count in self.stock.items()},
            "most": self.most,
        }

    def every_pack(self) -> Iterator[tuple[int, ...]]:
        """All packs of at most so many shims, found by trying everything."""
        for shims in range(self.most + 1):
            for pack in itertools.combinations_with_replacement(sorted(self.stock, reverse=True), shims):
                if all(count <= self.stock[thickness] for thickness, count in Counter(pack).items()):
                    yield pack

    def miss(self, pack: tuple[int, ...]) -> int:
        """How far the float may leave the band; at most 0 if it cannot."""
        left = self.gap - sum(pack)
        return max(self.low - (left - self.uncertainty), left + self.uncertainty - self.high)

    def rank(self, pack: tuple[int, ...]) -> tuple[int, int]:
        """Fewest, then most centred."""
        return len(pack), abs(2 * (self.gap - sum(pack)) - self.low - self.high)


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """Plays up to 2 mm, bands up to 0.3 mm wide, small trays."""
    low = draw(st.integers(min_value=0, max_value=150))
    return Problem(
        gap=draw(st.integers(min_value=0, max_value=2000)),
        uncertainty=draw(st.integers(min_value=0, max_value=60)),
        low=low,
        high=low + draw(st.integers(min_value=0, max_value=300)),
        stock=draw(_STOCKS),
        most=draw(st.integers(min_value=1, max_value=4)),
    )


def _whole(pack: ShimPack) -> tuple[int, ...]:
    return tuple(round(thickness * 1e6) for thickness in pack.thicknesses)


@given(problems())
def test_packs_are_exactly_those_that_fit(problem: Problem) -> None:
    """Each pack of an exhaustive search that stays in the band is there once, no other is, and the best come first."""
    found = [_whole(pack) for pack in problem.choose()]
    assert sorted(found) == sorted(pack for pack in problem.every_pack() if problem.miss(pack) <= 0)
    assert [problem.rank(pack) for pack in found] == sorted(map(problem.rank, found))


@given(problems(), st.integers(min_value=-1, max_value=1))
def test_a_pack_stays_in_the_band_wherever_the_true_play_lies(problem: Problem, side: int) -> None:
    """At both ends of the uncertainty and in its middle; no shim is used more often than it is there."""
    for pack in map(_whole, problem.choose()):
        assert problem.low <= problem.gap + side * problem.uncertainty - sum(pack) <= problem.high
        assert all(count <= problem.stock[thickness] for thickness, count in Counter(pack).items())
        assert len(pack) <= problem.most


@given(problems())
def test_only_nominal_packs_fit_as_measured_and_not_for_sure(problem: Problem) -> None:
    """Together with the sure ones they are all packs that fit the play as measured."""
    choice = choose_shims(**problem.question())
    found = sorted(_whole(pack) for pack in (*choice.packs, *choice.only_nominal))
    assert found == sorted(pack for pack in problem.every_pack() if problem.low <= problem.gap - sum(pack) <= problem.high)


@given(problems())
def test_the_nearest_miss_is_the_nearest(problem: Problem) -> None:
    """It is told only if nothing fits, and no pack misses by less."""
    choice = choose_shims(**problem.question())
    assert (choice.nearest_miss is None) == bool(choice.packs)
    if choice.nearest_miss is not None:
        least = min(map(problem.miss, problem.every_pack()))
        assert round(choice.nearest_miss.by * 1e6) == least
        assert problem.miss(_whole(choice.nearest_miss.pack)) == least


@given(problems())
def test_what_is_bought_makes_a_pack_fit(problem: Problem) -> None:
    """With the bought shims in the tray a pack fits; nothing to buy means that one fits or that no shim at all would do."""
    choice = choose_shims(**problem.question())
    if choice.buy:
        more = dict(problem.stock)
        for thickness in choice.buy:
            more[round(thickness * 1e6)] = more.get(round(thickness * 1e6), 0) + 1
        after = Problem(problem.gap, problem.uncertainty, problem.low, problem.high, more, problem.most)
        assert choice.pack_after_buying is not None
        assert _whole(choice.pack_after_buying) in map(_whole, after.choose())
    elif not choice.packs:
        assert problem.gap - problem.uncertainty - problem.low < max(problem.gap + problem.uncertainty - problem.high, 1)


@given(problems(), st.integers(min_value=1, max_value=40))
def test_what_must_be_monotone_is(problem: Problem, change: int) -> None:
    """A better measurement, a wider band, another shim or one more allowed never loses a pack."""
    before = set(map(_whole, problem.choose()))
    p = problem
    for easier in (
        Problem(p.gap, max(p.uncertainty - change, 0), p.low, p.high, p.stock, p.most),
        Problem(p.gap, p.uncertainty, max(p.low - change, 0), p.high + change, p.stock, p.most),
        Problem(p.gap, p.uncertainty, p.low, p.high, {**p.stock, change: 1 + p.stock.get(change, 0)}, p.most),
        Problem(p.gap, p.uncertainty, p.low, p.high, p.stock, p.most + 1),
    ):
        assert before <= set(map(_whole, easier.choose()))


@given(problems(), st.integers(min_value=1, max_value=30))
def test_a_thicker_seat_wants_that_much_more(problem: Problem, shift: int) -> None:
    """Play and band moved together change nothing: only what is left counts."""
    moved = Problem(
        problem.gap + shift, problem.uncertainty, problem.low + shift, problem.high + shift, problem.stock, problem.most
    )
    assert [_whole(pack) for pack in moved.choose()] == [_whole(pack) for pack in problem.choose()]
