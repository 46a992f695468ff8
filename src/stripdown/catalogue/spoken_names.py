"""Which entry of the catalogue a person means: keys, names and codes in any case, however they are spaced."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType

from stripdown.errors import CatalogueError
from stripdown.tables.nearest import letters, near_names

_BEFORE_NO = frozenset({"no", "not", "never", "without"})


class SpokenNames:
    """Names of the entries of one file, and what they lead to."""

    def __init__(self, names: Mapping[str, Iterable[str]], *, file: str) -> None:
        by_letters: dict[str, str] = {}
        by_words: dict[tuple[str, ...], str] = {}
        spellings: dict[str, str] = {}
        for key, others in names.items():
            for name in (*others, key):  # the key last, so that messages offer names
                known = by_letters.setdefault(letters(name), key)
                if known != key:
                    raise CatalogueError(f'"{name}" is a name of {known} and of {key}.', file=file, field=f"{key}.also_called")
                by_words[_words(name)] = key
                spellings.setdefault(letters(name), name)
        self._by_letters = MappingProxyType(by_letters)
        self._by_words = MappingProxyType(by_words)
        self._spellings = MappingProxyType(spellings)
        self._longest = max((len(words) for words in by_words), default=0)

    def key_of(self, typed: str) -> str | None:
        """Find the entry of a name."""
        return self._by_letters.get(letters(typed))

    def named_in(self, text: str) -> tuple[str, ...]:
        """Find the entries that a sentence names: "wiped with IPA, no oil" names the alcohol and not the oil."""
        words, found, here = _words(text), [], 0
        while here < len(words):
            span = next((n for n in range(self._longest, 0, -1) if words[here : here + n] in self._by_words), 0)
            if span and not (here and words[here - 1] in _BEFORE_NO):
                found.append(self._by_words[words[here : here + span]])
            here += max(span, 1)
        return tuple(dict.fromkeys(found))

    def near(self, typed: str, *, most: int = 3) -> tuple[str, ...]:
        """Offer names that a mistyped one may have meant."""
        one_each: dict[str, str] = {}
        for like in near_names(typed, self._spellings, most=3 * most):
            one_each.setdefault(self._by_letters[like], self._spellings[like])
        return tuple(one_each.values())[:most]


def _words(text: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^\W_]+", text.casefold()))
