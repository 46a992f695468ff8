"""Which shims give one gear the float that it needs?"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from typing import Final

from stripdown.core.shim_selection.play import Play, play_of
from stripdown.core.shim_selection.purchase import shims_to_buy
from stripdown.core.shim_selection.reach import Reach, Steps, between, members
from stripdown.core.shim_selection.stacks import (
    FOOTING_OF_OTHER_FLOAT,
    FOOTING_OF_USUAL_FLOAT,
    SHOP_THICKNESSES,
    USUAL_FLOAT,
    NearestMiss,
    ShimChoice,
    ShimPack,
)
from stripdown.core.shim_selection.tray import MOST_SHIMS, Tray, check_most, metres, millimetres, nanometres, tray_of

MOST_PACKS: Final = 1000  # in one answer; an ordinary tray gives a few dozen


def choose_shims(
    *, gap: float, gap_uncertainty: float, float_band: tuple[float, float], stock: Mapping[float, int], most: int = 4
) -> ShimChoice:
    """Choose the shims that leave one gear a float inside its band.

    Parameters
    ----------
    gap
        Play without shims in m: shell closed and screwed up, bearings bonded and cured, piston and spring out.
    gap_uncertainty
        How far the true play may lie from `gap` in m, either way.
    float_band
        Least and greatest float in m, both allowed.
    stock
        Count of shims at hand by thickness in m, as the micrometer reads it. Rounded to whole micrometres; what rounding may
        cost is kept clear of the ends of the band.
    most
        Most shims in a pack, a count.

    Returns
    -------
    ShimChoice
        All packs that stay in the band wherever the true play lies, at most 1000; or the nearest miss and what to buy; or why
        the measurement cannot be true.

    Raises
    ------
    OutOfRange
        For a play that is negative beyond its uncertainty, a negative uncertainty, a band upside down, no shims, a thickness of 0
        or less, a count below 0, `most` below 1.

    Notes
    -----
    A pack of total s fits if ``gap + u - s <= high`` and ``gap - u - s >= low``. No shims at all is a pack too. The search is
    exact: sums are made of whole micrometres, and every pack that fits is found. Of two packs equally far from the middle of the
    band the looser comes first: a tight gear binds, a loose one only rattles.
    """
    check_most(most)
    play = play_of(gap=gap, gap_uncertainty=gap_uncertainty, float_band=float_band)
    tray = tray_of(stock, most=most)
    rejected = play.rejection()
    steps = Steps()
    found = _Found(packs=(), only_nominal=(), nearest_miss=None, is_cut=False)
    buy: tuple[float, ...] = ()
    after: ShimPack | None = None
    enough: int | None = None
    if rejected is None:
        search = _Search(play=play, tray=tray, reach=Reach(tray, most=most, largest=_largest_total(play, most), steps=steps))
        found = search.run()
        if not found.packs:
            buy, after = shims_to_buy(play, search.reach, most=most, steps=steps)
            enough = _enough(play, stock, most) if set(buy) - set(SHOP_THICKNESSES) else None
    usual = play.low == nanometres(USUAL_FLOAT[0]) and play.high == nanometres(USUAL_FLOAT[1])
    return ShimChoice(
        packs=found.packs,
        only_nominal=found.only_nominal,
        nearest_miss=found.nearest_miss,
        buy=buy,
        pack_after_buying=after,
        rejected=rejected,
        notes=() if rejected is not None else tuple(_notes(play, tray, found, buy, enough)),
        gap=gap,
        gap_uncertainty=gap_uncertainty,
        float_band=float_band,
        most=most,
        enough=enough,
        is_cut=found.is_cut,
        nodes=steps.taken,
        footing=FOOTING_OF_USUAL_FLOAT if usual else FOOTING_OF_OTHER_FLOAT,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    packs: tuple[ShimPack, ...]
    only_nominal: tuple[ShimPack, ...]
    nearest_miss: NearestMiss | None
    is_cut: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Search:
    """Packs of one tray for one gear."""

    play: Play
    tray: Tray
    reach: Reach

    def run(self) -> _Found:
        sure = tuple(islice(self._ranked(self._is_sure, self.play.least_pack, self.play.most_pack), MOST_PACKS + 1))
        nominal = self.play.gap - self.play.high, self.play.gap - self.play.low
        doubtful = tuple(islice(self._ranked(self._is_only_nominal, *nominal), MOST_PACKS + 1))
        return _Found(
            packs=sure[:MOST_PACKS],
            only_nominal=doubtful[:MOST_PACKS],
            nearest_miss=None if sure else self._nearest(),
            is_cut=max(len(sure), len(doubtful)) > MOST_PACKS,
        )

    def _slack(self, shims: int) -> int:
        """What rounding to micrometres may hide in so many shims, in nm."""
        return shims * self.tray.rounding

    def _worst(self, shims: int, total: int) -> int:
        return max(self.play.miss(total * 1000)) + self._slack(shims)

    def _is_sure(self, shims: int, total: int) -> bool:
        return self._worst(shims, total) <= 0

    def _is_only_nominal(self, shims: int, total: int) -> bool:
        left, slack = self.play.gap - total * 1000, self._slack(shims)
        return self.play.low + slack <= left <= self.play.high - slack and not self._is_sure(shims, total)

    def _ranked(self, fits: Callable[[int, int], bool], low: int, high: int) -> Iterator[ShimPack]:
        """Packs whose total in nm lies in a window and that fit, best first."""
        for shims in range(self.reach.most + 1):
            window = between(self.reach.totals(shims), -(-low // 1000), high // 1000)
            totals = [total for total in members(window) if fits(shims, total)]
            for total in sorted(totals, key=lambda total: (self.play.off_centre(total * 1000), total)):
                for use in self.reach.uses(shims, total):
                    yield self.play.pack(self.tray.thicknesses(use))

    def _nearest(self) -> NearestMiss:
        """The miss grows evenly either way from the middle of the window, so the totals next to that middle are enough."""
        middle = max((self.play.least_pack + self.play.most_pack) // 2000, 0)
        near = []
        for shims in range(self.reach.most + 1):
            totals = self.reach.totals(shims)
            below, above = totals & ((1 << (middle + 1)) - 1), totals >> (middle + 1)
            if below:
                near.append((shims, below.bit_length() - 1))
            if above:
                near.append((shims, middle + (above & -above).bit_length()))
        shims, total = min(near, key=lambda one: (self._worst(*one), one[0], self.play.off_centre(one[1] * 1000), one[1]))
        tight, loose = (max(miss + self._slack(shims), 0) for miss in self.play.miss(total * 1000))
        pack = self.play.pack(self.tray.thicknesses(next(self.reach.uses(shims, total))))
        return NearestMiss(pack=pack, too_tight=metres(tight), too_loose=metres(loose))


def _largest_total(play: Play, most: int) -> int:
    """Micrometres beyond which no total can fit or come nearer than no shims at all."""
    nearer = play.least_pack + play.most_pack
    return max(nearer, play.gap - play.low, 0) // 1000 + 1 + most


def _enough(play: Play, stock: Mapping[float, int], most: int) -> int | None:
    """The least count above `most` with which shims at hand, or such as shops sell, make a pack that fits."""
    largest, steps, found = max(play.most_pack // 1000, 0), Steps(), []
    for shims in (stock, dict.fromkeys(SHOP_THICKNESSES, MOST_SHIMS)):
        tray = tray_of(shims, most=MOST_SHIMS)
        reach = Reach(tray, most=MOST_SHIMS, largest=largest, steps=steps)
        for count in range(most + 1, reach.most + 1):
            slack = count * tray.rounding
            if between(reach.totals(count), -(-(play.least_pack + slack) // 1000), (play.most_pack - slack) // 1000):
                found.append(count)
                break
    return min(found, default=None)


def _notes(play: Play, tray: Tray, found: _Found, buy: tuple[float, ...], enough: int | None) -> Iterator[str]:
    width = play.high - play.low
    if 2 * play.uncertainty > width:
        yield (
            f"The play is uncertain by {millimetres(play.uncertainty)} either way, more than half the band, which is "
            f"{millimetres(width)} wide: no pack can be sure. Measure again, twice each way, until it is known better."
        )
    elif play.most_pack < 0:
        yield (
            "Even without a shim the float may be less than asked for, and no shim makes room. Look at the seats of the "
            "bearings, at the axle's ends and at the shell's halves before anything is filed."
        )
    if not found.packs and found.only_nominal:
        yield "Some packs fit the play as measured, and may not fit the true one: measure again before they are trusted."
    if enough is not None:
        yield f"Only the count forbids it: with {enough} shims on the gear a pack would fit."
    elif set(buy) - set(SHOP_THICKNESSES):
        yield "No shims of the thicknesses that shops sell would do: have that one ground, or look for other makers."
    if tray.rounding:
        yield "Thicknesses were rounded to whole micrometres; what that may cost is kept clear of the ends of the band."
    if found.is_cut:
        yield f"There are more packs than are listed: the best {MOST_PACKS} of each sort are."
