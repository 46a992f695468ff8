"""Remake the field tables of docs/visit-folder.md from the declarations: ``python -m tests.documents.visit_file_tables PAGE``."""

from __future__ import annotations

import re
import sys
from pathlib import Path

from stripdown.files.visit_fields import TABLES, Kind, VisitField
from stripdown.units import show_range, unit_named

_BLOCK = re.compile(r"<!-- fields of (?P<table>[a-z_]+) -->\n.*?<!-- end -->", re.DOTALL)


def with_tables(page: str) -> str:
    """The page with every block of fields made anew."""
    return _BLOCK.sub(lambda block: f"<!-- fields of {block['table']} -->\n{_table(block['table'])}<!-- end -->", page)


def tables_in(page: str) -> list[str]:
    """Names of the tables that the page has a block for."""
    return [block["table"] for block in _BLOCK.finditer(page)]


def _table(name: str) -> str:
    rows = ["| field | written as | usual | what it is |", "|---|---|---|---|"]
    rows += [f"| `{field.name}` | {_written_as(field)} | {_usual(field)} | {field.explain} |" for field in TABLES[name].values()]
    return "".join(f"{row}\n" for row in rows)


def _written_as(field: VisitField) -> str:
    if field.choices is not None:
        return " or ".join(f'`"{name.lower()}"`' for name in field.choices.__members__)
    if field.quantity is None:
        return field.kind.value
    unit = unit_named(field.quantity.workshop_unit)
    shown = unit.shown or "number"
    return f"list, {shown} each" if field.kind is Kind.NUMBERS else shown


def _usual(field: VisitField) -> str:
    quantity = field.quantity
    return "" if quantity is None or quantity.usual is None else show_range(*quantity.usual, quantity)


if __name__ == "__main__":
    path = Path(sys.argv[1])
    path.write_text(with_tables(path.read_text(encoding="utf-8")), encoding="utf-8")
