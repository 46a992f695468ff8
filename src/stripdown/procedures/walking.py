"""The stages of a plan, gone through with guards and ways; planned anew where a guard asks for more than the steps have."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace

from stripdown.errors import ProcedureError
from stripdown.procedures.checks import Method
from stripdown.procedures.energy import MADE_SAFE, Energy, after_becoming
from stripdown.procedures.found import ToRead
from stripdown.procedures.guarding import with_guards
from stripdown.procedures.needed import Situation
from stripdown.procedures.procedure import FIRST_POWER, SPRING, Procedure
from stripdown.procedures.stages import Stage, Walked
from stripdown.procedures.steps import Step, StepKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """All steps, with their guards.

    Parameters
    ----------
    stages
        Gun by gun.
    walked
        Each step, with its stage and the parts that are off when it begins.
    methods
        For each step the way to make it; None for what is no check.
    fresh
        Checks that are fresh at the end.
    lost
        Readings as found that cannot be taken, since a part has to come off first: why, by the key of the check.
    behind
        Parts that a guard needs off and no step takes off.
    to_read
        What is read as found, and what is too late.
    """

    stages: tuple[Stage, ...]
    walked: tuple[Walked, ...]
    methods: tuple[Method | None, ...]
    fresh: frozenset[str]
    lost: Mapping[str, str] = field(default_factory=dict)
    behind: frozenset[str] = frozenset()
    to_read: ToRead = field(default_factory=ToRead)


StagesFor = Callable[[Situation, Mapping[str, str]], tuple[tuple[Stage, ...], ToRead]]
"""The stages for a situation, and what is read as found in them, but for checks of which it is said why they are not read."""


def walk(
    stages_for: StagesFor,
    situation: Situation,
    state: Energy,
    *,
    off: frozenset[str],
    at_hand: frozenset[str] | None,
    is_left: bool,
) -> Walk:
    """The steps for a situation with their guards: before them another check, work, or a part that comes off, if a guard asks."""
    lost: dict[str, str] = {}
    while True:
        stages, to_read = stages_for(situation, lost)
        found = _walked(stages, state, off=off, at_hand=at_hand, is_left=is_left)
        more = _asked_first(situation, state, found)
        if more == situation and found.lost.keys() <= lost.keys():
            if found.behind:
                names = ", ".join(sorted(stages[0].procedure.parts[part].name for part in found.behind))
                raise ProcedureError(f"The gun cannot be made safe in time with these on: {names}. Ask for less at once.")
            return replace(found, to_read=to_read)
        situation, lost = more, {**lost, **found.lost}


def _walked(
    stages: tuple[Stage, ...], state: Energy, *, off: frozenset[str], at_hand: frozenset[str] | None, is_left: bool
) -> Walk:
    walked: list[Walked] = []
    methods: list[Method | None] = []
    lost: dict[str, str] = {}
    first = stages[0].procedure
    behind, ahead, provided = frozenset[str](), frozenset[str](), frozenset[str]()
    fresh = stages[0].situation.fresh | ({MADE_SAFE} & first.checks.keys() if SPRING in off else frozenset())
    for number, stage in enumerate(stages):
        later = {step.key for one in stages[number + 1 :] for step in one.steps if step.kind is StepKind.TAKE_OFF}
        guarded = with_guards(
            stage.procedure,
            fresh,
            stage.steps,
            off=off,
            energy=state,
            tools=at_hand,
            later=frozenset(later),
            ahead=ahead,
            provided=provided,
            leaves=None if stage is not stages[-1] else is_left or any(_is_work(one) for one in walked),
        )
        for step, method in zip(guarded.steps, guarded.methods, strict=True):
            walked.append(Walked(stage, step, off))
            methods.append(method)
            if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}:
                off = off ^ {step.key}
        for check, part in guarded.lost.items():
            lost[check] = f"the {stage.procedure.parts[part].name} comes off first, so that the gun can be made safe"
        behind, ahead, provided = behind | guarded.behind, guarded.ahead, guarded.provided
        fresh, state = guarded.fresh, guarded.energy
        if stage.becoming is not None:
            off = stage.becoming.off(off)
            fresh = (fresh - stage.becoming.spoiled).intersection(stage.becoming.after.checks)
            state = after_becoming(state, stage.becoming.spoiled)
    return Walk(stages=stages, walked=tuple(walked), methods=tuple(methods), fresh=fresh, lost=lost, behind=behind)


def _is_work(one: Walked) -> bool:
    """Whether a step of an earlier stage moved or fired something."""
    return one.step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK} or bool(one.stage.procedure.fires(one.step))


def _asked_first(situation: Situation, state: Energy, found: Walk) -> Situation:
    """The situation with what must be proved, mended or taken off first."""
    every = [(stage.procedure, step) for stage in found.stages for step in stage.steps]
    first = {key for procedure, step in every for key in _proved_first(procedure, step)} - situation.fresh
    first -= set() if state.is_not_yet_run else {FIRST_POWER}
    work: set[str] = set()
    if any(procedure.fires(step) for procedure, step in every):
        names = {one.step.name for one in found.walked}
        live = [one.until for one in state.troubles if one.keeps_from_running and one.until]
        for kind, _, key in (until[0].partition(":") for until in live if not names & {*until}):
            (work if kind == StepKind.DO.value else first).add(key)
    last = found.stages[-1].procedure
    return replace(
        situation,
        wanted=situation.wanted | (first - last.guards),
        work=last.with_brought(situation.work | work),
        opened=situation.opened | found.behind,
    )


def _proved_first(procedure: Procedure, step: Step) -> Iterable[str]:
    return procedure.proved_first(step) if step.kind in {StepKind.DO, StepKind.MAKE} else ()
