"""A job as it stands: the plan from here, and what keeps the gun on the bench."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stripdown.files.job import Job
from stripdown.procedures.curing import still_curing
from stripdown.procedures.guarding import unguarded
from stripdown.procedures.plan import Plan, plan_from
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.touches import Touch
from stripdown.studies.forbidden_touches import forbidden_touches
from stripdown.studies.job_reckonings import Reckoned, reckon

_BEARINGS = {"bearings": "steel", "bushings": "bronze"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """Whether a gun may leave the bench, and what keeps it.

    Parameters
    ----------
    checks
        For each check of the release list that is not fresh, how it stands, in one sentence.
    other_blocks
        Parts that are off, and rejects that were neither replaced nor overridden, in one sentence each.
    overridden
        Rejects that leave all the same, each with the reason that somebody gave.
    findings
        What in the log should not be, each with its level: a step without the guard that it needs (made safe), and fluids that
        touched what they must not touch, or should with care; a part that was replaced since is forgiven.
    """

    checks: tuple[str, ...]
    other_blocks: tuple[str, ...]
    overridden: tuple[str, ...]
    findings: tuple[str, ...]

    @property
    def blocks(self) -> tuple[str, ...]:
        """All that keeps the gun on the bench."""
        return (*self.checks, *self.other_blocks)

    @property
    def is_ready(self) -> bool:
        """Whether nothing does."""
        return not self.blocks


@dataclass(frozen=True, slots=True, kw_only=True)
class JobStudy:
    """A job with its plan, its release and its reckonings.

    Parameters
    ----------
    job
        As its file has it.
    plan
        What is left to do, in order.
    release
        What keeps the gun on the bench as it lies there.
    reckoned
        What the calculators say to what its file holds for them.
    """

    job: Job
    plan: Plan
    release: Release
    reckoned: Reckoned


def study_job(job: Job) -> JobStudy:
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
    reasons = dict(_work_for_rejects(job))
    return JobStudy(
        job=job,
        plan=plan_from(
            procedure,
            job.remaining.joined(Request(work=tuple(reasons))),
            off=job.parts_off,
            known=job.known,
            tools_at_hand=job.tools,
            owed=[key for key, one in job.known.items() if key in procedure.release_list and one.is_owed],
            reasons=reasons,
            curing=still_curing(procedure, job.log),
        ),
        release=Release(
            checks=tuple(one.reason for key, one in job.known.items() if key in procedure.release_list and one.is_owed),
            other_blocks=(*_off(procedure, job.parts_off), *(one.reason for one in job.grades if one.blocks_release)),
            overridden=tuple(one.reason for one in job.grades if one.is_open_reject and not one.blocks_release),
            findings=(*_unguarded(job), *_fluid_findings(job)),
        ),
        reckoned=reckon(job.to_reckon),
    )


def _work_for_rejects(job: Job) -> Iterator[tuple[str, str]]:
    """For each reject that blocks release the work that it asks for first, unless some of it is asked for anyway."""
    for one in job.grades:
        asked = [action for action in one.look.work if action in job.procedure.actions]
        if one.blocks_release and asked and not set(asked) & set(job.remaining.work):
            part = job.procedure.parts[one.record.part]
            yield asked[0], f"the {part.name} {part.was} graded a reject for {one.look.name}"


def _off(procedure: Procedure, parts: frozenset[str]) -> Iterator[str]:
    if parts:
        names = ", ".join(part.name for key, part in procedure.parts.items() if key in parts)
        yield f"not all is back: {names}."


def _unguarded(job: Job) -> Iterator[str]:
    """What the log has without what should have been made sure of first."""
    for one in unguarded(job.procedure, job.log):
        names = " and ".join(job.procedure.checks[guard].name for guard in one.guards)
        yield f"error: Event {one.event}: {job.procedure.named(one.step)}, and the log does not have this before it: {names}."


def _fluid_findings(job: Job) -> Iterator[str]:
    """What fluids have done to parts that are still the same."""
    replaced = {
        deed.touch[0]: happening.event.number
        for happening in job.log
        for deed in happening.deeds
        if deed.touch[1] is Touch.REPLACE
    }
    bearings = _BEARINGS.get(job.variation.choices.get("supports", ""))
    touches = [
        {
            "number": happening.event.number,
            "part": part,
            "kind": kind.value,
            "value": happening.event.value,
            "made_of": bearings if "_bearing_" in part else None,
        }
        for happening in job.log
        for part, kind in (deed.touch for deed in happening.deeds)
    ]
    found = forbidden_touches(touches)
    told = (f"{one.level.value}: {one.sentence}" for one in found if replaced.get(one.part, 0) <= one.event)
    yield from dict.fromkeys(told)  # work on several parts at once says the same of each
