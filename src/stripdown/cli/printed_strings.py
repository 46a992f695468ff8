"""Strings, and what changed between them, on the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from rich.table import Table
from rich.text import Text

from stripdown.cli.harmless_text import harmless
from stripdown.cli.printed_sheet import print_sentences
from stripdown.units import show
from stripdown.words.numbers import change_of_energy, change_of_speed, energy_or_dash, fired_with, speed, speed_range

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.bench.strings import ChronographSession, LeftOut
    from stripdown.core.shot_statistics import StringConditions
    from stripdown.studies.service_case import ComparisonOfCase, StringOfCase

_NOTHING = "–"


def print_strings(console: Console, strings: Sequence[StringOfCase], *, speed_unit: str) -> None:
    """Print strings with their intervals, and what must be said of each."""
    table = _table("", "shots", "mean", "deviation", "spread", "energy")
    for string in strings:
        found = string.statistics
        deviation = found.standard_deviation
        share = found.relative_standard_deviation
        table.add_row(
            Text(harmless(f"{_name(string)}\n{_read(string.reading.conditions)}".rstrip())),
            str(found.count),
            f"{speed(found.mean, speed_unit)}\n{_or_nothing(found.mean_interval, speed_unit)}",
            _NOTHING
            if deviation is None
            else f"{speed(deviation, speed_unit)}\n{'' if share is None else f'{share * 100:.2f} %'}",
            speed(found.extreme_spread, speed_unit),
            energy_or_dash(found.mean_energy),
        )
    console.print(table)
    confidence = f"{strings[0].statistics.confidence * 100:.0f} %"
    console.print()
    print_sentences(
        console,
        (
            f"Below each mean its {confidence} interval, the instrument's uncertainty included as far as it was given.",
            *(line for string in strings for line in _outlook(string, confidence, speed_unit, alone=len(strings) == 1)),
            *notes_of(strings),
        ),
    )


def print_pairs(console: Console, pairs: Sequence[ComparisonOfCase], *, speed_unit: str) -> None:
    """Print what changed between strings before and after."""
    confidence = next((pair.comparison.confidence for pair in pairs if pair.comparison is not None), None)
    table = _table("", "before", "after", "change", "" if confidence is None else f"{confidence * 100:.0f} % interval")
    for pair in pairs:
        before, after = pair.before.statistics, pair.after.statistics
        table.add_row(
            Text(harmless("\n".join(_fired(pair)))),
            f"{speed(before.mean, speed_unit)}\n{energy_or_dash(before.mean_energy)}",
            f"{speed(after.mean, speed_unit)}\n{energy_or_dash(after.mean_energy)}",
            *_change(pair, speed_unit),
        )
    console.print(table)


def notes_of(strings: Sequence[StringOfCase]) -> Iterator[str]:
    """What must be said of strings, each sentence with the string that it is about."""
    for string in strings:
        owner = f"{string.reading.words}: " if len(strings) > 1 else ""
        for note in string.statistics.notes:
            yield f"{owner}{note}"
        for shot in string.statistics.set_aside:
            yield f"{owner}shot {shot.index + 1} set aside: {shot.reason}."


def pair_notes(pairs: Sequence[ComparisonOfCase]) -> Iterator[str]:
    """What must be said of comparisons, each sentence with the pair that it is about."""
    for pair in pairs:
        owner = f"{_name(pair.after)}: " if len(pairs) > 1 else ""
        for words in (*pair.obstacles, *pair.cautions, *(() if pair.comparison is None else pair.comparison.notes)):
            yield f"{owner}{words}"


def left_out_words(left_out: Sequence[LeftOut]) -> Iterator[str]:
    """Say which lines gave no reading, and why."""
    for one in left_out:
        where = f"{one.file}, line {one.line}" if one.file else f"line {one.line}"
        yield f'{where}: "{one.text}" was not counted: {one.reason}'


def session_notes(session: ChronographSession) -> Iterator[str]:
    """Say which lines gave no reading, and how the files were understood."""
    yield from left_out_words(session.left_out)
    yield from session.notes


def _table(*heads: str) -> Table:
    table = Table(box=None, padding=(0, 2, 0, 0), pad_edge=False, header_style="bold")
    table.add_column(heads[0])
    for head in heads[1:]:
        table.add_column(head, justify="right", no_wrap=True)
    return table


def _name(string: StringOfCase) -> str:
    return string.reading.label or fired_with(string.reading.conditions) or string.reading.words


def _read(conditions: StringConditions) -> str:
    distance, temperature = conditions.distance, conditions.temperature
    parts = (
        "" if conditions.occasion is None else conditions.occasion.value,
        "" if distance is None else f"at {show(distance, 'm')}",
        "" if temperature is None else show(temperature, "degC", digits=2),
    )
    return ", ".join(part for part in parts if part)


def _outlook(string: StringOfCase, confidence: str, unit: str, *, alone: bool) -> Iterator[str]:
    found = string.statistics
    if found.next_shot_interval is None or found.tolerance_interval is None:
        return
    owner = "" if alone else f"{string.reading.words}: "
    words = "The" if alone else "the"
    yield (
        f"{owner}{words} next shot lies in {speed_range(found.next_shot_interval, unit)} with {confidence}; {confidence} of all "
        f"shots lie in {speed_range(found.tolerance_interval, unit)}, {confidence} sure."
    )


def _or_nothing(interval: tuple[float, float] | None, unit: str) -> str:
    from stripdown.core.shot_statistics import Interval  # noqa: PLC0415  light until a string is printed

    return "" if interval is None else speed_range(Interval(*interval), unit).rpartition(" ")[0]


def _fired(pair: ComparisonOfCase) -> tuple[str, str]:
    """Two short lines: ball and hop-up; selector and shots."""
    conditions = pair.after.reading.conditions
    *first, last = (fired_with(conditions) or pair.after.reading.words).rsplit(", ", 1) or [""]
    shots = f"{pair.before.statistics.count} and {pair.after.statistics.count} shots"
    return (first[0], f"{last}; {shots}") if first and conditions.fire_mode is not None else (", ".join([*first, last]), shots)


def _change(pair: ComparisonOfCase, unit: str) -> tuple[str, str]:
    if pair.comparison is None:
        return "does not\ncompare", ""
    found = [change_of_speed(pair.comparison.speed.difference, pair.comparison.speed.interval, unit)]
    if pair.comparison.energy is not None:
        found.append(change_of_energy(pair.comparison.energy.difference, pair.comparison.energy.interval))
    return "\n".join(change for change, _ in found), "\n".join(interval for _, interval in found)
