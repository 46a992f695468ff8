"""A gun is a store of energy: three facts that decide what is safe next, worked out from its arrival and its log."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Final

from stripdown.errors import InputError
from stripdown.procedures.checks import Check, Method
from stripdown.procedures.events import MOVES
from stripdown.procedures.happenings import Happening, action_key
from stripdown.procedures.key_lists import key_list
from stripdown.procedures.procedure import FIRST_POWER, ROD_THROUGH, SPRING, Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.troubles import Trouble
from stripdown.tables.nearest import nearest_name

CHAMBER_CLEAR: Final = "chamber_clear"
MADE_SAFE: Final = "made_safe"
RAN: Final = ("unknown", "yes", "no")
"""Whether a gun has run since it was last opened, rewired or had its motor out; not known counts as no."""


class Spring(enum.Enum):
    """What is known of the main spring."""

    RELAXED = "relaxed"
    UNKNOWN = "unknown"
    DRAWN = "drawn"
    """Somebody says that it may have been left drawn, or the gun jammed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """How a gun arrived: what nobody here has seen, and somebody may say.

    Parameters
    ----------
    ran
        Whether it has run since it was last opened, rewired or had its motor out: ``"yes"``, ``"no"`` or ``"unknown"``, which
        counts as closed and not yet run.
    troubles
        Keys of its troubles.
    off
        Keys of the parts that were off.
    """

    ran: str = "unknown"
    troubles: tuple[str, ...] = ()
    off: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Energy:
    """What decides what is safe next.

    Parameters
    ----------
    has_run
        Whether it may have run under power since it was made safe: chamber and spring are then unknown.
    spring
        What is known of the main spring.
    is_not_yet_run
        Whether it was closed, or its motor, wires or polarity touched, and has not run since: first power comes before any shot.
    troubles
        Troubles that are not over.
    needs_rod
        Whether a ball may be stuck in the barrel.
    """

    has_run: bool = True
    spring: Spring = Spring.UNKNOWN
    is_not_yet_run: bool = True
    troubles: tuple[Trouble, ...] = ()
    needs_rod: bool = False

    @property
    def is_spring_unknown(self) -> bool:
        """Whether nobody has proved that the spring is at rest."""
        return self.spring is not Spring.RELAXED

    @property
    def can_clear_by_shots(self) -> bool:
        """Whether it can safely fire to clear its chamber."""
        return not (self.is_not_yet_run or self.needs_rod or any(one.forbids_clearing_shot for one in self.troubles))

    def unread(self, procedure: Procedure) -> Mapping[str, str]:
        """Why checks are not read as found: firing would harm the gun, or it cannot fire.

        Parameters
        ----------
        procedure
            Procedures of the gun.

        Returns
        -------
        mapping of str to str
            By key of the check.
        """
        live = [one for one in self.troubles if one.keeps_from_running and one.until]
        harm = next((one for one in live if one.forbids_shot or not one.until[0].startswith("make:")), None)
        if harm is None:
            return {}
        firing = (key for key in procedure.checks if procedure.fires(Step(StepKind.AS_FOUND, key)))
        return dict.fromkeys(firing, f"{harm.says}, and it is not fired so")

    def fits(self, method: Method) -> bool:
        """Whether a way to make a check is one for a gun in this state, wherever its parts lie.

        Parameters
        ----------
        method
            A way to make a check.

        Returns
        -------
        bool
        """
        if method.fires and not self.can_clear_by_shots:
            return False
        if any(trouble.key in method.unless for trouble in self.troubles):
            return False
        return not (method.is_for_spring_at_rest and self.is_spring_unknown)


def read_arrival(arrival: Arrival | Mapping[str, Any] | None, *, parts_off: Iterable[str] = ()) -> Arrival:
    """How a gun arrived, from what was handed over."""
    if arrival is None:
        arrival = Arrival()
    elif isinstance(arrival, Mapping):
        wrong = next((field for field in arrival if field not in {"ran", "troubles", "off"}), None)
        if wrong is not None:
            hint = nearest_name(wrong, ("ran", "troubles", "off"))
            raise InputError(f'"{wrong}" is no field of an arrival.', field=wrong, value=arrival[wrong], hint=hint)
        arrival = Arrival(**arrival)
    if arrival.ran not in RAN:
        hint = 'Write "yes", "no" or "unknown": has it run since it was last opened, rewired or had its motor out?'
        raise InputError(f'ran = "{arrival.ran}" says nothing known of an arrival.', field="ran", value=arrival.ran, hint=hint)
    off = dict.fromkeys((*key_list("off", arrival.off), *key_list("parts_off", parts_off)))
    return replace(arrival, troubles=key_list("troubles", arrival.troubles), off=tuple(off))


def trouble_called(procedure: Procedure, key: str) -> Trouble:
    """A trouble by its key, or a refusal with the nearest."""
    found = procedure.troubles.get(key)
    if found is None:
        hint = nearest_name(key, procedure.troubles)
        raise InputError(f'"{key}" is no trouble that a gun can bring.', field="troubles", value=key, hint=hint)
    return found


