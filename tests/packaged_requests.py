"""Requests at random on the packaged data, with a gun half stripped by an earlier plan, and the plan done step by step."""

from __future__ import annotations

import random
from collections.abc import Iterable
from dataclasses import dataclass

from stripdown.errors import ProcedureError
from stripdown.procedures.actions import Action
from stripdown.procedures.checks import Check
from stripdown.procedures.events import AS_FOUND, Event
from stripdown.procedures.happenings import Happening, gun_after, happenings
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.plan import Plan, plan
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import CheckStanding, standing
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.touches import PartTouch, Touch
from stripdown.procedures.variations import Variation

MOVES = {StepKind.TAKE_OFF, StepKind.PUT_BACK}
PROVING = {StepKind.MAKE, StepKind.AS_FOUND}


@dataclass(frozen=True, kw_only=True)
class Planned:
    """A log, a request, and the plan from where the log ends.

    ``refused`` says why there is no plan.
    """

    variation: Variation
    log: tuple[Event, ...]
    work: tuple[str, ...]
    wanted: tuple[str, ...]
    as_found: tuple[str, ...]
    plan: Plan | None
    refused: str = ""

    @property
    def procedure(self) -> Procedure:
        """Procedures of the gun from where the log ends."""
        return gun_after(load_procedures().procedure(self.variation), happenings_of(self))

    @property
    def procedure_after(self) -> Procedure:
        """Procedures of the gun that it is after the plan."""
        return self.procedure.after(self.work)

    @property
    def steps(self) -> tuple[Step, ...]:
        """Steps of the plan."""
        return () if self.plan is None else tuple(one.step for one in self.plan.steps)

    @property
    def whole_log(self) -> tuple[Event, ...]:
        """The log with the plan entered as it was done."""
        return (*self.log, *as_events(self.steps, first=len(self.log) + 1))

    @property
    def before(self) -> dict[str, CheckStanding]:
        """How the checks stood before the plan."""
        return dict(standing(load_procedures(), self.log, variation=self.variation))


def planned(seed: int) -> Planned:
    """A variation, a log and a request at random; the log is an earlier plan, given up at some step."""
    chance = random.Random(seed)  # noqa: S311  not for secrets
    procedures = load_procedures()
    variation = procedures.variation({one.key: chance.choice(one.choices).key for one in procedures.features})
    procedure = procedures.procedure(variation)
    log = _given_up(procedure, variation, chance) if chance.random() < 0.6 else ()
    procedure = gun_after(procedure, happenings(procedure, log))
    return asked(variation, *random_request(procedure, chance), log=log)


def asked(
    variation: Variation,
    work: tuple[str, ...],
    wanted: tuple[str, ...],
    as_found: tuple[str, ...],
    *,
    log: tuple[Event, ...] = (),
) -> Planned:
    """The plan for a request from where a log ends."""
    try:
        found = plan(load_procedures(), work=work, wanted=wanted, as_found=as_found, events=log, variation=variation)
    except ProcedureError as reason:
        return Planned(variation=variation, log=log, work=work, wanted=wanted, as_found=as_found, plan=None, refused=str(reason))
    return Planned(variation=variation, log=log, work=work, wanted=wanted, as_found=as_found, plan=found)


def random_request(procedure: Procedure, chance: random.Random) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """Work, checks wanted and readings as found."""
    work: list[str] = []
    for key in chance.sample(list(procedure.actions), chance.choice([0, 1, 1, 2, 3, 5, 12])):
        if not any(_clash(procedure.actions[key], procedure.actions[other]) for other in work):
            work.append(key)
    checks = list(procedure.checks)
    wanted = chance.sample(checks, chance.choice([0, 0, 1, 2, 4, 10]))
    readable = [key for key in checks if key not in procedure.leaving]
    as_found = chance.sample(readable, chance.choice([0, 0, 0, 1, 2, 4]))
    return tuple(work), tuple(wanted), tuple(as_found)


def _clash(one: Action, other: Action) -> bool:
    """Whether two pieces of work cannot both be asked for."""
    is_two_guns = any(other.becomes.get(feature, choice) != choice for feature, choice in one.becomes.items())
    return is_two_guns or one.key in other.excludes or other.key in one.excludes


def _given_up(procedure: Procedure, variation: Variation, chance: random.Random) -> tuple[Event, ...]:
    """The first steps of a plan, of which some checks failed."""
    work, wanted, as_found = random_request(procedure, chance)
    try:
        earlier = plan(load_procedures(), work=work, wanted=wanted, as_found=as_found, variation=variation)
    except ProcedureError:
        return ()
    steps = [one.step for one in earlier.steps]
    return as_events(steps[: chance.randint(0, len(steps))], first=1, chance=chance)


def as_events(steps: Iterable[Step], *, first: int, chance: random.Random | None = None) -> tuple[Event, ...]:
    """Steps as they would be entered; with ``chance`` one check in ten did not pass."""
    events = []
    for number, step in enumerate(steps, start=first):
        if step.kind in MOVES:
            events.append(Event(number=number, action=step.kind.value, part=step.key))
        elif step.kind is StepKind.DO:
            events.append(Event(number=number, action=step.key))
        else:
            passed = chance is None or chance.random() > 0.1
            kind = AS_FOUND if step.kind is StepKind.AS_FOUND else None
            events.append(Event(number=number, check=step.key, passed=passed, kind=kind))
    return tuple(events)


