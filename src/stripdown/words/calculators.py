"""What each calculator says: for each key one answer, the same in a job, on its own command, and later on a page."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from stripdown.bench.calculators import CALCULATORS, Asked
from stripdown.quantities import leaves, value_at
from stripdown.units import show
from stripdown.words.answer import Answer, Sentence
from stripdown.words.bench import OF_BENCH, PRICE_OF_PAD
from stripdown.words.ratings import OF_RATINGS
from stripdown.words.seals import OF_SEALS, PRICE_OF_LEAK
from stripdown.words.shims import OF_SHIMS

if TYPE_CHECKING:
    from stripdown.studies.calculators import Answered
    from stripdown.units import Scale

    _Says = Callable[[Answered, Scale], Answer]

WORDS: Final[Mapping[str, _Says]] = MappingProxyType({**OF_SHIMS, **OF_BENCH, **OF_SEALS, **OF_RATINGS})
"""Answer of each calculator, by its key."""
WORDS_OF_PRICES: Final[Mapping[str, _Says]] = MappingProxyType({**PRICE_OF_PAD, **PRICE_OF_LEAK})
"""What an answer costs a gun, by the same keys."""

_OF_READINGS: Final = {"string": "what a string says", "compare": "before and after", "verdict": "against the limit"}


def calculator_answer(answered: Answered, *, scale: Scale = "metric") -> Answer:
    """Say what a calculator answered; what it costs a gun, if one was fired, is said beside it."""
    said = WORDS[answered.key](answered, scale)
    said = dataclasses.replace(said, title=said.title or _title(answered), notes=(*_assumed(answered.asked), *said.notes))
    price = WORDS_OF_PRICES.get(answered.key)
    if price is None or answered.cost is None:
        return said
    return Answer(key=said.key, title="", parts=(said, price(answered, scale)))


def step_calculator(key: str) -> str:
    """What a step leads to: a calculator, or what is asked with chronograph readings."""
    return CALCULATORS[key].name if key in CALCULATORS else _OF_READINGS[key]


def answers_of_job(answered: Sequence[Answered]) -> tuple[Answer, ...]:
    """What the calculators say to a job, each with the key of its own picture, if it has one."""
    return tuple(
        dataclasses.replace(said, key=key, pictures=(key,) if said.pictures else ()) for key, _, said in keyed_answers(answered)
    )


def keyed_answers(answered: Sequence[Answered]) -> Iterator[tuple[str, Answered, Answer]]:
    """Each answer of a job with a key of its own: that of the calculator, numbered where there may be several."""
    for number, one in enumerate(answered, start=1):
        yield (f"{one.key}_{number}" if CALCULATORS[one.key].is_list else one.key), one, calculator_answer(one)


def _title(answered: Answered) -> str:
    name = CALCULATORS[answered.key].name
    said = f"{name}, {answered.asked.name}" if answered.asked.name else name
    return f"{said[:1].upper()}{said[1:]}"


def _assumed(asked: Asked) -> tuple[Sentence, ...]:
    """What a job leaves out and is as usual."""
    if not asked.assumed:
        return ()
    quantities = {leaf.path: leaf.quantity for leaf in leaves(type(asked.record)) if leaf.quantity is not None}
    words = [f"a {quantities[path].label} of {show(value_at(asked.record, path), quantities[path])}" for path in asked.assumed]
    full = f"Assumed as usual (common practice, no source): {' and '.join(words)}."
    return (Sentence(key="assumed_usual", full=full, about=asked.assumed),)
