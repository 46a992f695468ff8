"""Pictures of a case, by name of file."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stripdown.charts.limit import creep_against_limit
from stripdown.charts.loss import causes_of_loss
from stripdown.charts.repair import ledger_beside_repair
from stripdown.charts.string_pairs import before_and_after
from stripdown.charts.strings import string_in_order
from stripdown.charts.themes import SCREEN
from stripdown.studies.case_strings import verdict_on
from stripdown.units import Scale

if TYPE_CHECKING:
    from stripdown.charts.render import AnyChart
    from stripdown.studies.service_case import CaseStudy, StringOfCase
    from stripdown.studies.verdict import GunVerdict


def case_charts(study: CaseStudy, *, speed_unit: str) -> dict[str, AnyChart]:
    """Draw what a case has to show."""
    charts = string_charts((*study.before, *study.after), speed_unit=speed_unit, verdict=study.verdict)
    pairs = [pair for pair in study.comparisons if pair.comparison is not None]
    if pairs:
        charts["before-and-after"] = before_and_after(pairs, speed_unit=speed_unit, theme=SCREEN)
    if study.verdict is not None:
        charts["limit"] = creep_against_limit(study.verdict, theme=SCREEN)
    if study.explanation is not None:
        scale: Scale = "imperial" if speed_unit == "ft/s" else "metric"
        charts["causes"] = causes_of_loss(study.explanation, scale=scale, theme=SCREEN)
        if study.shot_before is not None and study.shot_after is not None:
            charts["where-it-went"] = ledger_beside_repair(study.shot_before, study.shot_after, study.explanation, theme=SCREEN)
    return charts


def string_charts(strings: Sequence[StringOfCase], *, speed_unit: str, verdict: GunVerdict | None = None) -> dict[str, AnyChart]:
    """Draw strings, shot by shot."""
    return {
        f"string-{name}": string_in_order(
            string.statistics,
            verdict=verdict_on(string, verdict),
            name=string.reading.words,
            speed_unit=speed_unit,
            theme=SCREEN,
        )
        for string, name in _named(strings)
    }


def _named(strings: Sequence[StringOfCase]) -> list[tuple[StringOfCase, str]]:
    """Each string with a name that a file may have, unlike every other."""
    named: list[tuple[StringOfCase, str]] = []
    for number, string in enumerate(strings, start=1):
        words = "".join(sign if sign.isascii() and sign.isalnum() else " " for sign in string.reading.words.lower()).split()
        name = "-".join(words)[:60] or "string"
        taken = any(name == other for _, other in named)
        named.append((string, f"{name}-{number}" if taken else name))
    return named
