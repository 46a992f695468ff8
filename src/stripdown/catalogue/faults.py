"""Faults that cost velocity: which parameters of a shot each one moves, and how far is believable."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType
from typing import Any

from stripdown.catalogue.entries import Entry, packaged_text, read_entries
from stripdown.catalogue.leaf_values import read_leaf
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger
from stripdown.errors import InputError
from stripdown.quantities import Q, leaves
from stripdown.references.provenance import Provenance

_FILE = "faults.toml"
_LEAVES = {leaf.path: leaf for leaf in leaves(ShotParameters)}
_SI_OF = {"%": "1", "mm": "m", "mm2": "m2", "N": "N"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What a fault does to one parameter, for an amount ``a``: ``(value + add·a)·(1 - shrink·a)``, or ``to``."""

    path: str
    add: float = 0.0
    shrink: float = 0.0
    to: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
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
    entry
        Entry of the energy ledger in which it shows; ``"put_in"`` when less goes in.
    heap
        Faults of one heap cannot be told apart by shooting.
    opens_box
        Whether looking for it needs an open box.
    check
        What to look at or measure.
    provenance
        Where the figures come from.
    """

    key: str
    name: str
    short: str
    amount: Q
    changes: tuple[Change, ...]
    ordinary: float
    largest: float
    entry: str
    heap: str
    opens_box: bool
    check: str
    provenance: Provenance


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
    found = [_fault(entry) for entry in read_entries(text, file=file, noun="fault")]
    return MappingProxyType({fault.key: fault for fault in found})


def _fault(entry: Entry) -> Fault:
    entry.only("name", "short", "unit", "label", "changes", "ordinary", "largest", "entry", "heap", "opens_box", "check")
    unit = entry.text("unit")
    if unit not in _SI_OF:
        raise entry.wrong("unit", unit, f"must be one of {', '.join(_SI_OF)}.")
    measure = Q(_SI_OF[unit], low=0.0, label=entry.text("label"), shown=unit)
    ordinary = entry.number("ordinary", measure)
    largest = entry.number("largest", measure)
    if not 0.0 < ordinary <= largest:
        raise entry.wrong("ordinary", entry.fields.get("ordinary"), "must be above zero and not above the largest.")
    opens_box = entry.fields.get("opens_box")
    if not isinstance(opens_box, bool):
        raise entry.wrong("opens_box", opens_box, "must be true or false.")
    changes = entry.fields.get("changes")
    if not isinstance(changes, list) or not changes:
        raise entry.wrong("changes", changes, "must list at least one change.")
    return Fault(
        key=entry.key.partition(".")[2],
        name=entry.text("name"),
        short=entry.text("short"),
        amount=Q(measure.unit, low=0.0, high=largest, usual=(0.0, ordinary), label=measure.label, shown=unit),
        changes=tuple(_change(entry, raw) for raw in changes),
        ordinary=ordinary,
        largest=largest,
        entry=_ledger_entry(entry),
        heap=entry.text("heap"),
        opens_box=opens_box,
        check=entry.text("check"),
        provenance=entry.provenance(),
    )


def _ledger_entry(entry: Entry) -> str:
    name = entry.text("entry")
    if name != "put_in" and name not in EnergyLedger.__dataclass_fields__:
        raise entry.wrong("entry", name, "is no entry of the energy ledger.")
    return name


def _change(entry: Entry, raw: Any) -> Change:
    if not isinstance(raw, dict) or not isinstance(raw.get("path"), str):
        raise entry.wrong("changes", raw, "must be tables with a path.")
    path = raw["path"]
    leaf = _LEAVES.get(path)
    if leaf is None:
        raise entry.wrong("changes", path, "is no parameter of a shot.")
    extra = set(raw) - {"path", "add", "shrink", "to"}
    if extra or len(raw) != 2:
        raise entry.wrong("changes", raw, "must have a path and one of add, shrink, to.")
    if "to" not in raw:
        return Change(path=path, add=float(raw.get("add", 0.0)), shrink=float(raw.get("shrink", 0.0)))
    try:
        value = read_leaf(raw["to"], leaf.type, leaf.quantity, field=path).value
    except InputError as reason:
        raise entry.wrong("changes", raw["to"], str(reason)) from reason
    if isinstance(value, Enum):
        raise entry.wrong("changes", raw["to"], "is a choice among laws, which no fault changes.")
    return Change(path=path, to=float(value))
