"""Shims for a whole box against exhaustive search, and whether a chain can be closed against a linear programme."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from stripdown.core.shim_selection import GearClearance, GearSeat, GearShims, ShimmedGear, choose_split
from stripdown.core.shim_selection.chain import chain_of

_GEARS = (ShimmedGear.BEVEL, ShimmedGear.SPUR, ShimmedGear.SECTOR)
_MOST = 2
Faces = tuple[tuple[int, ...], tuple[int, ...]]


@dataclass(frozen=True)
class Gear:
    """One gear in whole micrometres."""

    gap: int
    uncertainty: int
    low: int
    high: int
    height: int | None
    tolerance: int

    def seat(self, gear: ShimmedGear) -> GearSeat:
        """The same in SI."""
        return GearSeat(
            gear=gear,
            gap=self.gap * 1e-6,
            gap_uncertainty=self.uncertainty * 1e-6,
            float_band=(self.low * 1e-6, self.high * 1e-6),
            height=None if self.height is None else self.height * 1e-6,
            height_tolerance=None if self.height is None else self.tolerance * 1e-6,
        )

    def stands(self, faces: Faces) -> bool:
        """Whether float and height hold at both ends of the uncertainty, taken one by one."""
        left, right = map(sum, faces)
        for gap in (self.gap - self.uncertainty, self.gap + self.uncertainty):
            if not self.low <= gap - left - right <= self.high:
                return False
            if self.height is not None and (left < self.height - self.tolerance or gap - right > self.height + self.tolerance):
                return False
        return True

    def off(self, faces: Faces) -> int:
        """Twice how far float and height are from their middles."""
        left, right = map(sum, faces)
        height = 0 if self.height is None else abs(left + self.gap - right - 2 * self.height)
        return abs(2 * (self.gap - left - right) - self.low - self.high) + height


@dataclass(frozen=True)
class Box:
    """Gears, least clearances of neighbours in a row, and a tray."""

    gears: tuple[Gear, ...]
    clearances: tuple[tuple[int, int, int], ...]
    stock: dict[int, int]

    def question(self) -> dict[str, Any]:
        """The same in SI."""
        return {
            "seats": [gear.seat(name) for gear, name in zip(self.gears, _GEARS, strict=False)],
            "clearances": [
                GearClearance(
                    left=_GEARS[number],
                    right=_GEARS[number + 1],
                    measured=measured * 1e-6,
                    uncertainty=uncertainty * 1e-6,
                    least=least * 1e-6,
                )
                for number, (measured, uncertainty, least) in enumerate(self.clearances)
            ],
            "stock": {thickness * 1e-6: count for thickness, count in self.stock.items()},
            "most": _MOST,
        }

    def every_way(self) -> Iterator[tuple[Faces, ...]]:
        """All ways to shim the box, by trying everything."""
        dresses = [[faces for faces in self._faces() if gear.stands(faces)] for gear in self.gears]
        for way in itertools.product(*dresses):
            used = Counter(shim for faces in way for face in faces for shim in face)
            if all(count <= self.stock[shim] for shim, count in used.items()) and self._mesh(way):
                yield way

    def cost(self, way: tuple[Faces, ...]) -> tuple[int, int]:
        """Fewest shims in all, then the most centred."""
        shims = sum(len(face) for faces in way for face in faces)
        return shims, sum(gear.off(faces) for gear, faces in zip(self.gears, way, strict=True))

    def _faces(self) -> Iterator[Faces]:
        for left, right in itertools.product(range(_MOST + 1), repeat=2):
            if left + right <= _MOST:
                yield from itertools.product(
                    itertools.combinations_with_replacement(self.stock, left),
                    itertools.combinations_with_replacement(self.stock, right),
                )

    def _mesh(self, way: tuple[Faces, ...]) -> bool:
        for number, (measured, uncertainty, least) in enumerate(self.clearances):
            farthest = self.gears[number].gap + self.gears[number].uncertainty - sum(way[number][1])
            if measured - uncertainty + sum(way[number + 1][0]) - farthest < least:
                return False
        return True


@st.composite
def gears(draw: st.DrawFn) -> Gear:
    """Plays to 0.6 mm, heights that are not far from possible."""
    gap, low = draw(st.integers(50, 600)), draw(st.integers(0, 80))
    return Gear(
        gap=gap,
        uncertainty=draw(st.integers(0, 10)),
        low=low,
        high=low + draw(st.integers(60, 200)),
        height=draw(st.none() | st.integers(gap // 4, gap)),
        tolerance=draw(st.integers(80, 250)),
    )


@st.composite
def boxes(draw: st.DrawFn) -> Box:
    """One to three gears in a row; a tray of up to three thicknesses, few of each."""
    found = draw(st.lists(gears(), min_size=1, max_size=3))
    neighbours = len(found) - 1
    clearance = st.tuples(st.integers(50, 600), st.integers(0, 10), st.integers(0, 150))
    return Box(
        gears=tuple(found),
        clearances=tuple(draw(st.lists(clearance, min_size=neighbours, max_size=neighbours))),
        stock=draw(st.dictionaries(st.integers(40, 350), st.integers(1, 3), min_size=1, max_size=3)),
    )


def _whole(shims: GearShims) -> Faces:
    left, right = (tuple(round(thickness * 1e6) for thickness in face) for face in (shims.left, shims.right))
    return left, right


@given(boxes())
def test_no_way_to_shim_a_box_is_better(box: Box) -> None:
    """It stands, uses no shim twice, and costs what the best of all ways costs; nothing is found only if there is no way."""
    found = choose_split(**box.question())
    ways = list(box.every_way())
    assert found.is_proved
    assert bool(found.gears) == bool(ways)
    if ways:
        way = tuple(map(_whole, found.gears))
        assert tuple(map(_sorted, way)) in {tuple(map(_sorted, other)) for other in ways}
        assert box.cost(way) == min(map(box.cost, ways))


def _sorted(faces: Faces) -> Faces:
    return tuple(sorted(faces[0])), tuple(sorted(faces[1]))


@given(boxes())
def test_a_chain_is_called_unclosable_exactly_if_no_thicknesses_would_do(box: Box) -> None:
    """A linear programme over any thicknesses finds a way if and only if the chain finds no contradiction; what names itself a
    contradiction adds up to less than nothing, and without any one of its facts the rest can be met.
    """
    question = box.question()
    chain = chain_of(question["seats"], question["clearances"])
    circle = chain.contradiction()
    assert bool(circle) != _can_be_met(chain.demands, 1 + 2 * len(box.gears))
    if circle:
        assert sum(demand.most for demand in circle) < 0
        assert all(_can_be_met([other for other in circle if other is not one], 1 + 2 * len(box.gears)) for one in circle)
        found = choose_split(**question)
        assert found.gears == ()
        assert found.rejected is not None or found.unclosable is not None


def _can_be_met(demands: Any, places: int) -> bool:
    rows = np.zeros((len(demands), places))
    for row, demand in zip(rows, demands, strict=True):
        row[demand.other] += 1.0
        row[demand.one] -= 1.0
    most = np.array([demand.most for demand in demands], dtype=float) * 1e-3
    return bool(linprog(np.zeros(places), A_ub=rows, b_ub=most, bounds=(None, None)).status == 0)
