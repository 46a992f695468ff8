"""A TOML file as it lies on disk: its tables, its lines, and one clear word if it cannot be read."""

from __future__ import annotations

import hashlib
import math
import os
import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from stripdown.errors import InputError
from stripdown.tables.file_bytes import read_bytes
from stripdown.tables.toml_lines import TomlLines, find_lines

_LARGEST = 4_000_000  # bytes: a log of twenty thousand events is half of it
_HUGE = 10**15
_PLACE = re.compile(r" \(at (?:line (?P<line>\d+), column \d+|end of document)\)$")
_PLAINER = {
    "Cannot overwrite a value": ("a field is written twice.", "Keep one of the two lines."),
    "Cannot declare": ("a table is opened twice.", "Put its fields under one header."),
    "Invalid value": ("the value cannot be read.", 'Write text and values with units in quotes: bore = "23.8 mm".'),
    "Expected '=' after a key": ("a key stands without a value.", 'Write: bore = "23.8 mm".'),
    "Expected newline or end of document": (
        "something follows the value.",
        'Write values with units in quotes: bore = "23.8 mm".',
    ),
    "Exceeds the limit": ("a number has thousands of digits.", "Write a number with its unit, in quotes."),
    "Unterminated string": ("a quote is not closed.", 'Write: bore = "23.8 mm".'),
    "Illegal character": (
        "a text goes on over the end of its line, or holds a control character.",
        "Close the quote on the same line.",
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class TomlFile:
    """One TOML file."""

    path: str
    digest: str
    text: str
    document: dict[str, Any]

    @property
    def lines(self) -> TomlLines:
        """On which line what is said."""
        return find_lines(self.text)


def read_toml(path: str | os.PathLike[str], *, start: str = "Start from the file that `stripdown gun new` writes.") -> TomlFile:
    """Read a TOML file."""
    name = os.fspath(path)
    if not name:
        raise InputError("no file was named.", hint="Write the name of a TOML file.")
    folder = Path(name) / "x" if os.path.isdir(name) else Path(name)  # noqa: PTH112  takes any name, one with a null too
    content = read_bytes(name, most=_LARGEST, noun="a TOML file", missing=_siblings(folder))
    text = _decode(content, name)
    if not text.strip():
        raise InputError("the file is empty.", file=name, hint=start)
    return TomlFile(path=name, digest=hashlib.sha256(content).hexdigest(), text=text, document=parse_toml(text, name))


def parse_toml(text: str, file: str, *, error: type[InputError] = InputError) -> dict[str, Any]:
    """Read TOML, or say in plain words on which line it is none."""
    try:
        document = tomllib.loads(text)
        _refuse_absurd(document, text, file, error)
    except RecursionError:
        raise error("this is not TOML that can be read: brackets are nested too deep.", file=file) from None
    except InputError:
        raise
    except ValueError as reason:
        raise _not_toml(str(reason), text, file, error) from None
    else:
        return document


def _refuse_absurd(content: Any, text: str, file: str, error: type[InputError], where: tuple[str | int, ...] = ()) -> None:
    """Refuse numbers that no file of this kind can mean, wherever they stand."""
    if isinstance(content, dict | list):
        entries = content.items() if isinstance(content, dict) else enumerate(content)
        for name, entry in entries:
            _refuse_absurd(entry, text, file, error, (*where, name))
        return
    is_huge = isinstance(content, int) and abs(content) >= _HUGE
    if is_huge or (isinstance(content, float) and not math.isfinite(content)):
        why = f"has {len(str(content))} digits: no such number can be meant" if is_huge else f"= {content} is not a number"
        named = ".".join(str(part) for part in where if isinstance(part, str))
        hint = "Write a number with its unit, in quotes."
        raise error(f"{named} {why}.", field=named, hint=hint, file=file, line=find_lines(text).line(where))


def placed(error: InputError, file: str | None, line: int | None, hint: str | None = None) -> InputError:
    """The same mistake with its place in the file."""
    return type(error)(
        error.message,
        field=error.field,
        value=error.value,
        unit=error.unit,
        limits=error.limits,
        hint=hint or error.hint,
        file=file,
        line=line,
    )


def digest_together(digests: Iterable[tuple[str, str]]) -> str:
    """One digest for several files, by their names without folders."""
    lines = sorted(f"{Path(name).name} {digest}" for name, digest in digests if digest)
    return hashlib.sha256("\n".join(lines).encode()).hexdigest()


def _siblings(path: Path) -> str | None:
    """Name files that may have been meant."""
    try:
        names = sorted(near.name for near in path.parent.glob("*.toml"))[:5]
    except (OSError, ValueError):  # ValueError: a null character in the name
        return None
    return f"TOML files in that folder: {', '.join(names)}." if names else None


def _decode(content: bytes, name: str) -> str:
    try:
        text = content.decode("utf-8-sig")  # editors on some systems put a mark in front
    except UnicodeDecodeError as reason:
        line = content.count(b"\n", 0, reason.start) + 1
        raise InputError("this is not UTF-8 text.", file=name, line=line, hint="Save it as UTF-8 in the text editor.") from None
    return text.replace("\r\n", "\n")


def _not_toml(reason: str, text: str, name: str, error: type[InputError]) -> InputError:
    place = _PLACE.search(reason)
    line = int(place["line"]) if place and place["line"] else text.rstrip().count("\n") + 1
    bare = _PLACE.sub("", reason)
    for start, (plain, hint) in _PLAINER.items():
        if bare.startswith(start):
            return error(f"this is not TOML: {plain}", file=name, line=line, hint=hint)
    return error(f"this is not TOML: {bare}.", file=name, line=line)
