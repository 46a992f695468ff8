"""Files beside the procedures, as they arrive: TOML with a few known tables, amendments, and sources that exist."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from importlib.resources import files
from typing import Any

from stripdown.procedures.entries import Entry, read_condition
from stripdown.procedures.variations import Feature
from stripdown.references.provenance import Provenance
from stripdown.tables.table import Table


def packaged_text(file: str) -> str:
    """Text of a packaged file."""
    return (files("stripdown.procedures") / "data" / file).read_text(encoding="utf-8")


def amend(
    sorts: Mapping[str, dict[str, Entry]],
    amendment: Table,
    features: tuple[Feature, ...],
    *,
    besides: Mapping[str, Any] | None = None,
) -> Iterator[tuple[str, str, Table]]:
    """Add an amendment to the entry that it names; sort, key and table of all that the entry may then say."""
    sort, _, key = amendment.text("entry").partition(".")
    known = [f"{one}.{name}" for one, entries in sorts.items() for name in entries]
    amendment.known("entry", [f"{sort}.{key}"], known, "is no entry.")
    entry = sorts[sort][key]
    fields = {field: value for field, value in amendment.fields.items() if field not in {"entry", "when"}}
    condition = read_condition(amendment, "when", features)
    for method in amendment.tables("method") if isinstance(amendment.fields.get("method"), list) else ():
        read_condition(method, "when", features)
    sorts[sort][key] = replace(entry, amendments=(*entry.amendments, (condition, {**fields, **(besides or {})})))
    for version in sorts[sort][key].last_amended():
        yield sort, key, replace(version, file=amendment.file, written=amendment.written, place=amendment.place)


def optional_provenance(table: Table) -> Provenance | None:
    """On whose word the figures stand; None if the table claims nothing."""
    return table.provenance(needs_place=False) if "footing" in table.fields else None


def needed_provenance(table: Table) -> Provenance:
    """On whose word a limit stands, which must be said."""
    found = optional_provenance(table)
    if found is None:
        hint = 'Write footing = "common_practice" where there is no source.'
        raise table.wrong("footing", None, "is missing: every limit says on whose word it stands.", hint)
    return found


def plain_words(text: str) -> str:
    """Words as one compares them: small letters, single blanks, no underscores, no stops."""
    spaced = "".join(letter if letter.isalnum() else "" if letter in "'’" else " " for letter in text.lower())
    return " ".join(spaced.split())
