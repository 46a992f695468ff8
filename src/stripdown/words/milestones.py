"""Moments of a shot that are worth marking on a curve, numbered, and what is said of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stripdown.core.interior_ballistics.result import EventKind, Shot

_PORT_ENDS = (EventKind.PORT_1_ENDS, EventKind.PORT_2_ENDS, EventKind.PORT_3_ENDS)
_WORDS = {
    **dict.fromkeys(_PORT_ENDS, "seal past the port"),
    EventKind.BALL_STARTS: "ball starts",
    EventKind.PATCH_ENDS: "ball leaves the hop-up",
    EventKind.BALL_STOPS: "ball stops",
    EventKind.BALL_LEAVES_MUZZLE: "ball leaves the muzzle",
    EventKind.PISTON_LANDS: "piston lands",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Milestone:
    """One marked moment."""

    number: int
    words: str
    time: float


def milestones(shot: Shot) -> tuple[Milestone, ...]:
    """Choose the moments of a shot to mark: the first of each sort, of several ports the last."""
    first: dict[EventKind, float] = {}
    slots = zip(_PORT_ENDS, shot.parameters.cylinder.ports(), strict=True)
    blind = {kind for kind, slot in slots if slot.count == 0}  # a ring of no slots also has an edge that the seal passes
    for event in shot.events:
        if event.kind in _WORDS and event.kind not in blind:
            first.setdefault(event.kind, event.time)
    by_words = {_WORDS[kind]: time for kind, time in sorted(first.items(), key=lambda item: item[1])}
    in_order = sorted(by_words.items(), key=lambda item: item[1])
    return tuple(Milestone(number=number, words=words, time=time) for number, (words, time) in enumerate(in_order, start=1))


def key(marks: Sequence[Milestone], *, per_line: int = 3) -> list[str]:
    """Explain the numbers, a few to a line."""
    words = [f"{mark.number} {mark.words} ({mark.time * 1e3:.1f} ms)" for mark in marks]
    return [" · ".join(words[start : start + per_line]) for start in range(0, len(words), per_line)]


def marked(shots: Sequence[Shot]) -> list[str]:
    """Explain what is marked on the curves of one shot, or of several."""
    if len(shots) == 1:
        return key(milestones(shots[0]))
    marks = sorted((mark for shot in shots for mark in milestones(shot)), key=lambda mark: mark.time)
    return [f"dots: {', '.join(dict.fromkeys(mark.words for mark in marks))}"]
