"""From a case to the PDF of its sheet."""

from __future__ import annotations

from stripdown.reports.content import Sheet
from stripdown.reports.press import PageHead, press
from stripdown.reports.sheet import sheet_of
from stripdown.studies.service_case import CaseStudy
from stripdown.units import Scale


def build_sheet(study: CaseStudy, *, scale: Scale = "metric") -> bytes:
    """Print the sheet of a case for the gun's owner."""
    return print_sheet(sheet_of(study, scale=scale))


def print_sheet(sheet: Sheet) -> bytes:
    """Lay out what a sheet says."""
    head = PageHead(
        title=sheet.running_title,
        invented=sheet.invented_words if sheet.is_invented else "",
        program=sheet.rests_on.program,
        digest=sheet.rests_on.input_digest,
    )
    return press("sheet.typ", sheet, head=head)
