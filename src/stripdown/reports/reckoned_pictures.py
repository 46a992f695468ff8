"""What the calculators say to a job, each answer with its picture for paper."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from typing import Final

from stripdown.charts.gland import gland_section
from stripdown.charts.render import AnyChart
from stripdown.charts.shim_stack import shim_stack
from stripdown.charts.themes import PAPER
from stripdown.charts.witness_mark import witness_mark_and_pad
from stripdown.reports.drawn import drawn
from stripdown.reports.reckoned_words import reckonings
from stripdown.reports.service_content import Reckoning
from stripdown.studies.job_reckonings import Reckoned

_THEME: Final = dataclasses.replace(PAPER, width=262, panel_height=110)  # half of a page: the words stand beside it


def reckonings_drawn(reckoned: Reckoned) -> tuple[Reckoning, ...]:
    """Say what the calculators answered, and draw it."""
    return tuple(
        one if chart is None else dataclasses.replace(one, picture=drawn(chart, theme=_THEME))
        for one, chart in zip(reckonings(reckoned), _charts(reckoned), strict=True)
    )


def _charts(reckoned: Reckoned) -> Iterator[AnyChart | None]:
    """In the order of the words; None where the answer is that there is none."""
    if reckoned.shims is not None:
        split = reckoned.shims.split
        yield shim_stack(split, theme=_THEME) if split.gears or split.gears_after_buying else None
    if reckoned.pad is not None:
        yield None if reckoned.pad.pad is None else witness_mark_and_pad(reckoned.pad.pad, theme=_THEME)
    for one in reckoned.rings:
        yield gland_section(one.gland, theme=_THEME)
