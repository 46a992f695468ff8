"""What is assumed of a part that nobody measured, and how much parts of its kind differ."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from stripdown.catalogue.entries import Entry, load_document, packaged_text
from stripdown.catalogue.leaf_values import LeafValue, read_leaf
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.parts.gun_parts import GunParts
from stripdown.errors import CatalogueError, InputError
from stripdown.quantities import Leaf, check_value, leaves
from stripdown.references.provenance import Provenance

_FILE = "defaults.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Default:
    """Typical value of one number, switch or choice of a gun's parts or of a shot."""

    path: str
    value: LeafValue
    text: str
    tolerance: float | None
    provenance: Provenance


@functools.cache
def load_defaults() -> Mapping[str, Default]:
    """Read the packaged defaults."""
    return read_defaults(packaged_text(_FILE), file=_FILE)


def read_defaults(text: str, *, file: str) -> Mapping[str, Default]:
    """Read defaults from TOML."""
    entries = {entry.key: entry for entry in _flat(load_document(text, file), file)}
    wanted = {leaf.path: leaf for record in (GunParts, ShotParameters) for leaf in leaves(record)}
    for path in entries.keys() - wanted.keys():
        raise CatalogueError(f"[{path}] is no parameter of a shot.", file=file, field=path)
    for path in wanted.keys() - entries.keys():
        raise CatalogueError(f"[{path}] is missing: every parameter of a shot needs a default.", file=file, field=path)
    return MappingProxyType({path: _default(entries[path], leaf) for path, leaf in wanted.items()})


def _flat(tables: Mapping[str, Any], file: str, prefix: str = "") -> Iterator[Entry]:
    for name, table in tables.items():
        if not isinstance(table, dict):
            raise CatalogueError(f"{prefix}{name} stands outside a table.", file=file, field=f"{prefix}{name}")
        if "value" in table:
            yield Entry(file, f"{prefix}{name}", table)
        else:
            yield from _flat(table, file, f"{prefix}{name}.")


def _default(entry: Entry, leaf: Leaf) -> Default:
    entry.only("value", "tolerance")
    raw = entry.fields["value"]
    try:
        typed = read_leaf(raw, leaf.type, leaf.quantity, field=leaf.path)
        if leaf.quantity is not None:
            check_value(leaf.path, float(typed.value), leaf.quantity)  # type: ignore[arg-type]
    except InputError as reason:
        raise entry.wrong("value", raw, str(reason)) from reason
    tolerance = entry.number("tolerance", leaf.quantity, difference=True) if leaf.type is float and leaf.quantity else None
    if tolerance is not None and tolerance < 0:
        raise entry.wrong("tolerance", entry.fields["tolerance"], "must not be negative.")
    return Default(path=leaf.path, value=typed.value, text=typed.text, tolerance=tolerance, provenance=entry.provenance())
