"""From a case to the PDF of its sheet."""

from __future__ import annotations

from stripdown.reports.content import Sheet
from stripdown.reports.press import press
from stripdown.reports.sheet import sheet_of
from stripdown.studies.service_case import CaseStudy
from stripdown.units import Scale


def build_sheet(study: CaseStudy, *, scale: Scale = "metric") -> bytes:
    """Print the sheet of a case for the gun's owner."""
    return print_sheet(sheet_of(study, scale=scale))


def print_sheet(sheet: Sheet) -> bytes:
    """Lay out what a sheet says."""
    return press("sheet.typ", sheet)
