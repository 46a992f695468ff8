"""What is said of a gun as a store of energy: what is known of it, and what comes first for that."""

from __future__ import annotations

from collections.abc import Iterator

from stripdown.procedures.energy import Energy, Spring
from stripdown.words.answer import Sentence


def energy_sentences(energy: Energy) -> Iterator[Sentence]:
    """Say the three facts, each only where it asks for something first."""
    troubles = "; ".join(trouble.says for trouble in energy.troubles)
    if troubles:
        no_shot = any(trouble.keeps_from_running for trouble in energy.troubles)
        then = ": it is not fired before that is mended." if no_shot else "."
        keys = tuple(trouble.key for trouble in energy.troubles)
        yield Sentence(key="troubles", full=f"What is the matter: {troubles}{then}", about=keys)
    if energy.is_not_yet_run:
        said = (
            "Closed and not yet run, for all that is known: pack and polarity are looked at, and first power comes before a shot."
        )
        yield Sentence(key="not_yet_run", full=said)
    if energy.needs_rod:
        yield Sentence(key="needs_rod", full="A ball may be stuck in the barrel: a rod goes through before the first shot.")
    if energy.has_run:
        spring = {
            Spring.RELAXED: "Chamber unknown since it ran",
            Spring.UNKNOWN: "Chamber and spring unknown",
            Spring.DRAWN: "Chamber unknown, and the spring may be drawn",
        }
        said = f"{spring[energy.spring]}: cleared and made safe before anything is opened."
        yield Sentence(key="spring", full=said)
