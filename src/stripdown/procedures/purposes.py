"""Why is this step in the plan?"""

from __future__ import annotations

from collections.abc import Mapping

from stripdown.procedures.needed import Situation
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.standing import CheckStanding, Standing
from stripdown.procedures.steps import Step, StepKind


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
    ) -> None:
        self._procedure = procedure
        self._situation = situation
        self._known = known
        self._steps = steps
        self._request = request
        self._reasons = reasons

    def of(self, position: int) -> str:
        """Why a step is there."""
        step = self._steps[position]
        if step.kind is StepKind.DO:
            return self._reasons.get(step.key, "asked for")
        if step.kind is StepKind.AS_FOUND:
            return "before anything disturbs it"
        if step.kind is StepKind.TAKE_OFF:
            return self._reached(position)
        return self._remade(position) if step.kind is StepKind.MAKE else ""

    def _reached(self, position: int) -> str:
        """What is behind a part, or what is done with it off."""
        step = self._steps[position]
        for later in self._steps[position + 1 :]:
            if later.kind is StepKind.PUT_BACK and later.key == step.key:
                break
            if later.kind is StepKind.TAKE_OFF and step.key in self._procedure.front_of(later.key):
                return f"to reach the {self._procedure.parts[later.key].name}"
            if later.kind not in {StepKind.TAKE_OFF, StepKind.PUT_BACK} and step.key in self._procedure.off(later):
                return f"to {_order(self._procedure, later)}"
        return "so that what is behind it can go back"

    def _remade(self, position: int) -> str:
        check = self._steps[position].key
        spoiler = next(
            (
                step
                for step in reversed(self._steps[:position])
                if check in self._procedure.spoils(step) and step.kind is not StepKind.MAKE
            ),
            None,
        )
        if check in self._procedure.guards and check not in self._procedure.release_list:
            return "must hold before the next step"
        is_due = check in self._situation.wanted or check in self._procedure.release_list
        if is_due and spoiler is not None and check in self._situation.fresh:
            return f"spoiled by: {self._procedure.named(spoiler)}"
        told = self._known[check]
        if check in self._request.wanted:
            return "asked for" if told.standing is Standing.NEVER else f"asked for; {told.reason.rstrip('.')}"
        if check in self._situation.wanted:
            return told.reason.rstrip(".")
        if is_due and spoiler is not None:
            return f"for release, after: {self._procedure.named(spoiler)}"
        for later in self._steps[position + 1 :]:
            if later.kind in {StepKind.MAKE, StepKind.AS_FOUND} and check in self._procedure.bases(later.key):
                return f"the {self._procedure.checks[later.key].name} rests on it"
        return told.reason.rstrip(".")


def _order(procedure: Procedure, step: Step) -> str:
    if step.kind is StepKind.DO:
        return procedure.actions[step.key].name
    return f"prove the {procedure.checks[step.key].name}"
