"""A readings file as sections: settings, heads of columns, rows."""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from stripdown.bench.strings import LeftOut
from stripdown.core.shot_statistics.conditions import StringConditions, filled_in
from stripdown.files.readings_heads import (
    NOTHING_SAID,
    Head,
    Meaning,
    Setting,
    read_conditions,
    read_head,
    read_setting,
    said_by,
    setting_of,
)
from stripdown.files.readings_statistics import statistic_named
from stripdown.files.readings_table import Parting, find_parting, split
from stripdown.files.readings_text import LONGEST, Line
from stripdown.files.readings_values import NotTaken, is_number, speed_unit

_MOST_CELLS = 64  # of a line
_LYING = 3  # readings behind a first cell, for a row to be a whole string
_SHOWN = 60  # letters of a line that is too long


@dataclass(slots=True, kw_only=True)
class Section:
    """Rows under the same settings and heads."""

    said: StringConditions = NOTHING_SAID
    label: str = ""
    unit: str | None = None
    heads: tuple[Head, ...] = ()
    rows: list[tuple[Line, tuple[str, ...]]] = field(default_factory=list)


def find_sections(lines: tuple[Line, ...], file: str) -> tuple[tuple[Section, ...], tuple[LeftOut, ...]]:
    """Part the lines of a file into sections."""
    too_long = f"it has more than {LONGEST} letters."
    long = [line for line in lines if len(line.text) > LONGEST]
    left_out = [LeftOut(line=line.number, text=f"{line.text[:_SHOWN]}…", reason=too_long) for line in long]
    lines = tuple(line for line in lines if len(line.text) <= LONGEST)
    table = [line for line in lines if read_setting(line.text) is None and read_conditions(line.text) is None]
    parting = find_parting(table, file)
    sections = [Section()]
    for line in lines:
        if line.text.lower().startswith("sep="):  # a spreadsheet's word to itself
            continue
        cells = split(line.text, parting)
        statistic = statistic_named(line.text)
        if statistic and not _is_in_a_named_string(cells, sections[-1].heads):
            left_out.append(no_shot(line, statistic))
            continue
        try:
            _take(line, cells, parting, sections)
        except NotTaken as reason:
            left_out.append(LeftOut(line=line.number, text=line.text, reason=str(reason)))
    with_rows = tuple(section for section in sections if section.rows)
    if parting is Parting.BLANKS:
        _join_remarks(with_rows)
    return with_rows, tuple(left_out)


def _join_remarks(sections: tuple[Section, ...]) -> None:
    """Where most lines are one cell, blanks part nothing: the other lines are one cell with something behind it."""
    for section in sections:
        alone = sum(len(cells) == 1 for _, cells in section.rows)
        if not section.heads and 2 * alone > len(section.rows):
            section.rows = [(line, (line.text,)) for line, _ in section.rows]


def no_shot(line: Line, statistic: str) -> LeftOut:
    """A line that is understood, and no shot."""
    return LeftOut(line=line.number, text=line.text, reason=f"it is the {statistic} of shots, and no shot.", is_no_shot=True)


def _is_in_a_named_string(cells: tuple[str, ...], heads: tuple[Head, ...]) -> bool:
    """Whether a word that could name a statistic names a string: it stands in that column, and its row is a shot's."""
    filled = {head.meaning for head, cell in zip(heads, cells, strict=False) if cell}
    return Meaning.LABEL in filled and (Meaning.SHOT in filled or all(head.meaning is not Meaning.SHOT for head in heads))


def _take(line: Line, cells: tuple[str, ...], parting: Parting, sections: list[Section]) -> None:
    if len(cells) > _MOST_CELLS:
        raise NotTaken(f"it has {len(cells)} cells; at most {_MOST_CELLS} are read.")
    if _is_row(cells, sections[-1].heads):
        sections[-1].rows.append((line, cells))
        return
    if _is_lying(cells):
        _lay_down(line, cells, sections)
        return
    settings = _settings(line.text, cells, parting)
    if settings:
        for setting in settings:
            _apply(setting, sections)
        return
    said = read_conditions(line.text)
    if said is not None:
        _say(said, sections)
        return
    is_first = not any(section.rows or section.heads for section in sections)
    heads = _heads(line.text, cells, parting, is_first=is_first)
    if heads:
        _begin(sections).heads = heads
        return
    sections[-1].rows.append((line, cells))


def _is_row(cells: tuple[str, ...], heads: tuple[Head, ...]) -> bool:
    """Whether a line belongs under heads, because a cell says what its head is about: a row whose reading is missing does."""
    if sum(map(bool, cells)) < 2:
        return False
    for head, cell in zip(heads, cells, strict=False):
        if head.text and head.text == cell:  # the heads once more
            continue
        try:
            if said_by(head.meaning, cell) != NOTHING_SAID:
                return True
        except NotTaken:
            continue
    return False


