"""Entries of the procedures as written: with the condition on which they exist, and what a variation amends."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from stripdown.procedures.variations import Condition, Feature, Variation
from stripdown.tables.table import Table


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
        if any("when" in method for method in fields.get("method", ())):
            fields = {**fields, "method": [one for one in fields["method"] if _is_for(one, variation)]}
        if self.item is not None:
            name = names.get(self.item, self.item.replace("_", " "))
            fields = filled(fields, {"name": name, "new": _when_new(name)})
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


def _is_for(method: Mapping[str, Any], variation: Variation) -> bool:
    """Whether a way to make a check is one for a variation."""
    told = method.get("when", {}).items()
    return all(variation.choices[feature] in ([choice] if isinstance(choice, str) else choice) for feature, choice in told)


def read_entries(whole: Table, noun: str, features: tuple[Feature, ...]) -> Iterator[Entry]:
    """Read the entries of one sort."""
    for table in whole.sort(noun):
        items = table.texts("each")
        if not items:
            yield _entry(None, table, features)
        for item in items:
            words = {"each": item}
            fields = filled({field: value for field, value in table.fields.items() if field != "each"}, words)
            yield _entry(item, replace(table, name=filled(table.name, words), fields=fields), features)


def read_order(whole: Table, features: tuple[Feature, ...]) -> Iterator[Entry]:
    """Read the declared orders."""
    for number, table in enumerate(whole.tables("pair"), start=1):
        yield _entry(None, replace(table, name=f"pair.pair_{number}"), features)


def read_condition(table: Table, field: str, features: tuple[Feature, ...]) -> Condition:
    """Read on what features something depends."""
    raw = table.table(field, holding='features, as in { layout = "version_2" }').fields
    known = {feature.key: {choice.key for choice in feature.choices} for feature in features}
    found: dict[str, frozenset[str]] = {}
    for feature, value in raw.items():
        choices = {value} if isinstance(value, str) else set(value) if isinstance(value, list) else set()
        table.known(field, [feature], known, "is no feature.")
        if not choices or not choices <= known[feature]:
            raise table.wrong(field, value, f"is no choice of {feature}. Known are {', '.join(sorted(known[feature]))}.")
        found[feature] = frozenset(choices)
    return found


def _entry(item: str | None, table: Table, features: tuple[Feature, ...]) -> Entry:
    table.check_key()
    amendments = tuple((read_condition(one, "when", features), one.fields) for one in table.tables("varied"))
    for holder in (table, *table.tables("varied")):
        for method in holder.tables("method") if isinstance(holder.fields.get("method"), list) else ():
            read_condition(method, "when", features)
    fields = {field: value for field, value in table.fields.items() if field not in {"when", "varied"}}
    return Entry(
        key=table.key,
        item=item,
        table=replace(table, fields=fields),
        condition=read_condition(table, "when", features),
        amendments=amendments,
    )


def _when_new(name: str) -> str:
    """How one asks for a part in a shop: a ring for the piston head, and not a piston head's ring."""
    owner, has_owner, part = name.partition("'s ")
    return f"{part} for the {owner}" if has_owner else name


def merged(fields: Mapping[str, Any], amendment: Mapping[str, Any]) -> dict[str, Any]:
    """What a table says after an amendment: lists grow, tables are amended in turn, everything else is replaced."""
    result = dict(fields)
    for field, value in amendment.items():
        if field != "when":
            before = result.get(field)
            if isinstance(before, list) and isinstance(value, list):
                result[field] = [*before, *value]
            else:
                result[field] = merged(before, value) if isinstance(before, Mapping) and isinstance(value, Mapping) else value
    return result


def filled(value: Any, words: Mapping[str, str]) -> Any:
    """The same text, list or table with each ``{word}`` replaced."""
    if isinstance(value, str):
        for word, meaning in words.items():
            value = value.replace(f"{{{word}}}", meaning)
        return value
    if isinstance(value, list):
        return [filled(one, words) for one in value]
    if isinstance(value, Mapping):
        return {key: filled(one, words) for key, one in value.items()}
    return value


def checked_keys(table: Table, field: str, keys: Iterable[str], known: Iterable[str], hint: str) -> None:
    """Refuse a key that no variation knows."""
    table.known(field, tuple(keys), dict.fromkeys(known), f"is no {hint} of any variation.")
