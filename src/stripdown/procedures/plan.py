"""In what order does one work so that nothing is checked twice?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from stripdown.procedures.becoming import of_all
from stripdown.procedures.begun import NOTHING_BEGUN, Begun, begun_by
from stripdown.procedures.cautions import Caution
from stripdown.procedures.checks import Check, Method
from stripdown.procedures.description import Procedures
from stripdown.procedures.energy import Arrival, Energy, energy_after, energy_on_arrival, read_arrival, troubles_of
from stripdown.procedures.events import Event, read_events
from stripdown.procedures.falling_due import FallingDue, owed_after
from stripdown.procedures.found import ToRead, readings_to_take
from stripdown.procedures.grading import StandingGrade
from stripdown.procedures.happenings import gun_after, happenings
from stripdown.procedures.in_hand import graded_at
from stripdown.procedures.key_lists import key_list
from stripdown.procedures.needed import Situation, needed_steps
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.purposes import Purpose, Purposes
from stripdown.procedures.request import Request, TooLate, check_request
from stripdown.procedures.stages import Stage, find_stages
from stripdown.procedures.standing import CheckStanding, Standing, standings
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.variations import Variation
from stripdown.procedures.walking import walk


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedStep:
    """One step of a plan, with all that one needs at that step.

    Parameters
    ----------
    number
        Its place in the plan, from 1.
    step
        Kind and key.
    name
        What to do, as a line of a plan.
    place
        Name of the place at the bench.
    purpose
        Why it is in the plan.
    for_checks, for_work
        Keys of the checks and of the work that it is there for, where a purpose names some.
    how, short
        How it is done; and in short, with what passes, for the trained.
    method
        The method chosen for a check; None for other steps.
    trial
        Names of the parts that it puts on and takes off itself: a trial closing.
    cautions
        What can hurt.
    tools, consumables
        What it takes, and what it uses up.
    minutes
        Time of the hands, in min.
    wait
        Time after it until what depends on it may follow, in h.
    wait_for
        What the wait is for.
    expect, seen
        What passes, for a check; and how that is seen, in a word or two.
    not_before
        What of earlier work must have cured first; empty for nothing.
    cures_since
        Number of the event that did that work; None for nothing.
    calculator
        Key of the calculator for what the step needs; empty for none.
    leaves, arrives
        Whether its part comes off and stays off, since the gun that it will be has none; or goes in for the first time.
    becomes
        What gun it is from this step on, and what it was; empty if it stays what it is.
    grades
        Keys of the parts that are in the hand at this step, and are best graded there.
    alike
        What must be the same at a reading before the work and after it.
    read_before
        Number of the event that has the reading before the work, of a check that is made; None if there is none.
    """

    number: int
    step: Step
    name: str
    place: str = ""
    purpose: str = ""
    for_checks: tuple[str, ...] = ()
    for_work: tuple[str, ...] = ()
    how: str = ""
    short: str = ""
    method: Method | None = None
    trial: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    tools: tuple[str, ...] = ()
    consumables: tuple[str, ...] = ()
    minutes: float = 0.0
    wait: float = 0.0
    wait_for: str = ""
    expect: str = ""
    seen: str = ""
    not_before: str = ""
    cures_since: int | None = None
    calculator: str = ""
    leaves: bool = False
    arrives: bool = False
    becomes: str = ""
    grades: tuple[str, ...] = ()
    alike: tuple[str, ...] = ()
    read_before: int | None = None

    @property
    def kind(self) -> StepKind:
        """What kind of step it is."""
        return self.step.kind

    @property
    def key(self) -> str:
        """Key of its part, action or check."""
        return self.step.key


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The steps for a request, in order.

    Parameters
    ----------
    procedure
        Procedures of the gun that it will be, with the parts, checks and work that only the gun as it lies there has.
    guns
        Procedures of the gun as it lies there, then of each gun that a step makes of it.
    request
        What was asked for.
    steps
        What to do, in order.
    too_late
        Readings as found that are lost, with the reason: nobody asks for them any more.
    remedies
        Actions that were added because a check had failed, with the key of that check.
    falling_due
        What is owed later, when it is done: a proof after some use of what was fitted.
    energy
        What is known of the gun before the plan.
    left_open
        Checks of the release list that the log owes and the plan does not prove, with how they stand: without them the gun is not
        ready.
    visited
        How many states were looked at; one, if a single opening will do.
    """

    procedure: Procedure = field(repr=False)
    guns: tuple[Procedure, ...] = field(repr=False)
    request: Request
    steps: tuple[PlannedStep, ...]
    too_late: tuple[TooLate, ...] = ()
    remedies: Mapping[str, str] = field(default_factory=dict)
    falling_due: tuple[FallingDue, ...] = ()
    left_open: Mapping[str, CheckStanding] = field(default_factory=dict)
    energy: Energy = field(default_factory=Energy)
    visited: int = 1

    @property
    def becomes(self) -> Mapping[str, str]:
        """What gun it makes of the gun: key of the choice by key of the feature, for each feature that changes."""
        first, last = self.guns[0].choices, self.guns[-1].choices
        return {feature: choice.key for feature, choice in last.items() if choice != first[feature]}

    def gun_at(self, number: int) -> Procedure:
        """Procedures of the gun that it is when a step begins.

        Parameters
        ----------
        number
            Of the step, from 1.

        Returns
        -------
        Procedure
        """
        return self.guns[sum(bool(step.becomes) for step in self.steps[: number - 1])]

    @property
    def tools(self) -> tuple[str, ...]:
        """All tools, each once."""
        return tuple(dict.fromkeys(tool for step in self.steps for tool in step.tools))

    @property
    def consumables(self) -> tuple[str, ...]:
        """All that is used up, each once."""
        return tuple(dict.fromkeys(one for step in self.steps for one in step.consumables))

    @property
    def waits(self) -> tuple[PlannedStep, ...]:
        """Steps after which one has to wait."""
        return tuple(step for step in self.steps if step.wait > 0.0)

    @property
    def wait_hours(self) -> float:
        """Time to wait in all, in h: waits that run side by side count once, and the hands' time counts for nothing."""
        waits_for: dict[Step, list[Step]] = {}
        for order in self.procedure.order:
            if order.is_cure:
                waits_for.setdefault(order.then, []).append(order.first)
        now, over = 0.0, dict[Step, float]()
        for one in self.steps:
            now = max([now, *(over.get(first, 0.0) for first in waits_for.get(one.step, ()))])
            if one.wait > 0.0:
                over[one.step] = now + one.wait
        return max([now, *over.values()])

    @property
    def minutes(self) -> float:
        """Time of the hands in all, in min."""
        return sum(step.minutes for step in self.steps)

    @property
    def makings(self) -> int:
        """How many checks it makes, guards and readings as found not counted."""
        return sum(step.kind is StepKind.MAKE and step.key not in self.procedure.guards for step in self.steps)

    @property
    def moves(self) -> int:
        """How often it takes a part off or puts one back, trial closings not counted."""
        return sum(step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK} for step in self.steps)

    @property
    def openings(self) -> int:
        """How often it takes off the part that it takes off most often, what loads and drives the gun not counted."""
        loading = self.procedure.left_out
        off = [step.key for step in self.steps if step.kind is StepKind.TAKE_OFF and step.key not in loading]
        return max((off.count(part) for part in set(off)), default=0)


