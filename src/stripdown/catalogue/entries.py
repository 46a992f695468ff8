"""Entries of a catalogue file: fields as text with units, each entry with its footing and source."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib.resources import files
from typing import Any

from stripdown.errors import CatalogueError, InputError
from stripdown.quantities import Q, check_value
from stripdown.references import load_references
from stripdown.references.provenance import NEEDS_SOURCE, Footing, Provenance
from stripdown.units import parse

_KEY = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*")


@dataclass(frozen=True, slots=True)
class Entry:
    """One table of a catalogue file, read field by field."""

    file: str
    key: str
    fields: Mapping[str, Any]

    def text(self, name: str) -> str:
        """Read a field of plain words."""
        value = self.fields.get(name)
        if isinstance(value, str) and value.strip():
            return value
        raise self.wrong(name, value, "must be a text.")

    def number(self, name: str, quantity: Q, *, difference: bool = False) -> float:
        """Read a field with its unit."""
        typed = self.text(name)
        try:
            value = parse(typed, quantity, difference=difference)
            if not difference:
                check_value(name, value, quantity)
        except InputError as reason:
            raise self.wrong(name, typed, str(reason)) from reason
        return value

    def provenance(self) -> Provenance:
        """Read footing, source and place."""
        try:
            footing = Footing(self.fields.get("footing"))
        except ValueError:
            choices = ", ".join(member.value for member in Footing)
            raise self.wrong("footing", self.fields.get("footing"), f"must be one of {choices}.") from None
        source = self.text("source") if "source" in self.fields else None
        if source is None and footing in NEEDS_SOURCE:
            raise self.wrong("source", None, f"is missing, and the footing is {footing.value}.")
        if source is not None and footing is Footing.COMMON_PRACTICE:
            raise self.wrong("source", source, "contradicts the footing: common practice has no source.")
        references = load_references()
        if source is not None and source not in references:
            raise self.wrong("source", source, f"is not in the register of sources{references.nearest(source)}.")
        return Provenance(footing=footing, source=source, where=self.text("where"))

    def only(self, *names: str) -> None:
        """Refuse fields that are not meant."""
        for name in self.fields:
            if name not in {*names, "footing", "source", "where"}:
                raise self.wrong(name, self.fields[name], f"is not a field of this file; it has {', '.join(names)}.")

    def wrong(self, name: str, value: object, because: str) -> CatalogueError:
        """Make the complaint about one field."""
        said = "" if value is None else f" = {value!r}"
        return CatalogueError(f"[{self.key}] {name}{said} {because}", file=self.file, field=f"{self.key}.{name}", value=value)


def packaged_text(file: str) -> str:
    """Read a file of the packaged catalogue."""
    return files("stripdown.catalogue").joinpath("data", file).read_text(encoding="utf-8")


def read_entries(text: str, *, file: str, noun: str) -> Iterator[Entry]:
    """Walk the entries ``[noun.key]`` of a catalogue text."""
    document = load_document(text, file)
    for name, table in document.items():
        if name != noun or not isinstance(table, dict):
            raise CatalogueError(f"[{name}] does not belong here; every entry is a table [{noun}.key].", file=file, field=name)
        for key, fields in table.items():
            if not isinstance(fields, dict) or not _KEY.fullmatch(key):
                raise CatalogueError(f"[{noun}.{key}] is not a table named in snake_case.", file=file, field=f"{noun}.{key}")
            yield Entry(file, f"{noun}.{key}", fields)


def load_document(text: str, file: str) -> dict[str, Any]:
    """Read TOML, with the file's name in the complaint."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as reason:
        raise CatalogueError(f"this is not TOML: {reason}.", file=file) from reason
