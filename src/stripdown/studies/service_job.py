"""A job as it stands: the plan from here, and what keeps the gun on the bench."""

from __future__ import annotations

import enum
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from stripdown.bench.shims import ShimSheet
from stripdown.bench.visit import Visit
from stripdown.procedures.begun import begun_by
from stripdown.procedures.bodies import load_bodies
from stripdown.procedures.curing import TooSoon, too_soon
from stripdown.procedures.description import Procedures
from stripdown.procedures.grading import StandingGrade
from stripdown.procedures.guarding import unguarded
from stripdown.procedures.happenings import Happening
from stripdown.procedures.inspection import load_inspection
from stripdown.procedures.jobs import NamedJob
from stripdown.procedures.labels import Labels
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.plan import Plan, plan_from
from stripdown.procedures.request import Request
from stripdown.procedures.standing import CheckStanding, Standing
from stripdown.procedures.steps import Step
from stripdown.procedures.touches import Touch
from stripdown.procedures.variations import Variation
from stripdown.procedures.why import Why, plan_with, why_before
from stripdown.studies.calculators import Answered, calculate_all
from stripdown.studies.cures import cure_hours
from stripdown.studies.forbidden_touches import TouchFinding, TouchLevel, forbidden_touches

_BEARINGS = {"bearings": "steel", "bushings": "bronze"}


class BlockKind(enum.StrEnum):
    """What keeps a gun on the bench."""

    CHECK = "check"
    """A check of the release list that is not fresh."""
    PARTS_OFF = "parts_off"
    """Parts that are off."""
    REJECT = "reject"
    """A part that was graded a reject, and was neither replaced nor mended."""
    HARM = "harm"
    """A part that a fluid has harmed, and that was neither looked at since nor replaced."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """One thing that keeps a gun on the bench, by its keys.

    Parameters
    ----------
    kind
        A check that is not fresh, parts that are off, or a reject.
    key
        Key of the check, or of the look; empty for parts that are off.
    parts
        Keys of the parts that are off, or of the part that was rejected; empty for a check.
    event
        Number of the event or grade that made it so; None if the log has none.
    standing
        How the check stands; None for the other kinds.
    grade
        The reject; None for the other kinds.
    touch
        What harmed the part; None for the other kinds.
    """

    kind: BlockKind
    key: str = ""
    parts: tuple[str, ...] = ()
    event: int | None = None
    standing: CheckStanding | None = None
    grade: StandingGrade | None = None
    touch: TouchFinding | None = None


class FindingKind(enum.StrEnum):
    """What in a log should not be."""

    UNGUARDED = "unguarded"
    """A step without what should have been made sure of before it."""
    TOUCH = "touch"
    """A fluid that touched what it must not touch, or should with care."""
    TOO_SOON = "too_soon"
    """What did not wait for something to cure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LogFinding:
    """One thing in a log that should not be, by its keys.

    Parameters
    ----------
    kind
        A step without its guards, a fluid on a part, or a step that did not wait.
    level
        How much it weighs.
    event
        Number of the event.
    step
        The step that lacks its guards, or did not wait; None for a fluid.
    guards
        Keys of the checks that the log does not have before it; empty for a fluid.
    touch
        Part, fluid and answer; None for the other kinds.
    work
        Keys of the work that replaces a part that was harmed; empty for all else.
    too_soon
        The work for which it did not wait, and the hours; None for the other kinds.
    """

    kind: FindingKind
    level: TouchLevel
    event: int
    step: Step | None = None
    guards: tuple[str, ...] = ()
    touch: TouchFinding | None = None
    work: tuple[str, ...] = ()
    too_soon: TooSoon | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """Whether a gun may leave the bench, and what keeps it.

    Parameters
    ----------
    blocks
        All that keeps it: checks of the release list that are not fresh, parts that are off, and rejects that were neither
        replaced nor overridden.
    overridden
        Rejects that leave all the same, each with the reason that somebody gave.
    findings
        What in the log should not be: a step without the guard that it needs (made safe), one that did not wait for a bond to
        cure, and fluids that touched what they must not touch, or should with care; a part that was replaced since is forgiven.
    is_proved
        Whether any check holds: of a gun of which nothing is proved nobody can say that nothing keeps it.
    """

    blocks: tuple[Block, ...]
    overridden: tuple[Block, ...]
    findings: tuple[LogFinding, ...]
    is_proved: bool

    @property
    def is_ready(self) -> bool:
        """Whether nothing keeps it, and something says so."""
        return self.is_proved and not self.blocks


