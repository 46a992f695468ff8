"""What every print for people ends with: how it ended, what was computed, what was assumed, and what a prediction is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from stripdown.cli.terminal import NO_BREAK
from stripdown.core.interior_ballistics.result import Outcome

if TYPE_CHECKING:
    from stripdown.bench.gun import Assumed
    from stripdown.cli.shooting import Shooting

PREDICTION = "Predicted from the parts as described, not measured: the site's chronograph and marshal have the last word."
_LAWS = "laws."
_OUTCOMES = {
    Outcome.LEFT_MUZZLE: "the ball leaves the muzzle",
    Outcome.STAYED_IN_BARREL: "the ball stays in the barrel",
    Outcome.DID_NOT_MOVE: "the ball does not move",
    Outcome.TIMED_OUT: "the shot was given up before it ended",
    Outcome.NO_BALL: "fired without a ball",
}


def outcome_words(outcome: Outcome) -> str:
    """Say how a shot ended."""
    return _OUTCOMES[outcome]


def ended(shootings: Sequence[Shooting]) -> Iterator[str]:
    """Tell of shots that did not end as a shot should."""
    for shooting in shootings:
        if shooting.shot.outcome is not Outcome.LEFT_MUZZLE:
            yield f"{shooting.name}: {outcome_words(shooting.shot.outcome)}."


def remarked(shootings: Sequence[Shooting]) -> Iterator[str]:
    """Tell what was computed or replaced on the way, and where the model reaches its limits; each remark once."""
    remarks: dict[str, list[str]] = {}
    for shooting in shootings:
        for note in dict.fromkeys((*shooting.complete.notes, *shooting.shot.notes)):
            remarks.setdefault(note, []).append(shooting.name)
    for note, names in remarks.items():
        yield _owned(names, len(shootings), note)


def assumptions(shootings: Sequence[Shooting]) -> Iterator[str]:
    """Name what the files leave out and the catalogue filled in; guns that share all of it are told together."""
    lists: dict[str, list[str]] = {}
    for shooting in shootings:
        lists.setdefault(assumed_words(shooting.complete.assumed), []).append(shooting.name)
    for text, names in lists.items():
        if text:
            yield _owned(names, len(shootings), text)


def _owned(names: Sequence[str], count: int, text: str) -> str:
    return text if len(names) == count else f"{', '.join(names)}: {text}"


def assumed_words(entries: Sequence[Assumed]) -> str:
    """Name what the catalogue filled in, the gun's own dimensions one by one."""
    parts = [f"{entry.path} {entry.text}".replace(" ", NO_BREAK) for entry in entries if not entry.path.startswith(_LAWS)]
    laws = sum(entry.path.startswith(_LAWS) for entry in entries)
    sentences = []
    if parts:
        sentences.append(f"Assumed, because the file leaves it out: {', '.join(parts)}.")
    if laws:
        sentences.append(f"Also assumed: {laws} coefficient{'' if laws == 1 else 's'} of the model (--json lists all).")
    return " ".join(sentences)
