"""What the columns of a section are, when their heads do not say."""

from __future__ import annotations

import dataclasses
import itertools
import re
from collections.abc import Callable
from typing import Final

from stripdown.errors import InputError
from stripdown.files.readings_heads import Head, Meaning, said_by
from stripdown.files.readings_sections import Section, columns_of
from stripdown.files.readings_values import NotTaken, is_number, read_speed

_SHARE: Final = 0.5  # of the cells of a column that must be readings, for it to be the column of readings
_WITH_UNIT: Final = re.compile(r"\d.*[^\d.,\s]")  # a bare number says of itself neither mass nor temperature
_TELLING: Final = (Meaning.OCCASION, Meaning.FIRE_MODE, Meaning.HOP, Meaning.BALL_MASS, Meaning.TEMPERATURE, Meaning.DISTANCE)


def complete_heads(section: Section, file: str) -> tuple[Head, ...]:
    """Heads of a section with every column of readings found."""
    heads = list(section.heads)
    for column, cells in columns_of(section):
        if column >= len(heads):
            heads.append(Head(text="", meaning=Meaning.UNKNOWN if section.heads else _guess(column, cells)))
    if section.heads and len(section.heads) < len(heads):
        # cells without a head are told row by row
        heads = heads[: len(section.heads)]
    speeds = [head for head in heads if head.meaning is Meaning.SPEED]
    if len({(head.text, head.said) for head in speeds}) < len(speeds):
        raise InputError(
            f'two columns are named "{speeds[0].text}".',
            file=file,
            line=section.rows[0][0].number,
            hint='Name each for what sets it apart, for example "before;after".',
        )
    if speeds:
        return tuple(heads)
    if heads[0].meaning is Meaning.UNKNOWN and len(heads) > 1 and _counts_up(dict(columns_of(section)).get(0, [])):
        heads[0] = dataclasses.replace(heads[0], meaning=Meaning.SHOT)
    return _find_readings(section, heads, file)


def _find_readings(section: Section, heads: list[Head], file: str) -> tuple[Head, ...]:
    cells = dict(columns_of(section))
    open_columns = [column for column, head in enumerate(heads) if head.meaning is Meaning.UNKNOWN]
    numeric = [column for column in open_columns if _share(cells.get(column, []), is_number) > 0.0]
    plausible = [column for column in numeric if _share(cells[column], _is_reading) >= _SHARE]
    chosen = plausible or numeric
    first = section.rows[0][0]
    if len(chosen) > 1 and len(section.rows) > 1 and not all(heads[column].text for column in chosen):
        raise InputError(
            f"{len(chosen)} columns could be readings, and no line above names them.",
            file=file,
            line=first.number,
            hint='Put a line of names above, for example "before;after" or "shot;speed m/s".',
        )
    # a section of mere words, such as a title: each of its lines will be left out
    for column in chosen or open_columns[:1] or [0]:
        heads[column] = Head(text=heads[column].text, meaning=Meaning.SPEED, unit=heads[column].unit)
    return tuple(heads)


def _guess(column: int, cells: list[str]) -> Meaning:
    """Meaning of a column without a head, from cells that can mean only one thing."""
    if column == 0 and _counts_up(cells):
        return Meaning.SHOT
    for meaning in _TELLING:
        if cells and all(_tells(meaning, cell) for cell in cells):
            return meaning
    return Meaning.UNKNOWN


def _counts_up(cells: list[str]) -> bool:
    """Whether most cells count the shots: a word among them is a row that is none."""
    numbers = [int(cell) for cell in cells if cell.isascii() and cell.isdecimal() and len(cell) < 10]
    if 2 * len(numbers) <= len(cells):
        return False
    return numbers[0] <= 1 and all(later == earlier + 1 for earlier, later in itertools.pairwise(numbers))


def _tells(meaning: Meaning, cell: str) -> bool:
    if is_number(cell) or (any(sign.isdigit() for sign in cell) and not _WITH_UNIT.search(cell)):
        return False
    try:
        said_by(meaning, cell)
    except NotTaken:
        return False
    return True


def _share(cells: list[str], test: Callable[[str], bool]) -> float:
    return sum(map(test, cells)) / len(cells) if cells else 0.0


def _is_reading(cell: str) -> bool:
    for unit in ("m/s", "ft/s"):
        try:
            read_speed(cell, None, unit)
        except NotTaken:
            continue
        return True
    return False
