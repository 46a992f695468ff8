"""In what order, of all that are allowed, does one walk about least?"""

from __future__ import annotations

import functools
from collections.abc import Collection, Iterable, Mapping

from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind

_PHASE = {StepKind.AS_FOUND: 0, StepKind.TAKE_OFF: 1, StepKind.DO: 2, StepKind.MAKE: 3, StepKind.PUT_BACK: 4}


def sequence(
    procedure: Procedure, after: Mapping[Step, Iterable[Step]], *, place: str = "", curing: Collection[Step] = ()
) -> tuple[Step, ...]:
    """Put steps in an order that is allowed, with few changes of place; `curing` wait for work that was done before.

    What loads and drives the gun comes out as soon as nothing needs it in: it may be out already, and moves nobody.
    """
    outs = {Step(StepKind.TAKE_OFF, part) for part in procedure.left_out}
    on_the_way = procedure.guards | procedure.leaving | procedure.left_out
    waiting = dict.fromkeys(after, 0)
    for followers in after.values():
        for step in followers:
            waiting[step] += 1
    rank = _ranks(procedure)
    cures = {order.then for order in procedure.order if order.is_cure and order.first in after}.union(curing)
    ready = {step for step, count in waiting.items() if count == 0}
    place_of = {step: procedure.place_of(step) for step in after}
    found: list[Step] = []
    while ready:
        best = min(ready, key=lambda step: (step not in outs, step in cures, place_of[step] != place, rank[step]))
        ready.remove(best)
        found.append(best)
        place = place if best.key in on_the_way else place_of[best]
        for step in after[best]:
            waiting[step] -= 1
            if waiting[step] == 0:
                ready.add(step)
    return tuple(found)


@functools.lru_cache(maxsize=64)
def _ranks(procedure: Procedure) -> Mapping[Step, tuple[int, int, int]]:
    places = {key: number for number, key in enumerate(procedure.places)}
    return {
        step: (_PHASE[step.kind], places.get(procedure.place_of(step), len(places)), number)
        for number, step in enumerate(procedure.all_steps())
    }
