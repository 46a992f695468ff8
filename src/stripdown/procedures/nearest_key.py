"""Which known key a mistyped one may have meant."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable

_MANY = 12


def nearest_key(name: str, known: Iterable[str]) -> str:
    """Offer the nearest known keys, or all of a few.

    Parameters
    ----------
    name
        What was written.
    known
        Keys that would be right.

    Returns
    -------
    str
        One sentence.
    """
    keys = list(dict.fromkeys(known))
    plain = re.sub(r"[\s\-]+", "_", name.strip().lower())
    near = difflib.get_close_matches(plain, keys, n=3, cutoff=0.6)
    if not near:
        words = set(plain.split("_"))
        near = sorted((key for key in keys if words & set(key.split("_"))), key=lambda key: -len(words & set(key.split("_"))))[:3]
    if near:
        return f"Nearest known: {', '.join(near)}."
    return f"Known are {', '.join(keys)}." if len(keys) <= _MANY else "None that is known is near it."
