"""Files beside the procedures, as they arrive: TOML with a few known tables, amendments, and sources that exist."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from importlib.resources import files
from typing import Any

from stripdown.errors import CatalogueError
from stripdown.procedures.entries import Entry, read_condition
from stripdown.procedures.nearest_key import nearest_key
from stripdown.procedures.tables import Table
from stripdown.procedures.variations import Feature
from stripdown.references import load_references


def packaged_text(file: str) -> str:
    """Text of a packaged file."""
    return (files("stripdown.procedures") / "data" / file).read_text(encoding="utf-8")


def read_document(file: str, text: str, known: Iterable[str]) -> dict[str, Any]:
    """Read TOML of which only some tables are known."""
    names = tuple(known)
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as reason:
        raise CatalogueError(f"is not readable: {reason}.", file=file) from reason
    for key in document:
        if key not in names:
            raise CatalogueError(f'"{key}" means nothing here. Known are {", ".join(names)}.', file=file, field=key)
    return document


def tables_of(file: str, document: Mapping[str, Any], sort: str) -> dict[str, Table]:
    """All tables of one sort, as in ``[sort.key]``."""
    whole = document.get(sort, {})
    if not isinstance(whole, dict):
        raise CatalogueError(f"must hold tables [{sort}.name].", file=file, field=sort)
    for key, raw in whole.items():
        if not isinstance(raw, dict):
            raise Table(file, sort, whole).wrong(key, raw, f"must be a table [{sort}.{key}].")
    return {key: Table(file, f"{sort}.{key}", raw) for key, raw in whole.items()}


def amend(
    sorts: Mapping[str, dict[str, Entry]],
    amendment: Table,
    features: tuple[Feature, ...],
    *,
    besides: Mapping[str, Any] | None = None,
) -> None:
    """Add an amendment to the entry that it names."""
    sort, _, key = amendment.text("entry").partition(".")
    if key not in sorts.get(sort, {}):
        known = [f"{one}.{name}" for one, entries in sorts.items() for name in entries]
        raise amendment.wrong("entry", f"{sort}.{key}", f"is no entry. {nearest_key(f'{sort}.{key}', known)}")
    entry = sorts[sort][key]
    fields = {field: value for field, value in amendment.fields.items() if field not in {"entry", "when"}}
    condition = read_condition(amendment, "when", features)
    sorts[sort][key] = replace(entry, amendments=(*entry.amendments, (condition, {**fields, **(besides or {})})))


def check_source(table: Table, *, is_needed: bool = False) -> None:
    """Refuse a source that is not in the register."""
    provenance = table.provenance()
    if provenance is None:
        if is_needed:
            hint = 'write footing = "common_practice" where there is no source.'
            raise table.wrong("footing", None, f"is missing: every limit says on whose word it stands; {hint}")
        return
    if provenance.source is not None and provenance.source not in load_references():
        raise table.wrong("source", provenance.source, "is no key of the register of references.")


def plain_words(text: str) -> str:
    """Words as one compares them: small letters, single blanks, no underscores, no stops."""
    spaced = "".join(letter if letter.isalnum() else "" if letter in "'’" else " " for letter in text.lower())
    return " ".join(spaced.split())
