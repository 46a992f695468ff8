"""What do the words of a person mean: which part, check, work or step, by its key, its name or its printed line?"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TypeVar

from stripdown.procedures.events import AS_FOUND, MOVES, Event, FluidOn
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind
from stripdown.tables.nearest import plain_words

_T = TypeVar("_T")
_PRINTED = re.compile(r"\A\s*(?:\[ \]\s*)?(?:\d+\s+)?(?P<name>.*?)\s*(?:\([^()]*\)\s*)?(?:\[(?P<key>\w+:\w+)\]\s*)?\Z", re.DOTALL)
"""A step as a plan prints it: box and number, name, purpose, key."""


def part_named(procedure: Procedure, words: str) -> str:
    """Key of the part that is called so; the words themselves if none is."""
    return words if words in procedure.parts else _called(procedure).parts.get(_plain(words), words)


def step_named(procedure: Procedure, words: str) -> Step | None:
    """The step that is called so, by its key with or without its kind, its name, or its printed line; None if none is."""
    called = _called(procedure)
    printed = _PRINTED.match(words)
    said = (words, *(() if printed is None else (printed["key"] or "", printed["name"])))
    return next((step for one in said if (step := called.steps.get(_plain(one)))), None)


def named_steps(procedure: Procedure) -> Mapping[str, str]:
    """What each step is called, by its name in data."""
    return _called(procedure).names


def with_keys(procedure: Procedure, event: Event) -> Event:
    """An event with keys in place of the words that somebody wrote; what is not known stays as it is."""
    if event.part is not None and event.part not in procedure.parts:
        event = replace(event, part=part_named(procedure, event.part))
    if event.fluids:
        fluids = (
            FluidOn(fluid=one.fluid, parts=tuple(part_named(procedure, name) for name in one.parts)) for one in event.fluids
        )
        event = replace(event, fluids=tuple(fluids))
    if event.check is not None and event.check not in procedure.checks:
        step = step_named(procedure, event.check)
        if step is not None and step.kind in {StepKind.MAKE, StepKind.AS_FOUND}:
            kind = AS_FOUND if step.kind is StepKind.AS_FOUND else event.kind
            return replace(event, check=step.key, kind=kind)
    if event.action is None or event.action in {*MOVES, *procedure.actions}:
        return event
    verb = "_".join(event.action.lower().split())
    if verb in MOVES:
        return replace(event, action=verb)
    step = step_named(procedure, event.action)
    if step is None or step.kind in {StepKind.MAKE, StepKind.AS_FOUND}:
        return event
    if step.kind is StepKind.DO:
        return replace(event, action=step.key)
    return replace(event, action=step.kind.value, part=step.key) if event.part in {None, step.key} else event


def _plain(words: str) -> str:
    """Words without what people leave out or put in: the bevel's bearing is the bevel gear's bearing."""
    return " ".join(word for word in plain_words(words).split() if word not in {"gear", "s"})


class _Called:
    """What parts and steps of one variation are called."""

    def __init__(self, procedure: Procedure) -> None:
        self.names = {step.name: procedure.named(step) for step in procedure.all_steps()}
        self.parts = _known((part.name, key) for key, part in procedure.parts.items())
        self.parts |= {_plain(key): key for key in procedure.parts}
        by_name = ((self.names[step.name], step) for step in procedure.all_steps())
        by_key = ((step.key, step) for step in procedure.all_steps() if step.kind in {StepKind.DO, StepKind.MAKE})
        checks = ((procedure.checks[key].name, Step(StepKind.MAKE, key)) for key in procedure.checks)
        self.steps = {**_known(checks), **_known(by_name), **_known(by_key)}
        self.steps |= {_plain(step.name): step for step in procedure.all_steps()}


def _known(named: Iterable[tuple[str, _T]]) -> dict[str, _T]:
    """What some words mean, if they mean one thing only."""
    found: dict[str, _T | None] = {}
    for words, one in named:
        plain = _plain(words)
        found[plain] = one if found.get(plain, one) == one else None
    return {plain: one for plain, one in found.items() if one is not None}


@functools.lru_cache(maxsize=64)
def _called(procedure: Procedure) -> _Called:
    return _Called(procedure)
