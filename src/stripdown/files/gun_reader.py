"""Walks the tables of a gun's file and collects values, mistakes and doubts."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from stripdown.bench.gun import Written
from stripdown.bench.gun_rules import Doubt
from stripdown.catalogue.defaults import load_defaults
from stripdown.catalogue.guns import load_guns
from stripdown.catalogue.springs import load_springs
from stripdown.catalogue.wires import load_wires
from stripdown.errors import InputError, OutOfRange
from stripdown.files.gun_fields import PORTS, TABLES, Field
from stripdown.procedures.loading import load_procedures
from stripdown.quantities import is_usual
from stripdown.tables.reader import TableReader
from stripdown.tables.toml_file import TomlFile, placed
from stripdown.tables.toml_lines import Path
from stripdown.tables.values import check_typed, read_leaf, read_words
from stripdown.units import show_range, typed_unit

TYPICAL = "typical"
"""The word behind a figure that was taken over and not measured."""

_MARKED = re.compile(rf"(?P<figure>.*?)[\s,;(]+{TYPICAL}\)?\s*", re.IGNORECASE | re.DOTALL)
_SWITCHES = {"true": True, "false": False}


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


class GunReader(TableReader[Field]):
    """Walks the tables of one file and collects values, mistakes and doubts."""

    def __init__(self, file: TomlFile) -> None:
        super().__init__(file, TABLES, self._value, noun="a gun's file")
        self.written: dict[str, Written] = {}
        self.reworded: dict[str, Reworded] = {}
        self.doubtful: list[DoubtInFile] = []
        self.variation: dict[str, str] = {}

    def read(self) -> None:
        """Walk all tables."""
        for name, content in self.known_tables([*(name for name in TABLES if "." not in name), "variation"]):
            if (name,) in self.file.lines.inline:
                self._inline((name,), name, content)
            elif name == "variation" and isinstance(content, dict):
                self._variation(content)
            elif name == "cylinder" and isinstance(content, dict):
                self.table(name, {field: raw for field, raw in content.items() if field != "port"}, (name,))
                if "port" in content:
                    self._ports(content["port"], ("cylinder", "port"))
            else:
                self.table(name, content, (name,))

    def blame(self, fault: InputError, path: str) -> None:
        """Give what breaks a rule its file and line: of its field, or of another written field that it names."""
        named = [path, *(other for other in self.written if other in fault.message)]
        self.wrong.append(placed(fault, self.file.path, next((self.lines[one] for one in named if one in self.lines), None)))

    def judge(self, path: str, value: float, text: str, because: str = "", written_at: str = "") -> None:
        """Hold one number against its declaration; `written_at` names the field to point at, if not its own."""
        quantity, line = _field_of(path).quantity, self.lines.get(written_at or path)
        if quantity is None:
            return
        try:
            check_typed(value, text, quantity, field=path, because=because)
        except OutOfRange as fault:
            self.wrong.append(placed(fault, self.file.path, line))
        else:
            if not is_usual(value, quantity) and quantity.usual:
                usual = show_range(*quantity.usual, typed_unit(text, quantity))
                message = f'{path} = "{text}" ({quantity.label}): usual is {usual}.{because}'
                self.doubtful.append(DoubtInFile(path=path, message=message, line=line))

    def _variation(self, content: dict[str, Any]) -> None:
        for feature, choice in content.items():
            with self.at(("variation", feature)):
                load_procedures().variation({feature: read_words(choice, field=f"variation.{feature}")})
                self.variation[feature] = choice

    def _ports(self, raw: object, where: Path) -> None:
        if where in self.file.lines.inline or (isinstance(raw, list) and not all(isinstance(port, dict) for port in raw)):
            self._inline(where, "cylinder.port", raw)
        elif not isinstance(raw, list):
            message = "cylinder.port is a list of tables, one for each ring of slots."
            self.mistake(where, message, "Write [[cylinder.port]] with two brackets on each side.")
        elif len(raw) > PORTS:
            message = f"{len(raw)} tables [[cylinder.port]] are more than the {PORTS} rings of slots that a cylinder may have."
            self.mistake((*where, PORTS), message, "Slots side by side at one place count as one ring: use count.")
        else:
            for number, port in enumerate(raw):
                shown = f"cylinder.port_{number + 1}"
                self.table("cylinder.port", port, (*where, number), shown=shown)
                for name in ("start", "length", "width"):
                    if name not in port:
                        hint = f"Measure it: {TABLES['cylinder.port'][name].explain}"
                        self.mistake((*where, number), f"{shown} has no {name}.", hint, field=f"{shown}.{name}")
        if self.file.document["cylinder"].get("ported") is False:
            message = "cylinder.ported = false, but there is a [[cylinder.port]]."
            self.mistake(("cylinder", "ported"), message, "Keep one of the two.")

    def _value(self, field: Field, raw: object, path: str) -> None:
        if field.type is str:
            self.written[path] = Written(value=_words(field, raw), text=str(raw))
            return
        raw, is_typical = _without_mark(field, raw)
        typed = read_leaf(raw, field.type, field.quantity, field=path)
        text = raw if isinstance(raw, str) else typed.text
        self.written[path] = Written(value=typed.value, text=text, is_typical=is_typical)
        if is_typical and typed.value not in _typical_values(path):
            message = f'{path} = "{text}, {TYPICAL}" is the figure of no typical gun: if you measured it, take "{TYPICAL}" away.'
            self.doubtful.append(DoubtInFile(path=path, message=message, line=self.lines[path]))
        if typed.reworded:
            self.reworded[path] = Reworded(line=self.lines[path], text=text, understood=typed.text)
        if path == "cylinder.ported" and raw is True and "port" not in self.file.document["cylinder"]:
            message = "cylinder.ported = true, but no port is given."
            self.mistake(("cylinder", "ported"), message, "Measure it and add a [[cylinder.port]].", value=raw)
        if isinstance(typed.value, int | float) and field.quantity is not None:
            self.judge(path, typed.value, text)

    def _inline(self, where: Path, shown: str, raw: object) -> None:
        header = f"[[{shown}]]" if isinstance(raw, list) or shown == "cylinder.port" else f"[{shown}]"
        hint = f"Write {header} on a line of its own and each field on a line below it."
        self.mistake(where, f"{shown} is written in one line, in braces.", hint)


def _without_mark(field: Field, raw: object) -> tuple[object, bool]:
    """What is written, without the word that says that nobody measured it; and whether that was there."""
    if not isinstance(raw, str):
        return raw, False
    found = _MARKED.fullmatch(raw)
    figure = raw if found is None else found["figure"].strip()
    is_switch = field.type is bool and figure.strip().lower() in _SWITCHES
    return (_SWITCHES[figure.strip().lower()] if is_switch else figure), found is not None


def _typical_values(path: str) -> set[object]:
    """What typical guns have here."""
    return {load_defaults()[path].value, *(gun.differs[path].value for gun in load_guns().values() if path in gun.differs)}


def _field_of(path: str) -> Field:
    table, _, name = path.rpartition(".")
    return TABLES["cylinder.port" if table.startswith("cylinder.port_") else table][name]


def _words(field: Field, raw: object) -> str:
    words = read_words(raw, field=field.path, is_plain=False)
    choices = {"spring.label": [spring.name for spring in load_springs().values()], "spring.wire_material": list(load_wires())}
    known = {name.lower(): name for name in choices.get(field.path, ())}
    if known and words.lower() not in known:
        hint = f"Known are {', '.join(known.values())}."
        raise InputError(f'{field.path} = "{words}" is not in the catalogue.', field=field.path, value=raw, hint=hint)
    return known.get(words.lower(), words)
