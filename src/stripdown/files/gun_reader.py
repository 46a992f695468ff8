"""Walks the tables of a gun's file and collects values, complaints and doubts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from stripdown.bench.gun import Written
from stripdown.bench.gun_rules import Doubt
from stripdown.catalogue.springs import load_springs
from stripdown.catalogue.wires import load_wires
from stripdown.errors import InputError, OutOfRange
from stripdown.files.gun_fields import PORTS, TABLES, Field
from stripdown.quantities import Q, check_value, is_usual
from stripdown.tables.nearest import nearest_name
from stripdown.tables.toml_file import TomlFile, placed
from stripdown.tables.toml_lines import Path
from stripdown.tables.values import read_leaf
from stripdown.units import show, show_range


@dataclass(frozen=True, slots=True, kw_only=True)
class DoubtInFile(Doubt):
    """A doubt with its line."""

    line: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reworded:
    """One value that was read with a decimal comma."""

    line: int | None
    text: str
    understood: str


class GunReader:
    """Walks the tables of one file and collects values, complaints and doubts."""

    def __init__(self, file: TomlFile) -> None:
        self._file = file
        self.written: dict[str, Written] = {}
        self.wrong: list[InputError] = []
        self.lines: dict[str, int | None] = {}
        self.reworded: dict[str, Reworded] = {}
        self.doubtful: list[DoubtInFile] = []

    def read(self) -> None:
        """Walk all tables."""
        tables = [name for name in TABLES if "." not in name]
        for name, content in self._file.document.items():
            if name not in tables:
                self._complain_at((name,), name, content, *self._stranger(name, content, tables))
            elif not isinstance(content, dict):
                kind = "one table, not a list of tables" if isinstance(content, list) else "a table, not a value"
                self._complain_at((name,), name, None, f"{name} is {kind}.", f"Write [{name}] on a line of its own.")
            elif (name,) in self._file.lines.inline:
                self._inline((name,), name, content)
            else:
                self._table(name, content, (name,), name)

    def complain(self, complaint: InputError, path: str) -> None:
        """Give a complaint of a rule its file and line: of its field, or of another written field that it names."""
        named = [path, *(other for other in self.written if other in complaint.message)]
        line = next((self.lines[other] for other in named if other in self.lines), None)
        self.wrong.append(placed(complaint, self._file.path, line))

    def judge(self, path: str, value: float, text: str, because: str = "", written_at: str = "") -> None:
        """Hold one number against its declaration; `written_at` names the field to point at, if not its own."""
        field = _field_of(path)
        if field.quantity is None:
            return
        quantity, line = field.quantity, self.lines.get(written_at or path)
        try:
            check_value(path, value, quantity)
        except OutOfRange as complaint:
            message = f'{path} = "{text}" ({quantity.label}) is impossible.{because}'
            self.wrong.append(
                OutOfRange(
                    message,
                    field=path,
                    value=value,
                    unit=quantity.unit,
                    limits=complaint.limits,
                    hint=_limits(quantity),
                    file=self._file.path,
                    line=line,
                )
            )
        else:
            if not is_usual(value, quantity) and quantity.usual:
                message = f'{path} = "{text}" ({quantity.label}): usual is {show_range(*quantity.usual, quantity)}.{because}'
                self.doubtful.append(DoubtInFile(path=path, message=message, line=line))

    def _table(self, table: str, content: Mapping[str, Any], where: Path, shown: str) -> None:
        fields = TABLES[table]
        for name, raw in content.items():
            here = (*where, name)
            if table == "cylinder" and name == "port":
                self._ports(raw, here)
            elif name not in fields:
                message, hint = f"[{shown}] has no field {name}.", nearest_name(name, fields)
                self._complain_at(here, f"{shown}.{name}", raw, message, hint)
            elif isinstance(raw, dict):
                message = f"{shown}.{name} is a value, not a table."
                self._complain_at(here, f"{shown}.{name}", None, message, f"Write {name} = … under [{table}].")
            else:
                self._value(fields[name], raw, here, f"{shown}.{name}")

    def _ports(self, raw: object, where: Path) -> None:
        if where in self._file.lines.inline or (isinstance(raw, list) and not all(isinstance(port, dict) for port in raw)):
            self._inline(where, "cylinder.port", raw)
        elif not isinstance(raw, list):
            message = "cylinder.port is a list of tables, one for each ring of slots."
            self._complain_at(where, "cylinder.port", None, message, "Write [[cylinder.port]] with two brackets on each side.")
        elif len(raw) > PORTS:
            message = f"{len(raw)} tables [[cylinder.port]] are more than the {PORTS} rings of slots that a cylinder may have."
            self._complain_at(
                (*where, PORTS), "cylinder.port", None, message, "Slots side by side at one place count as one ring: use count."
            )
        else:
            for number, port in enumerate(raw):
                self._table("cylinder.port", port, (*where, number), f"cylinder.port_{number + 1}")
                for name in ("start", "length", "width"):
                    if name not in port:
                        message = f"cylinder.port_{number + 1} has no {name}."
                        hint = f"Measure it: {TABLES['cylinder.port'][name].explain}"
                        self._complain_at((*where, number), f"cylinder.port_{number + 1}.{name}", None, message, hint)
        if self._file.document["cylinder"].get("ported") is False:
            message = "cylinder.ported = false, but there is a [[cylinder.port]]."
            self._complain_at(("cylinder", "ported"), "cylinder.ported", None, message, "Keep one of the two.")

    def _value(self, field: Field, raw: object, where: Path, path: str) -> None:
        line = self._file.lines.line(where)
        try:
            if field.type is str:
                self.written[path] = Written(value=_words(field, raw), text=str(raw))
                self.lines[path] = line
                return
            typed = read_leaf(raw, field.type, field.quantity, field=path)
        except InputError as complaint:
            self.wrong.append(placed(complaint, self._file.path, line))
            return
        text = raw if isinstance(raw, str) else typed.text
        self.written[path], self.lines[path] = Written(value=typed.value, text=text), line
        if typed.reworded:
            self.reworded[path] = Reworded(line=line, text=text, understood=typed.text)
        if path == "cylinder.ported" and raw is True and "port" not in self._file.document["cylinder"]:
            self._complain_at(
                where, path, raw, "cylinder.ported = true, but no port is given.", "Measure it and add a [[cylinder.port]]."
            )
        if isinstance(typed.value, int | float) and field.quantity is not None:
            self.judge(path, typed.value, text)

    def _stranger(self, name: str, content: object, tables: list[str]) -> tuple[str, str]:
        homes = [table for table, fields in TABLES.items() if name in fields]
        if not isinstance(content, dict | list) and homes:
            return f"{name} stands above all tables.", f"Move it under [{homes[0]}]."
        kind = f"[{name}] is no table" if isinstance(content, dict | list) else f"{name} is no field"
        return f"{kind} of a gun's file.", nearest_name(name, tables)

    def _inline(self, where: Path, shown: str, raw: object) -> None:
        header = f"[[{shown}]]" if isinstance(raw, list) or shown == "cylinder.port" else f"[{shown}]"
        hint = f"Write {header} on a line of its own and each field on a line below it."
        self._complain_at(where, shown, None, f"{shown} is written in one line, in braces.", hint)

    def _complain_at(self, where: Path, field: str, value: object, message: str, hint: str) -> None:
        line = self._file.lines.line(where)
        self.wrong.append(InputError(message, field=field, value=value, hint=hint, file=self._file.path, line=line))


def _field_of(path: str) -> Field:
    table, _, name = path.rpartition(".")
    return TABLES["cylinder.port" if table.startswith("cylinder.port_") else table][name]


def _words(field: Field, raw: object) -> str:
    if not isinstance(raw, str) or not raw.strip():
        raise InputError(f"{field.path} = {raw!r} is not a text.", field=field.path, value=raw, hint="Write words in quotes.")
    choices = {"spring.label": [spring.label for spring in load_springs().values()], "spring.wire_material": list(load_wires())}
    known = choices.get(field.path)
    if known is not None and raw.lower() not in [name.lower() for name in known]:
        hint = f"Known are {', '.join(known)}."
        raise InputError(f'{field.path} = "{raw}" is not in the catalogue.', field=field.path, value=raw, hint=hint)
    return raw if known is None else next(name for name in known if name.lower() == raw.lower())


def _limits(quantity: Q) -> str:
    low, high = quantity.low, quantity.high
    if low is not None and high is not None:
        possible = f"between {show_range(low, high, quantity).replace(' to ', ' and ')}"
    else:
        possible = f"at least {show(low, quantity)}" if low is not None else f"at most {show(high or 0.0, quantity)}"
    usual = f"; usual is {show_range(*quantity.usual, quantity)}" if quantity.usual else ""
    return f"It must lie {possible}{usual}."
