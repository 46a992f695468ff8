"""Why is this step in the plan?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from stripdown.procedures.found import Before
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.stages import Stage, Walked
from stripdown.procedures.standing import CheckStanding, Standing
from stripdown.procedures.steps import Step, StepKind


@dataclass(frozen=True, slots=True)
class Purpose:
    """Why a step is in a plan, and the keys of the checks and of the work that it is for."""

    words: str = ""
    for_checks: tuple[str, ...] = ()
    for_work: tuple[str, ...] = ()


class Purposes:
    """The reason for each step of a sequence."""

    def __init__(
        self,
        stages: tuple[Stage, ...],
        known: Mapping[str, CheckStanding],
        walked: tuple[Walked, ...],
        *,
        request: Request,
        reasons: Mapping[str, str],
        remedies: Mapping[str, str],
        befores: Mapping[str, Before],
    ) -> None:
        self._situation = stages[0].situation
        self._opened = stages[0].procedure.close(stages[0].situation.opened)
        self._known = known
        self._walked = walked
        self._request = request
        self._reasons = reasons
        self._remedies = remedies
        self._befores = befores

    def of(self, position: int) -> Purpose:
        """Why a step is there."""
        step = self._walked[position].step
        if step.kind is StepKind.DO:
            return Purpose(self._reasons.get(step.key, "asked for"), for_checks=self._cured(step.key))
        if step.kind is StepKind.AS_FOUND:
            return Purpose(self._read(step.key), for_checks=(step.key,))
        if step.kind is StepKind.TAKE_OFF:
            return self._reached(position)
        return self._remade(position) if step.kind is StepKind.MAKE else Purpose()

    def _read(self, check: str) -> str:
        before = self._befores.get(check)
        if before is None or before.unlike is None:
            return "before anything disturbs it"
        return f"again: {before.unlike.told}, and before and after no longer compare"

    def _cured(self, action: str) -> tuple[str, ...]:
        """The failed check for which an action was added."""
        return (self._remedies[action],) if action in self._remedies else ()

    def _reached(self, position: int) -> Purpose:
        """What is behind a part, or what is done with it off."""
        step = self._walked[position].step
        opened = self._opened
        for stage, later, _ in self._walked[position + 1 :]:
            procedure = stage.procedure
            if later.kind is StepKind.PUT_BACK and later.key == step.key:
                break
            if later.kind is StepKind.TAKE_OFF and step.key in procedure.front_of(later.key):
                return Purpose(f"to reach the {procedure.parts[later.key].name}")
            if later.kind not in {StepKind.TAKE_OFF, StepKind.PUT_BACK} and step.key in procedure.off(later):
                return _for(procedure, later)
            if step.key in opened and later.kind is StepKind.MAKE and _may_need_off(procedure, later, step.key):
                return _for(procedure, later)
        return Purpose("so that what is behind it can go back")

    def _remade(self, position: int) -> Purpose:
        procedure, check = self._walked[position].stage.procedure, self._walked[position].step.key
        stage, spoiler = next(
            (
                (stage, step)
                for stage, step, _ in reversed(self._walked[:position])
                if check in stage.spoils(step) and step.kind is not StepKind.MAKE
            ),
            (None, None),
        )
        spoiled_by = stage.procedure.named(spoiler) if stage is not None and spoiler is not None else ""
        after = (spoiler.key,) if spoiler is not None and spoiler.kind is StepKind.DO else ()
        if check in procedure.guards and check not in procedure.release_list:
            return Purpose("must hold before the next step")
        is_due = check in self._situation.wanted or check in procedure.release_list
        if is_due and spoiled_by and check in self._situation.fresh:
            return Purpose(f"spoiled by: {spoiled_by}", for_work=after)
        told = self._known.get(check)
        reason = "" if told is None else told.reason.rstrip(".")
        if check in self._request.wanted:
            return Purpose("asked for" if told is None or told.standing is Standing.NEVER else f"asked for; {reason}")
        if told is not None and check in self._situation.wanted:
            return Purpose(reason)
        if is_due and spoiled_by:
            return Purpose(f"for release, after: {spoiled_by}", for_work=after)
        for stage, later, _ in self._walked[position + 1 :]:
            if later.kind in {StepKind.MAKE, StepKind.AS_FOUND} and check in stage.procedure.bases(later.key):
                return Purpose(f"the {stage.procedure.checks[later.key].name} rests on it", for_checks=(later.key,))
        return Purpose(reason)


def _may_need_off(procedure: Procedure, making: Step, part: str) -> bool:
    """Whether some way to make a check needs a part off."""
    return any(part in procedure.off_for(method) for method in procedure.checks[making.key].methods)


def _for(procedure: Procedure, step: Step) -> Purpose:
    if step.kind is StepKind.DO:
        return Purpose(f"to {procedure.actions[step.key].name}", for_work=(step.key,))
    return Purpose(f"to prove the {procedure.checks[step.key].name}", for_checks=(step.key,))
