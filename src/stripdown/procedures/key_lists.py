"""A list of keys that somebody hands over: work, checks, parts, tools."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from stripdown.errors import InputError


def key_list(name: str, keys: Iterable[str]) -> tuple[str, ...]:
    """Keys in their order, each once; one text is one key, not its letters."""
    if isinstance(keys, str):
        return (keys,)
    hint = f'Write {name} = ["one", "two"].'
    handed: object = keys  # what it is said to be is not what a person may hand over
    if not isinstance(handed, Iterable) or isinstance(handed, Mapping | bytes):
        raise InputError(f"{name} must be a list of texts.", field=name, value=handed, hint=hint)
    found: dict[str, None] = {}
    for key in handed:
        if not isinstance(key, str):
            raise InputError(f"{name} holds {key!r}, which is no text.", field=name, value=key, hint=hint)
        found[key] = None
    return tuple(found)
