"""Remake the field tables of docs/gun-file.md from the declarations: ``python -m tests.documents.gun_file_tables PAGE``."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from pathlib import Path

from stripdown.catalogue.defaults import load_defaults
from stripdown.files.gun_fields import TABLES, Field
from stripdown.quantities import is_choice
from stripdown.units import show, show_range, unit_named

_BLOCK = re.compile(r"<!-- fields of (?P<table>[a-z_.]+) -->\n.*?<!-- end -->", re.DOTALL)
_NO_DEFAULT = "—"


def with_tables(page: str) -> str:
    """The page with every block of fields made anew."""
    return _BLOCK.sub(lambda block: f"<!-- fields of {block['table']} -->\n{_table(block['table'])}<!-- end -->", page)


def tables_in(page: str) -> list[str]:
    """Names of the tables that the page has a block for."""
    return [block["table"] for block in _BLOCK.finditer(page)]


def _table(name: str) -> str:
    rows = ["| field | written as | usual | assumed | what it is, where to measure it |", "|---|---|---|---|---|"]
    rows += [f"| {' | '.join(_cells(field))} |" for field in TABLES[name].values()]
    return "".join(f"{row}\n" for row in rows)


def _cells(field: Field) -> Iterator[str]:
    yield f"`{field.name}`"
    yield _written_as(field)
    usual = field.quantity.usual if field.quantity else None
    yield show_range(*usual, field.quantity) if usual and field.quantity and usual[0] != usual[1] else ""
    yield _assumed(field)
    yield field.explain


def _written_as(field: Field) -> str:
    if field.type is bool:
        return "`true` or `false`"
    if is_choice(field.type):
        return " or ".join(f'`"{name.lower()}"`' for name in field.type.__members__)  # type: ignore[attr-defined]
    if field.quantity is None:
        return "words"
    unit = unit_named(field.quantity.workshop_unit)
    return unit.shown if unit.name else ("whole number" if field.type is int else "number")


def _assumed(field: Field) -> str:
    if field.table == "cylinder.port":
        return "1" if field.name == "count" else _NO_DEFAULT
    default = load_defaults().get(field.path)
    if default is None:
        return _NO_DEFAULT
    if field.quantity is not None and isinstance(default.value, float):
        return show(default.value, field.quantity)
    return f"`{str(default.value).lower()}`" if isinstance(default.value, bool) else f'`"{default.text}"`'


if __name__ == "__main__":
    path = Path(sys.argv[1])
    path.write_text(with_tables(path.read_text(encoding="utf-8")), encoding="utf-8")
