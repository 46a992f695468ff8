"""Moments of a shot that are worth marking on a curve, numbered, and lanes in which their numbers do not collide."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from stripdown.core.interior_ballistics.result import EventKind, Shot, Trace

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
    """Explain the numbers, in lines for a subtitle."""
    words = [f"{mark.number} {mark.words} ({mark.time * 1e3:.1f} ms)" for mark in marks]
    return [" · ".join(words[start : start + per_line]) for start in range(0, len(words), per_line)]


def value_at_time(shot: Shot, trace: Trace, time: float) -> float:
    """Read a trace of a shot at a moment between its samples."""
    after = int(np.searchsorted(shot.time, time, side="left"))
    if after == 0 or after == len(trace):
        return float(trace[min(after, len(trace) - 1)])
    start, end = shot.time[after - 1], shot.time[after]
    share = (time - start) / (end - start)
    return float(trace[after - 1] + share * (trace[after] - trace[after - 1]))


def lanes(positions: Sequence[float], gap: float) -> list[int]:
    """Put labels that would collide into lanes above each other."""
    taken: list[float] = []
    chosen = [0] * len(positions)
    for index in sorted(range(len(positions)), key=lambda index: positions[index]):
        place = positions[index]
        lane = next((lane for lane, last in enumerate(taken) if place - last >= gap), len(taken))
        taken[lane : lane + 1] = [place]
        chosen[index] = lane
    return chosen
