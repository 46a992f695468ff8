"""At which step of a plan is each part in the hand, clean, and best looked at?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stripdown.procedures.stages import Walked
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.touches import Touch


def graded_at(walked: Sequence[Walked]) -> Mapping[int, tuple[str, ...]]:
    """For the place of a step in a plan the parts that are graded there."""
    found: dict[int, list[str]] = {}
    for part in dict.fromkeys(part for stage in dict.fromkeys(one.stage for one in walked) for part in stage.procedure.parts):
        place = _place(walked, part)
        if place is not None:
            found.setdefault(place, []).append(part)
    return {place: tuple(parts) for place, parts in found.items()}


def _place(walked: Sequence[Walked], part: str) -> int | None:
    """Where it is cleaned; else where it comes off, or what was last in front of it does; else where it goes back."""
    cleaned = taken = bare = back = None
    for place, (stage, step, off) in enumerate(walked):
        procedure = stage.procedure
        if part not in procedure.parts:
            continue
        front = procedure.front_of(part)
        if step.kind is StepKind.DO and (part, Touch.CLEAN) in procedure.touches(step):
            cleaned = place
        elif step == Step(StepKind.TAKE_OFF, part):
            taken = place
        elif step.kind is StepKind.TAKE_OFF and step.key in front and front <= off | {step.key}:
            bare = place if bare is None else bare
        elif step == Step(StepKind.PUT_BACK, part):
            back = place
    return next((place for place in (cleaned, taken, bare, back) if place is not None), None)
