"""The pictures of sheets: the same charts as on the screen, in their size for paper; whoever draws none does not import this."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from stripdown.charts import themes
from stripdown.charts.pictures import Look, pictures_of
from stripdown.charts.render import AnyChart, to_spec, to_svg
from stripdown.charts.standing_graph import plan_graph
from stripdown.charts.themes import PAPER, Theme
from stripdown.errors import RenderError
from stripdown.studies.service_case import CaseStudy
from stripdown.studies.service_job import JobStudy
from stripdown.units import Scale
from stripdown.words.answer import Answer
from stripdown.words.calculators import keyed_answers

# A little lower than on a page of their own, so that all fits on the two sides of one sheet.
_SHEET = dataclasses.replace(PAPER, panel_height=78, row_height=14)
_LEAST_BALLS = 2  # fewer make no picture
_WHOLE: Final = dataclasses.replace(PAPER, width=490)  # points: nearly all between the margins
_HALF: Final = dataclasses.replace(PAPER, width=262, panel_height=110)  # half of a page: the words stand beside it
_TALLEST: Final = 640.0  # points: a page, less its heading and the foot of the sheet
_SIZE = re.compile(r'<svg[^>]*\bwidth="([0-9.]+)"[^>]*\bheight="([0-9.]+)"')


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One chart, and its title for where it begins a page of its own."""

    svg: str
    width: float
    alternative: str
    title: str


def drawn(chart: AnyChart, *, theme: Theme, first_line: int = 0, tallest: float | None = None) -> Picture:
    """Draw a chart without its title, which the sheet says; the lines below it stay as the key to the marks."""
    size = theme.font_size
    title, key = chart.title["text"], chart.title["subtitle"][first_line:]
    chart.title = {"text": key, "fontSize": size, "fontWeight": 400, "color": themes.QUIET, "offset": size}
    chart.config = {**theme.config(), "padding": {"top": 2, "left": 0, "right": 0, "bottom": 0}}
    svg = to_svg(chart)
    found = _SIZE.search(svg)
    if found is None:
        message = f"The drawing does not say how large it is: {svg[:80]}"
        raise RenderError(message)
    width, height = float(found[1]), float(found[2])
    share = 1.0 if tallest is None else min(1.0, tallest / height)
    alternative = str(to_spec(chart)["description"])
    return Picture(svg=svg, width=round(width * share, 2), alternative=alternative, title=str(title))


def sheet_pictures(study: CaseStudy, answer: Answer, *, scale: Scale) -> dict[str, Picture]:
    """The pictures that there is room for: pairs of strings or the first string, and the limit."""
    charts = pictures_of(study, Look(theme=_SHEET, scale=scale))
    wanted = _wanted(study, answer)
    # The first line below the title of the limit's picture says which limit, as the lines above its table do.
    return {key: drawn(charts[key], theme=_SHEET, first_line=int(key == "limit")) for key in wanted if key in charts}


def _wanted(study: CaseStudy, answer: Answer) -> Iterator[str]:
    change = answer.part("change") or answer.part("strings")
    if change is not None:
        yield change.pictures[0]
    if study.verdict is not None and len(study.verdict.balls) >= _LEAST_BALLS:
        yield "limit"


def service_pictures(study: JobStudy) -> Iterator[tuple[str, Picture]]:
    """The pictures of a service sheet: how the checks stand before the plan, and what the calculators answered."""
    graph = plan_graph(study, theme=_WHOLE)
    if graph is not None:
        yield "plan", drawn(graph, theme=_WHOLE, tallest=_TALLEST)
    for key, one, said in keyed_answers(study.answered):
        if said.pictures:
            [chart] = pictures_of(one, Look(theme=_HALF)).values()
            yield key, drawn(chart, theme=_HALF)