def plan(
    procedures: Procedures,
    *,
    work: Iterable[str] = (),
    wanted: Iterable[str] = (),
    as_found: Iterable[str] = (),
    events: Iterable[Event | Mapping[str, Any]] = (),
    variation: Variation | Mapping[str, str] | str | Iterable[str],
    parts_off: Iterable[str] = (),
    tools_at_hand: Iterable[str] | None = None,
    arrival: Arrival | Mapping[str, Any] | None = None,
) -> Plan:
    """The plan for a request: opening, work, checks, refit, and proof again of what the work spoils, and of nothing else.

    Parameters
    ----------
    procedures
        All procedures.
    work
        Actions to do.
    wanted
        Checks to be fresh at the end.
    as_found
        Checks to read before anything disturbs them.
    events
        The log of the gun so far.
    variation
        What gun it was before the first event: feature to choice, or choices alone; what is not said is assumed.
    parts_off
        Parts that were off before the first event.
    tools_at_hand
        Tools that there are: of several methods for a check the first that they allow is chosen. None takes the best.
    arrival
        How the gun arrived: whether it has run since it was last opened or wired, its troubles, parts that were off. What is not
        said is not known, and counts as closed and not yet run.

    Returns
    -------
    Plan
        With the fewest makings and, among those, the fewest moves. If some work makes another gun of it, the plan runs from the
        old gun's opening to the new gun's proofs.

    Raises
    ------
    InputError
        For a name that is unknown or belongs to another variation, work that contradicts itself, or a log that cannot be true.
    ProcedureError
        If there is no such order, with the shortest circle of steps each of which would have to come before the next.
    """
    procedure = procedures.procedure(variation)
    request = Request(work=key_list("work", work), wanted=key_list("wanted", wanted), as_found=key_list("as_found", as_found))
    arrived = read_arrival(arrival, parts_off=parts_off)
    tools = None if tools_at_hand is None else key_list("tools_at_hand", tools_at_hand)
    log = happenings(procedure, read_events(events), parts_off=arrived.off, procedures=procedures)
    off = log[-1].off_after if log else frozenset(arrived.off)
    now = gun_after(procedure, log)
    made_so = {one.becoming.action for one in log if one.becoming is not None} - now.actions.keys()
    request = replace(request, work=tuple(key for key in request.work if key not in made_so))
    check_request(now, request, procedures)
    return plan_from(
        now,
        request,
        off=off,
        known=standings(procedure, log),
        tools_at_hand=tools,
        begun=begun_by(procedure, log),
        energy=energy_after(procedure, log, arrived, implied=troubles_of(procedure, request)),
    )


