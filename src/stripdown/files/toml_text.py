"""TOML as a person would write it: a quoted text, a table with its fields below each other."""

from __future__ import annotations

import datetime
import json
from collections.abc import Iterator, Mapping


def quoted(words: str) -> str:
    """A TOML string; JSON escapes what TOML forbids, but for the delete character."""
    writable = words.encode("utf-8", "replace").decode("utf-8")
    return json.dumps(writable, ensure_ascii=False).replace("\x7f", "\\u007f")


def list_entry(table: str, fields: Mapping[str, object]) -> Iterator[str]:
    """Lines of one table of a list."""
    yield f"[[{table}]]"
    yield from (f"{name} = {_value(value)}" for name, value in fields.items())


def _value(value: object) -> str:
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, datetime.datetime):
        return value.isoformat(timespec="seconds")
    if isinstance(value, datetime.date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{name} = {_value(one)}' for name, one in value.items())} }}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(_value, value))}]"
    return str(value)
