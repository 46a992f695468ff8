"""Which of the ways in which guns differ does this one have?"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from stripdown.errors import InputError
from stripdown.procedures.key_lists import key_list
from stripdown.tables.nearest import nearest_name


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One way in which a feature can be."""

    key: str
    name: str
    words: tuple[str, ...] = ()


Condition = Mapping[str, frozenset[str]]
"""Feature to the choices of which one must hold; empty holds always."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feature:
    """A way in which guns of one family differ."""

    key: str
    name: str
    choices: tuple[Choice, ...]
    defaults: tuple[tuple[Condition, str], ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Variation:
    """One choice for each feature.

    Parameters
    ----------
    choices
        Key of the choice by key of the feature, for every feature.
    name
        How it reads: the names of the choices.
    """

    choices: Mapping[str, str]
    name: str

    def __eq__(self, other: object) -> bool:
        """Two variations are the same if they choose the same."""
        return isinstance(other, Variation) and dict(self.choices) == dict(other.choices)

    def __hash__(self) -> int:
        """Hash of the choices."""
        return hash(frozenset(self.choices.items()))

    def satisfies(self, condition: Condition) -> bool:
        """Whether a condition holds.

        Parameters
        ----------
        condition
            Feature to the choices of which one must hold.

        Returns
        -------
        bool
        """
        return all(self.choices[feature] in allowed for feature, allowed in condition.items())


def choose_variation(features: Iterable[Feature], wanted: Variation | Mapping[str, str] | str | Iterable[str]) -> Variation:
    """Read a variation from what a person says of the gun."""
    all_features = tuple(features)
    if isinstance(wanted, Variation):
        wanted = wanted.choices
    chosen: dict[str, str] = {}
    for feature, choice in _told(all_features, wanted):
        if chosen.setdefault(feature.key, choice.key) != choice.key:
            raise InputError(
                f"the {feature.name} cannot be both {_named(feature, chosen[feature.key]).name} and {choice.name}.",
                field=feature.key,
                value=choice.key,
                hint="Keep the one that this gun has.",
            )
    names = []
    for feature in all_features:
        if feature.key not in chosen:
            chosen[feature.key] = _assumed(feature, chosen)
        names.append(_named(feature, chosen[feature.key]).name)
    return Variation({feature.key: chosen[feature.key] for feature in all_features}, ", ".join(names))


def told_choices(features: Iterable[Feature], wanted: Mapping[str, str] | str | Iterable[str]) -> Mapping[str, str]:
    """What a person says of the gun, without what is assumed: feature to choice."""
    return {feature.key: choice.key for feature, choice in _told(tuple(features), wanted)}


def all_variations(features: Iterable[Feature]) -> Iterator[Variation]:
    """Every combination of choices."""
    all_features = tuple(features)
    for choices in itertools.product(*(feature.choices for feature in all_features)):
        keys = {feature.key: choice.key for feature, choice in zip(all_features, choices, strict=True)}
        yield Variation(keys, ", ".join(choice.name for choice in choices))


def _told(features: tuple[Feature, ...], wanted: Mapping[str, str] | str | Iterable[str]) -> Iterator[tuple[Feature, Choice]]:
    if isinstance(wanted, Mapping):
        by_key = {_plain(feature.key): feature for feature in features}
        for name, value in wanted.items():
            feature = by_key.get(_plain(str(name)))
            if feature is None:
                raise InputError(
                    f'"{name}" is no feature in which guns differ.',
                    field=str(name),
                    value=value,
                    hint=nearest_name(str(name), [feature.key for feature in features]),
                )
            yield feature, _choice((feature,), str(value), field=feature.key)[1]
        return
    words = (
        [word for word in re.split(r"[,;+]", wanted) if word.strip()]
        if isinstance(wanted, str)
        else key_list("variation", wanted)
    )
    for word in words:
        yield _choice(features, word)


def _choice(features: tuple[Feature, ...], word: str, *, field: str = "variation") -> tuple[Feature, Choice]:
    plain = _plain(word)
    for feature in features:
        for choice in feature.choices:
            if plain in {_plain(choice.key), _plain(choice.name), *map(_plain, choice.words)}:
                return feature, choice
    known = [choice.key for feature in features for choice in feature.choices]
    raise InputError(f'"{word.strip()}" is no variation of a gun.', field=field, value=word, hint=nearest_name(word, known))


def _assumed(feature: Feature, chosen: Mapping[str, str]) -> str:
    for condition, choice in feature.defaults:
        if all(chosen.get(other) in allowed for other, allowed in condition.items()):
            return choice
    return feature.choices[0].key


def _named(feature: Feature, key: str) -> Choice:
    return next(choice for choice in feature.choices if choice.key == key)


def _plain(text: str) -> str:
    return re.sub(r"[\s_\-]+", " ", text.strip().lower())
