"""What one does to a gun besides taking it apart and checking it."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.procedures.touches import PartTouch
from stripdown.references.provenance import Provenance


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """A piece of work.

    Parameters
    ----------
    key
        Stable name (``"bond_bevel_bearing_left"``).
    name
        As an order: "bond the bevel's left bearing".
    place
        Key of the place at the bench.
    touches
        Which parts it touches, and how.
    off, on
        Parts that must be off, and on, while it is done.
    how
        What one does.
    tools, consumables
        What it takes, and what it uses up.
    minutes
        Time of the hands, in min.
    wait
        Time after it until what depends on it may follow, in h; zero for none.
    wait_for
        What the wait is for ("until the bond has cured").
    cautions
        What can hurt.
    needs
        Guards: checks that must be fresh when it is done.
    excludes
        Actions that contradict it in one request.
    provenance
        Standing and source of its figures, if it has any.
    calculator
        Command that reckons what the work needs (``"shims"``); empty for none.
    """

    key: str
    name: str
    place: str = ""
    touches: tuple[PartTouch, ...] = ()
    off: tuple[str, ...] = ()
    on: tuple[str, ...] = ()
    how: str = ""
    tools: tuple[str, ...] = ()
    consumables: tuple[str, ...] = ()
    minutes: float = 0.0
    wait: float = 0.0
    wait_for: str = ""
    cautions: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    excludes: tuple[str, ...] = ()
    provenance: Provenance | None = None
    calculator: str = ""
