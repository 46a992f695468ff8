"""What an answer of the bench rests on, and what to beware of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stripdown.references import load_references
from stripdown.words.answer import Named, Sentence
from stripdown.words.numbers import grams

if TYPE_CHECKING:
    from stripdown.bench.gun import Gun
    from stripdown.core.part_condition.basis import Basis


def rests_on(basis: Basis) -> tuple[Named, ...]:
    """How well an answer is known, on what it rests, on whose word, and where it holds."""
    return (
        Named(key="footing", name="Footing", text=basis.footing),
        Named(key="place", name="Rests on", text=basis.place),
        Named(key="source", name="Source", text=load_references()[basis.source].cite() if basis.source else "none"),
        Named(key="holds_for", name="Holds for", text=basis.holds_for),
    )


def fired_title(gun: Gun | None, ball_mass: float) -> str:
    """Which gun was fired, and with which ball."""
    return f"{'' if gun is None else gun.shown_name}, {grams(ball_mass)} ball"


def notes(sentences: tuple[str, ...] | list[str]) -> tuple[Sentence, ...]:
    """What to know, one sentence each."""
    return tuple(Sentence(full=text) for text in sentences)
