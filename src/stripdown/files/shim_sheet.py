"""A technician's file of one box: plays, heights and clearances of its gears, shims at hand, and where the old ones were."""

from __future__ import annotations

import enum
import functools
import os
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Final, TypeVar

from stripdown.core.shim_selection.gear_train import (
    CLEARANCE,
    HEIGHT,
    HEIGHT_TOLERANCE,
    LEAST_CLEARANCE,
    GearClearance,
    GearSeat,
    check_train,
)
from stripdown.core.shim_selection.old_shims import OldShim, ShimMap, shim_map
from stripdown.core.shim_selection.play import Play, play_of
from stripdown.core.shim_selection.stacks import (
    FLOAT,
    GAP,
    GAP_UNCERTAINTY,
    THICKNESS,
    USUAL_FLOAT,
    GearFace,
    ShimmedGear,
)
from stripdown.core.shim_selection.tray import check_most, is_count, tray_of
from stripdown.errors import InputError, OutOfRange
from stripdown.files.gun_reader import placed
from stripdown.files.nearest_name import nearest_name
from stripdown.files.toml_file import TomlFile, read_toml
from stripdown.files.toml_lines import Path
from stripdown.quantities import Q, check_value
from stripdown.units import parse, show_range

_T = TypeVar("_T")
_USUAL_MOST: Final = 4
_GEAR: Final[Mapping[str, Q]] = {
    "play": GAP,
    "uncertainty": GAP_UNCERTAINTY,
    "float_low": FLOAT,
    "float_high": FLOAT,
    "height": HEIGHT,
    "height_tolerance": HEIGHT_TOLERANCE,
}
_SHIM: Final[Mapping[str, object]] = {"label": str, "gear": ShimmedGear, "face": GearFace, "thickness": THICKNESS}
_TABLES: Final[Mapping[str, Mapping[str, object]]] = {
    "box": {"name": str, "invented": bool, "most": int},
    "float": {"low": FLOAT, "high": FLOAT},
    **{gear.value: _GEAR for gear in ShimmedGear},
    "clearance": {
        "left": ShimmedGear,
        "right": ShimmedGear,
        "measured": CLEARANCE,
        "uncertainty": GAP_UNCERTAINTY,
        "least": LEAST_CLEARANCE,
    },
    "old_shim": _SHIM,
    "fitted_shim": _SHIM,
}
_LISTS: Final[Mapping[str, tuple[str, ...]]] = {
    "clearance": ("left", "right", "measured", "least"),
    "old_shim": ("label", "gear", "face"),
    "fitted_shim": ("label", "gear", "face"),
}
_KINDS: Final = {str: "a text in quotes", bool: "true or false", int: "a whole number"}


@dataclass(frozen=True, slots=True, kw_only=True)
class ShimSheet:
    """One box as its file describes it."""

    name: str
    invented: bool
    seats: tuple[GearSeat, ...]
    clearances: tuple[GearClearance, ...]
    stock: Mapping[float, int]
    old_shims: ShimMap
    fitted_shims: ShimMap
    most: int
    file: str


def load_shim_sheet(path: str | os.PathLike[str]) -> ShimSheet:
    """Read the file of one box."""
    return shim_sheet_of(read_toml(path))


def shim_sheet_of(file: TomlFile) -> ShimSheet:
    """Read one box from a file that was opened already."""
    reader = _Reader(file)
    sheet = reader.sheet()
    if sheet is not None:
        return sheet
    first, *more = sorted(reader.wrong, key=lambda complaint: complaint.line or 0)
    if not more:
        raise first
    count = "There is one more complaint." if len(more) == 1 else f"There are {len(more)} more complaints."
    raise placed(first, first.file, first.line, hint=f"{first.hint or ''} {count}".strip())


