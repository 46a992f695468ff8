"""Walks the tables of a case's file and collects values and complaints."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any, Final

from stripdown.errors import InputError, OutOfRange
from stripdown.files.case_fields import TABLES, CaseField, Kind
from stripdown.files.readings_values import speed_unit
from stripdown.quantities import Q, check_value
from stripdown.tables.nearest import nearest_name
from stripdown.tables.toml_file import TomlFile, placed
from stripdown.tables.toml_lines import Path
from stripdown.tables.values import read_leaf
from stripdown.units import show_range

_LIST: Final = "set_aside"
_NUMBERS: Final = re.compile(r"(?<=[A-Za-z])\s*[,;]\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseValue:
    """One value as the case's file gives it."""

    value: Any
    line: int | None


class CaseReader:
    """Walks the tables of one file."""

    def __init__(self, file: TomlFile) -> None:
        self._file = file
        self.written: dict[str, CaseValue] = {}
        self.set_aside: list[dict[str, CaseValue]] = []
        self.wrong: list[InputError] = []

    @property
    def path(self) -> str:
        """The file, as it was asked for."""
        return self._file.path

    def read(self) -> None:
        """Walk all tables."""
        for name, content in self._file.document.items():
            if name not in TABLES:
                self._stranger(name, content)
            elif name == _LIST:
                self._list(content)
            elif not isinstance(content, dict):
                self._complain((name,), name, f"{name} is a table, not a value.", f"Write [{name}] on a line of its own.")
            else:
                self.written |= self._table(name, content, (name,))

    def value(self, path: str, otherwise: Any = None) -> Any:
        """What a field says."""
        found = self.written.get(path)
        return otherwise if found is None else found.value

    def complain(self, complaint: InputError, path: str) -> None:
        """Give a complaint the line of a field, or of its table."""
        found = self.written.get(path)
        line = found.line if found is not None else self._file.lines.line(tuple(path.split(".")))
        self.wrong.append(placed(complaint, self._file.path, line))

    def _table(self, table: str, content: Mapping[str, Any], where: Path) -> dict[str, CaseValue]:
        values = {}
        for name, raw in content.items():
            here, path = (*where, name), f"{table}.{name}"
            field = TABLES[table].get(name)
            if field is None:
                self._complain(here, path, f"[{table}] has no field {name}.", nearest_name(name, TABLES[table]))
                continue
            line = self._file.lines.line(here)
            try:
                values[path] = CaseValue(value=_read(field, raw, path), line=line)
            except InputError as complaint:
                self.wrong.append(placed(complaint, self._file.path, line))
        return values

    def _list(self, content: object) -> None:
        if not isinstance(content, list) or not all(isinstance(entry, dict) for entry in content):
            self._complain((_LIST,), _LIST, f"{_LIST} is a list of tables.", f"Write [[{_LIST}]] with two brackets on each side.")
            return
        for number, entry in enumerate(content):
            values = self._table(_LIST, entry, (_LIST, number))
            for name in ("line", "reason"):
                if name not in entry:
                    self._complain((_LIST, number), f"{_LIST}.{name}", f"a reading is set aside without its {name}.", "Add it.")
            if f"{_LIST}.line" in values and f"{_LIST}.reason" in values:
                self.set_aside.append(values)

    def _stranger(self, name: str, content: object) -> None:
        homes = [table for table, fields in TABLES.items() if name in fields]
        if not isinstance(content, dict | list) and homes:
            self._complain((name,), name, f"{name} stands above all tables.", f"Move it under [{homes[0]}].")
            return
        kind = f"[{name}] is no table" if isinstance(content, dict | list) else f"{name} is no field"
        self._complain((name,), name, f"{kind} of a case's file.", nearest_name(name, TABLES))

    def _complain(self, where: Path, field: str, message: str, hint: str) -> None:
        line = self._file.lines.line(where)
        self.wrong.append(InputError(message, field=field, hint=hint, file=self._file.path, line=line))


def _read(field: CaseField, raw: object, path: str) -> Any:
    """One value, or one complaint without a place."""
    match field.kind:
        case Kind.WORDS | Kind.FILE | Kind.TYPED:
            return _words(raw, path)
        case Kind.PARAGRAPHS:
            return tuple(paragraph for text in _texts(raw, path) for paragraph in _paragraphs(text))
        case Kind.FILES:
            return tuple(_words(text, path) for text in _texts(raw, path))
        case Kind.NUMBERS:
            typed = [part for text in _texts(raw, path) for part in _NUMBERS.split(text.strip())]
            return tuple(_number(text, field.quantity, path) for text in typed)
        case Kind.NUMBER:
            return _number(raw, field.quantity, path)
        case Kind.SWITCH:
            return read_leaf(raw, bool, None, field=path).value
        case Kind.CHOICE:
            return read_leaf(raw, field.choices or bool, None, field=path).value
        case Kind.SPEED_UNIT:
            return _speed_unit(_words(raw, path), path)
        case Kind.LINE:
            return _line(raw, path)


def _words(raw: object, path: str) -> str:
    if not isinstance(raw, str) or not raw.strip():
        raise InputError(f"{path} = {raw!r} is not a text.", field=path, value=raw, hint="Write words in quotes.")
    stray = next((sign for sign in raw if unicodedata.category(sign) == "Cc" and sign not in "\n\t"), None)
    if stray is not None:
        raise InputError(
            f"{path} holds a control character (U+{ord(stray):04X}).", field=path, value=raw, hint="Write plain text."
        )
    return raw


def _texts(raw: object, path: str) -> list[str]:
    entries = raw if isinstance(raw, list) else [raw]
    return [_words(entry, path) for entry in entries]


def _paragraphs(text: str) -> list[str]:
    """Blank lines part paragraphs; a line break inside one is only a place where the line was full."""
    return [" ".join(part.split()) for part in re.split(r"\n\s*\n", text) if part.strip()]


def _number(raw: object, quantity: Q | None, path: str) -> float:
    assert quantity is not None  # noqa: S101  narrows: every number declares a quantity
    typed = read_leaf(raw, float, quantity, field=path)
    value = float(typed.value)  # type: ignore[arg-type]
    try:
        check_value(path, value, quantity)
    except OutOfRange as reason:
        low, high = quantity.low, quantity.high
        possible = reason.hint if low is None or high is None else f"It must lie between {show_range(low, high, quantity)}."
        raise OutOfRange(
            f'{path} = "{typed.text}" ({quantity.label}) is impossible.',
            field=path,
            value=value,
            unit=quantity.unit,
            limits=(low, high),
            hint=(possible or "").replace(" to ", " and "),
        ) from reason
    return value


def _speed_unit(text: str, path: str) -> str:
    unit = speed_unit(text)
    if unit is None:
        raise InputError(f'{path} = "{text}" is no unit of speed.', field=path, value=text, hint="Use m/s, ft/s, km/h or mph.")
    return unit


def _line(raw: object, path: str) -> int:
    if isinstance(raw, int) and not isinstance(raw, bool) and raw > 0:
        return raw
    raise InputError(f"{path} = {raw!r} is no line number.", field=path, value=raw, hint="Count lines from 1.")


def existing(folder: FilePath, name: str) -> FilePath | None:
    """A file of the folder, if there is one of that name."""
    path = folder / name
    try:
        return path if path.is_file() else None
    except (OSError, ValueError):  # ValueError: a null character in the name
        return None
