"""Of two pieces of work on one part, which comes first?"""

from __future__ import annotations

from collections.abc import Iterator

from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import DeclaredOrder, Step, StepKind
from stripdown.procedures.touches import Touch

_RANKS = {Touch.REPLACE: 0, Touch.MODIFY: 1, Touch.CLEAN: 2, Touch.BOND: 3, Touch.ADJUST: 3, Touch.LUBRICATE: 4}
"""What is worked on is what stays; chips and dust are washed out; and grease comes last."""


def orders_on_one_part(procedure: Procedure) -> Iterator[DeclaredOrder]:
    """Work on one part in the order of its kinds, save where the data declare an order of their own."""
    declared = {frozenset((order.first, order.then)) for order in procedure.order}
    found: dict[tuple[Step, Step], str] = {}
    for part, one in procedure.parts.items():
        work = [
            (Step(StepKind.DO, key), kind)
            for key, action in procedure.actions.items()
            for touched, kind in action.touches
            if touched == part and kind in _RANKS
        ]
        for first, kind in work:
            for then, later in work:
                if _RANKS[kind] < _RANKS[later] and frozenset((first, then)) not in declared:
                    is_, it = ("are", "they are") if one.is_plural else ("is", "it is")
                    found[first, then] = f"the {one.name} {is_} {kind.happened} before {it} {later.happened}"
    for (first, then), why in found.items():
        if (then, first) not in found:
            yield DeclaredOrder(first=first, then=then, why=why)
