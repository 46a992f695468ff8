"""What `stripdown match` prints for people."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.table import Table

from stripdown.cli.harmless_text import harmless
from stripdown.cli.printed_notes import PREDICTION, assumed_words
from stripdown.cli.printed_sheet import print_sentences
from stripdown.units import display_unit, from_si, show, show_number
from stripdown.words.numbers import grams, joules, minus, speed, speed_decimals

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.bench.gun import Assumed
    from stripdown.core.shot_statistics import HopState
    from stripdown.studies.match_chronograph import ChronographMatch, FittedNumber, SpeedPrediction
    from stripdown.studies.observation import Observation


def print_match(
    console: Console,
    name: str,
    match: ChronographMatch,
    expected: SpeedPrediction,
    *,
    hop: HopState | None,
    assumed: Sequence[Assumed],
    speed_unit: str,
) -> None:
    """Print a fitted model, how it meets the strings, and what it expects of other balls."""
    console.print(harmless(name), style="bold")
    console.print()
    console.print(_numbers(match))
    console.print()
    console.print(_strings(match, speed_unit))
    console.print()
    console.print(_other_balls(expected, hop, speed_unit))
    console.print()
    print_sentences(console, (*match.notes, *filter(None, (assumed_words(assumed),)), PREDICTION))


def _numbers(match: ChronographMatch) -> Table:
    table = _table("fitted", "in the file", "fits the strings", "95 %", "learnt")
    for number in match.fitted:
        digits = display_unit(number.quantity).name
        low = show_number(from_si(number.low, digits), 3)
        table.add_row(
            number.name,
            show(number.start, number.quantity, digits=3),
            show(number.value, number.quantity, digits=3),
            f"{low} to {show_number(from_si(number.high, digits), 3)}",
            _learnt(number),
        )
    return table


def _learnt(number: FittedNumber) -> str:
    return f"{max(number.learnt, 0.0) * 100:.0f} %"


def _strings(match: ChronographMatch, unit: str) -> Table:
    table = _table("string", "shots", "at the muzzle", "model", "apart")
    for string, predicted in zip(match.strings, match.predicted, strict=True):
        apart = from_si(float(predicted) - string.muzzle_speed, unit)
        table.add_row(
            _fired(string),
            str(string.count),
            speed(string.muzzle_speed, unit),
            speed(float(predicted), unit),
            minus(f"{apart:+.{speed_decimals(unit)}f}"),
        )
    return table


def _other_balls(expected: SpeedPrediction, hop: HopState | None, unit: str) -> Table:
    table = _table(f"expected, hop-up {'as in the file' if hop is None else hop.value}", "muzzle speed", "energy")
    columns = (expected.ball_mass, expected.muzzle_speed, expected.standard_uncertainty)
    for mass, muzzle_speed, uncertainty in zip(*map(list, columns), strict=True):
        decimals = speed_decimals(unit)
        reach = from_si(2.0 * float(uncertainty), unit)
        table.add_row(
            grams(float(mass)),
            f"{from_si(float(muzzle_speed), unit):.{decimals}f} ± {max(reach, 10.0**-decimals):.{decimals}f} {unit}",
            joules(0.5 * float(mass) * float(muzzle_speed) ** 2),
        )
    return table


def _fired(string: Observation) -> str:
    parts = [
        grams(string.ball_mass),
        "" if string.hop is None else f"hop-up {string.hop.value}",
        "" if string.fire_mode is None else string.fire_mode.value,
    ]
    return ", ".join(part for part in parts if part)


def _table(*heads: str) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="bold")
    table.add_column(heads[0])
    for head in heads[1:]:
        table.add_column(head, justify="right", no_wrap=True)
    return table
