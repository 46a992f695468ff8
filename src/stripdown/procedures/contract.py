"""Can a gun of this variation be serviced by these data at all? What is wrong is named."""

from __future__ import annotations

from collections.abc import Iterator

from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind


def flaws(procedure: Procedure) -> tuple[str, ...]:
    """What in the data makes some check impossible to keep, or some step impossible to do."""
    return (*_circles(procedure), *_makings(procedure), *_actions(procedure), *_guards(procedure))


def _circles(procedure: Procedure) -> Iterator[str]:
    for part in procedure.parts:
        if any(part in procedure.close((front,)) for front in procedure.front_of(part)):
            yield f"part {part} is in front of itself."
    for check in procedure.checks:
        if any(check == base or check in procedure.bases(base) for base in procedure.rests_on(check)):
            yield f"check {check} rests on itself."


def _makings(procedure: Procedure) -> Iterator[str]:
    for key, check in procedure.checks.items():
        making = Step(StepKind.MAKE, key)
        spoils, off = procedure.spoils(making), procedure.off(making)
        for own in sorted(spoils & ({key} | procedure.bases(key))):
            yield f"making {key} spoils {own}."
        for other in sorted(spoils):
            if key < other and key in procedure.spoils(Step(StepKind.MAKE, other)):
                yield f"making {key} and making {other} spoil each other's check."
        for part in sorted(off & procedure.on(making)):
            yield f"making {key} needs {part} on, which must be off to reach {', '.join(check.off)}."
        for part in sorted(set(check.dry) - set(check.on)):
            yield f"making {key} puts on {part} for a trial, but does not need it on."
        for part in sorted(off):
            if key not in procedure.guards | procedure.leaving and key in procedure.spoils(Step(StepKind.PUT_BACK, part)):
                yield f"putting back {part} after making {key} spoils it: it is never fresh when the gun leaves."
        for action in check.remedies:
            if action in procedure.actions and key not in procedure.spoils(Step(StepKind.DO, action)):
                yield f"{action} is called a remedy for {key} and changes nothing that it is about."


def _actions(procedure: Procedure) -> Iterator[str]:
    for key, action in procedure.actions.items():
        step = Step(StepKind.DO, key)
        for part in sorted(procedure.off(step) & procedure.on(step)):
            yield f"action {key} needs {part} on, which must be off to reach {', '.join(action.off)}."
        if not procedure.touches(step) and not action.becomes:
            yield f"action {key} touches nothing."


def _guards(procedure: Procedure) -> Iterator[str]:
    for step in procedure.all_steps():
        off = procedure.close(procedure.off(step))
        for guard in procedure.needs(step):
            making = Step(StepKind.MAKE, guard)
            if guard == step.key and step.kind is StepKind.MAKE:
                yield f"guard {guard} needs itself."
            still_on, absent = sorted(procedure.off(making) - off), sorted(procedure.on(making) & off)
            if still_on:
                yield f"guard {guard} cannot be made before {step}: {', '.join(still_on)} may still be on."
            if absent:
                yield f"guard {guard} cannot be made before {step}: {', '.join(absent)} may be off by then."
    for guard in sorted(procedure.guards):
        if not any(not (one.fires or one.unless or one.is_for_spring_at_rest) for one in procedure.checks[guard].methods):
            yield f"guard {guard} cannot be made on a gun that cannot safely fire."
    for guard in sorted(procedure.guards & procedure.release_list):
        yield f"guard {guard} is on the release list: it is made when it is needed, not when the gun leaves."
