"""Which known name a mistyped one may have meant."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping

_CUTOFF = 0.6
_AS_LIKE = 0.15  # a name that is less like than the best by more than this was not meant
_MANY = 24
_WORD_LIKE = 0.72  # a typed word that is less like every word of the entries is none of them
_ENOUGH = 0.55  # share of the typed words that an entry must have to be offered
_SMALL = {"a", "an", "the", "of", "and", "on", "its", "s"}


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


def nearest_entry(typed: object, entries: Mapping[str, str]) -> str:
    """Offer the keys that may have been meant, each with what it is called: found by names, words and keys."""
    near = near_entries(str(typed), entries)
    if not near:
        return nearest_name(typed, entries)
    *others, last = [key if plain_words(entries[key]) == plain_words(key) else f"{key} ({entries[key]})" for key in near]
    return f"Did you mean {' or '.join(filter(None, (', '.join(others), last)))}?"


def near_entries(typed: str, entries: Mapping[str, str], *, most: int = 3) -> tuple[str, ...]:
    """Keys of the entries that have most of the typed words, mistyped ones too, in key or name, and the fewest others."""
    told = {key: (_telling(key), _telling(name)) for key, name in entries.items()}
    known = {word for both in told.values() for words in both for word in words}
    wanted = [near[0] if (near := _like(word, known)) else word for word in _telling(typed)]
    scores: dict[str, float] = {}
    for key, both in told.items():
        called = [(words, len(set(wanted) & set(words))) for words in both if words and wanted]
        if max((shared / len(wanted) for _, shared in called), default=0.0) >= _ENOUGH:
            scores[key] = max(2.0 * shared / (len(wanted) + len(words)) for words, shared in called)
    best = sorted(scores, key=lambda key: -scores[key])
    return tuple(key for key in best if scores[key] > scores[best[0]] - _AS_LIKE)[:most]


def plain_words(text: str) -> str:
    """Words as one says them: small letters, no articles, no signs between them."""
    return " ".join(word for word in _words_of(text) if word not in {"the", "a", "an"})


def _telling(text: str) -> list[str]:
    return [word for word in dict.fromkeys(_words_of(text)) if word not in _SMALL]


def _words_of(text: str) -> list[str]:
    whole = text.casefold().replace("'s", " s").replace("\u2019s", " s")
    return "".join(sign if sign.isalnum() or sign in ".+" else " " for sign in whole).replace(". ", " ").rstrip(".").split()


def _like(word: str, known: set[str]) -> list[str]:
    """The word itself if it is known, else the one that is written most like it."""
    return [word] if word in known else difflib.get_close_matches(word, sorted(known), n=1, cutoff=_WORD_LIKE)


def letters(text: str) -> str:
    """Only what tells names apart: letters and figures, in small ones."""
    return "".join(sign for sign in text.casefold() if sign.isalnum())


def _words(text: str) -> set[str]:
    return set("".join(sign if sign.isalnum() else " " for sign in text.casefold()).split())
