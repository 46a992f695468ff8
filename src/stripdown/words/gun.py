"""What is said of a gun wherever it is fired by the model: what was assumed of it, how a shot ended, what a prediction is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stripdown.core.interior_ballistics.result import Outcome
from stripdown.words.answer import Sentence

if TYPE_CHECKING:
    from stripdown.bench.gun import Assumed

PREDICTION = Sentence(
    key="prediction",
    full="Predicted from the parts as described, not measured: the site's chronograph and marshal have the last word.",
)
_LAWS = "laws."
_NO_BREAK = "\u00a0"
_OUTCOMES = {
    Outcome.LEFT_MUZZLE: "the ball leaves the muzzle",
    Outcome.STAYED_IN_BARREL: "the ball stays in the barrel",
    Outcome.DID_NOT_MOVE: "the ball does not move",
    Outcome.TIMED_OUT: "the shot was given up before it ended",
    Outcome.NO_BALL: "fired without a ball",
}


def outcome_words(outcome: Outcome) -> str:
    """Say how a shot ended for the ball."""
    return _OUTCOMES[outcome]


def assumed_sentence(entries: Sequence[Assumed]) -> Sentence | None:
    """Name what the catalogue filled in, the gun's own dimensions one by one; in short, how many there are. None for nothing."""
    parts = [f"{entry.path} {entry.text}".replace(" ", _NO_BREAK) for entry in entries if not entry.path.startswith(_LAWS)]
    laws = sum(entry.path.startswith(_LAWS) for entry in entries)
    if not entries:
        return None
    full = [f"Assumed, because the gun's file leaves it out: {', '.join(parts)}."] if parts else []
    if laws:
        full.append(f"{'Also assumed' if parts else 'Assumed'}: {_coefficients(laws)} as the catalogue has them.")
    counts = [f"{len(parts)} of the gun's dimensions"] if parts else []
    counts += [_coefficients(laws)] if laws else []
    return Sentence(
        key="assumed",
        full=" ".join(full),
        short=f"Assumed, because the gun's file leaves them out: {' and '.join(counts)}.",
        about=tuple(entry.path for entry in entries),
        act="list_assumed",
    )


def _coefficients(count: int) -> str:
    return f"{count} coefficient{'' if count == 1 else 's'} of the model"
