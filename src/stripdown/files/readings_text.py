"""From the bytes of a readings file to its lines, without comments and empty ones."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from stripdown.errors import InputError

_LARGEST: Final = 5_000_000  # bytes; ten thousand readings with remarks are a tenth of it
_MARKS: Final = ((b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"), (b"\xef\xbb\xbf", "utf-8-sig"))
_COMMENT: Final = re.compile(r"\s*(?:#(?!\s*[;,\t|])|//|%)")  # a lone "#" before a separator heads the column of shot numbers
_REMARK: Final = re.compile(r"(?<=\S)\s+(?:#|//)\s.*$")


@dataclass(frozen=True, slots=True)
class Line:
    """One line that says something."""

    number: int
    text: str


def read_bytes(name: str) -> bytes:
    """Read a file."""
    try:
        content = Path(name).read_bytes()
    except FileNotFoundError:
        raise InputError("there is no such file.", file=name, value=name, hint="Name a file with one reading a line.") from None
    except (OSError, ValueError) as reason:  # ValueError: a null character in the name
        why = reason.strerror if isinstance(reason, OSError) and reason.strerror else str(reason)
        raise InputError(f"the file cannot be read: {why}.", file=name, value=name) from None
    if len(content) > _LARGEST:
        raise InputError(
            f"the file has {len(content) / 1e6:.0f} MB: that is no list of readings.",
            file=name,
            hint="One reading a line is enough.",
        )
    return content


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


def lines_of(text: str) -> tuple[Line, ...]:
    """Lines that say something."""
    found = []
    for number, raw in enumerate(re.split(r"\r\n|\r|\n", text), start=1):
        if _COMMENT.match(raw):
            continue
        bare = _REMARK.sub("", raw) if any(sign.isdigit() for sign in raw.partition("#")[0]) else raw
        bare = bare.strip(" \u00a0\ufeff\r\n")
        if bare.strip():
            found.append(Line(number, bare))
    return tuple(found)
