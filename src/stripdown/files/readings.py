"""Chronograph readings as a technician writes or exports them: text in, strings out, every line accounted for."""

from __future__ import annotations

import hashlib
import os
from dataclasses import dataclass, replace
from pathlib import PurePath
from typing import Final

from stripdown.bench.strings import LeftOut, ReadingString
from stripdown.core.shot_statistics.conditions import StringConditions, filled_in
from stripdown.errors import InputError, UnitError
from stripdown.files.readings_heads import NOTHING_SAID
from stripdown.files.readings_sections import find_sections
from stripdown.files.readings_strings import Gathered, gather
from stripdown.files.readings_text import LARGEST, decode, lines_of
from stripdown.files.readings_values import speed_unit
from stripdown.tables.file_bytes import read_bytes
from stripdown.tables.toml_file import placed


class NothingRead(InputError):
    """A file to be filled in, with no reading in it yet."""


_MANY: Final = 200  # shots; a string to judge a gun by has ten
_LETTERS: Final = 40  # of a line in a message


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """A readings file, understood.

    Parameters
    ----------
    path
        As it was asked for.
    digest
        SHA-256 of its bytes, hexadecimal.
    strings
        One or more, in the order in which they begin.
    left_out
        Lines from which nothing was taken, in the order of the file.
    notes
        How the file was understood where it could be understood otherwise.
    """

    path: str
    digest: str
    strings: tuple[ReadingString, ...]
    left_out: tuple[LeftOut, ...]
    notes: tuple[str, ...]


def load_readings(path: str | os.PathLike[str], *, unit: str | None = None, said: StringConditions = NOTHING_SAID) -> Readings:
    """Read a file of chronograph readings.

    Parameters
    ----------
    path
        The file.
    unit
        Unit of speeds for which the file names none, such as ``"ft/s"``; None for m/s.
    said
        How the strings were fired, where the file does not say.

    Returns
    -------
    Readings

    Raises
    ------
    InputError
        If there is no such file, it is no text, can be read in two ways, or holds no reading.
    UnitError
        If `unit` is no unit of speed.
    """
    name = os.fspath(path)
    content = read_bytes(name, most=LARGEST, noun="a list of readings", missing="Name a file with one reading a line.")
    text, notes = decode(content, name)
    readings = read_readings(text, file=name, unit=unit, said=said)
    return replace(readings, digest=hashlib.sha256(content).hexdigest(), notes=(*notes, *readings.notes))


def read_readings(text: str, *, file: str, unit: str | None = None, said: StringConditions = NOTHING_SAID) -> Readings:
    """Read chronograph readings from text."""
    bare_unit = None if unit is None else speed_unit(unit)
    if unit is not None and bare_unit is None:
        raise UnitError(f'"{unit}" is no unit of speed.', field="unit", value=unit, hint="Use m/s, ft/s, km/h or mph.")
    try:
        lines = lines_of(text)
    except InputError as mistake:
        raise placed(mistake, file, None) from None
    if not lines:
        raise _no_readings(text, file)
    if lines[0].text[0] in "{<":
        hint = "Export the readings as text or CSV, one reading a line."
        raise InputError(
            f'"{lines[0].text[:_LETTERS]}" gives no reading: this is no list.', file=file, line=lines[0].number, hint=hint
        )
    sections, settings_left_out = find_sections(lines, file)
    gathered = gather(sections, bare_unit=bare_unit, file=file)
    left_out = tuple(sorted((*settings_left_out, *gathered.left_out), key=lambda one: one.line))
    if not gathered.strings:
        raise _nothing_left(left_out, file) if left_out else _no_readings(text, file)
    strings = tuple(
        replace(string, conditions=filled_in(string.conditions, said), file=PurePath(file).name) for string in gathered.strings
    )
    return Readings(
        path=file,
        digest=hashlib.sha256(text.encode()).hexdigest(),
        strings=strings,
        left_out=left_out,
        notes=(*gathered.notes, *_of_length(gathered, file)),
    )


def _no_readings(text: str, file: str) -> InputError:
    """A file that begins with a remark is one to be filled in; any other should have had readings."""
    is_to_be_filled = text.lstrip("\ufeff \t\n").startswith("#")
    sort = NothingRead if is_to_be_filled else InputError
    return sort("the file has no readings.", file=file, hint="Write one reading a line, for example: 98.2 m/s")


def _nothing_left(left_out: tuple[LeftOut, ...], file: str) -> InputError:
    first = left_out[0]
    others = " Nor does any other line." if len(left_out) > 1 else ""
    return InputError(f'"{first.text}" gives no reading: {first.reason}{others}', file=file, line=first.line, value=first.text)


def _of_length(gathered: Gathered, file: str) -> list[str]:
    longest = max(len(string.speeds) for string in gathered.strings)
    if longest <= _MANY:
        return []
    return [f"{PurePath(file).name} has {longest} readings in one string: if they are several strings, name them in a column."]
