"""The grid for new O-rings against its standard and against a second table of it in inches."""

from __future__ import annotations

import pytest

from stripdown.procedures.inspection import load_inspection
from stripdown.units import to_si
from tests.published import Published

_COLUMNS = {
    "offset": (0.08, 0.10, 0.13, 0.15, 0.15),
    "combined flash": (0.10, 0.12, 0.14, 0.16, 0.18),
    "backrind width": (0.18, 0.27, 0.36, 0.53, 0.70),
    "backrind depth": (0.08, 0.08, 0.10, 0.10, 0.13),
    "flow mark length": (1.50, 1.50, 6.50, 6.50, 6.50),
    "flow mark depth": (0.08, 0.08, 0.08, 0.08, 0.08),
    "non-fill width": (0.60, 0.80, 1.00, 1.30, 1.70),
    "non-fill depth": (0.08, 0.08, 0.10, 0.10, 0.13),
}
_SECTIONS = (1.78, 2.62, 3.53, 5.33, 6.99)  # mm: the usual sections, one in each row


@pytest.mark.source("iso_3601_3", "table 1, grade N", rtol=1e-12, because="the table is copied, not computed")
def test_iso_3601_3_table_1_grade_n(published: Published) -> None:
    """A ring of each usual section finds the limits of its row, column by column."""
    grid = load_inspection().grids["new_o_rings"]
    assert grid.columns == tuple(_COLUMNS)
    for position, section in enumerate(_SECTIONS):
        for column, limit in zip(grid.columns, grid.row(section).limits, strict=True):
            published(f"{column}, section {section} mm", found=limit, expected=_COLUMNS[column][position], unit="mm")


@pytest.mark.source(
    "o_ring_vendor_inches", "backrind, grade N, small sections", atol=0.003, because="printed to a ten-thousandth of an inch"
)
def test_o_ring_vendor_inches_backrind(published: Published) -> None:
    """Width and depth of the backrind of small rings, as a seller prints them in inches, are the grid's first row."""
    grid = load_inspection().grids["new_o_rings"]
    row = dict(zip(grid.columns, grid.row(1.78).limits, strict=True))
    for column, inches in (("backrind width", 0.0071), ("backrind depth", 0.0031)):
        published(column, found=row[column], expected=to_si(inches, "in") * 1e3, unit="mm")
