"""Which totals can be made from the shims at hand, and from which shims: exact, by sums of whole micrometres."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stripdown.core.shim_selection.tray import Tray


@dataclass(slots=True)
class Steps:
    """Counts the steps of a search.

    Parameters
    ----------
    taken
        Count so far.
    limit
        Count at which a search that may be long gives up; None for never.
    """

    taken: int = 0
    limit: int | None = None

    @property
    def are_spent(self) -> bool:
        """Whether the limit is reached."""
        return self.limit is not None and self.taken >= self.limit


class Reach:
    """Totals that a tray reaches with exactly so many shims.

    A set of totals is one long integer whose bit `s` says that the total of s micrometres can be made; adding a shim shifts it.
    So the table costs at most (kinds x shims x shims) shifts, and a walk back through it meets no dead end: every step belongs to
    a pack that is found.

    Parameters
    ----------
    tray
        Shims at hand.
    most
        Most shims, a count.
    largest
        Largest total of interest in micrometres.
    steps
        Counts the work.
    """

    def __init__(self, tray: Tray, *, most: int, largest: int, steps: Steps) -> None:
        self.tray = tray
        self.most = min(most, tray.count)
        self._steps = steps
        self._mask = (1 << (largest + 1)) - 1 if largest >= 0 else 0
        # From the last kind to the first: table[i][k] are the totals of k shims of kinds i and later.
        self._table: list[list[int]] = [[1 & self._mask] + [0] * self.most]
        for kind in reversed(tray.kinds):
            self._table.insert(0, self._with(kind.micrometres, kind.count, self._table[0]))

    def totals(self, shims: int) -> int:
        """Totals that exactly so many shims make.

        Parameters
        ----------
        shims
            How many, a count.

        Returns
        -------
        int
            Bit s is set if s micrometres can be made.
        """
        return self._table[0][shims]

    def uses(self, shims: int, total: int) -> Iterator[tuple[int, ...]]:
        """Every way to make a total of exactly so many shims.

        Parameters
        ----------
        shims
            How many, a count.
        total
            In micrometres.

        Yields
        ------
        tuple of int
            How many of each kind of the tray; the ways with more of the thickest first.
        """
        if _has(self._table[0][shims], total):
            yield from self._uses(0, shims, total)

    def _with(self, micrometres: int, count: int, rest: list[int]) -> list[int]:
        row = []
        for shims in range(self.most + 1):
            made = 0
            for taken in range(min(count, shims) + 1):
                self._steps.taken += 1
                made |= rest[shims - taken] << (taken * micrometres)
            row.append(made & self._mask)
        return row

    def _uses(self, place: int, shims: int, total: int) -> Iterator[tuple[int, ...]]:
        self._steps.taken += 1
        if shims == 0:
            yield (0,) * (len(self.tray.kinds) - place)
            return
        kind = self.tray.kinds[place]
        for taken in range(min(kind.count, shims, total // kind.micrometres), -1, -1):
            left = total - taken * kind.micrometres
            if _has(self._table[place + 1][shims - taken], left):
                for use in self._uses(place + 1, shims - taken, left):
                    yield (taken, *use)


def members(totals: int) -> Iterator[int]:
    """Walk the totals of a set from the smallest.

    Parameters
    ----------
    totals
        Bit s is set if s micrometres belong to it.

    Yields
    ------
    int
        In micrometres.
    """
    while totals:
        lowest = totals & -totals
        yield lowest.bit_length() - 1
        totals ^= lowest


def between(totals: int, low: int, high: int) -> int:
    """Keep the totals of a set that lie in a window.

    Parameters
    ----------
    totals
        Bit s is set if s micrometres belong to it.
    low, high
        Ends of the window in micrometres, both in it.

    Returns
    -------
    int
        The set that is left.
    """
    low = max(low, 0)
    return 0 if high < low else (totals >> low & ((1 << (high - low + 1)) - 1)) << low


def _has(totals: int, total: int) -> bool:
    return bool(totals >> total & 1)
