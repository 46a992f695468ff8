"""Strings from the rows of a readings file, and the lines that give none."""

from __future__ import annotations

import dataclasses
import re
import statistics
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Final

from stripdown.bench.strings import LeftOut, ReadingString
from stripdown.core.shot_statistics.conditions import StringConditions, filled_in
from stripdown.errors import InputError
from stripdown.files.readings_columns import complete_heads
from stripdown.files.readings_heads import NOTHING_SAID, Head, Meaning, said_by
from stripdown.files.readings_sections import Section, no_shot
from stripdown.files.readings_statistics import Row, figures_below
from stripdown.files.readings_text import Line
from stripdown.files.readings_values import NotTaken, Speed, read_speed, speed_unit

_FEET: Final = (3.05, 3.52)  # a reading in ft/s among others in m/s is 3.28 times as large, give or take the scatter
_MOST_STRINGS: Final = 500
_TIME: Final = re.compile(r"\d{1,2}:\d{2}")
_ENOUGH: Final = 3  # readings by which a stranger among them can be told


@dataclass(slots=True, kw_only=True)
class _Growing:
    label: str
    conditions: StringConditions
    speeds: list[Speed] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    temperatures: list[float] = field(default_factory=list)
    numbers: list[int] = field(default_factory=list)
    rows: list[tuple[Line, Speed, bool, bool]] = field(default_factory=list)
    """Every number of its column: its line, whether it counts, whether it has the number of a shot or a time."""
    has_other_unit: bool = False
    asked: list[LeftOut] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What the rows gave."""

    strings: tuple[ReadingString, ...]
    left_out: tuple[LeftOut, ...]
    notes: tuple[str, ...]


def gather(sections: tuple[Section, ...], *, bare_unit: str | None, file: str) -> Gathered:
    """Collect the readings of all sections into strings."""
    growing: dict[tuple[object, ...], _Growing] = {}
    left_out: list[LeftOut] = []
    unused: dict[str, None] = {}
    for place, section in enumerate(sections):
        heads = complete_heads(section, file)
        unused |= {head.text: None for head in heads if head.meaning is Meaning.UNKNOWN and head.text}
        for line, cells in section.rows:
            try:
                _take_row(growing, section, heads, (place, line, cells), bare_unit or "m/s")
            except NotTaken as reason:
                left_out.append(LeftOut(line=line.number, text=line.text, reason=str(reason)))
            if len(growing) > _MOST_STRINGS:
                hint = f"At most {_MOST_STRINGS} are read: is a column taken for the name of the string?"
                raise InputError("these are too many strings for one file.", file=file, line=line.number, hint=hint)
    strangers: list[LeftOut] = []
    notes = [f"Columns that are not used: {', '.join(unused)}."] if unused else []
    for string in [one for one in growing.values() if one.speeds]:
        known = {one.line for one in strangers}
        strangers += [one for one in _figures(string) if one.line not in known]
        notes += _in_order(string)
        strangers += _strangers(string)
    no_shots = {one.line for one in strangers if one.is_no_shot}
    left_out = [one for one in left_out if one.line not in no_shots]
    most = _most_fall_away(left_out, growing.values())
    strings = [_finished(string, most) for string in growing.values() if string.speeds]
    if bare_unit is None and any(speed.is_bare for string in growing.values() for speed in string.speeds):
        notes.append("No unit was named, so the readings are in m/s.")
    notes += _of_temperature(growing.values())
    return Gathered(strings=tuple(strings), left_out=(*left_out, *strangers), notes=tuple(notes))


def _take_row(
    growing: dict[tuple[object, ...], _Growing],
    section: Section,
    heads: tuple[Head, ...],
    row: tuple[int, Line, tuple[str, ...]],
    bare_unit: str,
) -> None:
    place, line, cells = row
    if any(cells[len(heads) :]):
        raise NotTaken(
            f"it has {len(cells)} cells under {len(heads)} heads. If the comma is a decimal sign, part the columns by semicolons."
        )
    label, said, unit = section.label, NOTHING_SAID, section.unit
    for head, cell in zip(heads, cells, strict=False):
        if head.meaning is Meaning.LABEL:
            label = cell or label
        elif head.meaning is Meaning.UNIT and cell:
            unit = speed_unit(cell)
            if unit is None:
                raise NotTaken(f'"{cell}" is no unit of speed; m/s, ft/s, km/h and mph are.')
        elif head.meaning is Meaning.SHOT:
            _check_shot(cell)
        else:
            said = filled_in(said, said_by(head.meaning, _with_unit(head, cell)))
    columns = [(column, head) for column, head in enumerate(heads) if head.meaning is Meaning.SPEED]
    filled = [(column, head) for column, head in columns if column < len(cells) and cells[column]]
    if not filled:
        raise NotTaken("there is no reading in it.")
    for column, head in filled:
        conditions = filled_in(filled_in(said, head.said), section.said)
        name = label or (head.text if _needs_its_head(columns, head) else "")
        key = (place, name, dataclasses.replace(conditions, temperature=None))
        string = growing.setdefault(key, _Growing(label=name, conditions=conditions))
        is_numbered = bool(_shot_number(heads, cells)) or any(map(_TIME.search, cells))
        try:
            speed = read_speed(cells[column], head.unit or unit, bare_unit)
        except NotTaken as reason:
            string.has_other_unit |= reason.is_other_unit
            if reason.speed is not None:
                string.rows.append((line, reason.speed, False, is_numbered))
            raise
        string.rows.append((line, speed, True, is_numbered))
        string.speeds.append(speed)
        string.lines.append(line)
        string.numbers += _shot_number(heads, cells)
        if conditions.temperature is not None:
            string.temperatures.append(conditions.temperature)


def _check_shot(cell: str) -> None:
    """Refuse a row with words where the others have the number of the shot: nobody knows whether it is one."""
    if any(sign.isalpha() for sign in cell):
        raise NotTaken(f"“{cell}” stands where the others have the number of the shot: is it one?")


def _figures(string: _Growing) -> Iterator[LeftOut]:
    """Take out rows at the end that are figures of those above, and ask where they may be."""
    rows = string.rows
    if len({speed.unit for _, speed, _, _ in rows}) > 1:
        return
    found = figures_below(
        [Row(number=speed.written, may_be_shot=counts, is_numbered=numbered) for _, speed, counts, numbered in rows]
    )
    if found is None:
        return
    for (line, _, counts, _), name in zip(rows[-len(found.names) :], found.names, strict=True):
        if not found.is_sure:
            reason = f"it equals the {name} of those above: is it a shot?"
            string.asked.append(LeftOut(line=line.number, text=line.text, reason=reason))
            continue
        if counts:
            place = next(place for place in reversed(range(len(string.speeds))) if string.lines[place] is line)
            del string.speeds[place], string.lines[place]
        yield no_shot(line, name)


def _most_fall_away(left_out: list[LeftOut], growing: Iterable[_Growing]) -> str:
    """Say that most lines with a number gave none, if so."""
    fell = {one.line for one in left_out if any(sign.isdigit() for sign in one.text)}
    counted = {line.number for string in growing for line in string.lines}
    if len(fell) <= len(counted):
        return ""
    return f"most lines of its file gave no reading ({len(fell)} of {len(fell) + len(counted)})"


def _shot_number(heads: tuple[Head, ...], cells: tuple[str, ...]) -> list[int]:
    """Number of the shot, if a column has it."""
    found = [cell for head, cell in zip(heads, cells, strict=False) if head.meaning is Meaning.SHOT]
    return [int(cell) for cell in found if cell.isascii() and cell.isdecimal() and len(cell) < 10]


def _in_order(string: _Growing) -> list[str]:
    """Put a string into the order of its shots, and say where numbers are missing."""
    numbers = string.numbers
    if len(numbers) != len(string.speeds) or len(set(numbers)) != len(numbers):
        return (
            ["Shots have no number, or share one: the order of the lines is taken for the order of the shots."] if numbers else []
        )
    notes = []
    if numbers != sorted(numbers):
        order = sorted(range(len(numbers)), key=numbers.__getitem__)
        string.speeds = [string.speeds[place] for place in order]
        string.lines = [string.lines[place] for place in order]
        notes.append("The shots were put in the order of their numbers.")
    missing = sorted(set(range(min(numbers), max(numbers))) - set(numbers))
    if missing:
        shown = ", ".join(map(str, missing[:5])) + (" and more" if len(missing) > 5 else "")
        notes.append(f"No reading for shot {shown}.")
    return notes


def _with_unit(head: Head, cell: str) -> str:
    """A bare number with the unit that its head names."""
    return f"{cell} {head.unit}" if head.unit and cell and cell[-1].isdigit() else cell


def _needs_its_head(columns: list[tuple[int, Head]], head: Head) -> bool:
    """Whether only its text tells a column of speeds from another."""
    return bool(head.text) and sum(other.said == head.said for _, other in columns) > 1


def _strangers(string: _Growing) -> Iterator[LeftOut]:
    """Take out bare numbers that are most likely in the other unit of speed."""
    bare = [speed.value for speed in string.speeds if speed.is_bare]
    if len(bare) < _ENOUGH:
        return
    middle = statistics.median(bare)
    for place in reversed(range(len(string.speeds))):
        speed = string.speeds[place]
        ratio = max(speed.value / middle, middle / speed.value)
        if speed.is_bare and _FEET[0] < ratio < _FEET[1]:
            line = string.lines[place]
            del string.speeds[place], string.lines[place]
            string.has_other_unit = True
            reason = f"it is {ratio:.2f} times off the others, as m/s and ft/s are: write the unit behind it."
            yield LeftOut(line=line.number, text=line.text, reason=reason)


def _finished(string: _Growing, most: str) -> ReadingString:
    mixed = string.has_other_unit or len({speed.unit for speed in string.speeds}) > 1
    doubts = [most, "its readings are in different units" if mixed else ""]
    temperature = statistics.fmean(string.temperatures) if string.temperatures else None
    return ReadingString(
        label=string.label,
        conditions=dataclasses.replace(string.conditions, temperature=temperature),
        speeds=tuple(speed.value for speed in string.speeds),
        lines=tuple(line.number for line in string.lines),
        resolution=min(speed.step for speed in string.speeds),
        asked=tuple(string.asked),
        doubt=" and ".join(filter(None, doubts)),
    )


def _of_temperature(growing: Iterable[_Growing]) -> list[str]:
    ranges = [max(string.temperatures) - min(string.temperatures) for string in growing if string.temperatures]
    return (
        [f"The temperature changed by {max(ranges):.1f} °C within a string; its mean is used."]
        if max(ranges, default=0) > 2
        else []
    )
