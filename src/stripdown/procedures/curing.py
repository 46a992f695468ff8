"""What was bonded, cleaned or painted and may not be ready yet: the log has days, and nobody here has a clock."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from stripdown.procedures.actions import Action
from stripdown.procedures.happenings import Happening
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import day_of
from stripdown.procedures.steps import Step, StepKind

_WORTH_SAYING = 1.0
"""Waits of the log that are told, in h: what dries in minutes is dry by the time that it is in the log."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Curing:
    """What has to cure first: why, in words, and the event and the work that it waits for."""

    words: str
    event: int
    work: str


def still_curing(procedure: Procedure, log: Iterable[Happening]) -> Mapping[Step, Curing]:
    """Steps that may not come before something in the log has cured."""
    waiting: dict[Step, Curing] = {}
    for happening in log:
        made = happening.event.check
        if made is not None:
            waiting.pop(Step(StepKind.MAKE, made), None)
        for action in _done(happening.procedure, happening):
            for order in procedure.order:
                if order.is_cure and order.first == Step(StepKind.DO, action.key):
                    waiting[order.then] = Curing(words=_words(action, happening), event=happening.event.number, work=action.key)
    return waiting


def _done(procedure: Procedure, happening: Happening) -> Iterable[Action]:
    """Work with a wait that an event did, by its name or by what it touched."""
    touched = {deed.touch for deed in happening.deeds}
    for action in procedure.actions.values():
        own = {touch for touch in action.touches if touch[0] in procedure.parts}
        if action.wait >= _WORTH_SAYING and own and own <= touched:
            yield action


def _words(action: Action, happening: Happening) -> str:
    event = happening.event
    day = f" on {day_of(event.when, with_year=False)}" if event.when is not None else ""
    return f"not before {action.wait:g} h have passed since event {event.number}{day} ({action.name}), {action.wait_for}"
