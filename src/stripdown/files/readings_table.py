"""How a readings file parts its cells: by tab, semicolon, bar, comma or blanks; and whether its comma is a decimal sign."""

from __future__ import annotations

import csv
import enum
import itertools
import re
from collections.abc import Sequence
from typing import Final

from stripdown.errors import InputError
from stripdown.files.readings_text import Line
from stripdown.files.readings_values import SLOWEST

_COMMA_NUMBER: Final = re.compile(r"(\d{1,9}),(\d{1,9})\s*([^\d,;]*)")
_NUMBER: Final = re.compile(r"[+\-\u2212]?(?:\d+(?:[.,]\d+)?|[.,]\d+)")
_UNITS: Final = frozenset(
    [
        "m/s",
        "mps",
        "ft/s",
        "fps",
        "km/h",
        "mph",
        "g",
        "mg",
        "kg",
        "m",
        "cm",
        "mm",
        "ft",
        "in",
        "yd",
        "degc",
        "°c",
        "c",
        "degf",
        "°f",
        "f",
    ]
)


class Parting(enum.Enum):
    """What stands between two cells of a line."""

    TAB = "\t"
    SEMICOLON = ";"
    BAR = "|"
    COMMA = ","
    BLANKS = " "


def find_parting(lines: Sequence[Line], file: str) -> Parting:
    """Find out how a file parts its cells: the lines with numbers say it, if there are such, and not a title above them."""
    with_digits = [line for line in lines if any(sign.isdigit() for sign in line.text)]
    lines = with_digits or lines
    for parting in (Parting.TAB, Parting.SEMICOLON, Parting.BAR):
        if 2 * sum(parting.value in line.text for line in lines) >= max(len(lines), 1):
            return parting
    with_comma = [line for line in lines if "," in line.text]
    if not with_comma:
        return Parting.BLANKS
    numbers = [_COMMA_NUMBER.fullmatch(line.text) for line in with_comma]
    if not all(numbers):
        return Parting.COMMA
    return _decimal_or_column([number for number in numbers if number], with_comma[0], file)


def split(text: str, parting: Parting) -> tuple[str, ...]:
    """Part a line into cells."""
    if parting is not Parting.BLANKS:
        try:
            row = next(csv.reader([text], delimiter=parting.value, skipinitialspace=True), [])
        except csv.Error:  # a quote that never closes over a line too long for a table
            row = text.split(parting.value)
        return tuple(cell.strip(" \u00a0\t") for cell in row)
    if re.search(r"\S {2,}\S", text):
        return tuple(cell.strip(' "') for cell in re.split(r" {2,}", text))
    cells: list[str] = []
    for word in text.split():
        belongs = word.startswith(("(", "[")) or word.lower() in _UNITS
        if cells and belongs and (word[0] in "([" or _NUMBER.fullmatch(cells[-1])):
            cells[-1] = f"{cells[-1]} {word}"
        else:
            cells.append(word.strip('"'))
    return tuple(cells)


def _decimal_or_column(numbers: list[re.Match[str]], first: Line, file: str) -> Parting:
    """Every comma stands between digits, one a line: a decimal sign, unless the first parts count the shots."""
    wholes = [int(number[1]) for number in numbers]
    counts_up = all(later == earlier + 1 for earlier, later in itertools.pairwise(wholes))
    as_columns = counts_up and all(float(number[2]) >= SLOWEST for number in numbers)
    as_decimals = all(whole >= SLOWEST for whole in wholes)
    if as_columns and as_decimals and len(numbers) > 1:
        raise InputError(
            f'"{first.text}" can be read in two ways: as {first.text.replace(",", ".")}, or as shot and reading.',
            file=file,
            line=first.number,
            hint="Write a point for the decimal sign, or a semicolon between shot and reading.",
        )
    # one number a line is not parted at all
    return Parting.COMMA if as_columns and not as_decimals else Parting.BLANKS
