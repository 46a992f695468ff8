"""A gun against a limit, on the terminal: what strings prove, and well apart what the model only suggests."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.table import Table

from stripdown.cli.printed_sheet import print_named, print_sentences
from stripdown.cli.terminal import print_paragraph
from stripdown.reports.against_limit import limit_part
from stripdown.words.numbers import chance, grams, joules, joules_with_reach, speed

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.core.shot_statistics import FireMode, LimitForecast, LimitVerdict
    from stripdown.studies.verdict import GunVerdict

_NOTHING = "–"


def print_verdict(console: Console, verdict: GunVerdict, *, speed_unit: str) -> None:
    """Print a gun against a limit."""
    part = limit_part(verdict, verdict.limit, unit=speed_unit, picture=None)
    print_named(console, part.limit)
    measured = [ball.measured for ball in verdict.balls if ball.measured is not None]
    predicted = [(ball.fire_mode, ball.predicted) for ball in verdict.balls if ball.predicted is not None]
    if measured:
        console.print()
        _print_measured(console, measured, speed_unit)
    if predicted:
        console.print()
        _print_predicted(console, predicted)
    console.print()
    print_sentences(console, part.notes)


def _print_measured(console: Console, measured: Sequence[LimitVerdict], speed_unit: str) -> None:
    table = _table("fired with", "what the string says", "mean", "bound", "next shot\nexceeds", "highest\nmean under")
    for found in measured:
        over = f"\n{found.shots_over} of {found.count} shots over" if found.shots_over else ""
        table.add_row(
            f"{_ball(found.ball_mass, found.fire_mode)}\nlimit {speed(found.limit_speed, speed_unit)}",
            f"{found.state.value}{over}",
            f"{joules(found.mean_energy)}\n{speed(found.mean_speed, speed_unit)}",
            _pair(found.tolerance_energy, found.tolerance_speed, speed_unit),
            _NOTHING if found.chance_next_exceeds is None else chance(found.chance_next_exceeds),
            _NOTHING if found.acceptance_energy is None else joules(found.acceptance_energy),
        )
    console.print(table)
    rule = measured[0].rule
    content, sure = f"{rule.content * 100:.0f} %", f"{rule.confidence * 100:.0f} %"
    print_paragraph(
        console,
        f"Bound: {content} of all shots keep to it, {sure} sure. A string is under the limit if no shot exceeds it, the chance "
        f"that the next one does is at most {chance(rule.accepted_chance)}, and the bound is under it too.",
    )


def _print_predicted(console: Console, predicted: Sequence[tuple[FireMode | None, LimitForecast]]) -> None:
    table = _table("not fired", "what the model suggests", "energy", "shot\nexceeds")
    for mode, forecast in predicted:
        table.add_row(
            _ball(forecast.ball_mass, mode),
            forecast.state.value.partition(":")[0],
            joules_with_reach(forecast.energy, forecast.energy_standard_uncertainty),
            chance(forecast.chance_exceeds),
        )
    console.print(table)


def _table(*heads: str) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="bold")
    table.add_column(heads[0], no_wrap=True)
    table.add_column(heads[1], min_width=15)
    for head in heads[2:]:
        table.add_column(head, justify="right", no_wrap=True)
    return table


def _ball(mass: float, mode: FireMode | None) -> str:
    return grams(mass) if mode is None else f"{grams(mass)}, {mode.value}"


def _pair(energy: float | None, at: float | None, unit: str) -> str:
    return _NOTHING if energy is None or at is None else f"{joules(energy)}\n{speed(at, unit)}"