@dataclass(frozen=True, slots=True, kw_only=True)
class JobStudy:
    """A job with its plan, its release and the answers of its calculators.

    Parameters
    ----------
    job
        As its file has it.
    plan
        What is left to do, in order.
    release
        What keeps the gun on the bench as it lies there.
    answered
        What the calculators say to what its file holds for them.
    labels
        Labels of what the log says lies in a part, by the part's key.
    """

    job: Visit
    plan: Plan
    release: Release
    answered: tuple[Answered, ...]
    labels: Mapping[str, frozenset[str]]

    @property
    def is_invented(self) -> bool:
        """Whether gun, events or measurements are made up."""
        sheets = (one.asked.record for one in self.answered if isinstance(one.asked.record, ShimSheet))
        return self.job.invented or any(sheet.invented for sheet in sheets)


def study_job(job: Visit) -> JobStudy:
    """Plan what is left of a job, and say what keeps the gun on the bench.

    The plan does what is asked for, mends what was rejected, and proves whatever the log has undone.

    Parameters
    ----------
    job
        As its file has it.

    Returns
    -------
    JobStudy

    Raises
    ------
    ProcedureError
        If what is asked for cannot be done in any order.
    """
    procedure = job.procedure
    findings = (*_unguarded(job), *_too_soon(job), *_fluid_findings(job))
    rejects = dict(_work_for_rejects(job))
    labels = Labels(procedure)
    for happening in job.log:
        labels.place(happening.event)
    return JobStudy(
        job=job,
        plan=plan_from(
            procedure,
            job.remaining.joined(Request(work=tuple(rejects))),
            off=job.parts_off,
            known=job.known,
            tools_at_hand=job.tools,
            owed=[key for key, one in job.known.items() if key in procedure.release_list and one.is_owed],
            rejects=rejects,
            begun=begun_by(procedure, job.log, after=job.after, hours=cure_hours(job.events)),
            energy=job.energy,
        ),
        release=Release(
            blocks=(
                *_blocks(job),
                *(_harmed(one) for one in findings if one.kind is FindingKind.TOUCH and one.level is TouchLevel.ERROR),
            ),
            overridden=tuple(_rejected(one) for one in job.grades if one.is_open_reject and not one.blocks_release),
            findings=findings,
            is_proved=any(one.standing is Standing.FRESH for one in job.known.values()),
        ),
        answered=calculate_all(job.asked),
        labels=dict(labels.lying),
    )


def why_in_order(first: str, then: str, *, study: JobStudy | None = None, variation: str = "") -> Why:
    """Say why one step comes before another.

    Parameters
    ----------
    first, then
        The steps, as a technician writes them.
    study
        The job whose plan is asked; None for the plan that the two steps ask for by themselves.
    variation
        Key of the gun's variation, where there is no job; empty for the usual one.

    Returns
    -------
    Why

    Raises
    ------
    InputError
        For a step that is not in the plan.
    """
    if study is None:
        return why_before(plan_with(load_procedures(), (first, then), variation=variation or ()), first, then)
    return why_before(study.plan, first, then)


def named_jobs() -> Mapping[str, NamedJob]:
    """List the jobs that have a name.

    Returns
    -------
    mapping of str to NamedJob
        By key.
    """
    return load_procedures().named_jobs(())


def names_for_jobs(visit: Visit | None = None) -> Mapping[str, Mapping[str, str]]:
    """List the names that a job or its log may use.

    Parameters
    ----------
    visit
        Whose gun it is; None for every gun.

    Returns
    -------
    mapping of str to mapping of str to str
        By sort (jobs, work, checks, parts, looks, variation, bodies), what each key is called; of a look the key is that of its
        part and its own, of the variation the name is all its choices.
    """
    inspection = load_inspection() if visit is None else visit.inspection
    known = inspection.procedures
    kinds = _every_choice(known) if visit is None else _guns_of(visit)
    found: dict[str, dict[str, str]] = {sort: {} for sort in ("jobs", "work", "checks", "parts", "looks")}
    for variation in kinds:
        sheet = inspection.sheet(variation)
        procedure = sheet.procedure
        one = {
            "jobs": {key: job.name for key, job in known.named_jobs(variation).items()},
            "work": {key: action.name for key, action in procedure.actions.items()},
            "checks": {key: check.name for key, check in procedure.checks.items()},
            "parts": {key: part.name for key, part in procedure.parts.items()},
            "looks": {
                f"{part} {look.key}": f"{procedure.parts[part].name}: {look.name}"
                for part, looks in sheet.looks.items()
                for look in looks
            },
        }
        found = {sort: {**names, **found[sort]} for sort, names in one.items()}
    features = {one.key: f"{one.name}: {', '.join(choice.name for choice in one.choices)}" for one in known.features}
    return {**found, "variation": features, "bodies": {key: body.name for key, body in load_bodies().items()}}


