"""The search behind `choose_split`: every pack that a gear may take, then one for each gear, the cheapest together."""

from __future__ import annotations

import operator
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stripdown.core.shim_selection.chain import BEARING, Chain, Demand, pushed_left, pushed_right
from stripdown.core.shim_selection.reach import Reach, Steps, between, members
from stripdown.core.shim_selection.tray import Tray

Cost = tuple[int, int]
"""Count of shims, then how far floats and heights are from their middles, in half nanometres; costs of gears add up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GearPack:
    """Shims on the two faces of one gear.

    Parameters
    ----------
    left_use, right_use
        How many shims of each kind of the tray.
    left, right
        Their totals in nm.
    cost
        Of these shims.
    """

    left_use: tuple[int, ...]
    right_use: tuple[int, ...]
    left: int
    right: int
    cost: Cost

    @property
    def use(self) -> tuple[int, ...]:
        """How many shims of each kind both faces take."""
        return tuple(map(operator.add, self.left_use, self.right_use))


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """The best that was found.

    Parameters
    ----------
    packs
        One for each gear, in the order of the seats; empty if nothing fits.
    is_proved
        Whether the whole search was done.
    """

    packs: tuple[GearPack, ...]
    is_proved: bool


def best_layout(chain: Chain, tray: Tray, *, heights: Sequence[int | None], most: int, steps: Steps) -> Layout:
    """Find the cheapest way to shim all gears out of one tray.

    Parameters
    ----------
    chain
        Demands on the gears, which do not contradict each other.
    tray
        Shims at hand.
    heights
        Wanted middle of each gear's float in nm; None for any.
    most
        Most shims on one gear, a count.
    steps
        Counts the work and may bound it.

    Returns
    -------
    Layout
    """
    largest = max(max(play.gap for play in chain.plays) // 1000, 0)
    gear_packs = _GearPacks(chain, Reach(tray, most=most, largest=largest, steps=steps), heights=heights, most=most, steps=steps)
    choices = [sorted(gear_packs.of(number), key=lambda pack: pack.cost) for number in range(len(chain.plays))]
    choices = _supported(choices, chain)
    search = _Search(chain, tray, choices, steps)
    search.run()
    return Layout(packs=search.best, is_proved=not steps.are_spent)


class _GearPacks:
    """Every pack that a gear may take, by itself and by the room that the other gears leave it."""

    def __init__(self, chain: Chain, reach: Reach, *, heights: Sequence[int | None], most: int, steps: Steps) -> None:
        self._chain = chain
        self._room = chain.room()
        self._reach = reach
        self._heights = heights
        self._most = min(most, reach.most)
        self._steps = steps

    def of(self, number: int) -> Iterator[GearPack]:
        seen = set()
        for left_shims, left, right_shims, right in self._totals(number):
            cost = left_shims + right_shims, self._off(number, left * 1000, right * 1000)
            for left_use in self._reach.uses(left_shims, left):
                for right_use in self._reach.uses(right_shims, right):
                    pack = GearPack(left_use=left_use, right_use=right_use, left=left * 1000, right=right * 1000, cost=cost)
                    # It does not matter to the other gears how the same shims make the same totals.
                    key = pack.use, left, right
                    if key not in seen and _has(self._reach.tray, pack.use):
                        seen.add(key)
                        yield pack
                    if self._steps.are_spent:
                        return

    def _totals(self, number: int) -> Iterator[tuple[int, int, int, int]]:
        """Shims and total of the left face and of the right one, in micrometres."""
        gap, p, q = self._chain.plays[number].gap, pushed_left(number), pushed_right(number)
        for left_shims in range(self._most + 1):
            for left in members(self._between(left_shims, -self._limit(p, BEARING), self._limit(BEARING, p))):
                place = left * 1000
                nearest = max(-self._limit(q, BEARING), place - self._limit(q, p))
                farthest = min(self._limit(BEARING, q), place + self._limit(p, q))
                for right_shims in range(self._most - left_shims + 1):
                    for right in members(self._between(right_shims, gap - farthest, gap - nearest)):
                        yield left_shims, left, right_shims, right

    def _between(self, shims: int, low: int, high: int) -> int:
        return between(self._reach.totals(shims), -(-low // 1000), high // 1000)

    def _limit(self, one: int, other: int) -> int:
        """How far place `other` may lie to the right of place `one`; float and bearings bound every gear."""
        limit = self._room[one][other]
        assert limit is not None  # noqa: S101  narrows
        return limit

    def _off(self, number: int, left: int, right: int) -> int:
        play, height = self._chain.plays[number], self._heights[number]
        return play.off_centre(left + right) + (0 if height is None else abs(left + play.gap - right - 2 * height))


class _Search:
    """Depth first, the cheapest first, and nothing that cannot become cheaper than what is known."""

    def __init__(self, chain: Chain, tray: Tray, choices: Sequence[Sequence[GearPack]], steps: Steps) -> None:
        self._chain = chain
        self._choices = choices
        self._steps = steps
        self._left_in_tray = [kind.count for kind in tray.kinds]
        self._order = sorted(range(len(choices)), key=lambda number: len(choices[number]))
        self._chosen: dict[int, GearPack] = {}
        self._best_cost: Cost | None = None
        self.best: tuple[GearPack, ...] = ()

    def run(self) -> None:
        if all(self._choices):
            self._choose(0, (0, 0))

    def _choose(self, depth: int, cost: Cost) -> None:
        if depth == len(self._order):
            self._best_cost, self.best = cost, tuple(self._chosen[number] for number in range(len(self._order)))
            return
        number = self._order[depth]
        others = [self._choices[other][0].cost for other in self._order[depth + 1 :]]
        for pack in self._choices[number]:
            self._steps.taken += 1
            here = _sum(cost, pack.cost)
            if self._steps.are_spent or (self._best_cost is not None and _sum(here, *others) >= self._best_cost):
                return
            if any(wanted > there for wanted, there in zip(pack.use, self._left_in_tray, strict=True)):
                continue
            self._chosen[number] = pack
            if self._fits(number):
                self._take(pack.use, -1)
                self._choose(depth + 1, here)
                self._take(pack.use, +1)
            del self._chosen[number]

    def _fits(self, number: int) -> bool:
        return all(
            _place(self._chosen, self._chain, demand.other) - _place(self._chosen, self._chain, demand.one) <= demand.most
            for demand in _between_gears(self._chain)
            if number in _pair(demand) and set(_pair(demand)) <= set(self._chosen)
        )

    def _take(self, use: tuple[int, ...], sign: int) -> None:
        for kind, count in enumerate(use):
            self._left_in_tray[kind] += sign * count


def _supported(choices: Sequence[Sequence[GearPack]], chain: Chain) -> list[list[GearPack]]:
    """Leave out packs that fit no pack of a facing gear, again and again, until all that are left fit one."""
    kept = [list(packs) for packs in choices]
    while all(kept):
        before = sum(map(len, kept))
        for demand in _between_gears(chain):
            one, other = _pair(demand)
            reach = max(_place({one: pack}, chain, demand.one) for pack in kept[one]) + demand.most
            kept[other] = [pack for pack in kept[other] if _place({other: pack}, chain, demand.other) <= reach]
            if not kept[other]:
                break
            need = min(_place({other: pack}, chain, demand.other) for pack in kept[other]) - demand.most
            kept[one] = [pack for pack in kept[one] if _place({one: pack}, chain, demand.one) >= need]
        if sum(map(len, kept)) == before:
            break
    return kept


def _between_gears(chain: Chain) -> list[Demand]:
    return [demand for demand in chain.demands if BEARING not in (demand.one, demand.other) and len(set(_pair(demand))) == 2]


def _pair(demand: Demand) -> tuple[int, int]:
    return (demand.one - 1) // 2, (demand.other - 1) // 2


def _place(chosen: dict[int, GearPack], chain: Chain, place: int) -> int:
    number = (place - 1) // 2
    pack = chosen[number]
    return pack.left if place == pushed_left(number) else chain.plays[number].gap - pack.right


def _sum(*costs: Cost) -> Cost:
    return sum(cost[0] for cost in costs), sum(cost[1] for cost in costs)


def _has(tray: Tray, use: tuple[int, ...]) -> bool:
    return all(wanted <= kind.count for wanted, kind in zip(use, tray.kinds, strict=True))
