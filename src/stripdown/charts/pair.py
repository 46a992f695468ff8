"""One shot, or two side by side."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stripdown.core.interior_ballistics.result import Shot

PAIR = 2
_LONGEST = 22  # characters beside a bar or above a column


def names_apart(shots: Sequence[Shot], names: Sequence[str]) -> None:
    """Refuse what a picture of one or two shots cannot tell apart."""
    if not 1 <= len(shots) <= PAIR or len(names) != len(shots) or len(set(names)) != len(names):
        message = f"one or two shots with a name of its own each are needed, got {len(shots)} called {list(names)}"
        raise ValueError(message)


def short_names(names: Sequence[str]) -> list[str]:
    """Leave out what all names begin and end with: "Rack 7, healthy" and "Rack 7, as found" are "healthy" and "as found"."""
    words = [name.split() for name in names]
    ahead = _shared(words) if len(names) > 1 else 0
    behind = _shared([each[ahead:][::-1] for each in words]) if len(names) > 1 else 0
    bare = [" ".join(each[ahead : len(each) - behind]).strip(",;:() ") for each in words]
    short = [_cut(name) for name in (bare if all(bare) else names)]
    return short if len(set(short)) == len(short) else [f"no. {number}" for number in range(1, len(names) + 1)]


def _cut(name: str) -> str:
    return name if len(name) <= _LONGEST else f"{name[: _LONGEST - 1].rstrip()}…"


def _shared(words: Sequence[Sequence[str]]) -> int:
    """How many first words all have in common."""
    return sum(1 for _ in itertools.takewhile(lambda same: len(set(same)) == 1, zip(*words, strict=False)))
