"""What `stripdown sensitivity` prints for people."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rich.table import Table

from stripdown.cli.printed_notes import PREDICTION
from stripdown.cli.terminal import print_paragraph
from stripdown.units import from_si
from stripdown.words.numbers import grams, minus, part, speed, toleranced

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.studies.sensitivity import Sensitivity


def print_sensitivity(console: Console, name: str, answer: Sensitivity, *, speed_unit: str, rows: int) -> None:
    """Print the dimensions that move the muzzle speed most."""
    table = Table(box=None, padding=(0, 2, 0, 0), header_style="bold", pad_edge=False)
    table.add_column("dimension")
    table.add_column("value", justify="right", no_wrap=True)
    table.add_column("upper end", justify="right", no_wrap=True)
    table.add_column("lower end", justify="right", no_wrap=True)
    for row in answer.rows[:rows]:
        dimension = part(row.path, row.label)
        table.add_row(
            f"{dimension} *" if row.is_assumed else dimension,
            toleranced(row.value, row.step, row.quantity),
            _change(row.speed_change_up, speed_unit),
            _change(row.speed_change_down, speed_unit),
        )
    predicted = speed(answer.muzzle_speed, speed_unit)
    console.print(f"{name}: {predicted} with the {grams(answer.ball_mass)} ball", style="bold")
    console.print()
    console.print(table)
    for paragraph in _remarks(answer, speed_unit=speed_unit, rows=rows):
        console.print()
        print_paragraph(console, paragraph)


def _remarks(answer: Sensitivity, *, speed_unit: str, rows: int) -> Iterator[str]:
    yield f"Change of the muzzle speed in {speed_unit}, with each dimension in turn at the two ends of its own tolerance."
    if any(row.is_assumed for row in answer.rows[:rows]):
        yield "* assumed: the file leaves it out."
    if len(answer.rows) > rows:
        yield f"{len(answer.rows) - rows} more have less effect (--rows shows them)."
    if answer.without_effect:
        yield f"Without effect on this gun: {', '.join(answer.without_effect)}."
    yield PREDICTION


def _change(change: float, unit: str) -> str:
    return minus(f"{from_si(change, unit):+.2f}")
