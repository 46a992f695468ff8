"""Typical healthy guns by layout: what differs from the defaults, without brand or model."""

from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from stripdown.catalogue.defaults import load_defaults
from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.errors import InputError
from stripdown.quantities import check, leaves
from stripdown.tables.table import Table
from stripdown.tables.values import Typed, assemble, read_leaf

_FILE = "guns.toml"
_LEAVES = {leaf.path: leaf for leaf in leaves(ShotParameters)}


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueGun(CatalogueEntry):
    """One typical gun."""

    differs: Mapping[str, Typed]
    parameters: ShotParameters


@functools.cache
def load_guns() -> Mapping[str, CatalogueGun]:
    """Read the packaged guns."""
    return read_guns(packaged_text(_FILE), file=_FILE)


def read_guns(text: str, *, file: str) -> Mapping[str, CatalogueGun]:
    """Read typical guns from TOML."""
    return read_entries(text, file=file, noun="gun", read=_gun)


def _gun(entry: Table) -> CatalogueGun:
    fields = named(entry, "differs")
    differs = {path: _typed(entry, path, raw) for path, raw in _flat(entry.table("differs").fields)}
    values = {path: default.value for path, default in load_defaults().items()}
    parameters = assemble(ShotParameters, values | {path: typed.value for path, typed in differs.items()})
    try:
        check(parameters)
    except InputError as reason:
        raise entry.blamed(reason, f"differs.{reason.field}", reason.value) from reason
    return CatalogueGun(**fields, differs=MappingProxyType(differs), parameters=parameters)


def _typed(entry: Table, path: str, raw: object) -> Typed:
    leaf = _LEAVES.get(path)
    if leaf is None:
        raise entry.wrong(f"differs.{path}", raw, "is no parameter of a shot.")
    try:
        return read_leaf(raw, leaf.type, leaf.quantity, field=path)
    except InputError as reason:
        raise entry.blamed(reason, f"differs.{path}", raw) from reason


def _flat(tables: Mapping[str, Any], prefix: str = "") -> Iterator[tuple[str, object]]:
    for name, value in tables.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{prefix}{name}.")
        else:
            yield f"{prefix}{name}", value
