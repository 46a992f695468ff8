"""Kinds of things that have names and belong to wider kinds: isopropyl alcohol is an alcohol, an alcohol a solvent."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from stripdown.catalogue.entries import CatalogueEntry, named
from stripdown.errors import CatalogueError
from stripdown.tables.table import Table


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind(CatalogueEntry):
    """One kind of material or fluid, or a wider kind that others belong to."""

    code: str = ""
    kind_of: tuple[str, ...] = ()
    acts_as: tuple[str, ...] = ()
    remark: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """All names but the key."""
        return tuple(name for name in (self.name, self.code, *self.also_called) if name)

    @property
    def shown(self) -> str:
        """Name with its code behind."""
        return f"{self.name} ({self.code})" if self.code else self.name


K = TypeVar("K", bound=Kind)


def kind_fields(entry: Table, *fields: str) -> dict[str, Any]:
    """Read what every kind has, and refuse fields that are neither that nor among these."""
    return named(entry, "code", "kind_of", "acts_as", "remark", *fields) | {
        "code": entry.text("code", default=""),
        "kind_of": entry.texts("kind_of"),
        "acts_as": entry.texts("acts_as"),
        "remark": entry.text("remark", default=""),
    }


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
