"""From a case to the PDF of its sheet for the gun's owner."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import TYPE_CHECKING

from stripdown.charts.themes import PAPER
from stripdown.reports.press import PageHead, press, running_title
from stripdown.studies.service_case import CaseStudy
from stripdown.units import Scale
from stripdown.words.case import case_answer
from stripdown.words.gun import INVENTED

if TYPE_CHECKING:
    from stripdown.reports.drawn import Picture
    from stripdown.words.answer import Answer

# A little lower than on a page of their own, so that all fits on the two sides of one sheet.
_THEME = dataclasses.replace(PAPER, panel_height=78, row_height=14)
_LEAST_BALLS = 2  # fewer make no picture


def build_sheet(study: CaseStudy, *, scale: Scale = "metric") -> bytes:
    """Print the sheet of a case for the gun's owner.

    Parameters
    ----------
    study
        The case.
    scale
        In which speeds are written.

    Returns
    -------
    bytes
        A PDF, the same for the same case.

    Raises
    ------
    RenderError
        If a chart or the page cannot be drawn.
    """
    answer = case_answer(study, scale=scale)
    head = PageHead(
        title=running_title(study.title, study.gun.name),
        invented=INVENTED.full if INVENTED in answer.lead else "",
        program=f"stripdown {study.program_version}",
        digest=study.input_digest,
    )
    return press("sheet.typ", answer, head=head, pictures=sheet_pictures(study, answer, scale=scale))


def sheet_pictures(study: CaseStudy, answer: Answer, *, scale: Scale) -> dict[str, Picture]:
    """The pictures that there is room for: pairs of strings or the first string, and the limit."""
    # Whoever imports the Python interface does not pay for the chart library, which takes half a second.
    from stripdown.charts.pictures import Look, pictures_of  # noqa: PLC0415
    from stripdown.reports.drawn import drawn  # noqa: PLC0415

    charts = pictures_of(study, Look(theme=_THEME, scale=scale))
    wanted = _wanted(study, answer)
    # The first line below the title of the limit's picture says which limit, as the lines above its table do.
    return {key: drawn(charts[key], theme=_THEME, first_line=int(key == "limit")) for key in wanted if key in charts}


def _wanted(study: CaseStudy, answer: Answer) -> Iterator[str]:
    change = answer.part("change") or answer.part("strings")
    if change is not None:
        yield change.pictures[0]
    if study.verdict is not None and len(study.verdict.balls) >= _LEAST_BALLS:
        yield "limit"