class _Reader:
    """Walks the tables of one file and collects complaints."""

    def __init__(self, file: TomlFile) -> None:
        self._file = file
        self.wrong: list[InputError] = []

    def sheet(self) -> ShimSheet | None:
        document = self._file.document
        for name in document:
            if name not in _TABLES and name != "tray":
                self._complain((name,), name, f"{name} is no table of such a file.", nearest_name(name, [*_TABLES, "tray"]))
        tables = {name: self._table(name, document.get(name, {}), (name,)) for name in _TABLES if name not in _LISTS}
        lists = {name: self._list(name, document.get(name, [])) for name in _LISTS}
        stock = self._tray(document.get("tray", {}))
        if self.wrong:
            return None
        old, fitted = (
            self._held(name, functools.partial(shim_map, [OldShim(**shim) for shim in lists[name]]))
            for name in ("old_shim", "fitted_shim")
        )
        seats = tuple(self._seat(gear, tables[gear.value], tables["float"]) for gear in ShimmedGear if gear.value in document)
        for seat in seats:
            self._held("float", functools.partial(_play, seat))
        clearances = tuple(GearClearance(**{"uncertainty": 0.0} | clearance) for clearance in lists["clearance"])
        self._held("clearance" if seats else "box", lambda: check_train(seats, clearances))
        most, at_hand = tables["box"].get("most", _USUAL_MOST), dict(Counter(stock) + Counter(old.stock() if old else {}))
        self._held("box", lambda: check_most(most))
        self._held("tray", lambda: tray_of(at_hand, most=1))
        if self.wrong or old is None or fitted is None:
            return None
        return ShimSheet(
            name=tables["box"].get("name", os.fspath(self._file.path)),
            invented=tables["box"].get("invented", False),
            seats=seats,
            clearances=clearances,
            stock=at_hand,
            old_shims=old,
            fitted_shims=fitted,
            most=most,
            file=self._file.path,
        )

    def _seat(self, gear: ShimmedGear, table: dict[str, Any], band: dict[str, Any]) -> GearSeat:
        if "play" not in table:
            self._complain((gear.value,), f"{gear.value}.play", f"[{gear.value}] has no play.", 'Write: play = "0.47 mm".')
        low, high = band.get("low", USUAL_FLOAT[0]), band.get("high", USUAL_FLOAT[1])
        return GearSeat(
            gear=gear,
            gap=table.get("play", 0.0),
            gap_uncertainty=table.get("uncertainty", 0.0),
            float_band=(table.get("float_low", low), table.get("float_high", high)),
            height=table.get("height"),
            height_tolerance=table.get("height_tolerance"),
        )

    def _tray(self, content: object) -> dict[float, int]:
        if not isinstance(content, dict):
            self._complain(("tray",), "tray", "tray is a table, not a value.", 'Write [tray], and below it "0.10 mm" = 6.')
            return {}
        stock: dict[float, int] = {}
        for typed, count in content.items():
            where = ("tray", typed)
            if not is_count(count):
                self._complain(where, "tray", f'"{typed}" = {count!r} is no number of shims.', 'Write for example "0.10 mm" = 6.')
                continue
            thickness = self._number(THICKNESS, typed, where, "tray")
            if thickness is not None:
                stock[thickness] = stock.get(thickness, 0) + count
        return stock

    def _list(self, name: str, content: object) -> list[dict[str, Any]]:
        if not isinstance(content, list) or not all(isinstance(entry, dict) for entry in content):
            self._complain((name,), name, f"{name} is a list of tables.", f"Write [[{name}]] with two brackets on each side.")
            return []
        entries = []
        for number, entry in enumerate(content):
            entries.append(self._table(name, entry, (name, number)))
            missing = [field for field in _LISTS[name] if field not in entry]
            if missing:
                self._complain(
                    (name, number), f"{name}.{missing[0]}", f"[[{name}]] has no {' and no '.join(missing)}.", "Add it."
                )
        return entries

    def _table(self, name: str, content: object, where: Path) -> dict[str, Any]:
        if not isinstance(content, dict):
            self._complain(where, name, f"{name} is a table, not a value.", f"Write [{name}] on a line of its own.")
            return {}
        values = {}
        for field, raw in content.items():
            kind = _TABLES[name].get(field)
            if kind is None:
                self._complain(
                    (*where, field), f"{name}.{field}", f"[{name}] has no field {field}.", nearest_name(field, _TABLES[name])
                )
                continue
            value = self._value(kind, raw, (*where, field), f"{name}.{field}")
            if value is not None:
                values[field] = value
        return values

    def _value(self, kind: object, raw: object, where: Path, field: str) -> Any:
        if isinstance(kind, Q):
            return self._number(kind, raw, where, field)
        if isinstance(kind, type) and issubclass(kind, enum.Enum):
            found = next((choice for choice in kind if str(raw).strip().lower() == choice.value), None)
            if found is None:
                self._complain(where, field, f"{field} = {raw!r} is none.", nearest_name(str(raw), [str(c.value) for c in kind]))
            return found
        if type(raw) is not kind:
            self._complain(where, field, f"{field} = {raw!r} is not understood.", f"Write {_KINDS[kind]}.")  # type: ignore[index]
            return None
        return raw

    def _number(self, quantity: Q, raw: object, where: Path, field: str) -> float | None:
        if not isinstance(raw, str):
            self._complain(where, field, f"{field} = {raw!r} has no unit.", 'Write it with its unit, in quotes: "0.47 mm".')
            return None
        try:
            value = parse(raw, quantity, field=field)
            check_value(field, value, quantity)
        except OutOfRange as complaint:
            low, high = quantity.low, quantity.high
            possible = "" if low is None or high is None else f"Possible is {show_range(low, high, quantity)}."
            complaint.message = f'{field} = "{raw}" is impossible.'
            self.wrong.append(placed(complaint, self._file.path, self._file.lines.line(where), hint=possible))
        except InputError as complaint:
            self.wrong.append(placed(complaint, self._file.path, self._file.lines.line(where)))
        else:
            return value
        return None

    def _held(self, table: str, rule: Callable[[], _T]) -> _T | None:
        """What a rule between fields makes; its complaint gets the line of its table."""
        try:
            return rule()
        except InputError as complaint:
            here = (complaint.field or "").partition(".")[0]
            where = (here,) if here in self._file.document else (table,)
            self.wrong.append(placed(complaint, self._file.path, self._file.lines.line(where)))
            return None

    def _complain(self, where: Path, field: str, message: str, hint: str) -> None:
        self.wrong.append(InputError(message, field=field, hint=hint, file=self._file.path, line=self._file.lines.line(where)))


def _play(seat: GearSeat) -> Play:
    try:
        return play_of(gap=seat.gap, gap_uncertainty=seat.gap_uncertainty, float_band=seat.float_band)
    except OutOfRange as complaint:
        if complaint.field == "gap":
            complaint.field = f"{seat.gear.value}.play"
        raise