def _settings(text: str, cells: tuple[str, ...], parting: Parting) -> list[Setting]:
    """Settings of one line: ``key: value``, several of them parted by semicolons or bars, or pairs of cells."""
    parts = [part.strip() for part in re.split(r"[;|\t]", text) if part.strip()]
    several = [read_setting(part) for part in parts]
    if len(parts) > 1 and all(several):
        return [setting for setting in several if setting]
    setting = read_setting(text) or (None if parting is Parting.BLANKS else _two_cells(cells))
    return [] if setting is None else [setting]


def _is_lying(cells: tuple[str, ...]) -> bool:
    """Whether a row is a whole string: a first cell that says what it is, and readings behind it."""
    numbers = [cell for cell in cells[1:] if cell]
    if len(numbers) < _LYING or not all(map(is_number, numbers)) or not cells[0] or is_number(cells[0]):
        return False
    return read_head(cells[0]).meaning is Meaning.SPEED


def _lay_down(line: Line, cells: tuple[str, ...], sections: list[Section]) -> None:
    """Read a row that is a whole string as the column that it could be."""
    said = Section(said=sections[-1].said, unit=sections[-1].unit, heads=(read_head(cells[0]),))
    said.rows = [(line, (cell,)) for cell in cells[1:] if cell]
    sections += [said, Section(said=sections[-1].said, unit=sections[-1].unit)]


def _two_cells(cells: tuple[str, ...]) -> Setting | None:
    """A setting written as two cells of a spreadsheet, and not the heads of two columns."""
    filled = [cell for cell in cells if cell]
    if len(filled) != 2 or not cells[0] or is_number(cells[0]):
        return None
    setting = setting_of(*filled)
    if setting is None or read_head(filled[1]).meaning is Meaning.UNKNOWN:
        return setting
    # the second cell could be a head: it is a value if the first can have it
    if setting.meaning is Meaning.UNIT:
        return setting if speed_unit(setting.value) else None
    try:
        said = said_by(setting.meaning, setting.value)
    except NotTaken:
        return None
    return setting if said != NOTHING_SAID else None


def _heads(text: str, cells: tuple[str, ...], parting: Parting, *, is_first: bool) -> tuple[Head, ...]:
    """Heads of columns, if the line is one of heads: no cell is a number, and one is known or the table begins here."""
    if any(is_number(cell) for cell in cells):
        return ()
    if not is_first and any(_is_mistyped_number(cell) for cell in cells):
        return ()
    whole = read_head(text)
    if parting is Parting.BLANKS and whole.meaning is not Meaning.UNKNOWN:
        return (whole,)
    heads = tuple(read_head(cell) for cell in cells)
    known = any(head.meaning is not Meaning.UNKNOWN for head in heads)
    begins = is_first and parting is not Parting.BLANKS and sum(map(bool, cells)) > 1
    return heads if known or begins else ()


def _is_mistyped_number(cell: str) -> bool:
    """Whether a cell begins as a number and means nothing as a head, as ``3l0`` does: below the first line that is a slip."""
    return cell[:1].isdigit() and read_head(cell).meaning is Meaning.UNKNOWN


def _apply(setting: Setting, sections: list[Section]) -> None:
    if setting.meaning is Meaning.UNUSED:
        return
    if setting.meaning is Meaning.LABEL:
        _begin(sections).label = setting.value
    elif setting.meaning is Meaning.UNIT:
        unit = speed_unit(setting.value)
        if unit is None:
            raise NotTaken(f'"{setting.value}" is no unit of speed; m/s, ft/s, km/h and mph are.')
        _begin(sections).unit = unit
    else:
        _say(said_by(setting.meaning, setting.value), sections)


def _say(said: StringConditions, sections: list[Section]) -> None:
    # a thermometer read again is no new string
    only_warmer = said == dataclasses.replace(NOTHING_SAID, temperature=said.temperature)
    section = sections[-1] if only_warmer and sections[-1].said.temperature is None else _begin(sections)
    if section.said.is_of_reference and said.occasion is not None and said.gun is None:
        said = dataclasses.replace(said, gun="")  # "before" and "after" are of the gun that the file is about
    section.said = filled_in(said, section.said)


def _begin(sections: list[Section]) -> Section:
    """The section that follows: the present one as long as it has no rows, else a new one with the same settings."""
    if sections[-1].rows:
        sections.append(dataclasses.replace(sections[-1], rows=[]))
    return sections[-1]


def columns_of(section: Section) -> Iterator[tuple[int, list[str]]]:
    """Cells of each column of a section."""
    for column in range(max(len(cells) for _, cells in section.rows)):
        yield column, [cells[column] for _, cells in section.rows if column < len(cells) and cells[column]]
