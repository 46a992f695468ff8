"""One table of a packaged file, or of a technician's file beside it, read field by field."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from stripdown.errors import CatalogueError, InputError
from stripdown.quantities import Q
from stripdown.references import load_references
from stripdown.references.provenance import NEEDS_SOURCE, Footing, Provenance
from stripdown.tables.nearest import nearest_name
from stripdown.tables.toml_file import parse_toml
from stripdown.tables.toml_lines import Path, find_lines
from stripdown.tables.values import check_typed
from stripdown.units import parse

_T = TypeVar("_T")
_KEY = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*")
PROVENANCE = ("footing", "source", "where")
"""Fields that say how well a figure is known, and on whose word."""


@dataclass(frozen=True, slots=True)
class Table:
    """One table of a file; a mistake raises, with file, table and field."""

    file: str
    name: str
    fields: Mapping[str, Any]
    written: str = ""
    """Text of the file, if a mistake shall name a line."""
    place: Path = ()

    @property
    def key(self) -> str:
        """Name without the sort in front: ``music_wire`` of ``[wire.music_wire]``."""
        return self.name.partition(".")[2]

    def check_key(self) -> None:
        """Refuse a key that is not written as keys are."""
        if not _KEY.fullmatch(self.key):
            raise self.wrong("key", self.key, "must be written as small letters, figures and single underscores.")

    def only(self, *known: str) -> None:
        """Refuse fields that mean nothing here."""
        for field in self.fields:
            if field not in known:
                raise self.wrong(field, self.fields[field], "means nothing here.", nearest_name(field, known))

    def text(self, field: str, *, default: str | None = None) -> str:
        """Read words."""
        value = self.fields.get(field, default)
        if not isinstance(value, str) or (default is None and not value.strip()):
            raise self.wrong(field, value, "must be a text.")
        return value

    def texts(self, field: str, *, least: int = 0) -> tuple[str, ...]:
        """Read a list of words, each once; a missing one is empty."""
        value = self.fields.get(field, [])
        if not isinstance(value, list) or not all(isinstance(one, str) and one.strip() for one in value) or len(value) < least:
            what = "at least one text" if least else "texts"
            raise self.wrong(field, value, f'must be a list of {what}, as in ["one", "two"].')
        return tuple(dict.fromkeys(value))

    def flag(self, field: str, *, default: bool | None = None) -> bool:
        """Read true or false."""
        value = self.fields.get(field, default)
        if not isinstance(value, bool):
            raise self.wrong(field, value, "must be true or false.")
        return value

    def choice(self, field: str, choices: Mapping[str, _T]) -> _T:
        """Read one of a few words."""
        typed = self.fields.get(field)
        if not isinstance(typed, str) or typed not in choices:
            raise self.wrong(field, typed, f"must be one of {', '.join(choices)}.")
        return choices[typed]

    def number(self, field: str) -> float | None:
        """Read a bare number, whose unit stands elsewhere, or None if it is missing."""
        value = self.fields.get(field)
        if isinstance(value, bool) or not isinstance(value, int | float | None):
            raise self.wrong(field, value, "must be a number.")
        return None if value is None else float(value)

    def amount(self, field: str) -> float:
        """Read a bare number that is zero or above; a missing one is zero."""
        value = self.number(field) or 0.0
        if value < 0.0:
            raise self.wrong(field, value, "must not be below zero.")
        return value

    def quantity(self, field: str, quantity: Q, *, difference: bool = False) -> float:
        """Read a number with its unit into SI; a difference has no limits but zero."""
        typed = self.text(field)
        try:
            value = parse(typed, quantity, difference=difference, field=field)
            if not difference:
                check_typed(value, typed, quantity, field=field)
        except InputError as reason:
            raise self.blamed(reason, field, typed) from reason
        if difference and value < 0.0:
            raise self.wrong(field, typed, "must not be negative.")
        return value

    def table(self, field: str, *, holding: str = "fields") -> Table:
        """Read a table in this one; a missing one is empty."""
        value = self.fields.get(field, {})
        if not isinstance(value, dict):
            raise self.wrong(field, value, f"must be a table with {holding}.")
        return self._inner(value, field)

    def tables(self, field: str) -> tuple[Table, ...]:
        """Read a list of tables; a missing one is empty."""
        value = self.fields.get(field, [])
        if not isinstance(value, list) or not all(isinstance(one, dict) for one in value):
            raise self.wrong(field, value, "must be a list of tables.")
        return tuple(replace(self._inner(one, field), place=(*self.place, field, number)) for number, one in enumerate(value))

    def sort(self, field: str) -> tuple[Table, ...]:
        """Read all tables of one sort, as in ``[sort.key]``."""
        value = self.fields.get(field, {})
        if not isinstance(value, dict):
            raise self.wrong(field, None, f"must hold tables [{field}.name].")
        whole = self._inner(value, field)
        for key, one in value.items():
            if not isinstance(one, dict):
                raise whole.wrong(key, one, f"must be a table [{field}.{key}].")
        return tuple(whole.table(key) for key in value)

    def provenance(self, *, needs_place: bool = True) -> Provenance:
        """Read footing, source and place of the figures."""
        footing = self.choice("footing", {one.value: one for one in Footing})
        source = self.text("source", default="") or None
        if source is None and footing in NEEDS_SOURCE:
            raise self.wrong("source", None, f"is missing, and the footing is {footing.value}: such a figure names its source.")
        if source is not None and footing is Footing.COMMON_PRACTICE:
            raise self.wrong("source", source, "contradicts the footing: common practice has no source.")
        self.known("source", () if source is None else (source,), load_references(), "is not in the register of sources.")
        return Provenance(
            footing=footing, source=source, where=self.text("where", default=None if needs_place else footing.words)
        )

    def known(self, field: str, keys: Collection[str], known: Collection[str], because: str) -> None:
        """Refuse keys that are not known, with the nearest."""
        for key in keys:
            if key not in known:
                raise self.wrong(field, key, because, nearest_name(key, known))

    def wrong(self, field: str, value: object, because: str, hint: str | None = None) -> CatalogueError:
        """A mistake with file, table and field."""
        said = "" if value is None else f" = {value!r}"
        return self.blamed(InputError(f"{field}{said} {because}", hint=hint), field, value)

    def blamed(self, reason: InputError, field: str, value: object) -> CatalogueError:
        """What else went wrong with a field, with file and table."""
        where = f"{self.name}.{field}" if self.name else field
        message = f"[{self.name}] {reason.message}" if self.name else reason.message
        line = find_lines(self.written).line((*self.place, field)) if self.written else None
        return CatalogueError(message, field=where, value=value, hint=reason.hint, file=self.file, line=line)

    def _inner(self, fields: Mapping[str, Any], field: str) -> Table:
        name = f"{self.name}.{field}" if self.name else field
        return Table(self.file, name, fields, self.written, (*self.place, field))


def read_tables(text: str, *, file: str, known: Collection[str] | None = None) -> Table:
    """Read TOML of which only some tables are known."""
    whole = Table(file, "", parse_toml(text, file, error=CatalogueError), text)
    for name in whole.fields:
        if known is not None and name not in known:
            raise whole.blamed(InputError(f'"{name}" means nothing here.', hint=nearest_name(name, known)), name, None)
    return whole