def plan_from(
    procedure: Procedure,
    request: Request,
    *,
    off: frozenset[str],
    known: Mapping[str, CheckStanding],
    tools_at_hand: Iterable[str] | None = None,
    owed: Iterable[str] = (),
    rejects: Mapping[str, StandingGrade] | None = None,
    begun: Begun = NOTHING_BEGUN,
    unread: Mapping[str, str] | None = None,
    energy: Energy | None = None,
) -> Plan:
    """The plan for a request from a gun as it lies there; `unread` says of a check why it is not read as found."""
    state = energy_on_arrival(procedure, Arrival()) if energy is None else energy
    situation = Situation(
        off=off - procedure.left_out,
        fresh=frozenset(key for key, one in known.items() if one.standing is Standing.FRESH),
        failed=frozenset(key for key, one in known.items() if one.standing is Standing.FAILED),
        work=procedure.with_brought(request.work),
        wanted=frozenset((*request.wanted, *owed)) - procedure.leaving,
    )
    disturbed = [key for key, one in known.items() if one.is_owed]

    def stages_for(asked: Situation, lost: Mapping[str, str]) -> tuple[tuple[Stage, ...], ToRead]:
        to_read = readings_to_take(
            procedure,
            [key for key in request.as_found if key not in procedure.leaving],
            asked,
            known=begun.befores,
            owed=disturbed,
            unread={**state.unread(procedure), **(unread or {}), **lost},
        )
        return _stages(procedure, asked, to_read, begun), to_read

    at_hand = None if tools_at_hand is None else frozenset(tools_at_hand)
    is_left = any(key in request.wanted or key in disturbed for key in procedure.leaving)
    found = walk(stages_for, situation, state, off=off, at_hand=at_hand, is_left=is_left)
    stages, walked, last = found.stages, found.walked, found.stages[-1]
    remedies = dict(needed_steps(last.procedure, last.situation).remedies)
    told = {one.until[0].partition(":")[2]: one.says for one in state.troubles if one.until}
    told |= {key: f"the {last.procedure.checks[check].name} did not pass" for key, check in remedies.items()}
    for key in {*request.work, *remedies}:
        for brought in last.procedure.with_brought((key,)) - {*request.work, *remedies}:
            told[brought] = f"goes with: {last.procedure.actions[key].name}"
    for key, one in (rejects or {}).items():
        part = procedure.parts[one.record.part]
        told[key] = f"the {part.name} {part.was} graded a reject for {one.look.name}"
    purposes = Purposes(stages, known, walked, request=request, reasons=told, remedies=remedies, befores=begun.befores or {})
    care = tuple(dict.fromkeys(caution for trouble in state.troubles for caution in trouble.care))
    grades = graded_at(walked)
    return Plan(
        procedure=of_all(stage.procedure for stage in stages),
        guns=tuple(stage.procedure for stage in stages),
        request=request,
        steps=tuple(
            _placed(
                _passing(planned_step(stage.procedure, step, number=place + 1, off=lying, method=method, care=care), stages),
                purposes.of(place),
                begun,
                grades.get(place, ()),
            )
            for place, ((stage, step, lying), method) in enumerate(zip(walked, found.methods, strict=True))
        ),
        too_late=found.to_read.too_late,
        remedies=remedies,
        falling_due=owed_after(last.procedure, known, [(step, stage.spoils(step)) for stage, step, _ in walked]),
        left_open={
            key: known[key]
            for key in last.procedure.checks
            if key in last.procedure.release_list - found.fresh and key in known and known[key].is_owed
        },
        energy=state,
        visited=sum(stage.visited for stage in stages) - len(stages) + 1,
    )


