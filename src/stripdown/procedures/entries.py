"""Entries of the procedures as written: with the condition on which they exist, and what a variation amends."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from stripdown.errors import CatalogueError
from stripdown.procedures.tables import Table, filled, merged
from stripdown.procedures.variations import Condition, Feature, Variation

_KEY = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One part, check, action, order or job, before a variation is chosen."""

    key: str
    item: str | None
    table: Table
    condition: Condition
    amendments: tuple[tuple[Condition, Mapping[str, Any]], ...] = ()

    def fixed(self, variation: Variation, names: Mapping[str, str]) -> Table | None:
        """What it says in a variation."""
        if not variation.satisfies(self.condition):
            return None
        fields: Mapping[str, Any] = self.table.fields
        for condition, amendment in self.amendments:
            if variation.satisfies(condition):
                fields = merged(fields, amendment)
        if self.item is not None:
            fields = filled(fields, {"name": names.get(self.item, self.item.replace("_", " "))})
        return replace(self.table, fields=fields)

    def versions(self) -> Iterator[Table]:
        """What it says by itself, and with each amendment: what a check of the data looks through."""
        yield self.table
        for _, amendment in self.amendments:
            yield replace(self.table, fields=merged(self.table.fields, amendment))

    def last_amended(self) -> Iterator[Table]:
        """What it says with its last amendment, alone and after each earlier one that may hold at the same time."""
        *earlier, (condition, fields) = self.amendments
        yield replace(self.table, fields=merged(self.table.fields, fields))
        for other, others in earlier:
            if all(other[feature] & condition[feature] for feature in other.keys() & condition.keys()):
                yield replace(self.table, fields=merged(merged(self.table.fields, others), fields))


def read_entries(tables: Mapping[str, Any], noun: str, file: str, features: tuple[Feature, ...]) -> Iterator[Entry]:
    """Read the entries of one sort."""
    if not isinstance(tables, Mapping):
        raise CatalogueError(f"must hold tables [{noun}.name].", file=file, field=noun)
    for key, raw in tables.items():
        if not isinstance(raw, dict):
            whole = Table(file, noun, tables)
            raise whole.wrong(key, raw, f"must be a table [{noun}.{key}].")
        table = Table(file, f"{noun}.{key}", raw)
        items = table.texts("each")
        if not items:
            yield _entry(key, None, table, features)
        for item in items:
            words = {"each": item}
            fields = filled({field: value for field, value in raw.items() if field != "each"}, words)
            own_key = filled(key, words)
            yield _entry(own_key, item, Table(file, f"{noun}.{own_key}", fields), features)


def read_order(raw: Any, file: str, features: tuple[Feature, ...]) -> Iterator[Entry]:
    """Read the declared orders."""
    for number, table in enumerate(Table(file, "order", {"pair": raw}).tables("pair"), start=1):
        yield _entry(f"pair_{number}", None, replace(table, name=f"pair {number}"), features)


def read_condition(table: Table, field: str, features: tuple[Feature, ...]) -> Condition:
    """Read on what features something depends."""
    raw = table.fields.get(field, {})
    if not isinstance(raw, dict):
        raise table.wrong(field, raw, 'must be a table, as in { layout = "version_2" }.')
    known = {feature.key: {choice.key for choice in feature.choices} for feature in features}
    found: dict[str, frozenset[str]] = {}
    for feature, value in raw.items():
        choices = {value} if isinstance(value, str) else set(value) if isinstance(value, list) else set()
        if feature not in known:
            raise table.wrong(field, feature, f"is no feature. Known are {', '.join(known)}.")
        if not choices or not choices <= known[feature]:
            raise table.wrong(field, value, f"is no choice of {feature}. Known are {', '.join(sorted(known[feature]))}.")
        found[feature] = frozenset(choices)
    return found


def _entry(key: str, item: str | None, table: Table, features: tuple[Feature, ...]) -> Entry:
    if not _KEY.fullmatch(key):
        raise table.wrong("key", key, "must be written as small letters, figures and single underscores.")
    amendments = tuple((read_condition(one, "when", features), one.fields) for one in table.tables("varied"))
    fields = {field: value for field, value in table.fields.items() if field not in {"when", "varied"}}
    return Entry(
        key=key,
        item=item,
        table=replace(table, fields=fields),
        condition=read_condition(table, "when", features),
        amendments=amendments,
    )
