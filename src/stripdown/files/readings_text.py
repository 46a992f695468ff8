"""From the bytes of a readings file to its lines, without comments and empty ones."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from stripdown.errors import InputError

LARGEST: Final = 2_000_000  # bytes; ten thousand readings with remarks are a quarter of it
_MOST_LINES: Final = 20_000
LONGEST: Final = 500
"""Letters of a line; a longer one holds no reading."""
_MARKS: Final = ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"\xef\xbb\xbf", "utf-8-sig"))
_BLANKS: Final = re.compile(r" {3,}")
# A lone "#" before a separator heads the column of shot numbers; before a number and a reading it is one.
_COMMENT: Final = re.compile(r"\s*(?:#(?!\s*[;,\t|]|\d{1,4}\s*[:;,\t|)]?\s*\d)|//|%)")
_NUMBERED: Final = re.compile(  # "#1 312 fps", "#1;312", "Shot 1: 98.2", "1) 98.2", "1. 98.2"
    r"\s*(?:(?:#|shot|round|no|nr)\.?\s*#?(\d{1,4})\s*[.:)]?(\s+(?=\d)|\s*(?=[;,\t|]\s*\S))|(\d{1,4})[.:)]\s+(?=\d))",
    re.IGNORECASE,
)
_RULE: Final = re.compile(r"[\s|+:;,=\-]*")
_REMARK: Final = re.compile(r"(?<=\S)\s+(?:#|//)\s.*$")


@dataclass(frozen=True, slots=True)
class Line:
    """One line that says something."""

    number: int
    text: str


def decode(content: bytes, name: str) -> tuple[str, tuple[str, ...]]:
    """Turn bytes into text."""
    encoding = next((encoding for mark, encoding in _MARKS if content.startswith(mark)), "utf-8")
    notes: tuple[str, ...] = ()
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError:
        text = content.decode("cp1252", errors="replace")
        notes = ("The file is not UTF-8; letters beyond the English ones were read as Western European.",)
    if "\0" in text:
        raise InputError("this is no text file.", file=name, hint="Export the readings as text or CSV.")
    return text, notes


def _number_alone(found: re.Match[str]) -> str:
    """The number of a shot without the signs about it, set off by two blanks where nothing else parts it from its reading."""
    return f"{found[1] or found[3]}{'' if found[2] == '' else '  '}"


def lines_of(text: str) -> tuple[Line, ...]:
    """Lines that say something."""
    found: list[Line] = []
    every = re.split(r"\r\n|\r|\n", text)
    if len(every) > _MOST_LINES:
        hint = f"At most {_MOST_LINES} are read: one reading a line."
        raise InputError(f"{len(every)} lines are no list of readings.", hint=hint)
    for number, raw in enumerate(every, start=1):
        if len(raw) > LONGEST:  # left out by who reads the line: nothing here may take longer than the line is long
            found.append(Line(number, raw))
            continue
        if _COMMENT.match(raw):
            continue
        said = _NUMBERED.sub(_number_alone, raw, count=1)
        bare = _REMARK.sub("", said) if any(sign.isdigit() for sign in said.partition("#")[0]) else said
        bare = _BLANKS.sub("  ", bare.strip(" \u00a0\ufeff\r\n"))
        if not _RULE.fullmatch(bare):
            found.append(Line(number, bare))
    return tuple(found)
