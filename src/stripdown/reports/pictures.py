"""The pictures of a sheet: the same charts as on the screen, in their size for paper."""

from __future__ import annotations

import dataclasses

from stripdown.charts.limit import creep_against_limit
from stripdown.charts.string_pairs import before_and_after
from stripdown.charts.strings import string_in_order
from stripdown.charts.themes import PAPER
from stripdown.reports.content import Picture
from stripdown.reports.drawn import drawn
from stripdown.studies.case_strings import verdict_on
from stripdown.studies.service_case import CaseStudy
from stripdown.words.numbers import fired_with

# A little lower than on a page of their own, so that all fits on the two sides of one sheet.
_SHEET = dataclasses.replace(PAPER, panel_height=95, row_height=15)


def change_picture(study: CaseStudy, *, unit: str) -> Picture | None:
    """Pairs of strings; without a pair, the first string by itself."""
    if study.comparisons:
        return drawn(before_and_after(study.comparisons, speed_unit=unit, theme=_SHEET), theme=_SHEET)
    lone = next(iter((*study.after, *study.before)), None)
    if lone is None:
        return None
    occasion = "after" if study.after else "before"
    name = ", ".join(word for word in (occasion, fired_with(lone.reading.conditions)) if word)
    verdict = verdict_on(lone, study.verdict)
    return drawn(string_in_order(lone.statistics, verdict=verdict, name=name, speed_unit=unit, theme=_SHEET), theme=_SHEET)


def limit_picture(study: CaseStudy) -> Picture | None:
    """Energy by ball mass against the limit."""
    if study.verdict is None or len(study.verdict.balls) < 2:
        return None
    # Its first line says which limit, as the lines above the table do.
    return drawn(creep_against_limit(study.verdict, theme=_SHEET), theme=_SHEET, first_line=1)
