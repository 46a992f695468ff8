"""What a job file holds for the calculators: a table, or a list, for each that declares one, and sheets beside the job."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from types import MappingProxyType
from typing import Any, Final

from stripdown.bench.calculators import CALCULATORS, Asked, Calculator
from stripdown.core.part_condition.engagement import engagement_pad
from stripdown.core.part_condition.o_ring_gland import o_ring_gland
from stripdown.core.part_condition.parameters import RingInGland, WitnessMark
from stripdown.errors import InputError, OutsideValidity
from stripdown.files.shim_sheet import shim_sheet_of
from stripdown.files.visit_tables import VisitTables
from stripdown.quantities import own_fields
from stripdown.tables.values import read_checked

_EXAMPLES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "name": "cylinder head",
        "witness_height": "0.3 mm",
        "cross_section": "1.78 mm",
        "gland_depth": "1.42 mm",
        "gland_width": "2.4 mm",
    }
)


def asked_of_calculators(tables: VisitTables) -> tuple[Asked, ...]:
    """Read what the calculators need, and refuse what cannot be true."""
    return tuple(one for calculator in CALCULATORS.values() for one in _asked(tables, calculator))


def _asked(tables: VisitTables, calculator: Calculator) -> Iterator[Asked]:
    if calculator.sheet:
        file = tables.beside(calculator.sheet)
        if file is not None:
            box = shim_sheet_of(file)
            yield Asked(key=calculator.key, record=box, name=f"{box.name}{' (invented)' if box.invented else ''}")
    if not calculator.table:
        return
    for where, fields in tables.asked(calculator.table):
        name = _name(tables, where, fields) if calculator.is_list else ""
        given = dict(_given(tables, where, fields, calculator))
        record = calculator.record(**given)
        with tables.at(*where):
            if calculator.key in _RULES:
                _RULES[calculator.key](record)
        yield Asked(key=calculator.key, record=record, name=name, assumed=tuple(_assumed(calculator, given)))


def _name(tables: VisitTables, where: tuple[str | int, ...], fields: Mapping[str, Any]) -> str:
    table = str(where[0])
    hint = f'Write name = "{_EXAMPLES["name"]}".'
    if "name" not in fields:
        raise tables.wrong(where, f"{table}.name", "is missing.", hint)
    name = fields["name"]
    if not isinstance(name, str) or not name.strip():
        raise tables.wrong((*where, "name"), f"{table}.name", "must be a text.", hint)
    return name.strip()


def _given(
    tables: VisitTables, where: tuple[str | int, ...], fields: Mapping[str, Any], calculator: Calculator
) -> Iterator[tuple[str, object]]:
    """Every value that a table has, in SI, by its name in the record."""
    leaves = {leaf.path: leaf for leaf in own_fields(calculator.record)}
    for field, path in calculator.fields.items():
        named = f"{where[0]}.{field}"
        if field in fields:
            bare = leaves[path].type if leaves[path].type in {bool, int} else float  # it may be a number or nothing
            with tables.at(*where, field):
                yield path, read_checked(fields[field], bare, leaves[path].quantity, field=named)
        elif _default(calculator.record, path) is dataclasses.MISSING:
            example = f'Write {field} = "{_EXAMPLES[field]}".' if field in _EXAMPLES else ""
            raise tables.wrong(where, named, "is missing.", example)


def _assumed(calculator: Calculator, given: Mapping[str, object]) -> Iterator[str]:
    """Numbers of the record that have a usual value and were not written."""
    for path in calculator.fields.values():
        if path not in given and isinstance(_default(calculator.record, path), float):
            yield path


def _default(record: type, name: str) -> object:
    return next(one.default for one in dataclasses.fields(record) if one.name == name)


def _mark_rule(mark: WitnessMark) -> None:
    # An edge's mark is what was found at the bench, and no slip of the pen: the answer says so.
    with suppress(OutsideValidity):
        engagement_pad(
            witness_height=mark.witness_height,
            pressure_angle=mark.pressure_angle,
            module=mark.module,
            sector_teeth=mark.sector_teeth,
        )


def _ring_rule(ring: RingInGland) -> None:
    try:
        o_ring_gland(**dataclasses.asdict(ring))
    except OutsideValidity as reason:
        raise InputError(reason.message, field="tolerance", hint='Write tolerance = "0.15 mm".') from None


_RULES: Final[Mapping[str, Callable[[Any], None]]] = MappingProxyType({"pad": _mark_rule, "gland": _ring_rule})
"""What the fields of one table must be to each other."""
