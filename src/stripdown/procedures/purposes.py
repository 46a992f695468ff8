"""Why is this step in the plan?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from stripdown.procedures.needed import Situation
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
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
        procedure: Procedure,
        situation: Situation,
        known: Mapping[str, CheckStanding],
        steps: tuple[Step, ...],
        *,
        request: Request,
        reasons: Mapping[str, str],
        remedies: Mapping[str, str],
    ) -> None:
        self._procedure = procedure
        self._situation = situation
        self._known = known
        self._steps = steps
        self._request = request
        self._reasons = reasons
        self._remedies = remedies

    def of(self, position: int) -> Purpose:
        """Why a step is there."""
        step = self._steps[position]
        if step.kind is StepKind.DO:
            return Purpose(self._reasons.get(step.key, "asked for"), for_checks=self._cured(step.key))
        if step.kind is StepKind.AS_FOUND:
            return Purpose("before anything disturbs it", for_checks=(step.key,))
        if step.kind is StepKind.TAKE_OFF:
            return self._reached(position)
        return self._remade(position) if step.kind is StepKind.MAKE else Purpose()

    def _cured(self, action: str) -> tuple[str, ...]:
        """The failed check for which an action was added."""
        return (self._remedies[action],) if action in self._remedies else ()

    def _reached(self, position: int) -> Purpose:
        """What is behind a part, or what is done with it off."""
        step = self._steps[position]
        for later in self._steps[position + 1 :]:
            if later.kind is StepKind.PUT_BACK and later.key == step.key:
                break
            if later.kind is StepKind.TAKE_OFF and step.key in self._procedure.front_of(later.key):
                return Purpose(f"to reach the {self._procedure.parts[later.key].name}")
            if later.kind not in {StepKind.TAKE_OFF, StepKind.PUT_BACK} and step.key in self._procedure.off(later):
                return _for(self._procedure, later)
        return Purpose("so that what is behind it can go back")

    def _remade(self, position: int) -> Purpose:
        check = self._steps[position].key
        spoiler = next(
            (
                step
                for step in reversed(self._steps[:position])
                if check in self._procedure.spoils(step) and step.kind is not StepKind.MAKE
            ),
            None,
        )
        after = (spoiler.key,) if spoiler is not None and spoiler.kind is StepKind.DO else ()
        if check in self._procedure.guards and check not in self._procedure.release_list:
            return Purpose("must hold before the next step")
        is_due = check in self._situation.wanted or check in self._procedure.release_list
        if is_due and spoiler is not None and check in self._situation.fresh:
            return Purpose(f"spoiled by: {self._procedure.named(spoiler)}", for_work=after)
        told = self._known[check]
        if check in self._request.wanted:
            return Purpose("asked for" if told.standing is Standing.NEVER else f"asked for; {told.reason.rstrip('.')}")
        if check in self._situation.wanted:
            return Purpose(told.reason.rstrip("."))
        if is_due and spoiler is not None:
            return Purpose(f"for release, after: {self._procedure.named(spoiler)}", for_work=after)
        for later in self._steps[position + 1 :]:
            if later.kind in {StepKind.MAKE, StepKind.AS_FOUND} and check in self._procedure.bases(later.key):
                return Purpose(f"the {self._procedure.checks[later.key].name} rests on it", for_checks=(later.key,))
        return Purpose(told.reason.rstrip("."))


def _for(procedure: Procedure, step: Step) -> Purpose:
    if step.kind is StepKind.DO:
        return Purpose(f"to {procedure.actions[step.key].name}", for_work=(step.key,))
    return Purpose(f"to prove the {procedure.checks[step.key].name}", for_checks=(step.key,))