def troubles_of(procedure: Procedure, request: Request) -> tuple[str, ...]:
    """Troubles that a request implies: those of its complaint, and those without which nobody asks for its work."""
    asked = (key for key, one in procedure.troubles.items() if set(one.asked) & {*request.work, *request.wanted})
    return tuple(dict.fromkeys((*request.troubles, *asked)))


def energy_on_arrival(procedure: Procedure, arrival: Arrival, *, implied: Iterable[str] = ()) -> Energy:
    """What is known of a gun that has just arrived: nothing, but what somebody says."""
    keys = dict.fromkeys((*arrival.troubles, *implied))
    troubles = tuple(trouble_called(procedure, key) for key in keys)
    opened = any(part not in procedure.left_out for part in arrival.off)
    state = Energy(is_not_yet_run=FIRST_POWER in procedure.checks and (arrival.ran != "yes" or opened))
    if SPRING in arrival.off:
        state = replace(state, spring=Spring.RELAXED)
    for trouble in troubles:
        state = _troubled(procedure, state, trouble)
    return state


def energy_after(
    procedure: Procedure,
    log: Iterable[Happening],
    arrival: Arrival | None = None,
    *,
    implied: Iterable[str] = (),
    after: int = 0,
) -> Energy:
    """The three facts after all that has happened; what is said of the arrival holds after the last event before this visit."""
    state, implied = energy_on_arrival(procedure, arrival or Arrival(), implied=implied), tuple(implied)
    for happening in log:
        if arrival is None or happening.event.number > after:
            state = after_happening(state, happening)
    return state


def after_becoming(state: Energy, spoiled: Iterable[str]) -> Energy:
    """The facts after a gun became another one."""
    return replace(state, is_not_yet_run=True) if FIRST_POWER in spoiled else state


def after_happening(state: Energy, happening: Happening) -> Energy:
    """The facts after one event."""
    procedure = happening.procedure
    if FIRST_POWER in happening.spoiled:
        state = replace(state, is_not_yet_run=True)
    event = happening.event
    if event.check is not None:
        check = procedure.checks[event.check]
        step = Step(StepKind.MAKE, event.check)
        if happening.outcome is not None and happening.outcome.has_passed:
            method = next((one for one in check.methods if one.fires and state.fits(one)), None)
            return after_step(procedure, state, step, method)
        return _after_failing(procedure, _after_running(procedure, state, step, is_proved=False), check)
    if event.action is None:
        return state
    if event.action in MOVES:
        return replace(state, spring=Spring.RELAXED) if SPRING in {deed.touch[0] for deed in happening.deeds} else state
    return after_step(procedure, state, Step(StepKind.DO, action_key(procedure, event)))


def after_step(procedure: Procedure, state: Energy, step: Step, method: Method | None = None) -> Energy:
    """The facts after a step that was done, and passed if it is a check."""
    if FIRST_POWER in procedure.spoils(step):
        state = replace(state, is_not_yet_run=True)
    if step.kind is StepKind.TAKE_OFF and step.key == SPRING:
        state = replace(state, spring=Spring.RELAXED)
    state = _after_running(procedure, state, step, is_proved=True)
    if step.kind in {StepKind.MAKE, StepKind.AS_FOUND}:
        if step.key == MADE_SAFE:
            state = replace(state, has_run=False, spring=Spring.RELAXED)
        elif step.key == ROD_THROUGH:
            state = replace(state, needs_rod=False)
        elif method is not None and method.fires:  # the last of the shots that clear a chamber leaves the spring relaxed
            state = replace(state, has_run=True, spring=Spring.RELAXED)
    ending = Step(StepKind.MAKE, step.key).name if step.kind is StepKind.AS_FOUND else step.name
    left = tuple(one for one in state.troubles if ending not in one.until)
    return state if len(left) == len(state.troubles) else replace(state, troubles=left)


def _after_running(procedure: Procedure, state: Energy, step: Step, *, is_proved: bool) -> Energy:
    if not procedure.fires(step):
        return state
    if SPRING in procedure.off(step):  # nothing is drawn that is not there
        return replace(state, has_run=True)
    not_yet = state.is_not_yet_run and not is_proved
    return replace(state, has_run=True, spring=Spring.UNKNOWN, is_not_yet_run=not_yet)


def _after_failing(procedure: Procedure, state: Energy, check: Check) -> Energy:
    if check.key == FIRST_POWER:
        state = replace(state, is_not_yet_run=True)
    for trouble in procedure.troubles.values():
        if check.key in trouble.failed:
            state = _troubled(procedure, state, trouble)
    return state


def _troubled(procedure: Procedure, state: Energy, trouble: Trouble) -> Energy:
    if trouble in state.troubles:
        return state
    return replace(
        state,
        troubles=(*state.troubles, trouble),
        spring=Spring.DRAWN if trouble.may_be_drawn else state.spring,
        needs_rod=state.needs_rod or (trouble.asks_for_rod and ROD_THROUGH in procedure.checks),
        is_not_yet_run=state.is_not_yet_run or (trouble.keeps_from_running and FIRST_POWER in procedure.checks),
    )
