"""A technician's file of one box: plays, heights and clearances of its gears, shims at hand, and where the old ones were."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Mapping
from typing import Any, Final

from stripdown.bench.shims import USUAL_MOST, ShimSheet, contradictions
from stripdown.core.shim_selection.old_shims import OldShim, ShimMap, shim_map
from stripdown.core.shim_selection.seats import (
    CLEARANCE,
    HEIGHT,
    HEIGHT_TOLERANCE,
    LEAST_CLEARANCE,
    GearClearance,
    GearSeat,
)
from stripdown.core.shim_selection.stacks import (
    FLOAT,
    GAP,
    GAP_UNCERTAINTY,
    THICKNESS,
    USUAL_FLOAT,
    GearFace,
    ShimmedGear,
)
from stripdown.core.shim_selection.tray import is_count
from stripdown.errors import InputError
from stripdown.quantities import Q
from stripdown.tables.reader import TableReader
from stripdown.tables.toml_file import TomlFile, read_toml
from stripdown.tables.values import Kind, read_value

_GEAR: Final[Mapping[str, Q]] = {
    "play": GAP,
    "uncertainty": GAP_UNCERTAINTY,
    "float_low": FLOAT,
    "float_high": FLOAT,
    "height": HEIGHT,
    "height_tolerance": HEIGHT_TOLERANCE,
}
_SHIM: Final[Mapping[str, Kind]] = {"label": str, "gear": ShimmedGear, "face": GearFace, "thickness": THICKNESS}
_TABLES: Final[Mapping[str, Mapping[str, Kind]]] = {
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


def load_shim_sheet(path: str | os.PathLike[str]) -> ShimSheet:
    """Read the file of one box.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    ShimSheet

    Raises
    ------
    InputError
        The first mistake, with file, line, field, value and what would be right; it says how many more there are.
    """
    return shim_sheet_of(read_toml(path))


def shim_sheet_of(file: TomlFile) -> ShimSheet:
    """Read one box from a file that was opened already."""
    reader = TableReader(file, _TABLES, lambda kind, raw, field: read_value(raw, kind, field=field), noun="the file of a box")
    document = dict(reader.known_tables([*_TABLES, "tray"]))
    tables = {name: reader.table(name, document.get(name, {}), (name,)) for name in _TABLES if name not in _LISTS}
    lists = {name: reader.tables(name, document.get(name, []), needed) for name, needed in _LISTS.items()}
    stock = _tray(reader, document.get("tray", {}))
    reader.refuse()
    maps: dict[str, ShimMap] = {}
    for name in ("old_shim", "fitted_shim"):
        with reader.rule(name):
            maps[name] = shim_map([OldShim(**shim) for shim in lists[name]])
    old = maps.get("old_shim", shim_map([]))
    sheet = ShimSheet(
        name=tables["box"].get("name", os.fspath(file.path)),
        invented=tables["box"].get("invented", False),
        seats=tuple(_seat(reader, gear, tables[gear.value], tables["float"]) for gear in ShimmedGear if gear.value in document),
        clearances=tuple(GearClearance(**{"uncertainty": 0.0} | clearance) for clearance in lists["clearance"]),
        stock=dict(Counter(stock) + Counter(old.stock())),
        old_shims=old,
        fitted_shims=maps.get("fitted_shim", shim_map([])),
        most=tables["box"].get("most", USUAL_MOST),
        origin=file.path,
    )
    for part, fault in contradictions(sheet):
        with reader.rule(part):
            raise fault
    reader.refuse()
    return sheet


def _seat(reader: TableReader[Kind], gear: ShimmedGear, table: dict[str, Any], band: dict[str, Any]) -> GearSeat:
    if "play" not in table:
        reader.mistake((gear.value,), f"[{gear.value}] has no play.", 'Write: play = "0.47 mm".', field=f"{gear.value}.play")
    low, high = band.get("low", USUAL_FLOAT[0]), band.get("high", USUAL_FLOAT[1])
    return GearSeat(
        gear=gear,
        gap=table.get("play", 0.0),
        gap_uncertainty=table.get("uncertainty", 0.0),
        float_band=(table.get("float_low", low), table.get("float_high", high)),
        height=table.get("height"),
        height_tolerance=table.get("height_tolerance"),
    )


def _tray(reader: TableReader[Kind], content: object) -> dict[float, int]:
    if not isinstance(content, dict):
        reader.mistake(("tray",), "tray is a table, not a value.", 'Write [tray], and below it "0.10 mm" = 6.')
        return {}
    stock: dict[float, int] = {}
    for typed, count in content.items():
        with reader.at(("tray", typed)):
            if not is_count(count):
                message = f'"{typed}" = {count!r} is no number of shims.'
                raise InputError(message, field="tray", value=count, hint='Write for example "0.10 mm" = 6.')
            thickness = read_value(typed, THICKNESS, field="tray")
            stock[thickness] = stock.get(thickness, 0) + count
    return stock
