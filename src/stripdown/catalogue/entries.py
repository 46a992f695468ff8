"""What every entry of the catalogue has: key, name, other names, and on whose word it stands."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from importlib.resources import files
from types import MappingProxyType
from typing import Any, TypeVar

from stripdown.references.provenance import Provenance
from stripdown.tables.table import PROVENANCE, Table, read_tables


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueEntry:
    """One entry of the catalogue.

    Parameters
    ----------
    kind
        What sort of thing it is (``"spring"``).
    key
        Stable name, of which a kind has each once (``"m100"``).
    name
        Its name for people.
    also_called
        Other names that people use.
    provenance
        How well its figures are known, by whose word, and where that stands.
    as_written
        What the catalogue's file says of it, by field, with units.
    """

    kind: str
    key: str
    name: str
    also_called: tuple[str, ...] = ()
    provenance: Provenance
    as_written: Mapping[str, str] = field(default_factory=dict, repr=False, compare=False)

    @property
    def names(self) -> tuple[str, ...]:
        """All names but the key."""
        return (self.name, *self.also_called)


E = TypeVar("E", bound=CatalogueEntry)


def named(table: Table, *fields: str, inner: Iterable[str] = (), name: str = "") -> dict[str, Any]:
    """Read what every entry has, and refuse fields that are neither that nor among these; inner ones are the program's own."""
    table.only("name", "also_called", *fields, *inner, *PROVENANCE)
    return {
        "kind": table.name.partition(".")[0],
        "key": table.key,
        "name": name or table.text("name"),
        "also_called": table.texts("also_called"),
        "provenance": table.provenance(),
        "as_written": MappingProxyType({field: _said(table.fields[field]) for field in fields if field in table.fields}),
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


def _said(value: Any, prefix: str = "") -> str:
    if isinstance(value, dict):
        return ", ".join(_said(one, f"{prefix.strip()}.{name} ".lstrip(".")) for name, one in value.items())
    if isinstance(value, list):
        return ", ".join(map(_said, value))
    return prefix + (("yes" if value else "no") if isinstance(value, bool) else str(value))
