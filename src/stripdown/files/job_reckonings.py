"""What a job file holds for the calculators: its box's shim sheet, the witness mark on the rack, rings in their glands."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from typing import Any, Final

from stripdown.bench.shims import ShimSheet
from stripdown.core.part_condition.engagement import MODULE, PRESSURE_ANGLE, SECTOR_TEETH, WITNESS_HEIGHT, engagement_pad
from stripdown.core.part_condition.o_ring_gland import (
    GLAND_DEPTH,
    GLAND_INNER_DIAMETER,
    GLAND_WIDTH,
    TOLERANCE,
    o_ring_gland,
)
from stripdown.core.part_condition.o_ring_tolerance import CROSS_SECTION, INNER_DIAMETER
from stripdown.errors import InputError, OutOfRange, OutsideValidity
from stripdown.files.shim_sheet import shim_sheet_of
from stripdown.files.visit_tables import VisitTables
from stripdown.quantities import Q, check_value
from stripdown.tables.values import read_leaf
from stripdown.units import show_range

USUAL_PRESSURE_ANGLE: Final = math.radians(20.0)  # common practice, no source
USUAL_MODULE: Final = 1e-3  # m; common practice, no source
_PAD: Final[Mapping[str, Q]] = {
    "witness_height": WITNESS_HEIGHT,
    "pressure_angle": PRESSURE_ANGLE,
    "module": MODULE,
    "sector_teeth": SECTOR_TEETH,
}
_GLAND: Final[Mapping[str, Q]] = {
    "cross_section": CROSS_SECTION,
    "gland_depth": GLAND_DEPTH,
    "gland_width": GLAND_WIDTH,
    "inner_diameter": INNER_DIAMETER,
    "gland_inner_diameter": GLAND_INNER_DIAMETER,
    "tolerance": TOLERANCE,
}
_NEEDED: Final = {"pad": ("witness_height",), "gland": ("name", "cross_section", "gland_depth", "gland_width")}
_EXAMPLES: Final = {
    "name": "cylinder head",
    "witness_height": "0.3 mm",
    "cross_section": "1.78 mm",
    "gland_depth": "1.42 mm",
    "gland_width": "2.4 mm",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class WitnessMark:
    """The mark that the first sector tooth left on the rack."""

    witness_height: float
    pressure_angle: float
    module: float
    sector_teeth: float | None
    is_edge_contact: bool
    assumed: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RingInGland:
    """A ring that does not move, and the room that it has."""

    name: str
    cross_section: float
    gland_depth: float
    gland_width: float
    inner_diameter: float | None = None
    gland_inner_diameter: float | None = None
    tolerance: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ToReckon:
    """What the calculators are asked in one job."""

    shims: ShimSheet | None = None
    mark: WitnessMark | None = None
    rings: tuple[RingInGland, ...] = ()

    @property
    def notes(self) -> tuple[str, ...]:
        """What was assumed, one sentence each."""
        if self.mark is None or not self.mark.assumed:
            return ()
        return (f"For the pad, assumed as usual (common practice, no source): {' and '.join(self.mark.assumed)}.",)


def read_reckonings(tables: VisitTables) -> ToReckon:
    """Read what the calculators need, and refuse what cannot be true."""
    box = tables.beside("shims")
    return ToReckon(
        shims=None if box is None else shim_sheet_of(box),
        mark=_mark(tables) if tables.has("pad") else None,
        rings=tuple(_rings(tables)),
    )


def _mark(tables: VisitTables) -> WitnessMark:
    numbers = _numbers(tables, ("pad",), tables.pad(), _PAD)
    assumed = {"pressure_angle": "a pressure angle of 20°", "module": "a module of 1 mm"}
    mark = WitnessMark(
        witness_height=numbers["witness_height"],
        pressure_angle=numbers.get("pressure_angle", USUAL_PRESSURE_ANGLE),
        module=numbers.get("module", USUAL_MODULE),
        sector_teeth=numbers.get("sector_teeth"),
        is_edge_contact=tables.switch("pad", "edge"),
        assumed=tuple(words for field, words in assumed.items() if field not in numbers),
    )
    # An edge's mark is what was found at the bench, and no slip of the pen: the answer says so.
    with tables.at("pad"), suppress(OutsideValidity):
        engagement_pad(
            witness_height=mark.witness_height,
            pressure_angle=mark.pressure_angle,
            module=mark.module,
            sector_teeth=mark.sector_teeth,
        )
    return mark


def _rings(tables: VisitTables) -> Iterator[RingInGland]:
    for position, fields in enumerate(tables.glands()):
        where = ("gland", position)
        numbers = _numbers(tables, where, fields, _GLAND)
        name = fields["name"]
        if not isinstance(name, str) or not name.strip():
            raise tables.wrong((*where, "name"), "gland.name", "must be a text.", f'Write name = "{_EXAMPLES["name"]}".')
        with tables.at(*where):
            try:
                o_ring_gland(**numbers)
            except OutsideValidity as reason:
                raise InputError(reason.message, field="tolerance", hint='Write tolerance = "0.15 mm".') from None
        yield RingInGland(name=name.strip(), **numbers)


def _numbers(
    tables: VisitTables, where: tuple[str | int, ...], fields: Mapping[str, Any], quantities: Mapping[str, Q]
) -> dict[str, float]:
    """Every number that a table has, in SI."""
    table = str(where[0])
    for field in _NEEDED[table]:
        if field not in fields:
            raise tables.wrong(where, f"{table}.{field}", "is missing.", f'Write {field} = "{_EXAMPLES[field]}".')
    numbers = {}
    for field, quantity in quantities.items():
        if field in fields:
            with tables.at(*where, field):
                numbers[field] = _number(fields[field], quantity, f"{table}.{field}")
    return numbers


def _number(raw: object, quantity: Q, field: str) -> float:
    value = read_leaf(raw, float, quantity, field=field).value
    assert isinstance(value, float)  # noqa: S101  narrows: a leaf of float is one
    try:
        check_value(field, value, quantity)
    except OutOfRange as complaint:
        low, high = quantity.low, quantity.high
        complaint.message = f'{field} = "{raw}" ({quantity.label}) is impossible.'
        complaint.hint = "" if low is None or high is None else f"Possible is {show_range(low, high, quantity)}."
        raise
    return value
