"""Small procedures, situations and logs made up at random: sound by the data contract, and otherwise as awkward as they come."""

from __future__ import annotations

import random
from collections.abc import Iterable
from dataclasses import replace

from stripdown.procedures.actions import Action
from stripdown.procedures.checks import Check, Exemption
from stripdown.procedures.contract import flaws
from stripdown.procedures.events import PUT_BACK, TAKE_OFF, Event
from stripdown.procedures.needed import Situation
from stripdown.procedures.parts import Part
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import DeclaredOrder, Step, StepKind
from stripdown.procedures.touches import Touch

_KINDS = tuple(Touch)
MOST_PARTS, MOST_CHECKS, MOST_ACTIONS = 5, 6, 3


def made_up_procedure(chance: random.Random) -> Procedure:
    """At most 5 parts, 6 checks and 3 actions that keep the data contract; sometimes with declared orders."""
    while True:
        found = _mended(_drawn(chance), chance)
        if not flaws(found):
            return found


def made_up_situation(procedure: Procedure, chance: random.Random) -> Situation:
    """Some parts off, some checks fresh and some failed, and something asked for."""
    off = made_up_opening(procedure, chance, moves=chance.choice([0, 0, 0, 4, 8]))
    fresh: set[str] = set()
    failed: set[str] = set()
    for check in procedure.checks:
        draw = chance.random()
        if draw < 0.45 and procedure.bases(check) <= fresh:
            fresh.add(check)
        elif draw < 0.6:
            failed.add(check)
    readable = [check for check in procedure.checks if not procedure.on(Step(StepKind.AS_FOUND, check)) & off]
    return Situation(
        off=frozenset(off),
        fresh=frozenset(fresh),
        failed=frozenset(failed),
        work=frozenset(some(chance, procedure.actions, 0.5)),
        wanted=frozenset(some(chance, procedure.checks, 0.3)),
        as_found=frozenset(some(chance, readable, 0.25)),
    )


def made_up_opening(procedure: Procedure, chance: random.Random, *, moves: int) -> set[str]:
    """Parts that are off after some moves that can be made."""
    off: set[str] = set()
    for _ in range(moves):
        part = chance.choice(list(procedure.parts))
        if procedure.front_of(part) <= off:
            off ^= {part}
    return off


def made_up_log(procedure: Procedure, chance: random.Random, *, entries: int) -> list[Event]:
    """A log of things that can happen: moves, touches, actions, and makings that pass or fail."""
    off: set[str] = set()
    log: list[Event] = []
    while len(log) < entries:
        event = _next_event(procedure, chance, off, len(log) + 1)
        if event is not None:
            log.append(event)
    return log


def some(chance: random.Random, things: Iterable[str], share: float) -> tuple[str, ...]:
    """Each of the things with some probability, in their order."""
    return tuple(thing for thing in things if chance.random() < share)


def _next_event(procedure: Procedure, chance: random.Random, off: set[str], number: int) -> Event | None:
    draw = chance.random()
    if draw < 0.35:
        part = chance.choice(list(procedure.parts))
        if not procedure.front_of(part) <= off:
            return None
        action = PUT_BACK if part in off else TAKE_OFF
        off ^= {part}
        return Event(number=number, action=action, part=part)
    if draw < 0.7:
        check = chance.choice(list(procedure.checks))
        step = Step(StepKind.MAKE, check)
        is_possible = procedure.off(step) <= off and not procedure.on(step) & off
        return Event(number=number, check=check, passed=chance.random() < 0.75) if is_possible else None
    if draw < 0.85 and procedure.actions:
        step = Step(StepKind.DO, chance.choice(list(procedure.actions)))
        is_possible = procedure.off(step) <= off and not procedure.on(step) & off
        return Event(number=number, action=step.key) if is_possible else None
    part = chance.choice(list(procedure.parts))
    if part not in off and not procedure.front_of(part) <= off:
        return None
    return Event(number=number, part=part, kind=chance.choice(_KINDS).value)


