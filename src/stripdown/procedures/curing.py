"""What was bonded, cleaned or painted and may not be ready yet, and what did not wait for it: the log has days or moments."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from stripdown.procedures.actions import Action
from stripdown.procedures.happenings import Happening, steps_of
from stripdown.procedures.moments import When, day_of, hours_between
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind

_WORTH_SAYING = 1.0
"""Waits of the log that are told, in h: what dries in minutes is dry by the time that it is in the log."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Curing:
    """What has to cure first: the event and the work that it waits for, and how long.

    ``words`` say why; they are empty where it is not worth saying, or where the log shows that the time is over.
    """

    words: str
    event: int
    work: str
    hours: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TooSoon:
    """An event that did not wait for what had to cure before it."""

    event: int
    step: Step
    since: int
    work: str
    hours: float
    passed: float


def still_curing(
    procedure: Procedure, log: Iterable[Happening], *, hours: Mapping[int, float] | None = None
) -> Mapping[Step, Curing]:
    """Steps that may not come before something in the log has cured; `hours` by event are those of an adhesive that it names."""
    everything = tuple(log)
    now = next((happening.event.when for happening in reversed(everything) if happening.event.when is not None), None)
    waiting: dict[Step, tuple[Action, Happening]] = {}
    for happening in everything:
        for step in steps_of(happening.procedure, happening):
            waiting.pop(step, None)
        for step, action in _begun(procedure, happening):
            waiting[step] = (action, happening)
    return {step: _curing(action, happening, now, hours or {}) for step, (action, happening) in waiting.items()}


def too_soon(procedure: Procedure, log: Iterable[Happening], *, hours: Mapping[int, float] | None = None) -> tuple[TooSoon, ...]:
    """Events that by the log came before what they had to wait for was cured."""
    waiting: dict[Step, dict[str, Happening]] = {}
    found = []
    for happening in log:
        for step in steps_of(happening.procedure, happening):
            for work, done in waiting.pop(step, {}).items():
                needed = (hours or {}).get(done.event.number, done.procedure.actions[work].wait)
                passed = _at_most(done.event.when, happening.event.when)
                if passed is not None and passed < needed and needed >= _WORTH_SAYING:
                    found.append(
                        TooSoon(
                            event=happening.event.number,
                            step=step,
                            since=done.event.number,
                            work=work,
                            hours=needed,
                            passed=passed,
                        )
                    )
        for step, action in _begun(procedure, happening):
            waiting.setdefault(step, {})[action.key] = happening
    return tuple(found)


def _begun(procedure: Procedure, happening: Happening) -> Iterator[tuple[Step, Action]]:
    """Steps that wait for what an event did, each with the work."""
    for action in _done(happening.procedure, happening):
        first = Step(StepKind.DO, action.key)
        yield from ((order.then, action) for order in procedure.order if order.is_cure and order.first == first)


def _done(procedure: Procedure, happening: Happening) -> Iterator[Action]:
    """Work with a wait that an event did, by its name or by what it touched."""
    touched = {deed.touch for deed in happening.deeds}
    for action in procedure.actions.values():
        own = {touch for touch in action.touches if touch[0] in procedure.parts}
        if action.wait > 0.0 and own and own <= touched:
            yield action


def _curing(action: Action, happening: Happening, now: When | None, hours: Mapping[int, float]) -> Curing:
    event = happening.event
    needed = hours.get(event.number, action.wait)
    is_over = event.when is not None and now is not None and hours_between(event.when, now)[0] >= needed
    day = f" on {day_of(event.when, with_year=False)}" if event.when is not None else ""
    words = f"not before {needed:g} h have passed since event {event.number}{day} ({action.name}), {action.wait_for}"
    is_said = needed >= _WORTH_SAYING and not is_over
    return Curing(words=words if is_said else "", event=event.number, work=action.key, hours=needed)


def _at_most(earlier: When | None, later: When | None) -> float | None:
    """Hours between two events at most; None if nobody wrote both down."""
    if earlier is None or later is None:
        return None
    least, most = hours_between(earlier, later)
    return most if least == most else math.nextafter(most, 0.0)  # a day ends before the next begins
