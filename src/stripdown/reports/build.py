"""From a case to the PDF of its sheet."""

from __future__ import annotations

from stripdown.reports.content import Sheet
from stripdown.reports.press import press
from stripdown.reports.sheet import sheet_of
from stripdown.studies.service_case import CaseStudy
from stripdown.units import Scale


def build_sheet(study: CaseStudy, *, scale: Scale = "metric") -> bytes:
    """Print the sheet of a case for the gun's owner.

    Parameters
    ----------
    study
        The case.
    scale
        ``"metric"`` or ``"imperial"``.

    Returns
    -------
    bytes
        A tagged PDF, A4; the same case gives the same bytes.

    Raises
    ------
    RenderError
        If a picture or the sheet cannot be made; the engine's own words are kept.
    """
    return print_sheet(sheet_of(study, scale=scale))


def print_sheet(sheet: Sheet) -> bytes:
    """Lay out what a sheet says.

    Parameters
    ----------
    sheet
        What it says.

    Returns
    -------
    bytes
        A tagged PDF, A4; the same words give the same bytes.

    Raises
    ------
    RenderError
        If the sheet cannot be made; the engine's own words are kept.
    """
    return press("sheet.typ", sheet)
