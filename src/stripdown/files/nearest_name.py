"""Which known name a mistyped one may have meant."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def nearest_name(name: str, known: Iterable[str]) -> str:
    """Offer the nearest known name, or all of them."""
    names = list(known)
    near = difflib.get_close_matches(name.lower(), [other.lower() for other in names], n=1, cutoff=0.55)
    meant = next((other for other in names if near and other.lower() == near[0]), None)
    return f"Did you mean {meant}?" if meant else f"Known are {', '.join(names)}."
