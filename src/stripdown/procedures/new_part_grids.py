"""Tables of limits that standards set for new parts: to accept what one buys, not to judge what has run."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from stripdown.errors import OutsideValidity
from stripdown.procedures.documents import optional_provenance
from stripdown.references.provenance import Provenance
from stripdown.tables.table import PROVENANCE, Table


@dataclass(frozen=True, slots=True, kw_only=True)
class GridRow:
    """Limits for one range of sizes."""

    above: float
    up_to: float
    limits: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPartGrid:
    """A table of a standard for new parts."""

    key: str
    name: str
    note: str
    size: str
    size_unit: str
    unit: str
    columns: tuple[str, ...]
    rows: tuple[GridRow, ...]
    provenance: Provenance

    def row(self, size: float) -> GridRow:
        """The row for a size."""
        for row in self.rows:
            if row.above < size <= row.up_to:
                return row
        low, high = self.rows[0].above, self.rows[-1].up_to
        raise OutsideValidity(
            f"{self.name}: a {self.size} of {size:g} {self.size_unit} is in no row; they go from above {low:g} to {high:g}.",
            model=self.name,
            quantity=self.size,
            value=size,
            limits=(low, high),
            reference=self.provenance.source,
        )


def read_grid(table: Table) -> NewPartGrid:
    """Read a table for new parts."""
    table.only("name", "note", "size", "size_unit", "unit", "columns", "row", *PROVENANCE)
    provenance = optional_provenance(table)
    if provenance is None or provenance.source is None:
        raise table.wrong("source", None, "is missing: a grid for new parts is somebody's.")
    columns = table.texts("columns")
    rows = tuple(_row(one, len(columns)) for one in table.tables("row"))
    if not rows or any(first.up_to > then.above for first, then in itertools.pairwise(rows)):
        raise table.wrong("row", None, "must stand in the order of size, without overlap, at least once.")
    return NewPartGrid(
        key=table.key,
        name=table.text("name"),
        note=table.text("note"),
        size=table.text("size"),
        size_unit=table.text("size_unit"),
        unit=table.text("unit"),
        columns=columns,
        rows=rows,
        provenance=provenance,
    )


def _row(table: Table, width: int) -> GridRow:
    table.only("above", "up_to", "limits")
    limits = table.fields.get("limits")
    if not isinstance(limits, list) or len(limits) != width or not all(isinstance(one, int | float) for one in limits):
        raise table.wrong("limits", limits, f"must be a list of {width} numbers, one per column.")
    row = GridRow(
        above=table.amount("above"),
        up_to=table.amount("up_to"),
        limits=tuple(float(one) for one in limits),
    )
    if row.up_to <= row.above:
        raise table.wrong("up_to", row.up_to, f"must lie beyond {row.above:g}.")
    return row
