"""The part "before and after": one row for each pair of strings, and what must be said beside it."""

from __future__ import annotations

from collections.abc import Iterator

from stripdown.core.shot_statistics import Occasion
from stripdown.reports.content import Cell, ChangePart, Column, FigureFooting, Picture, Table
from stripdown.studies.service_case import CaseStudy, ComparisonOfCase, StringOfCase
from stripdown.units import show
from stripdown.words.numbers import (
    change_of_energy,
    change_of_speed,
    energy_or_dash,
    fired_with,
    share_changed,
    speed,
    speed_range,
)

_NONE = Cell(text="–")
_BEFORE, _AFTER, _CHANGE = "before: mean", "after: mean", "change"
_COLUMNS = (
    Column(head="fired with"),
    Column(head=_BEFORE, footing=FigureFooting.MEASURED),
    Column(head=_AFTER, footing=FigureFooting.MEASURED),
    Column(head=_CHANGE, footing=FigureFooting.COMPUTED),
    Column(head="mean energy", footing=FigureFooting.COMPUTED),
)


def change_part(study: CaseStudy, *, unit: str, picture: Picture | None) -> ChangePart:
    """Say what changed between the strings before and after."""
    rows = [_pair_row(pair, unit) for pair in study.comparisons]
    paired = [string for pair in study.comparisons for string in (pair.before, pair.after)]
    rows += [_lone_row(string, Occasion.BEFORE, unit) for string in study.before if string not in paired]
    rows += [_lone_row(string, Occasion.AFTER, unit) for string in study.after if string not in paired]
    return ChangePart(
        heading=_heading(study),
        table=_without_gaps(Table(columns=_COLUMNS, rows=tuple(rows)), study) if rows else None,
        picture=picture,
        notes=tuple(dict.fromkeys(_notes(study))),
    )


def change_in_short(study: CaseStudy, *, unit: str) -> tuple[str, ...]:
    """The change of each pair in one line."""
    lines = []
    for pair in study.comparisons:
        if pair.comparison is None:
            continue
        change, interval = change_of_speed(pair.comparison.difference, pair.comparison.interval, unit)
        before, after = (speed(string.statistics.mean, unit) for string in (pair.before, pair.after))
        ball = fired_with(pair.after.reading.conditions) or "the same ball"
        sure = f"{pair.comparison.confidence * 100:.0f} % interval {interval}"
        lines.append(f"{ball}: {before} before, {after} after, {change} ({sure}).")
    return tuple(lines)


def _heading(study: CaseStudy) -> str:
    if study.before and study.after:
        return "Before and after"
    return "Before the work" if study.before else "After the work"


def _without_gaps(table: Table, study: CaseStudy) -> Table:
    """Without columns that nobody could fill."""
    empty = {
        *(() if study.before else (_BEFORE, _CHANGE)),
        *(() if study.after else (_AFTER, _CHANGE)),
    }
    kept = [place for place, column in enumerate(table.columns) if column.head not in empty]
    rows = tuple(tuple(row[place] for place in kept) for row in table.rows)
    return Table(columns=tuple(table.columns[place] for place in kept), rows=rows)


def _pair_row(pair: ComparisonOfCase, unit: str) -> tuple[Cell, ...]:
    before, after = pair.before, pair.after
    return (
        _fired_cell(after),
        _mean_cell(before, unit),
        _mean_cell(after, unit),
        _change_cell(pair, unit),
        _energy_cell(pair),
    )


def _lone_row(string: StringOfCase, occasion: Occasion, unit: str) -> tuple[Cell, ...]:
    mean = _mean_cell(string, unit)
    before, after = (mean, _NONE) if occasion is Occasion.BEFORE else (_NONE, mean)
    return _fired_cell(string), before, after, _NONE, Cell(text=energy_or_dash(string.statistics.mean_energy))


def _fired_cell(string: StringOfCase) -> Cell:
    conditions = string.reading.conditions
    read = (
        "" if conditions.distance is None else f"read at {show(conditions.distance, 'm')}",
        "" if conditions.temperature is None else show(conditions.temperature, "degC", digits=2),
    )
    return Cell(text=fired_with(conditions) or string.reading.words, small=", ".join(word for word in read if word))


def _mean_cell(string: StringOfCase, unit: str) -> Cell:
    said = string.statistics
    shots = "1 shot" if said.count == 1 else f"{said.count} shots"
    reach = "" if said.mean_interval is None else f"{speed_range(said.mean_interval, unit, with_unit=False)}; "
    return Cell(text=speed(said.mean, unit), small=f"{reach}{shots}")


def _change_cell(pair: ComparisonOfCase, unit: str) -> Cell:
    if pair.comparison is None:
        return Cell(text="does not compare")
    found = pair.comparison.speed
    change, interval = change_of_speed(found.difference, found.interval, unit)
    share = "" if found.share is None else f"; {share_changed(found.share)}"
    return Cell(text=change, small=f"{interval}{share}", is_strong=True)


def _energy_cell(pair: ComparisonOfCase) -> Cell:
    before, after = (energy_or_dash(string.statistics.mean_energy) for string in (pair.before, pair.after))
    found = None if pair.comparison is None else pair.comparison.energy
    small = "" if found is None else f"{' ('.join(change_of_energy(found.difference, found.interval))})"
    return Cell(text=f"{before} → {after}", small=small)


def _notes(study: CaseStudy) -> Iterator[str]:
    sure = {string.statistics.confidence for string in (*study.before, *study.after)}
    if len(sure) == 1:
        yield f"Ranges hold the true value with {sure.pop() * 100:.0f} % confidence."
    for pair in study.comparisons:
        of = fired_with(pair.after.reading.conditions)
        for words in (*pair.obstacles, *pair.cautions, *(() if pair.comparison is None else pair.comparison.notes)):
            yield f"{of}: {words}" if of and len(study.comparisons) > 1 else words
    for occasion, strings in ((Occasion.BEFORE, study.before), (Occasion.AFTER, study.after)):
        for string in strings:
            name = f"{occasion.value.capitalize()}, {fired_with(string.reading.conditions) or string.reading.words}"
            for note in string.statistics.notes:
                yield f"{name}: {note}"
            for shot in string.statistics.set_aside:
                yield f"{name}: shot {shot.index + 1} set aside: {shot.reason}."