def _drawn(chance: random.Random) -> Procedure:
    parts = [f"p{number}" for number in range(chance.randint(1, MOST_PARTS))]
    checks = [f"c{number}" for number in range(chance.randint(1, MOST_CHECKS))]
    actions = [f"a{number}" for number in range(chance.randint(0, MOST_ACTIONS))]
    in_front = {part: some(chance, parts[:number], 0.4) for number, part in enumerate(parts)}
    bare = Procedure(parts={key: Part(key=key, name=key, in_front=front) for key, front in in_front.items()}, checks={})
    steps = [Step(kind, key) for kind in (StepKind.TAKE_OFF, StepKind.PUT_BACK) for key in parts]
    steps += [Step(StepKind.DO, key) for key in actions]
    steps += [Step(kind, key) for kind in (StepKind.MAKE, StepKind.AS_FOUND) for key in checks]
    pairs = [chance.sample(steps, 2) for _ in range(chance.choice([0, 0, 0, 1, 2]))]
    return Procedure(
        parts=bare.parts,
        checks={key: _check(chance, bare, key, checks[:number], actions) for number, key in enumerate(checks)},
        actions={key: _action(chance, bare, key) for key in actions},
        order=tuple(DeclaredOrder(first=first, then=then, why="it was declared") for first, then in pairs),
    )


def _check(chance: random.Random, bare: Procedure, key: str, bases: list[str], actions: list[str]) -> Check:
    off = some(chance, bare.parts, 0.3)
    dry = some(chance, sorted(bare.close(off)), 0.25)
    about = some(chance, bare.parts, 0.5)
    spared = [part for part in about if chance.random() < 0.5]
    return Check(
        key=key,
        name=key,
        about=about,
        exempt=tuple(Exemption(part=part, kinds=frozenset(chance.sample(_KINDS, 3)), reason="") for part in spared),
        rests_on=some(chance, bases, 0.25),
        off=off,
        on=tuple(dict.fromkeys((*dry, *some(chance, bare.parts, 0.3)))),
        dry=dry,
        touches=tuple((part, chance.choice(_KINDS)) for part in some(chance, bare.parts, 0.1)),
        is_for_release=chance.random() < 0.5,
        remedies=some(chance, actions, 0.4),
    )


def _action(chance: random.Random, bare: Procedure, key: str) -> Action:
    off = some(chance, bare.parts, 0.3)
    parts = list(bare.parts)
    return Action(
        key=key,
        name=key,
        touches=tuple((chance.choice(parts), chance.choice(_KINDS)) for _ in range(chance.randint(1, 2))),
        off=off,
        on=tuple(part for part in some(chance, parts, 0.15) if part not in bare.close(off)),
    )


def _mended(procedure: Procedure, chance: random.Random) -> Procedure:
    """The same with less of what breaks the contract; what is left broken is thrown away."""
    for _ in range(6):
        checks = {key: _mended_check(procedure, check, chance) for key, check in procedure.checks.items()}
        procedure = Procedure(parts=procedure.parts, checks=checks, actions=procedure.actions, order=procedure.order)
    return procedure


def _mended_check(procedure: Procedure, check: Check, chance: random.Random) -> Check:
    making = Step(StepKind.MAKE, check.key)
    off, spoils = procedure.off(making), procedure.spoils(making)
    returning = [part for part in off if check.key in procedure.spoils(Step(StepKind.PUT_BACK, part))]
    direct = [part for part in returning if check.is_spoiled_by((part, Touch.REFIT))]
    if direct:
        spared = tuple(Exemption(part=part, kinds=frozenset({Touch.REFIT}), reason="") for part in direct)
        check = replace(check, exempt=(*check.exempt, *spared))
    elif returning:
        check = replace(check, rests_on=())
    own = {check.key} | procedure.bases(check.key)
    if spoils & own or any(check.key in procedure.spoils(Step(StepKind.MAKE, other)) for other in spoils):
        check = replace(check, touches=(), dry=check.dry if chance.random() < 0.5 else ())
    curing = [one for one in check.remedies if check.key in procedure.spoils(Step(StepKind.DO, one))]
    return replace(check, on=tuple(part for part in check.on if part in check.dry or part not in off), remedies=tuple(curing))
