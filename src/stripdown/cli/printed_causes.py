"""What may have cost the velocity, on the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from rich.table import Table
from rich.text import Text

from stripdown.cli.printed_sheet import print_sentences
from stripdown.cli.terminal import print_paragraph
from stripdown.reports.likely_causes import cause_part
from stripdown.units import Scale
from stripdown.words.numbers import amount_of_fault, joules_gained, range_of_fault

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.studies.loss_causes import Cause, LossExplanation

_LOOKED_AT = 3  # causes of which it is said what to look at


def print_causes(console: Console, explanation: LossExplanation, *, scale: Scale, checks: int = _LOOKED_AT) -> None:
    """Print what may have cost the velocity."""
    part = cause_part(explanation, scale=scale)
    print_paragraph(console, part.loss)
    standing = [cause for cause in explanation.causes if cause.stands]
    if standing:
        console.print()
        console.print(_table(standing, scale))
    console.print()
    kept = [words for words in part.others if not words.startswith("Cannot be ruled out either")]
    print_sentences(console, (*_checks(standing[:checks]), *kept, *part.notes))


def _table(causes: Sequence[Cause], scale: Scale) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="bold")
    table.add_column("cause, taken alone")
    table.add_column("how much", justify="right", no_wrap=True)
    table.add_column("95 %", justify="right", no_wrap=True)
    table.add_column("ordinarily\nup to", justify="right", no_wrap=True)
    table.add_column("repair\nreturns", justify="right", no_wrap=True)
    for cause in causes:
        quantity = cause.fault.amount
        reach = "" if cause.low is None or cause.high is None else range_of_fault(cause.low, cause.high, quantity, scale)
        table.add_row(
            Text(f"{cause.fault.name}\n  {quantity.label}"),
            amount_of_fault(cause.amount, quantity, scale),
            reach.rpartition(" ")[0],
            amount_of_fault(cause.fault.ordinary, quantity, scale),
            joules_gained(cause.returned),
        )
    return table


def _checks(causes: Sequence[Cause]) -> Iterator[str]:
    for cause in causes:
        where = " (box open)" if cause.fault.opens_box else ""
        yield f"{cause.fault.name}{where}: {cause.fault.check}"
