"""On which line a TOML file says what: the standard reader keeps no line numbers."""

from __future__ import annotations

import functools
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

Path = tuple[str | int, ...]
"""Where a value stands: names of tables and keys, and an index for each table of an array."""

_KEY = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')"""
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_DOTTED = rf"{_KEY}(?:[ \t]*\.[ \t]*{_KEY})*"
_HEADER = re.compile(rf"[ \t]*(?P<open>\[\[?)[ \t]*(?P<key>{_DOTTED})[ \t]*\]")
_ASSIGNMENT = re.compile(rf"[ \t]*(?P<key>{_DOTTED})[ \t]*=[ \t]*")
_TOKEN = re.compile(
    r'''"""(?:[^\\]|\\.)*?"{3,5}'''  # several lines, escapes allowed; may end in quotes of its own
    r"""|'''.*?'{3,5}"""
    r'''|"(?:[^"\\\n]|\\.)*"'''
    r"""|'[^'\n]*'"""
    r"|\#[^\n]*"
    r"|.",
    re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class TomlLines:
    """Lines of a TOML text, counted from one."""

    tables: Mapping[Path, int]
    keys: Mapping[Path, int]
    inline: frozenset[Path]
    first_inside: Mapping[Path, int]

    def line(self, path: Path) -> int | None:
        """Line of a key or table; else of the first thing inside it; else of the nearest table around it."""
        own = self.keys.get(path) or self.tables.get(path) or self.first_inside.get(path)
        around = (path[:end] for end in range(len(path) - 1, 0, -1))
        return own or next((line for one in around if (line := self.keys.get(one) or self.tables.get(one))), None)


@functools.lru_cache(maxsize=16)  # a file is asked for its lines once for every mistake
def find_lines(text: str) -> TomlLines:
    """Find the line of every header and assignment."""
    tables: dict[Path, int] = {}
    keys: dict[Path, int] = {}
    inline: set[Path] = set()
    lengths: dict[Path, int] = {}
    table: Path = ()
    at, seen, line = 0, 0, 1
    while at < len(text):
        line += text.count("\n", seen, at)
        seen = at
        if header := _HEADER.match(text, at):
            table = _header_path(header, lengths)
            tables.setdefault(table, line)
            at = _end_of_value(text, header.end())
        elif assignment := _ASSIGNMENT.match(text, at):
            path = (*table, *_names(assignment["key"]))
            keys[path] = line
            end = _end_of_value(text, assignment.end())
            if text[assignment.end() : end].lstrip("[ \t\n").startswith("{"):
                inline.add(path)
            at = end
        else:  # blank or comment
            at = _end_of_value(text, at)
    first_inside: dict[Path, int] = {}
    for path, line in (*tables.items(), *keys.items()):
        for end in range(1, len(path)):
            first_inside[path[:end]] = min(line, first_inside.get(path[:end], line))
    return TomlLines(MappingProxyType(tables), MappingProxyType(keys), frozenset(inline), MappingProxyType(first_inside))


def _header_path(header: re.Match[str], lengths: dict[Path, int]) -> Path:
    """Path of a table header; each name that is an array of tables is followed by its last index."""
    path: Path = ()
    *outer, last = _names(header["key"])
    for name in outer:
        path = (*path, name)
        if path in lengths:
            path = (*path, lengths[path] - 1)
    path = (*path, last)
    if header["open"] == "[[":
        lengths[path] = lengths.get(path, 0) + 1
        path = (*path, lengths[path] - 1)
    return path


def _names(dotted: str) -> tuple[str, ...]:
    """Names of a dotted key, quotes and escapes resolved by the standard reader."""
    if _BARE.fullmatch(dotted):
        return (dotted,)
    names: list[str] = []
    here: object = tomllib.loads(f"{dotted} = 0")
    while isinstance(here, dict):
        name = next(iter(here))
        names.append(name)
        here = here[name]
    return tuple(names)


def _end_of_value(text: str, at: int) -> int:
    """Position after the line feed that ends the statement, brackets and strings skipped."""
    depth = 0
    while token := _TOKEN.match(text, at):
        at = token.end()
        match token[0]:
            case "[" | "{":
                depth += 1
            case "]" | "}":
                depth -= 1
            case "\n" if depth <= 0:
                break
            case _:
                pass
    return at
