"""What every print for people ends with: what was assumed, and what a prediction is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from stripdown.cli.terminal import NO_BREAK

if TYPE_CHECKING:
    from stripdown.bench.gun import Assumed

PREDICTION = "Predicted from the parts as described, not measured: the site's chronograph and marshal have the last word."
_LAWS = "laws."


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