class Replay:
    """Parts off and checks fresh as steps are done, from the records alone: nothing that the planner derives is asked."""

    def __init__(self, procedure: Procedure, *, off: Iterable[str], fresh: Iterable[str]) -> None:
        self._procedure = procedure
        self.off, self.fresh = set(off), set(fresh)
        self.spoiled: set[str] = set()
        self._holds_nothing = "main_spring" in self.off  # until it is under power again

    def do(self, step: Step) -> None:
        """Do a step that all passes, and say by an assertion what forbids it."""
        parts, checks = self._procedure.parts, self._procedure.checks
        fires = ""
        if step.kind in MOVES:
            part = parts[step.key]
            needs = part.needs if step.kind is StepKind.TAKE_OFF else part.needs_back
            must_be_off, must_be_on = self._covering([step.key]), frozenset[str]()
            touches: list[PartTouch] = [(step.key, Touch.REFIT)]
            assert (step.key in self.off) == (step.kind is StepKind.PUT_BACK), step
        elif step.kind is StepKind.DO:
            action = self._procedure.actions[step.key]
            fires = action.fires
            needs, touches = action.needs, list(action.touches)
            must_be_off = {*action.off, *self._covering(action.off)}
            must_be_on = frozenset(action.on)
        else:
            check = checks[step.key]
            fires = check.fires
            needs, touches = check.needs, [*check.touches, *((part, Touch.REFIT) for part in check.dry)]
            must_be_off = {*check.off, *self._covering(check.off)}
            must_be_on = frozenset(check.on) - frozenset(check.dry)
        assert must_be_off & parts.keys() <= self.off, (step, must_be_off & parts.keys() - self.off)
        assert not must_be_on & self.off, (step, must_be_on & self.off)
        waits = step.kind is StepKind.TAKE_OFF and parts[step.key].may_go_first  # what may go first is another test's business
        held = self.fresh | ({"made_safe"} if self._holds_nothing else set())
        assert waits or set(needs) & checks.keys() <= held, (step, set(needs) & checks.keys() - held)
        self._holds_nothing &= step != Step(StepKind.PUT_BACK, "battery")
        self._touch(touches, is_back=step.kind is StepKind.PUT_BACK, fires=bool(fires))
        if step.kind in PROVING and set(checks[step.key].rests_on) & checks.keys() <= self.fresh:
            self.fresh.add(step.key)
        if step.kind in MOVES:
            self.off ^= {step.key}
        if step.kind is StepKind.DO:
            self._become(self._procedure.after((step.key,)), touches)

    def _become(self, after: Procedure, touches: Iterable[PartTouch]) -> None:
        """From here on it may be another gun: what it has not is gone, what only it has is in the hand and unproved."""
        before, self._procedure = self._procedure, after
        if after is before:
            return
        leaving, arriving = before.parts.keys() - after.parts.keys(), after.parts.keys() - before.parts.keys()
        assert leaving <= self.off, leaving - self.off
        self.off = (self.off - leaving) | arriving
        self.fresh &= after.checks.keys()
        self.spoiled = (self.spoiled | (after.checks.keys() - before.checks.keys())) & after.checks.keys()
        self._touch(touches)
        known = before.checks
        self._stale({key for key, check in after.checks.items() if key not in known or check.fact != known[key].fact})

    def _covering(self, parts: Iterable[str]) -> set[str]:
        """All that is in front of parts, and in front of that."""
        known = self._procedure.parts
        found: set[str] = set()
        waiting = [part for part in parts if part in known]
        while waiting:
            for front in known[waiting.pop()].in_front:
                if front in known and front not in found:
                    found.add(front)
                    waiting.append(front)
        return found

    def _touch(self, touches: Iterable[PartTouch], *, is_back: bool = False, fires: bool = False) -> None:
        parts, checks = self._procedure.parts, self._procedure.checks

        def spoils(one: PartTouch, check: Check) -> bool:
            return one[0] in parts and check.is_spoiled_by(one) and not (is_back and one[0] in check.spared_back)

        gone = {key for key, check in checks.items() if any(spoils(one, check) for one in touches)}
        self._stale(gone | {key for key, check in checks.items() if fires and check.holds_until_run})

    def _stale(self, gone: set[str]) -> None:
        checks = self._procedure.checks
        while more := {key for key, check in checks.items() if gone & set(check.rests_on)} - gone:
            gone |= more
        self.fresh -= gone
        self.spoiled |= gone


def happenings_of(one: Planned) -> tuple[Happening, ...]:
    """What the log says before the plan."""
    return happenings(load_procedures().procedure(one.variation), one.log)


def replayed(one: Planned) -> Replay:
    """A plan done to its end."""
    fresh = [key for key, stands in one.before.items() if stands.standing.value == "fresh"]
    log = happenings_of(one)
    book = Replay(one.procedure, off=log[-1].off_after if log else (), fresh=fresh)
    for step in one.steps:
        book.do(step)
    return book
