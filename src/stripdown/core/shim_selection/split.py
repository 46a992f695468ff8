"""Which shims on which face of which gear, all out of one tray?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from stripdown.core.shim_selection.chain import BEARING, Chain, chain_of, pushed_left, pushed_right, why_unclosable
from stripdown.core.shim_selection.choose import choose_shims
from stripdown.core.shim_selection.reach import Steps
from stripdown.core.shim_selection.seats import GearClearance, GearSeat, GearShims, ShimSplit, check_train
from stripdown.core.shim_selection.split_search import GearPack, Layout, best_layout
from stripdown.core.shim_selection.stacks import FOOTING_OF_OTHER_FLOAT, SHOP_THICKNESSES, ShimChoice
from stripdown.core.shim_selection.tray import Kind, Tray, check_most, metres, millimetres, nanometres, tray_of
from stripdown.errors import OutOfRange

MOST_NODES: Final = 200_000  # steps of one search; an ordinary box takes some thousands
_BROKEN_OFF: Final = (
    f"The search was broken off after {MOST_NODES} steps: there may be better. Leave out thicknesses that hardly differ."
)


def choose_split(
    *, seats: Sequence[GearSeat], clearances: Sequence[GearClearance] = (), stock: Mapping[float, int], most: int = 4
) -> ShimSplit:
    """Choose shims for all gears of a box at once, and split them between the faces, so that each gear stands at its height.

    Parameters
    ----------
    seats
        One for each gear: its play, its float, its height if something binds it.
    clearances
        Side against side, between gears that have a seat.
    stock
        Count of shims at hand by thickness in m; no shim is used twice.
    most
        Most shims on one gear, a count.

    Returns
    -------
    ShimSplit
        The fewest shims in all, then the most centred in float and height; or what to buy, or why no shims would do.

    Raises
    ------
    OutOfRange
        As for `choose_shims`; for a gear twice, a height without tolerance, a clearance of gears that were not measured.

    Notes
    -----
    A gear stands anywhere from p, the thickness of its left shims, to q, its play less its right shims. Demanded are, for every
    true value within the uncertainties, ``low <= q - p <= high``, ``height - tolerance <= p``, ``q <= height + tolerance``, and
    for facing gears ``measured + p(right) - q(left) >= least``. Whether any shims at all would do is decided first, exactly; then
    the tray is searched. A search that would take more than 200 000 steps is broken off, and `is_proved` is False.
    """
    check_most(most)
    check_train(seats, clearances)
    tray = tray_of(stock, most=most * len(seats))
    alone = tuple(_alone(seat, stock, most) for seat in seats)
    steps = Steps(taken=sum(choice.nodes for choice in alone))
    footings = {choice.footing for choice in alone}
    nothing = ShimSplit(alone=alone, nodes=steps.taken, footing=footings.pop() if len(footings) == 1 else FOOTING_OF_OTHER_FLOAT)
    rejected = _of_each(seats, [(choice.rejected,) if choice.rejected else () for choice in alone])
    if rejected:
        return replace(nothing, rejected=" ".join(rejected))
    chain = chain_of(seats, clearances, blur=most * tray.rounding)
    unclosable = why_unclosable(seats, clearances, chain)
    if unclosable is not None:
        return replace(nothing, unclosable=unclosable)
    heights = [None if seat.height is None else nanometres(seat.height) for seat in seats]

    def search(at_hand: Tray) -> Layout:
        steps.limit = steps.taken + MOST_NODES
        return best_layout(chain, at_hand, heights=heights, most=most, steps=steps)

    found = search(tray)
    broken_off = () if found.is_proved else (_BROKEN_OFF,)
    if found.packs:
        gears = _shims(seats, chain, tray, found.packs)
        return replace(nothing, gears=gears, notes=broken_off, is_proved=found.is_proved, nodes=steps.taken)
    shop = _endless(tray, count=most * len(seats))
    bought = search(shop)
    notes = (*broken_off, *_of_each(seats, [choice.notes for choice in alone]))
    return replace(
        nothing,
        buy=_missing(tray, shop, bought.packs),
        gears_after_buying=_shims(seats, chain, shop, bought.packs),
        notes=notes if bought.packs else (*notes, *_wanted(seats, chain, only_count=any(one.enough for one in alone))),
        is_proved=found.is_proved,
        nodes=steps.taken,
    )


def _alone(seat: GearSeat, stock: Mapping[float, int], most: int) -> ShimChoice:
    """The packs for one gear by itself; a refusal names the gear."""
    try:
        return choose_shims(
            gap=seat.gap, gap_uncertainty=seat.gap_uncertainty, float_band=seat.float_band, stock=stock, most=most
        )
    except OutOfRange as reason:
        raise OutOfRange(
            f"{seat.gear.value} gear: {reason.message}",
            field=reason.field,
            value=reason.value,
            unit=reason.unit,
            limits=reason.limits,
            hint=reason.hint,
        ) from reason


def _of_each(seats: Sequence[GearSeat], sentences: Sequence[Sequence[str]]) -> tuple[str, ...]:
    return tuple(
        f"{seat.gear.value.capitalize()} gear: {sentence}" for seat, own in zip(seats, sentences, strict=True) for sentence in own
    )


def _shims(seats: Sequence[GearSeat], chain: Chain, tray: Tray, packs: Sequence[GearPack]) -> tuple[GearShims, ...]:
    """Hand the shims of a tray out, each once: kinds of equal thickness may hold shims that were written differently."""
    taken = [0] * len(tray.kinds)
    shims = []
    for seat, play, pack in zip(seats, chain.plays, packs, strict=False):
        faces = []
        for use in (pack.left_use, pack.right_use):
            faces.append(tray.thicknesses(use, after=taken))
            taken = [before + count for before, count in zip(taken, use, strict=True)]
        left, right = (sum(map(nanometres, face)) for face in faces)
        shims.append(
            GearShims(
                gear=seat.gear,
                left=faces[0],
                right=faces[1],
                float_left=metres(play.gap - left - right),
                middle=metres(left + play.gap - right) / 2,
            )
        )
    return tuple(shims)


def _endless(tray: Tray, *, count: int) -> Tray:
    """The tray as if there were any number of each thickness in it and in the shop."""
    originals = {round(nanometres(thickness) / 1000): thickness for thickness in SHOP_THICKNESSES}
    originals |= {kind.micrometres: kind.originals[0] for kind in tray.kinds}
    kinds = [Kind(micrometres=whole, originals=(originals[whole],) * count) for whole in sorted(originals, reverse=True)]
    return Tray(kinds=tuple(kinds), rounding=tray.rounding)


def _missing(tray: Tray, shop: Tray, packs: Sequence[GearPack]) -> tuple[float, ...]:
    """What is used beyond what is at hand."""
    there = {kind.micrometres: kind.count for kind in tray.kinds}
    used = [sum(counts) for counts in zip(*(pack.use for pack in packs), strict=True)] or [0] * len(shop.kinds)
    missing = [max(count - there.get(kind.micrometres, 0), 0) for kind, count in zip(shop.kinds, used, strict=True)]
    return shop.thicknesses(missing)


def _wanted(seats: Sequence[GearSeat], chain: Chain, *, only_count: bool) -> tuple[str, ...]:
    """What totals would do, for whoever grinds shims."""
    room = chain.room()
    sentences = []
    for number, play in enumerate(chain.plays):
        p, q = pushed_left(number), pushed_right(number)
        ends = [
            -(room[p][BEARING] or 0),
            room[BEARING][p] or 0,
            play.gap - (room[BEARING][q] or 0),
            play.gap + (room[q][BEARING] or 0),
        ]
        low, high, right_low, right_high = map(millimetres, ends)
        sentences.append(f"in all {low} to {high} on the left face and {right_low} to {right_high} on the right one could do.")
    sold = (
        "With so few shims only ground ones would do"
        if only_count
        else "No shims that shops sell would do, but ground ones would"
    )
    first = f"{sold}; what is taken for one gear narrows the next."
    return (first, *_of_each(seats, [(sentence,) for sentence in sentences]))
