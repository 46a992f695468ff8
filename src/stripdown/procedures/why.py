"""Why does this step of a plan come before that one?"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from stripdown.errors import InputError
from stripdown.procedures.becoming import of_all
from stripdown.procedures.description import Procedures
from stripdown.procedures.names import named_steps, step_named
from stripdown.procedures.order import Precedence, Rule, precedence
from stripdown.procedures.plan import Plan, PlannedStep, plan_from
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.standing import standings
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.variations import Variation
from stripdown.tables.nearest import nearest_entry, plain_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """The reasons for an order.

    Parameters
    ----------
    first, then
        The steps, in the order of the plan.
    chain
        Step by step, what demands the order; empty if nothing does, and the order was chosen to walk about less.
    is_turned
        Whether the question had them the other way round.
    """

    first: PlannedStep
    then: PlannedStep
    chain: tuple[Precedence, ...]
    is_turned: bool = False


def why_before(plan: Plan, first: str, then: str) -> Why:
    """Why one step of a plan comes before another.

    Parameters
    ----------
    plan
        The plan.
    first, then
        The steps: number, name (``"make:cylinder_seal"``), or key alone.

    Returns
    -------
    Why
        With the shortest chain of reasons.

    Raises
    ------
    InputError
        If the plan has no such step, with the nearest ones; or if both are the same.
    """
    one, two = _positions(plan, first), _positions(plan, then)
    start, end = min(((a, b) for a in one for b in two if a < b), key=lambda pair: pair[1] - pair[0], default=(-1, -1))
    is_turned = start < 0
    if is_turned:
        start, end = min(((b, a) for a in one for b in two if b < a), key=lambda pair: pair[1] - pair[0], default=(-1, -1))
    if start < 0:
        raise InputError(f'"{first}" and "{then}" are the same step.', field="step", value=first, hint="Name two steps.")
    return Why(first=plan.steps[start], then=plan.steps[end], chain=_chain(plan, start, end), is_turned=is_turned)


def plan_with(
    procedures: Procedures, steps: Iterable[str], *, variation: Variation | Mapping[str, str] | str | Iterable[str]
) -> Plan:
    """The plan that some steps ask for: their work, their checks, and what lies behind the parts that they move."""
    procedure = procedures.procedure(variation)
    called = tuple(steps)
    work = [step.key for name in called if (step := step_named(procedure, name)) is not None and step.kind is StepKind.DO]
    either = of_all((procedure, procedure.after(work)))
    asked = [_step_called(either, name) for name in called]
    moves = (step.key for step in asked if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK})
    moved = [part for part in moves if part in procedure.parts]
    request = Request(
        work=tuple(
            dict.fromkeys(
                (*(step.key for step in asked if step.kind is StepKind.DO), *(_work_behind(procedure, part) for part in moved))
            )
        ),
        wanted=tuple(step.key for step in asked if step.kind is StepKind.MAKE and step.key not in procedure.guards),
        as_found=tuple(step.key for step in asked if step.kind is StepKind.AS_FOUND),
    )
    return plan_from(procedure, request, off=frozenset(), known=standings(procedure, ()))


def _step_called(procedure: Procedure, name: str) -> Step:
    found = step_named(procedure, name)
    if found is None:
        hint = nearest_entry(name, named_steps(procedure))
        raise InputError(f'no step of this gun is called "{name}".', field="step", value=name, hint=hint)
    return found


def _work_behind(procedure: Procedure, part: str) -> str:
    """The work that needs a part off and the fewest others."""
    behind = [key for key, one in procedure.actions.items() if part in procedure.off(Step(StepKind.DO, key)) and not one.becomes]
    if not behind:
        raise InputError(
            f"no work asks for the {procedure.parts[part].name} to come off.",
            field="step",
            value=part,
            hint="Name a job file with --job, or work that needs it off.",
        )
    return min(behind, key=lambda key: len(procedure.off(Step(StepKind.DO, key))))


def _chain(plan: Plan, start: int, end: int) -> tuple[Precedence, ...]:
    came_from: dict[int, tuple[int, Precedence]] = {}
    queue = deque([start])
    while queue:
        here = queue.popleft()
        for there in range(here + 1, end + 1):
            if there in came_from:
                continue
            reason = _reason(plan, plan.steps[here], plan.steps[there])
            if reason is not None:
                came_from[there] = (here, reason)
                queue.append(there)
        if end in came_from:
            break
    if end not in came_from:
        return ()
    chain, here = [], end
    while here != start:
        here, reason = came_from[here]
        chain.append(reason)
    return tuple(reversed(chain))


def _reason(plan: Plan, first: PlannedStep, then: PlannedStep) -> Precedence | None:
    """Why one step must come directly before another: on the gun of either, or since it makes the gun that has the other."""
    old, new = plan.gun_at(first.number), plan.gun_at(then.number)
    if first.becomes and then.step not in old.all_steps():
        words = f"It is a step of the gun that this work makes: {first.becomes}."
        return Precedence(first=first.step, then=then.step, rule=Rule.BECOMES, words=words)
    reasons = (precedence(procedure, first.step, then.step) for procedure in (new, old))
    return next((reason for reason in reasons if reason is not None), None)


def _positions(plan: Plan, asked: str) -> list[int]:
    plain = plain_words(asked)
    called = step_named(plan.procedure, asked)
    found = [
        position
        for position, step in enumerate(plan.steps)
        if plain in {str(step.number), plain_words(step.key), plain_words(step.name)} or step.step == called
    ]
    if not found:
        hint = nearest_entry(asked, {step.step.name: step.name for step in plan.steps})
        raise InputError(f'the plan has no step "{asked}".', field="step", value=asked, hint=hint)
    return found