def _guns_of(visit: Visit) -> Iterator[Variation]:
    """The gun as it arrived, as it is, and as the work will make it."""
    for gun in dict.fromkeys((visit.procedure_on_arrival, visit.procedure, visit.procedure.after(visit.remaining.work))):
        yield visit.procedures.variation({feature: choice.key for feature, choice in gun.choices.items()})


def _every_choice(known: Procedures) -> Iterator[Variation]:
    """Variations that together have everything: the assumed one, and for each choice the assumed one with it."""
    yield known.variation(())
    for feature in known.features:
        yield from (known.variation({feature.key: choice.key}) for choice in feature.choices)


def _work_for_rejects(job: Visit) -> Iterator[tuple[str, StandingGrade]]:
    """For each reject that blocks release the work that it asks for first, unless that or a new part is asked for anyway."""
    work, actions = job.remaining.work, job.procedure.actions
    new = {part for key in work if key in actions for part, kind in actions[key].touches if kind is Touch.REPLACE}
    for one in job.grades:
        asked = [action for action in one.look.work if action in actions]
        if one.blocks_release and asked and not set(asked) & set(work) and one.record.part not in new:
            yield asked[0], one


def _blocks(job: Visit) -> Iterator[Block]:
    for key, one in job.known.items():
        if key in job.procedure.release_list | job.procedure.leaving and one.is_owed:
            yield Block(kind=BlockKind.CHECK, key=key, event=one.since, standing=one)
    missing = job.parts_off - job.procedure.left_out
    if missing:
        yield Block(kind=BlockKind.PARTS_OFF, parts=tuple(key for key in job.procedure.parts if key in missing))
    yield from (_rejected(one) for one in job.grades if one.blocks_release)


def _rejected(one: StandingGrade) -> Block:
    return Block(kind=BlockKind.REJECT, key=one.look.key, parts=(one.record.part,), event=one.record.number, grade=one)


def _harmed(one: LogFinding) -> Block:
    touch = one.touch
    return Block(kind=BlockKind.HARM, parts=(touch.part,) if touch is not None else (), event=one.event, touch=touch)


def _unguarded(job: Visit) -> Iterator[LogFinding]:
    """What the log has without what should have been made sure of first."""
    for one in unguarded(job.procedure, job.log, job.arrival, implied=job.implied_troubles, after=job.after):
        yield LogFinding(kind=FindingKind.UNGUARDED, level=TouchLevel.ERROR, event=one.event, step=one.step, guards=one.guards)


def _too_soon(job: Visit) -> Iterator[LogFinding]:
    """What the log has before something had cured."""
    for one in too_soon(job.procedure, job.log, hours=cure_hours(job.events)):
        yield LogFinding(kind=FindingKind.TOO_SOON, level=TouchLevel.ERROR, event=one.event, step=one.step, too_soon=one)


def _fluid_findings(job: Visit) -> Iterator[LogFinding]:
    """What fluids have done to parts that are still the same; harm is over once somebody has looked at the part since."""
    place = {happening.event.number: position for position, happening in enumerate(job.log)}
    replaced: dict[str, int] = {}
    looked_at = {one.record.part: one.record.number for one in job.grades}
    for happening in job.log:
        for part, kind in (deed.touch for deed in happening.deeds):
            if kind is Touch.REPLACE:
                replaced[part] = place[happening.event.number]
            elif kind is Touch.INSPECT and happening.event.part == part:
                looked_at[part] = max(happening.event.number, looked_at.get(part, 0))
    for one in forbidden_touches(touch for happening in job.log for touch in _fluid_touches(happening)):
        is_over = replaced.get(one.part, -1) >= place[one.event]
        is_seen = one.level is TouchLevel.ERROR and looked_at.get(one.part, 0) > one.event
        if not is_over and not is_seen:
            work = tuple(
                key
                for key, action in job.procedure.actions.items()
                if one.level is TouchLevel.ERROR and (one.part, Touch.REPLACE) in action.touches
            )
            yield LogFinding(kind=FindingKind.TOUCH, level=one.level, event=one.event, touch=one, work=work)


def _fluid_touches(happening: Happening) -> Iterator[Mapping[str, object]]:
    """What an event put on each part that it touched: its several fluids each on their parts, else what its value names."""
    event = happening.event
    supports = happening.procedure.choices.get("supports")
    bearings = None if supports is None else _BEARINGS.get(supports.key)
    for part, kind in (deed.touch for deed in happening.deeds):
        touch = {
            "number": event.number,
            "part": part,
            "kind": kind.value,
            "made_of": bearings if "_bearing_" in part else None,
        }
        if event.fluids:
            yield from ({**touch, "fluid": one.fluid} for one in event.fluids if part in one.parts or not one.parts)
        elif event.part in {None, part}:
            yield {**touch, "value": event.value}
