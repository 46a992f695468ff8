"""The tables of a visit's file that tell of the work, read field by field."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path as FilePath
from typing import Any, Final

from stripdown.bench.calculators import CALCULATORS
from stripdown.errors import InputError
from stripdown.files.visit_folder import existing
from stripdown.tables.nearest import nearest_name
from stripdown.tables.reader import first_of
from stripdown.tables.toml_file import TomlFile, placed, read_toml
from stripdown.tables.toml_lines import Path

FIELDS: Final[Mapping[str, tuple[str, ...]]] = {
    "job": ("title", "gun", "invented", "own_steps", "body", "own_limits", "shims", "tools"),
    "request": ("job", "complaint", "finding", "work", "wanted", "as_found", "after"),
    "arrival": ("ran", "troubles", "off"),
    "start": ("parts_off",),
    **{one.table: tuple(one.fields) for one in CALCULATORS.values() if one.table and not one.is_list},
}
"""Fields of each table; those of [variation] and [limits] are named by the procedures."""

_HEAD = "job"
_OTHERS = ("variation", "limits")
_ASKED_LISTS: Final[Mapping[str, tuple[str, ...]]] = {
    one.table: ("name", *one.fields) for one in CALCULATORS.values() if one.is_list
}
_LISTS = ("event", "grade", *_ASKED_LISTS)
OF_WORK: Final = (*(name for name in FIELDS if name != _HEAD), *_OTHERS, *_LISTS)
"""Tables that tell of the work."""


class VisitTables:
    """A visit's file whose tables and fields are known; what they hold is looked at when it is asked for."""

    def __init__(self, file: TomlFile, *, head: str = _HEAD, besides: Collection[str] = ()) -> None:
        """`head` is the table with the title; the tables `besides` are read elsewhere."""
        self._file = file
        self.head = head
        self._beside: list[TomlFile] = []
        wrong = [one for name, content in file.document.items() if name not in besides for one in self._unknown(name, content)]
        if wrong:
            raise first_of(wrong)

    def _unknown(self, name: str, content: Any) -> Iterator[InputError]:
        """What of a table is not known."""
        known = (self.head, *OF_WORK)
        if name not in known:
            yield self.wrong((name,), name, f"is no table of a {self.head} file.", nearest_name(name, known))
        elif name not in _LISTS:
            if not isinstance(content, dict):
                yield self.wrong((name,), name, "must be a table.", f"Write [{name}] on a line of its own.")
            else:
                yield from self._no_fields((name,), name, content, FIELDS.get(name, content))
        elif not isinstance(content, list) or not all(isinstance(one, dict) for one in content):
            yield self.wrong((name,), name, "must be a list of tables.", f"Write [[{name}]] before each.")
        else:
            for position, fields in enumerate(content):
                yield from self._no_fields((name, position), name, fields, _ASKED_LISTS.get(name, fields))

    def _no_fields(self, where: Path, name: str, written: Iterable[str], known: Collection[str]) -> Iterator[InputError]:
        for field in written:
            if field not in known:
                yield self.wrong((*where, field), f"{name}.{field}", "is no field.", nearest_name(field, known))

    @property
    def path(self) -> str:
        """The file, as it was asked for."""
        return self._file.path

    @property
    def digests(self) -> list[tuple[str, str]]:
        """Name and digest of this file and of those beside it that were read."""
        return [(file.path, file.digest) for file in (self._file, *self._beside)]

    def line(self, where: Path) -> int | None:
        """Line of a table or field."""
        return self._file.lines.line(where)

    def beside(self, field: str) -> TomlFile | None:
        """Read the file that a field of the head names, which lies beside this one."""
        if not self.has(self.head, field):
            return None
        name = self.text(self.head, field, default="")
        folder = FilePath(self.path).parent
        path = existing(folder, name)
        if path is None:
            near = sorted(one.name for one in folder.glob("*.toml"))[:5]
            hint = f"TOML files in that folder: {', '.join(near)}." if near else f'Write {field} = "….toml".'
            what = f'names "{name}", and there is no such file beside the {self.head}.'
            raise self.wrong((self.head, field), f"{self.head}.{field}", what, hint)
        found = read_toml(path)
        self._beside.append(found)
        return found

    def has(self, table: str, field: str | None = None) -> bool:
        """Whether a table, or a field of it, is written."""
        return table in self._file.document and (field is None or field in self._file.document[table])

    def text(self, table: str, field: str, *, default: str) -> str:
        """Read a text."""
        value = self._value(table, field, default)
        if not isinstance(value, str):
            raise self.wrong((table, field), f"{table}.{field}", "must be a text.", f'Write {field} = "…".')
        return value

    def texts(self, table: str, field: str) -> tuple[str, ...]:
        """Read a list of texts, or one; a missing one is empty."""
        value = self._value(table, field, [])
        listed = [value] if isinstance(value, str) else value
        if not isinstance(listed, list) or not all(isinstance(one, str) for one in listed):
            raise self.wrong((table, field), f"{table}.{field}", "must be a list of texts.", f'Write {field} = ["one", "two"].')
        return tuple(dict.fromkeys(listed))

    def switch(self, table: str, field: str) -> bool:
        """Read true or false; a missing one is false."""
        value = self._value(table, field, default=False)
        if not isinstance(value, bool):
            raise self.wrong((table, field), f"{table}.{field}", "must be true or false, without quotes.")
        return value

    def count(self, table: str, field: str) -> int:
        """Read the number of an event; a missing one is zero."""
        value = self._value(table, field, 0)
        if isinstance(value, bool) or not isinstance(value, int) or value < 0:
            raise self.wrong((table, field), f"{table}.{field}", "must be the number of an event, zero for none.")
        return value

    def variation(self) -> Mapping[str, str]:
        """What the file says of the gun: feature to choice."""
        written = self._file.document.get("variation", {})
        for feature, choice in written.items():
            if not isinstance(choice, str):
                raise self.wrong(("variation", feature), f"variation.{feature}", "must be a text.", f'Write {feature} = "…".')
        return dict(written)

    def limits(self) -> Mapping[str, Any]:
        """What the file says of limits: key of the check to its table."""
        return dict(self._file.document.get("limits", {}))

    def events(self) -> tuple[Mapping[str, Any], ...]:
        """The log as it is written."""
        return tuple(self._file.document.get("event", []))

    def grades(self) -> tuple[Mapping[str, Any], ...]:
        """The grades as they are written."""
        return tuple(self._file.document.get("grade", []))

    def asked(self, table: str) -> Iterator[tuple[tuple[str | int, ...], Mapping[str, Any]]]:
        """What the file says for a calculator: each of its tables, and where that stands."""
        written = self._file.document.get(table, [])
        if isinstance(written, dict):
            yield (table,), dict(written)
        else:
            yield from (((table, position), fields) for position, fields in enumerate(written))

    @contextmanager
    def at(self, *where: str | int) -> Iterator[None]:
        """Give what goes wrong inside the file and a line."""
        try:
            yield
        except InputError as reason:
            if reason.file is not None:
                raise
            inside = (*where, reason.field) if reason.field is not None else where
            raise placed(reason, self.path, self.line(inside)) from None

    def wrong(self, where: Path, named: str, mistake: str, hint: str = "") -> InputError:
        """A mistake with file and line."""
        return InputError(f"{named} {mistake}", field=named, hint=hint or None, file=self.path, line=self.line(where))

    def _value(self, table: str, field: str, default: Any) -> Any:
        return self._file.document.get(table, {}).get(field, default)
