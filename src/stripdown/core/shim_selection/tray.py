"""Shims at hand as whole micrometres, so that sums are exact."""

from __future__ import annotations

import operator
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from stripdown.core.shim_selection.stacks import THICKNESS
from stripdown.errors import OutOfRange
from stripdown.quantities import check_value

MOST_SHIMS: Final = 20  # in one pack; more is no pack, and bounds the work
MOST_KINDS: Final = 200  # different thicknesses in one tray; bounds the work
_NANOMETRES: Final = 1_000_000_000  # in a metre
_MICROMETRE: Final = 1_000  # nanometres


def nanometres(length: float) -> int:
    """Turn a length into whole nanometres, which no instrument at the bench resolves.

    Parameters
    ----------
    length
        In m.

    Returns
    -------
    int
        In nm.
    """
    return round(length * _NANOMETRES)


def metres(length: int) -> float:
    """Turn nanometres into metres, the nearest float.

    Parameters
    ----------
    length
        In nm.

    Returns
    -------
    float
        In m.
    """
    return length / _NANOMETRES


def millimetres(length: int) -> str:
    """Write a length for a sentence.

    Parameters
    ----------
    length
        In nm.

    Returns
    -------
    str
        Such as ``"0.47 mm"``.
    """
    return f"{length / 1e6:.4f}".rstrip("0").rstrip(".") + " mm"


def check_most(most: int) -> None:
    """Refuse a number of shims that is none.

    Parameters
    ----------
    most
        Most shims in a pack, a count.

    Raises
    ------
    OutOfRange
        Unless it is a whole number from 1 to 20.
    """
    if not is_count(most) or not 1 <= most <= MOST_SHIMS:
        raise OutOfRange(
            f"most = {most!r} is no number of shims.",
            field="most",
            value=most,
            unit="1",
            limits=(1, MOST_SHIMS),
            hint=f"Write a whole number from 1 to {MOST_SHIMS}; 4 is usual.",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """All shims of one thickness.

    Parameters
    ----------
    micrometres
        Thickness rounded to whole micrometres.
    originals
        Thickness in m of each shim, as it was given.
    """

    micrometres: int
    originals: tuple[float, ...]

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.originals)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tray:
    """Shims at hand, the thickest kind first.

    Parameters
    ----------
    kinds
        Kinds of which there is at least one shim.
    rounding
        Largest error in nm that rounding to whole micrometres made on one shim.
    """

    kinds: tuple[Kind, ...]
    rounding: int

    @property
    def count(self) -> int:
        """How many shims there are."""
        return sum(kind.count for kind in self.kinds)

    def thicknesses(self, use: Sequence[int], *, after: Sequence[int] | None = None) -> tuple[float, ...]:
        """Take shims out of the tray.

        Parameters
        ----------
        use
            How many of each kind, a count.
        after
            How many of each kind were taken before, a count; None for a full tray.

        Returns
        -------
        tuple of float
            Thickness in m of each, as it was given, the thickest first.
        """
        starts = [0] * len(self.kinds) if after is None else after
        return tuple(
            original
            for kind, start, count in zip(self.kinds, starts, use, strict=True)
            for original in kind.originals[start : start + count]
        )


def tray_of(stock: Mapping[float, int], *, most: int) -> Tray:
    """Check the shims at hand and put them in order.

    Parameters
    ----------
    stock
        How many there are of each thickness in m.
    most
        Most shims that can be of use at once, a count; the rest of a kind need not be kept apart.

    Returns
    -------
    Tray

    Raises
    ------
    OutOfRange
        For an empty stock, a thickness that is none, a count that is none, or more than 200 thicknesses.
    """
    originals: dict[int, list[float]] = {}
    rounding = 0
    for thickness, count in stock.items():
        check_value("stock", thickness, THICKNESS)
        _check_count(thickness, count)
        whole = round(nanometres(thickness) / _MICROMETRE)
        rounding = max(rounding, abs(nanometres(thickness) - whole * _MICROMETRE)) if count else rounding
        # One thickness may come twice, as 0.00015 and as 0.15 * 0.001: floats differ in what no micrometer reads.
        originals.setdefault(whole, []).extend([float(thickness)] * min(count, most))
    kinds = tuple(
        Kind(micrometres=whole, originals=tuple(found[:most]))
        for whole, found in sorted(originals.items(), reverse=True)
        if found
    )
    if not kinds:
        raise OutOfRange(
            "There are no shims at hand.",
            field="stock",
            value=dict(stock),
            hint="Say what is in the tray: each thickness with how many there are.",
        )
    if len(kinds) > MOST_KINDS:
        raise OutOfRange(
            f"The tray holds {len(kinds)} different thicknesses.",
            field="stock",
            value=len(kinds),
            unit="1",
            limits=(1, MOST_KINDS),
            hint=f"Give at most {MOST_KINDS}: round to what the micrometer tells apart.",
        )
    return Tray(kinds=kinds, rounding=rounding)


def stock_of(thicknesses: Iterable[float]) -> dict[float, int]:
    """Count shims by thickness.

    Parameters
    ----------
    thicknesses
        Of each shim in m.

    Returns
    -------
    dict
        Count by thickness in m.
    """
    return dict(Counter(thicknesses))


def _check_count(thickness: float, count: int) -> None:
    if not is_count(count):
        raise OutOfRange(
            f"stock: {count!r} shims of {thickness * 1e3:g} mm is no number of shims.",
            field="stock",
            value=count,
            unit="1",
            limits=(0, None),
            hint="Write a whole number, 0 if there are none left.",
        )


def is_count(number: object) -> bool:
    """Whether something counts whole things.

    Parameters
    ----------
    number
        Anything.

    Returns
    -------
    bool
        False for a negative number, 2.5, a text or a switch.
    """
    try:
        return not isinstance(number, bool) and operator.index(number) >= 0  # type: ignore[arg-type]
    except TypeError:
        return False
