"""The service sheet that one takes to the bench: an answer on paper, with its pictures."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Final

from stripdown import __version__
from stripdown.charts.gland import gland_section
from stripdown.charts.render import AnyChart
from stripdown.charts.shim_stack import shim_stack
from stripdown.charts.standing_graph import plan_graph
from stripdown.charts.themes import PAPER
from stripdown.charts.witness_mark import witness_mark_and_pad
from stripdown.reports.drawn import Picture, drawn
from stripdown.reports.press import PageHead, press, running_title
from stripdown.studies.job_reckonings import Reckoned
from stripdown.studies.service_job import JobStudy
from stripdown.words.gun import INVENTED
from stripdown.words.plan import bench_sheet

_WHOLE: Final = dataclasses.replace(PAPER, width=490)  # points: nearly all between the margins
_HALF: Final = dataclasses.replace(PAPER, width=262, panel_height=110)  # half of a page: the words stand beside it
_TALLEST: Final = 640.0  # points: a page, less its heading and the foot of the sheet


def build_service_sheet(study: JobStudy) -> bytes:
    """Print the service sheet of a job.

    Parameters
    ----------
    study
        The job, studied.

    Returns
    -------
    bytes
        A PDF.
    """
    head = PageHead(
        title=running_title(study.job.title, study.job.gun_name),
        invented=INVENTED.full if study.is_invented else "",
        program=f"stripdown {__version__}",
        digest=study.job.digest,
    )
    return press("service.typ", bench_sheet(study), head=head, pictures=dict(_pictures(study)))


def _pictures(study: JobStudy) -> Iterator[tuple[str, Picture]]:
    graph = plan_graph(study, theme=_WHOLE)
    if graph is not None:
        yield "plan", drawn(graph, theme=_WHOLE, tallest=_TALLEST)
    for key, chart in _charts(study.reckoned):
        yield key, drawn(chart, theme=_HALF)


def _charts(reckoned: Reckoned) -> Iterator[tuple[str, AnyChart]]:
    """What the calculators answered, where there is something to draw."""
    if reckoned.shims is not None and (reckoned.shims.split.gears or reckoned.shims.split.gears_after_buying):
        yield "shims", shim_stack(reckoned.shims.split, theme=_HALF)
    if reckoned.pad is not None and reckoned.pad.pad is not None:
        yield "pad", witness_mark_and_pad(reckoned.pad.pad, theme=_HALF)
    for number, one in enumerate(reckoned.rings, start=1):
        yield f"seal_gland_{number}", gland_section(one.gland, theme=_HALF)
