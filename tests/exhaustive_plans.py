"""The cheapest way to do a request, found by trying everything: what a plan is held against.

Written from the definition alone, apart from the planner: no least set, no order, no bound; every step that can be done is tried.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator
from dataclasses import dataclass

from stripdown.procedures.needed import Situation
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind

Cost = tuple[int, int]
"""Makings, then moves."""

_OFF, _BACK, _DO, _MAKE, _FOUND = StepKind.TAKE_OFF, StepKind.PUT_BACK, StepKind.DO, StepKind.MAKE, StepKind.AS_FOUND


@dataclass(frozen=True, slots=True)
class _Gun:
    off: frozenset[str]
    fresh: frozenset[str]
    failed: frozenset[str]
    work: frozenset[str]
    owed: frozenset[str]
    readings: frozenset[str]
    barred: frozenset[Step]


def cheapest(procedure: Procedure, situation: Situation) -> Cost | None:
    """Fewest makings and then fewest moves that do a request, or None if nothing does it."""
    start = _Gun(
        situation.off, situation.fresh, situation.failed, situation.work, situation.wanted, situation.as_found, frozenset()
    )
    heap: list[tuple[Cost, int, _Gun]] = [((0, 0), 0, start)]
    best: dict[_Gun, Cost] = {start: (0, 0)}
    pushed = 0
    while heap:
        cost, _, gun = heapq.heappop(heap)
        if cost > best[gun]:
            continue
        if not gun.off and not gun.work and not gun.readings and gun.owed <= gun.fresh:
            return cost
        for step in _allowed(procedure, gun):
            then = _done(procedure, gun, step)
            spent = (cost[0] + (step.kind is _MAKE), cost[1] + (step.kind in {_OFF, _BACK}))
            if then not in best or spent < best[then]:
                best[then] = spent
                pushed += 1
                heapq.heappush(heap, (spent, pushed, then))
    return None


def is_allowed(procedure: Procedure, gun: _Gun, step: Step) -> bool:
    """Whether a step may be done now, by the definition."""
    if step in gun.barred or not _within_reach(procedure, gun, step):
        return False
    if step.kind is _DO and step.key not in gun.work and not _is_remedy(procedure, gun, step.key):
        return False
    if step.kind is _FOUND and step.key not in gun.readings:
        return False
    if step.kind is _MAKE and not (set(procedure.checks[step.key].rests_on) <= gun.fresh and _may_pass(procedure, gun, step.key)):
        return False
    for order in procedure.order:
        first = order.first
        pending = gun.work if first.kind is _DO else gun.readings if first.kind is _FOUND else frozenset()
        if order.then == step and first.key in pending:
            return False
    return not any(
        check in procedure.spoiled_by(procedure.touches(step))
        and step != Step(_FOUND, check)
        and not (step.kind is _OFF and step.key in procedure.close(procedure.checks[check].off))
        for check in gun.readings
    )


def _allowed(procedure: Procedure, gun: _Gun) -> Iterator[Step]:
    return (step for step in procedure.all_steps() if is_allowed(procedure, gun, step))


def _within_reach(procedure: Procedure, gun: _Gun, step: Step) -> bool:
    if step.kind in {_OFF, _BACK}:
        return (step.key in gun.off) == (step.kind is _BACK) and set(procedure.parts[step.key].in_front) <= gun.off
    if step.kind is _DO:
        action = procedure.actions[step.key]
        return procedure.close(action.off) <= gun.off and not set(action.on) & gun.off
    check = procedure.checks[step.key]
    return procedure.close(check.off) <= gun.off and not (set(check.on) - set(check.dry)) & gun.off


def _cured_by_work(procedure: Procedure, gun: _Gun, check: str) -> bool:
    return any(check in procedure.spoils(Step(_DO, action)) for action in gun.work)


def _is_remedy(procedure: Procedure, gun: _Gun, action: str) -> bool:
    """What was not asked for is done only as the first remedy of a failed check that nothing asked for will cure."""
    return any(
        procedure.checks[check].remedies[:1] == (action,) and not _cured_by_work(procedure, gun, check) for check in gun.failed
    )


def _may_pass(procedure: Procedure, gun: _Gun, check: str) -> bool:
    """A failed check is made again only after something that may cure it, if there is such a thing."""
    return check not in gun.failed or not (procedure.checks[check].remedies or _cured_by_work(procedure, gun, check))


def _done(procedure: Procedure, gun: _Gun, step: Step) -> _Gun:
    spoiled = procedure.spoiled_by(procedure.touches(step))
    fresh, failed = gun.fresh - spoiled, gun.failed
    if step.kind is _DO:
        failed -= {check for check in spoiled if step.key in gun.work or procedure.checks[check].remedies[:1] == (step.key,)}
    if step.kind is _MAKE:
        fresh, failed = fresh | {step.key}, failed - {step.key}
    if step.kind is _FOUND and step.key not in failed and set(procedure.checks[step.key].rests_on) <= fresh:
        fresh |= {step.key}
    return _Gun(
        off=gun.off | {step.key} if step.kind is _OFF else gun.off - {step.key} if step.kind is _BACK else gun.off,
        fresh=fresh,
        failed=failed,
        work=gun.work - {step.key} if step.kind is _DO else gun.work,
        owed=gun.owed | {check for check in spoiled if procedure.checks[check].is_for_release},
        readings=gun.readings - {step.key} if step.kind is _FOUND else gun.readings,
        barred=gun.barred | {order.first for order in procedure.order if order.then == step},
    )
