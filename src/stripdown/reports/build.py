"""From what a sheet says to a PDF: the template lays out, reads only JSON, and reaches nothing outside."""

from __future__ import annotations

import dataclasses
import enum
import functools
import json
from importlib import resources
from typing import Any

import typst

from stripdown.errors import RenderError
from stripdown.reports.content import Sheet
from stripdown.reports.letters import missing_words, shown
from stripdown.reports.sheet import sheet_of
from stripdown.studies.service_case import CaseStudy
from stripdown.units import Scale

_TEMPLATE = "sheet.typ"


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
    template = (resources.files("stripdown.reports") / "templates" / _TEMPLATE).read_bytes()
    missing: set[str] = set()
    words = json.dumps(_plain(sheet, missing), ensure_ascii=False)
    try:
        # From memory, without a folder: the template is given its data and reads nothing of this machine.
        return typst.compile(
            template,
            font_paths=_fonts(),
            ignore_system_fonts=True,
            format="pdf",
            sys_inputs={"sheet": words, "missing": missing_words(missing)},
        )
    except (RuntimeError, ValueError) as failure:
        message = f"The sheet could not be printed: {failure}"
        raise RenderError(message) from failure


@functools.cache
def _fonts() -> typst.Fonts:
    """The one font of charts and sheets, and no other: neither the engine's own nor this machine's."""
    folder = str(resources.files("stripdown.charts") / "fonts")
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder])


def _plain(value: Any, missing: set[str]) -> Any:
    """The records as dictionaries and lists; characters that cannot be shown are replaced and gathered."""
    if dataclasses.is_dataclass(value):
        return {field.name: _plain(getattr(value, field.name), missing) for field in dataclasses.fields(value)}
    if isinstance(value, tuple):
        return [_plain(item, missing) for item in value]
    if isinstance(value, enum.Enum):
        return value.value
    if isinstance(value, str):
        text, lacking = shown(value)
        missing.update(lacking)
        return text
    return value
