"""Which step must come before which, and why?"""

from __future__ import annotations

import enum
import functools
from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from stripdown.procedures.needed import Needed
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import DeclaredOrder, Step, StepKind


class Rule(enum.Enum):
    """What may demand an order of two steps."""

    IN_FRONT = "in front"
    NEEDS_OFF = "needs off"
    NEEDS_ON = "needs on"
    SPOILS = "spoils"
    RESTS_ON = "rests on"
    AS_FOUND = "as found"
    ALIKE = "alike"
    DECLARED = "declared"
    GUARD = "guard"
    BECOMES = "becomes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Precedence:
    """One step before another."""

    first: Step
    then: Step
    rule: Rule
    words: str


Followers = Mapping[Step, Mapping[Step, Rule]]
"""For each step the steps that must come after it, with the rule."""


@functools.lru_cache(maxsize=64)
def followers(procedure: Procedure) -> Followers:
    """The order among all steps that a procedure knows: it does not depend on what is asked for."""
    found: dict[Step, dict[Step, Rule]] = {step: {} for step in procedure.all_steps()}
    for first, then, rule in _pairs(procedure):
        found[first].setdefault(then, rule)
    return found


def _pairs(procedure: Procedure) -> Iterator[tuple[Step, Step, Rule]]:
    for declared in procedure.order:
        yield declared.first, declared.then, Rule.DECLARED
    for part in procedure.parts:
        off, back = Step(StepKind.TAKE_OFF, part), Step(StepKind.PUT_BACK, part)
        yield off, back, Rule.IN_FRONT
        for front in procedure.front_of(part):
            yield Step(StepKind.TAKE_OFF, front), off, Rule.IN_FRONT
            yield back, Step(StepKind.PUT_BACK, front), Rule.IN_FRONT
        for front in procedure.close((part,)) - {part}:  # of another gun, what is farther in front may be on while this is off
            yield Step(StepKind.TAKE_OFF, front), back, Rule.IN_FRONT
    for check in procedure.checks:
        making = Step(StepKind.MAKE, check)
        for base in procedure.rests_on(check):
            yield Step(StepKind.MAKE, base), making, Rule.RESTS_ON
            yield Step(StepKind.AS_FOUND, base), making, Rule.RESTS_ON
    for step in procedure.all_steps():
        is_move = step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}
        for part in frozenset() if is_move else procedure.off(step):
            yield Step(StepKind.TAKE_OFF, part), step, Rule.NEEDS_OFF
            yield step, Step(StepKind.PUT_BACK, part), Rule.NEEDS_OFF
        for part in procedure.on(step):
            if step.kind is StepKind.AS_FOUND:
                yield step, Step(StepKind.TAKE_OFF, part), Rule.NEEDS_ON
            else:
                yield Step(StepKind.PUT_BACK, part), step, Rule.NEEDS_ON
        for check in procedure.proved_first(step) if step.kind is not StepKind.AS_FOUND else ():
            yield Step(StepKind.MAKE, check), step, Rule.GUARD
        for check in procedure.spoils(step):
            if step != Step(StepKind.MAKE, check):
                yield step, Step(StepKind.MAKE, check), Rule.SPOILS
            found = Step(StepKind.AS_FOUND, check)
            if procedure.changes_found(step, check):
                yield found, step, Rule.AS_FOUND
            elif procedure.changes_reading(step, check):
                yield step, found, Rule.ALIKE


def order_of(procedure: Procedure, needed: Needed) -> dict[Step, set[Step]]:
    """The order among the steps that a situation needs."""
    everything = followers(procedure)
    after = {step: everything[step].keys() & needed.steps for step in needed.steps}
    for reading in (step for step in needed.steps if step.kind is StepKind.AS_FOUND):
        for part in procedure.on(reading) & needed.off_now:
            back = Step(StepKind.PUT_BACK, part)
            after[back] = after[back] | {reading}
    for first, then in _without(procedure, needed.steps):
        after[first] = after[first] | {then}
    for check in needed.served:
        for base in procedure.rests_on(check):
            provider = needed.providing(base)
            if provider is not None:
                after[provider] = after[provider] | {Step(StepKind.AS_FOUND, check)}
    return after


def _without(procedure: Procedure, steps: Iterable[Step]) -> Iterator[tuple[Step, Step]]:
    """What comes off anyway is off at a reading before and after alike."""
    present = frozenset(steps)
    for step in present:
        if step.kind in {StepKind.MAKE, StepKind.AS_FOUND}:
            for part in procedure.checks[step.key].without:
                off, back = Step(StepKind.TAKE_OFF, part), Step(StepKind.PUT_BACK, part)
                if off in present and step.kind is StepKind.AS_FOUND:
                    yield off, step
                if back in present:
                    yield step, back


def last_order_of(procedure: Procedure, needed: Needed) -> dict[Step, set[Step]]:
    """The order among the last times of the steps, which holds even if some are done more than once."""
    declared = {(order.first, order.then) for order in procedure.order}

    def lasts(first: Step, then: Step) -> bool:
        if (first, then) in declared:
            return True
        if then.kind is StepKind.PUT_BACK:
            is_behind = first.kind is StepKind.PUT_BACK and then.key in procedure.front_of(first.key)
            is_own = first.kind is StepKind.TAKE_OFF and first.key == then.key
            is_move = first.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}
            return is_behind or is_own or (not is_move and then.key in procedure.off(first))
        return then.kind is StepKind.MAKE and then.key in needed.owed and then.key in procedure.spoils(first)

    everything = followers(procedure)
    return {step: {then for then in everything[step].keys() & needed.steps if lasts(step, then)} for step in needed.steps}


