"""Which known key a mistyped one may have meant."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable

_MANY = 24
_OFFERED = 3


def nearest_key(name: str, known: Iterable[str]) -> str:
    """Offer the nearest known keys, or all of a few; of many where none is near, three that are not."""
    keys = list(dict.fromkeys(known))
    near = near_keys(name, keys)
    if not near and len(keys) > _MANY:
        near = tuple(difflib.get_close_matches(_plain(name), keys, n=_OFFERED, cutoff=0.0))
    return f"Nearest known: {', '.join(near)}." if near else f"Known are {', '.join(keys)}."


def near_keys(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """Keys that are like a mistyped one, or share a word with it."""
    keys = list(dict.fromkeys(known))
    near = difflib.get_close_matches(_plain(name), keys, n=_OFFERED, cutoff=0.6)
    if not near:
        words = set(_plain(name).split("_"))
        shared = {key: len(words & set(key.split("_"))) for key in keys}
        near = sorted((key for key in keys if shared[key]), key=lambda key: -shared[key])[:_OFFERED]
    return tuple(near)


def _plain(name: str) -> str:
    return re.sub(r"[\s\-]+", "_", name.strip().lower())
