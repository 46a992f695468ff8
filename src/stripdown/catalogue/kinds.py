"""Kinds of things that have names and belong to wider kinds: isopropyl alcohol is an alcohol, an alcohol a solvent."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from stripdown.catalogue.entries import Entry
from stripdown.errors import CatalogueError
from stripdown.references.provenance import Provenance

FIELDS = ("name", "code", "also_called", "kind_of", "acts_as", "remark")
"""Fields of every kind, besides those of the provenance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of material or fluid, or a wider kind that others belong to."""

    key: str
    name: str
    code: str = ""
    also_called: tuple[str, ...] = ()
    kind_of: tuple[str, ...] = ()
    acts_as: tuple[str, ...] = ()
    remark: str = ""
    provenance: Provenance

    @property
    def names(self) -> tuple[str, ...]:
        """All names but the key."""
        return tuple(name for name in (self.name, self.code, *self.also_called) if name)

    @property
    def shown(self) -> str:
        """Name with its code behind."""
        return f"{self.name} ({self.code})" if self.code else self.name


K = TypeVar("K", bound=Kind)


def read_kind(entry: Entry) -> Kind:
    """Read what every kind has."""
    return Kind(
        key=entry.key.partition(".")[2],
        name=entry.text("name"),
        code=entry.text("code") if "code" in entry.fields else "",
        also_called=texts(entry, "also_called"),
        kind_of=texts(entry, "kind_of"),
        acts_as=texts(entry, "acts_as"),
        remark=entry.text("remark") if "remark" in entry.fields else "",
        provenance=entry.provenance(),
    )


def texts(entry: Entry, name: str, *, least: int = 0) -> tuple[str, ...]:
    """Read a list of words."""
    value = entry.fields.get(name, [])
    if not isinstance(value, list) or not all(isinstance(word, str) and word.strip() for word in value) or len(value) < least:
        raise entry.wrong(name, value, f"must be a list of {'at least one text' if least else 'texts'}.")
    return tuple(value)


def check_kinds(kinds: Mapping[str, Kind], *, file: str) -> None:
    """Hold the kinds of a file against each other."""
    for kind in kinds.values():
        for field, names in (("kind_of", kind.kind_of), ("acts_as", kind.acts_as)):
            for name in names:
                if name not in kinds:
                    where = f"{kind.key}.{field}"
                    raise CatalogueError(f"[{kind.key}] {field} names {name!r}, which is not there.", file=file, field=where)
    for key, kind in kinds.items():
        if any(key in rated_as(kinds, above) for above in (*kind.kind_of, *kind.acts_as)):
            raise CatalogueError(f"[{key}] belongs to a kind that belongs to it.", file=file, field=f"{key}.kind_of")


def rated_as(kinds: Mapping[str, Kind], key: str) -> frozenset[str]:
    """Keys whose ratings hold for a kind: its own, those of all wider kinds, and of what it acts as."""
    found, left = {key}, [key]
    while left:
        kind = kinds[left.pop()]
        above = {*kind.kind_of, *kind.acts_as} - found
        found |= above
        left.extend(above)
    return frozenset(found)


def members(kinds: Mapping[str, K], key: str) -> tuple[K, ...]:
    """What a name may stand for: itself, or for a wider kind all that belong to it and are no wider kind themselves."""
    wider = {name for kind in kinds.values() for name in kind.kind_of}
    if key not in wider:
        return (kinds[key],)
    return tuple(kind for kind in kinds.values() if kind.key not in wider and _belongs(kinds, kind.key, key))


def _belongs(kinds: Mapping[str, Kind], key: str, wider: str) -> bool:
    return wider in kinds[key].kind_of or any(_belongs(kinds, above, wider) for above in kinds[key].kind_of)