def _stages(procedure: Procedure, situation: Situation, to_read: ToRead, begun: Begun) -> tuple[Stage, ...]:
    """The stages of a plan; the first puts back what is out already and must be in for a reading."""
    place = procedure.place_of(to_read.put_back[-1]) if to_read.put_back else begun.place
    closed = replace(
        situation,
        off=situation.off - {step.key for step in to_read.put_back},
        fresh=situation.fresh.difference(*(procedure.spoils(step) for step in to_read.put_back)),
        as_found=frozenset(to_read.checks),
    )
    stages = find_stages(procedure, closed, place=place, curing=begun.curing)
    return (Stage(procedure=procedure, situation=situation, steps=to_read.put_back), *stages) if to_read.put_back else stages


def _passing(step: PlannedStep, stages: tuple[Stage, ...]) -> PlannedStep:
    """A step that says whether its part leaves or arrives, and what it makes of the gun."""
    changes = [stage.becoming for stage in stages if stage.becoming is not None]
    if step.kind is StepKind.DO:
        return replace(step, becomes=next((one.words for one in changes if one.action == step.key), ""))
    leaves = step.kind is StepKind.TAKE_OFF and any(step.key in one.leaving for one in changes)
    arrives = step.kind is StepKind.PUT_BACK and any(step.key in one.arriving for one in changes)
    name = step.name.replace("put back the", "put in the", 1) if arrives else step.name
    return replace(step, name=name, leaves=leaves, arrives=arrives)


def _placed(step: PlannedStep, purpose: Purpose, begun: Begun, grades: tuple[str, ...]) -> PlannedStep:
    """A step with its reason to be there, what must have cured before it, the reading before, and what is in the hand."""
    curing = begun.curing.get(step.step)
    before = None if begun.befores is None or step.kind is not StepKind.MAKE else begun.befores.get(step.key)
    return replace(
        step,
        purpose=purpose.words,
        for_checks=purpose.for_checks,
        for_work=purpose.for_work,
        not_before="" if curing is None else curing.words,
        cures_since=None if curing is None or not curing.words else curing.event,
        read_before=before.read if before is not None and before.holds else None,
        grades=grades,
    )


def planned_step(
    procedure: Procedure,
    step: Step,
    *,
    number: int,
    off: frozenset[str],
    method: Method | None = None,
    care: tuple[Caution, ...] = (),
) -> PlannedStep:
    """A step with all that one needs at that step."""
    name, place = procedure.named(step), procedure.places.get(procedure.place_of(step), "")
    if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}:
        part = procedure.parts[step.key]
        is_off = step.kind is StepKind.TAKE_OFF
        return PlannedStep(
            number=number,
            step=step,
            name=name,
            place=place,
            how=part.off if is_off else part.back,
            short=part.short_off if is_off else part.short_back,
            cautions=part.care if is_off else part.care_back,
            tools=part.tools,
            minutes=part.minutes,
        )
    if step.kind is StepKind.DO:
        action = procedure.actions[step.key]
        return PlannedStep(
            number=number,
            step=step,
            name=name,
            place=place,
            how=action.how,
            short=action.short,
            cautions=(*(care if action.fires else ()), *action.cautions),
            tools=action.tools,
            consumables=action.consumables,
            minutes=action.minutes,
            wait=action.wait,
            wait_for=action.wait_for,
            calculator=action.calculator,
        )
    check = procedure.checks[step.key]
    return PlannedStep(
        number=number,
        step=step,
        name=name,
        place=place,
        how=method.how if method is not None else check.fact,
        short=method.short if method is not None else "",
        method=method,
        trial=tuple(procedure.parts[part].name for part in check.dry if part in off),
        cautions=(*(care if check.fires else ()), *check.cautions),
        tools=method.tools if method is not None else (),
        minutes=method.minutes if method is not None else 0.0,
        expect=_expected(check),
        seen=check.seen,
        calculator=check.calculator,
        alike=check.alike,
    )


def _expected(check: Check) -> str:
    if check.reading is None or (check.reading.low is None and check.reading.high is None):
        return check.expect
    return f"{check.expect} ({check.reading.label}: {check.reading.band})" if check.expect else check.reading.band