def around_circles(after: Mapping[Step, Iterable[Step]]) -> tuple[frozenset[Step], frozenset[Step]]:
    """Steps on circles or between them, and those that lead there."""
    before: dict[Step, list[Step]] = {step: [] for step in after}
    for step, then in after.items():
        for one in then:
            before[one].append(step)
    not_first = _peeled(before, after)
    not_last = _peeled(after, before)
    return not_first & not_last, not_last - not_first


def _peeled(holding: Mapping[Step, Iterable[Step]], held: Mapping[Step, Iterable[Step]]) -> frozenset[Step]:
    """What is left when steps that nothing holds are taken away, again and again."""
    count = {step: len(set(by)) for step, by in holding.items()}
    free = [step for step, number in count.items() if number == 0]
    while free:
        step = free.pop()
        del count[step]
        for one in set(held[step]):
            count[one] -= 1
            if count[one] == 0:
                free.append(one)
    return frozenset(count)


def shortest_circle(after: Mapping[Step, Iterable[Step]]) -> tuple[Step, ...]:
    """The shortest circle of steps each of which must come before the next."""
    best: tuple[Step, ...] = ()
    for start in sorted(after, key=lambda step: step.name):
        came_from: dict[Step, Step] = {}
        queue = deque([start])
        while queue:
            step = queue.popleft()
            for then in sorted(after[step], key=lambda one: one.name):
                if then == start:
                    circle = _back_to(start, step, came_from)
                    best = circle if not best or len(circle) < len(best) else best
                    queue.clear()
                    break
                if then not in came_from:
                    came_from[then] = step
                    queue.append(then)
    return best


def _back_to(start: Step, step: Step, came_from: Mapping[Step, Step]) -> tuple[Step, ...]:
    circle = [step]
    while circle[-1] != start:
        circle.append(came_from[circle[-1]])
    return tuple(reversed(circle))


def precedence(procedure: Procedure, first: Step, then: Step) -> Precedence | None:
    """Why one step must come directly before another, if a rule says so."""
    known = followers(procedure)
    if first not in known or then not in known:
        return None
    rule = known[first].get(then)
    if rule is None and then.kind is StepKind.AS_FOUND and first.kind in {StepKind.MAKE, StepKind.AS_FOUND}:
        rule = Rule.RESTS_ON if first.key in procedure.rests_on(then.key) else None
    if rule is None and first.kind is StepKind.MAKE and first.key in {*procedure.needs(then), *procedure.proved_first(then)}:
        rule = Rule.GUARD
    if rule is None and (first, then) in set(_without(procedure, (first, then))):
        rule = Rule.ALIKE
    if rule is None:
        return None
    return Precedence(first=first, then=then, rule=rule, words=_words(procedure, first, then, rule))


def _words(procedure: Procedure, first: Step, then: Step, rule: Rule) -> str:
    if rule is Rule.DECLARED:
        declared = next(one for one in procedure.order if one.first == first and one.then == then)
        return _sentence(_declared(declared))
    if rule is Rule.IN_FRONT:
        return _sentence(_in_front(procedure, first, then))
    if rule is Rule.RESTS_ON:
        base, check = procedure.checks[first.key].name, procedure.checks[then.key].name
        return _sentence(f"the {check} rests on the {base}")
    if rule is Rule.GUARD:
        return _sentence(f"the {procedure.checks[first.key].name} must hold when one comes to: {procedure.named(then)}")
    if rule is Rule.NEEDS_OFF:
        part, other = (first, then) if first.kind is StepKind.TAKE_OFF else (then, first)
        return _sentence(f"the {procedure.parts[part.key].name} must be off for: {procedure.named(other)}")
    if rule is Rule.NEEDS_ON:
        part, other = (then, first) if first.kind is StepKind.AS_FOUND else (first, then)
        return _sentence(f"the {procedure.parts[part.key].name} must be in place for: {procedure.named(other)}")
    if rule is Rule.ALIKE:
        reading = then if then.kind is StepKind.AS_FOUND else first
        return _sentence(f"the {procedure.checks[reading.key].name} compares only if it is read alike before and after")
    if rule is Rule.AS_FOUND:
        return _sentence(f"to {_plainly(procedure, then)} would spoil the {procedure.checks[first.key].name} as it was found")
    return _sentence(f"to {_plainly(procedure, first)} would make the {procedure.checks[then.key].name} stale")


def _in_front(procedure: Procedure, first: Step, then: Step) -> str:
    if first.key == then.key:
        return f"the {procedure.parts[first.key].name} must come off before it can go back"
    inner, outer = (first, then) if first.kind is StepKind.PUT_BACK else (then, first)
    one, other = procedure.parts[outer.key], procedure.parts[inner.key]
    return f"the {one.name} {'are' if one.is_plural else 'is'} in front of the {other.name}"


def _plainly(procedure: Procedure, step: Step) -> str:
    """A step after "to": makings read as an order too."""
    if step.kind in {StepKind.MAKE, StepKind.AS_FOUND}:
        return f"prove the {procedure.checks[step.key].name}"
    return procedure.named(step)


def _declared(declared: DeclaredOrder) -> str:
    return declared.why.strip().rstrip(".")


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."
