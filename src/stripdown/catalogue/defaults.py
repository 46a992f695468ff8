"""What is assumed of a part that nobody measured, and how much parts of its kind differ."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.parts.gun_parts import GunParts
from stripdown.errors import InputError
from stripdown.quantities import Leaf, leaves
from stripdown.tables.nearest import nearest_name
from stripdown.tables.table import Table, read_tables
from stripdown.tables.values import LeafValue, check_typed, read_leaf

_FILE = "defaults.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Default(CatalogueEntry):
    """Typical value of one number, switch or choice of a gun's parts or of a shot, whose path is the key.

    `doubt` is of what nobody can measure: the spread of its logarithm among guns and among laws.
    """

    value: LeafValue
    text: str
    tolerance: float | None
    doubt: float | None = None


@functools.cache
def load_defaults() -> Mapping[str, Default]:
    """Read the packaged defaults."""
    return read_defaults(packaged_text(_FILE), file=_FILE)


def read_defaults(text: str, *, file: str) -> Mapping[str, Default]:
    """Read defaults from TOML."""
    whole = read_tables(text, file=file)
    tables = {table.name: table for table in _flat(whole)}
    wanted = {leaf.path: leaf for record in (GunParts, ShotParameters) for leaf in leaves(record)}
    for path in tables.keys() - wanted.keys():
        raise whole.wrong(path, None, "is no parameter of a shot.", nearest_name(path, wanted))
    for path in wanted.keys() - tables.keys():
        raise whole.wrong(path, None, "is missing: every parameter of a shot needs a default.")
    return MappingProxyType({path: _default(tables[path], leaf) for path, leaf in wanted.items()})


def _flat(table: Table) -> Iterator[Table]:
    if "value" in table.fields:
        yield table
        return
    for name, inner in table.fields.items():
        if not isinstance(inner, dict):
            raise table.wrong(name, inner, "stands outside a table.")
        yield from _flat(table.table(name))


def _default(entry: Table, leaf: Leaf) -> Default:
    name = leaf.quantity.label if leaf.quantity else leaf.path.replace("_", " ").rpartition(".")[2]
    fields = named(entry, "value", "tolerance", "doubt", name=name) | {"kind": "default", "key": leaf.path}
    raw = entry.fields["value"]
    try:
        typed = read_leaf(raw, leaf.type, leaf.quantity, field="value")
        if leaf.quantity is not None:
            check_typed(float(typed.value), typed.text, leaf.quantity, field="value")  # type: ignore[arg-type]
    except InputError as reason:
        raise entry.blamed(reason, "value", raw) from reason
    tolerance = entry.quantity("tolerance", leaf.quantity, difference=True) if leaf.type is float and leaf.quantity else None
    return Default(**fields, value=typed.value, text=typed.text, tolerance=tolerance, doubt=entry.number("doubt"))
