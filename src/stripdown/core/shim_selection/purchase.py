"""What to buy when no pack fits: as few shims as will do, of the thicknesses that shops sell if that can be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from stripdown.core.shim_selection.play import Play
from stripdown.core.shim_selection.reach import Reach, Steps, between, members
from stripdown.core.shim_selection.stacks import SHOP_THICKNESSES, ShimPack
from stripdown.core.shim_selection.tray import metres, tray_of

_ROUND: Final = 10  # micrometres; what can be ordered or ground
_NOTHING: Final[tuple[tuple[float, ...], None]] = ((), None)


def shims_to_buy(play: Play, reach: Reach, *, most: int, steps: Steps) -> tuple[tuple[float, ...], ShimPack | None]:
    """Find the fewest shims that would make a pack fit, with those at hand or alone.

    Parameters
    ----------
    play
        Of the gear, for which no pack fits.
    reach
        Totals of the shims at hand.
    most
        Most shims in a pack, a count.
    steps
        Counts the work.

    Returns
    -------
    tuple of float
        Thickness in m of each shim to buy; empty if none can help. A thickness that shops do not list is to be ordered or ground.
    ShimPack or None
        The pack that fits then.
    """
    low, high = -(-play.least_pack // 1000), play.most_pack // 1000
    if high < max(low, 1):
        return _NOTHING
    shop = Reach(tray_of(dict.fromkeys(SHOP_THICKNESSES, most), most=most), most=most, largest=high, steps=steps)
    for bought in range(1, most + 1):
        ways = [way for kept in range(most - bought + 1) for way in _ways(reach, shop, kept, bought, play)]
        if ways:
            best = min(ways, key=lambda way: (way.kept + way.bought, play.off_centre(way.total * 1000), way.total, way.from_shop))
            new = shop.tray.thicknesses(next(shop.uses(best.bought, best.from_shop)))
            old = reach.tray.thicknesses(next(reach.uses(best.kept, best.total - best.from_shop)))
            return new, play.pack((*new, *old))
    alone = _one_alone(play, max(low, 1), high)
    return (alone,), play.pack((alone,))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """So many shims kept, so many bought; totals in micrometres."""

    kept: int
    bought: int
    total: int
    from_shop: int


def _ways(reach: Reach, shop: Reach, kept: int, bought: int, play: Play) -> Iterator[_Way]:
    """For each total of bought shims, the most centred that the shims at hand make of it."""
    if kept > reach.most:
        return
    slack = kept * reach.tray.rounding
    low, high = -(-(play.least_pack + slack) // 1000), (play.most_pack - slack) // 1000
    for from_shop in members(shop.totals(bought)):
        totals = between(reach.totals(kept) << from_shop, low, high)
        if totals:
            total = min(members(totals), key=lambda total: play.off_centre(total * 1000))
            yield _Way(kept=kept, bought=bought, total=total, from_shop=from_shop)


def _one_alone(play: Play, low: int, high: int) -> float:
    """The most centred thickness in m, a round one if it fits."""
    middle = (2 * play.gap - play.low - play.high) / 2000
    nearest = min(max(round(middle), low), high)
    rounded = round(nearest / _ROUND) * _ROUND
    return metres(1000 * (rounded if low <= rounded <= high else nearest))
