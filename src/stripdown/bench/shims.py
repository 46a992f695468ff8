"""The shim sheet of one box: plays, heights, clearances, shims at hand, where the old ones were; and what must hold between."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Final

from stripdown.core.shim_selection.old_shims import ShimMap
from stripdown.core.shim_selection.play import play_of
from stripdown.core.shim_selection.seats import GearClearance, GearSeat, check_train
from stripdown.core.shim_selection.tray import check_most, tray_of
from stripdown.errors import InputError, OutOfRange

USUAL_MOST: Final = 4
"""Shims that usually lie on one side of a gear at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimSheet:
    """One box: what was measured of it, and the shims that there are for it.

    Parameters
    ----------
    stock
        Count of shims at hand by thickness in m.
    """

    name: str
    invented: bool
    seats: tuple[GearSeat, ...]
    clearances: tuple[GearClearance, ...]
    stock: Mapping[float, int]
    old_shims: ShimMap
    fitted_shims: ShimMap
    most: int
    origin: str = ""


def contradictions(sheet: ShimSheet) -> Iterator[tuple[str, InputError]]:
    """Find what cannot be true together, each with the part of the sheet that it is in."""
    rules: list[tuple[str, Callable[[], object]]] = [
        *(("float", partial(_check_play, seat)) for seat in sheet.seats),
        ("clearance" if sheet.seats else "box", lambda: check_train(sheet.seats, sheet.clearances)),
        ("box", lambda: check_most(sheet.most)),
        ("tray", lambda: tray_of(sheet.stock, most=1)),
    ]
    for part, rule in rules:
        try:
            rule()
        except InputError as fault:
            yield part, fault


def _check_play(seat: GearSeat) -> None:
    try:
        play_of(gap=seat.gap, gap_uncertainty=seat.gap_uncertainty, float_band=seat.float_band)
    except OutOfRange as fault:
        if fault.field == "gap":
            fault.field = f"{seat.gear.value}.play"
        raise
