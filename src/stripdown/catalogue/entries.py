"""What every entry of the catalogue has: key, name, other names, and on whose word it stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib.resources import files
from types import MappingProxyType
from typing import Any, TypeVar

from stripdown.references.provenance import Provenance
from stripdown.tables.table import PROVENANCE, Table, read_tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry of the catalogue."""

    key: str
    name: str
    also_called: tuple[str, ...] = ()
    provenance: Provenance

    @property
    def names(self) -> tuple[str, ...]:
        """All names but the key."""
        return (self.name, *self.also_called)


E = TypeVar("E", bound=Entry)


def named(table: Table, *fields: str) -> dict[str, Any]:
    """Read what every entry has, and refuse fields that are neither that nor among these."""
    table.only("name", "also_called", *fields, *PROVENANCE)
    return {
        "key": table.key,
        "name": table.text("name"),
        "also_called": table.texts("also_called"),
        "provenance": table.provenance(),
    }


def packaged_text(file: str) -> str:
    """Read a file of the packaged catalogue."""
    return files("stripdown.catalogue").joinpath("data", file).read_text(encoding="utf-8")


def read_entries(text: str, *, file: str, noun: str, read: Callable[[Table], E]) -> Mapping[str, E]:
    """Read the entries ``[noun.key]`` of a catalogue text, by key."""
    found = {}
    for table in read_tables(text, file=file, known=[noun]).sort(noun):
        table.check_key()
        found[table.key] = read(table)
    return MappingProxyType(found)
