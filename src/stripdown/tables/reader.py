"""Walks the tables of a technician's file and collects every mistake, each with its line."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any, Generic, TypeVar

from stripdown.errors import InputError
from stripdown.tables.nearest import nearest_name
from stripdown.tables.toml_file import TomlFile, placed
from stripdown.tables.toml_lines import Path

F = TypeVar("F")
_LINES_SHOWN = 12


class TableReader(Generic[F]):
    """Walks the tables of one file, whose fields are declared, and collects what is wrong."""

    def __init__(
        self,
        file: TomlFile,
        tables: Mapping[str, Mapping[str, F]],
        read: Callable[[F, object, str], Any],
        *,
        noun: str,
    ) -> None:
        self.file = file
        self.wrong: list[InputError] = []
        self.lines: dict[str, int | None] = {}
        self._tables = tables
        self._read = read
        self._noun = noun

    def known_tables(self, known: Iterable[str]) -> Iterator[tuple[str, Any]]:
        """What the file holds under each known name; all others are mistakes."""
        names = tuple(known)
        for name, content in self.file.document.items():
            if name in names:
                yield name, content
                continue
            homes = [table for table, fields in self._tables.items() if name in fields]
            is_table = isinstance(content, dict | list)
            if homes and not is_table:
                self.mistake((name,), f"{name} stands above all tables.", f"Move it under [{homes[0]}].")
            else:
                kind = f"[{name}] is no table" if is_table else f"{name} is no field"
                self.mistake((name,), f"{kind} of {self._noun}.", nearest_name(name, names))

    def table(self, table: str, content: object, where: Path, *, shown: str = "") -> dict[str, Any]:
        """Values of one table by field; what is wrong is left out, and called by what is shown."""
        shown = shown or table
        if not isinstance(content, dict):
            kind = "one table, not a list of tables" if isinstance(content, list) else "a table, not a value"
            self.mistake(where, f"{table} is {kind}.", f"Write [{table}] on a line of its own.")
            return {}
        values = {}
        for name, raw in content.items():
            field = self._tables[table].get(name)
            here, path = (*where, name), f"{shown}.{name}"
            if field is None:
                self.mistake(here, f"[{shown}] has no field {name}.", nearest_name(name, self._tables[table]), field=path)
            elif isinstance(raw, dict):
                self.mistake(here, f"{path} is a value, not a table.", f"Write {name} = … under [{table}].", field=path)
            else:
                self.lines[path] = self.file.lines.line(here)
                with self.at(here):
                    values[name] = self._read(field, raw, path)
        return values

    def tables(self, table: str, content: object, needed: Iterable[str] = ()) -> list[dict[str, Any]]:
        """Values of each table of a list; one that lacks a field that is needed is a mistake."""
        if not isinstance(content, list) or not all(isinstance(entry, dict) for entry in content):
            self.mistake((table,), f"{table} is a list of tables.", f"Write [[{table}]] with two brackets on each side.")
            return []
        for number, entry in enumerate(content):
            missing = [name for name in needed if name not in entry]
            if missing:
                message = f"[[{table}]] has no {' and no '.join(missing)}."
                self.mistake((table, number), message, "Add it.", field=f"{table}.{missing[0]}")
        return [self.table(table, entry, (table, number)) for number, entry in enumerate(content)]

    @contextmanager
    def at(self, where: Path, hint: str | None = None) -> Iterator[None]:
        """Collect what goes wrong inside, with a line; after a mistake, the rest inside is left undone."""
        try:
            yield
        except InputError as reason:
            self.wrong.append(placed(reason, self.file.path, self.file.lines.line(where), hint))

    @contextmanager
    def rule(self, table: str) -> Iterator[None]:
        """Collect what breaks a rule between fields, with the line of the field that it names, else of a table."""
        try:
            yield
        except InputError as reason:
            named = tuple((reason.field or "").split("."))
            with self.at(named if named[0] in self.file.document else (table,)):
                raise

    def mistake(self, where: Path, message: str, hint: str, *, field: str = "", value: object = None) -> None:
        """Collect what is wrong somewhere."""
        named = field or ".".join(str(one) for one in where if isinstance(one, str))
        with self.at(where):
            raise InputError(message, field=named, value=value, hint=hint)

    def refuse(self) -> None:
        """Raise the first mistake in the order of the file, if there is any; it says on which lines there are more."""
        if self.wrong:
            raise first_of(self.wrong)


def first_of(wrong: Iterable[InputError], *, more_at: str = "") -> InputError:
    """The first of several mistakes in the order of their lines, with how many more there are, and where."""
    first, *more = sorted(wrong, key=lambda mistake: mistake.line or 0)
    if not more:
        return first
    lines = [str(line) for line in dict.fromkeys(mistake.line for mistake in more) if line is not None]
    shown = ", ".join(lines[:_LINES_SHOWN]) + (" and more" if len(lines) > _LINES_SHOWN else "")
    where = more_at or f"line{'s' if len(lines) > 1 else ''} {shown}"
    count = "There is one more mistake" if len(more) == 1 else f"There are {len(more)} more mistakes"
    return placed(first, first.file, first.line, hint=f"{first.hint or ''} {count}: {where}.".strip())
