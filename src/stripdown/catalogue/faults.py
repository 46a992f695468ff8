"""Faults that cost velocity: which parameters of a shot each one moves, and how far is believable."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger
from stripdown.errors import InputError
from stripdown.quantities import Q, leaves
from stripdown.tables.nearest import nearest_name
from stripdown.tables.table import Table
from stripdown.tables.values import read_leaf

_FILE = "faults.toml"
_LEAVES = {leaf.path: leaf for leaf in leaves(ShotParameters)}
_INNER = ("short", "unit", "label", "changes", "doubt", "entry", "heap")
_SI_OF = {"%": "1", "mm": "m", "mm2": "m2", "N": "N"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What a fault does to one parameter, for an amount ``a``: ``(value + add·a)·(1 - shrink·a)``, or ``to``."""

    path: str
    add: float = 0.0
    shrink: float = 0.0
    to: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault(CatalogueEntry):
    """One way to lose velocity.

    Parameters
    ----------
    key
        Stable name (``"cylinder_leak"``).
    name
        Its name for people.
    short
        Its name in a list, after "a" or nothing.
    amount
        Declaration of its amount: unit, label, limits from zero to the largest believable.
    changes
        What it does to a shot's parameters.
    ordinary
        How far it commonly goes, SI.
    largest
        How far it can go, SI.
    doubt
        What other laws make of the amount: the spread of its logarithm, a pure number.
    entry
        CatalogueEntry of the energy ledger in which it shows; ``"put_in"`` when less goes in.
    heap
        Faults of one heap cannot be told apart by shooting.
    opens_box
        Whether looking for it needs an open box.
    check
        What to look at or measure.
    provenance
        Where the figures come from.
    """

    short: str
    amount: Q
    changes: tuple[Change, ...]
    ordinary: float
    largest: float
    doubt: float
    entry: str
    heap: str
    opens_box: bool
    check: str


@functools.cache
def load_faults() -> Mapping[str, Fault]:
    """Read the packaged faults.

    Returns
    -------
    mapping
        Fault by key, in the order of the file.

    Raises
    ------
    CatalogueError
        With entry and field.
    """
    return read_faults(packaged_text(_FILE), file=_FILE)


def read_faults(text: str, *, file: str) -> Mapping[str, Fault]:
    """Read faults from TOML."""
    return read_entries(text, file=file, noun="fault", read=_fault)


def _fault(entry: Table) -> Fault:
    fields = named(entry, "ordinary", "largest", "opens_box", "check", inner=_INNER)
    measure = Q(entry.choice("unit", _SI_OF), low=0.0, label=entry.text("label"), shown=entry.text("unit"))
    ordinary, largest = entry.quantity("ordinary", measure), entry.quantity("largest", measure)
    if not 0.0 < ordinary <= largest:
        raise entry.wrong("ordinary", entry.fields.get("ordinary"), "must be above zero and not above the largest.")
    changes = entry.tables("changes")
    if not changes:
        raise entry.wrong("changes", None, "is missing: list at least one change.")
    return Fault(
        **fields,
        short=entry.text("short"),
        amount=Q(measure.unit, low=0.0, high=largest, usual=(0.0, ordinary), label=measure.label, shown=measure.shown),
        changes=tuple(_change(one) for one in changes),
        ordinary=ordinary,
        largest=largest,
        doubt=entry.amount("doubt"),
        entry=_ledger_entry(entry),
        heap=entry.text("heap"),
        opens_box=entry.flag("opens_box"),
        check=entry.text("check"),
    )


def _ledger_entry(entry: Table) -> str:
    name = entry.text("entry")
    if name != "put_in" and name not in EnergyLedger.__dataclass_fields__:
        raise entry.wrong("entry", name, "is no entry of the energy ledger.")
    return name


def _change(table: Table) -> Change:
    table.only("path", "add", "shrink", "to")
    path = table.text("path")
    leaf = _LEAVES.get(path)
    if leaf is None:
        raise table.wrong("path", path, "is no parameter of a shot.", nearest_name(path, _LEAVES))
    if len(table.fields) != 2:
        raise table.wrong("path", path, "must stand beside one of add, shrink, to.")
    if "to" not in table.fields:
        return Change(path=path, add=table.number("add") or 0.0, shrink=table.number("shrink") or 0.0)
    raw = table.fields["to"]
    try:
        value = read_leaf(raw, leaf.type, leaf.quantity, field="to").value
    except InputError as reason:
        raise table.blamed(reason, "to", raw) from reason
    if isinstance(value, Enum):
        raise table.wrong("to", raw, "is a choice among laws, which no fault changes.")
    return Change(path=path, to=float(value))
