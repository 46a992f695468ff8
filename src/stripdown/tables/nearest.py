"""Which known name a mistyped one may have meant."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

_CUTOFF = 0.6
_AS_LIKE = 0.15  # a name that is less like than the best by more than this was not meant
_MANY = 24


def nearest_name(typed: object, known: Iterable[str]) -> str:
    """Offer the names that may have been meant; where none is near, all of a few, or three of many."""
    names = list(dict.fromkeys(known))
    near = near_names(str(typed), names)
    if near:
        return f"Did you mean {' or '.join(filter(None, (', '.join(near[:-1]), near[-1])))}?"
    if len(names) > _MANY:
        return f"Known are {', '.join(near_names(str(typed), names, cutoff=0.0))} and others."
    return f"Known {'is' if len(names) == 1 else 'are'} {', '.join(names)}."


def near_names(typed: str, known: Iterable[str], *, most: int = 3, cutoff: float = _CUTOFF) -> tuple[str, ...]:
    """Names that are written like a mistyped one in any case; else those that share a word with it."""
    names = list(dict.fromkeys(known))
    by_letters: dict[str, list[str]] = {}
    for name in names:
        by_letters.setdefault(letters(name), []).append(name)
    like = difflib.get_close_matches(letters(typed), by_letters, n=most, cutoff=cutoff)
    if like:
        likeness = [difflib.SequenceMatcher(None, one, letters(typed)).ratio() for one in like]
        near = [one for one, how in zip(like, likeness, strict=True) if how > likeness[0] - _AS_LIKE]
        return tuple(name for one in near for name in by_letters[one])[:most]
    words = _words(typed)
    shared = {name: len(words & _words(name)) for name in names}
    like_first = sorted(names, key=lambda name: (-shared[name], -difflib.SequenceMatcher(None, name, typed).ratio()))
    return tuple(name for name in like_first if shared[name])[:most]


def letters(text: str) -> str:
    """Only what tells names apart: letters and figures, in small ones."""
    return "".join(sign for sign in text.casefold() if sign.isalnum())


def _words(text: str) -> set[str]:
    return set("".join(sign if sign.isalnum() else " " for sign in text.casefold()).split())
