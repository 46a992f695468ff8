"""A plan, and why one step stands before another, as plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stripdown.plain.calculators import answered_fields
from stripdown.plain.energy import energy_fields
from stripdown.plain.falling_due import falling_due_fields
from stripdown.plain.requests import request_fields

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stripdown.procedures.jobs import NamedJob
    from stripdown.procedures.plan import Plan, PlannedStep
    from stripdown.procedures.why import Why
    from stripdown.studies.service_job import JobStudy


def job_fields(study: JobStudy) -> dict[str, Any]:
    """Turn the plan of a job, and what was calculated for it, into plain values."""
    head = {"job": study.job.title, "variation": study.job.variation.name, "variation_now": study.job.procedure.variation}
    return {**head, **plan_fields(study.plan), "answers": [answered_fields(one) for one in study.answered]}


def plan_fields(found: Plan) -> dict[str, Any]:
    """Turn a plan into plain values."""
    return {
        "request": request_fields(found.request),
        "becomes": dict(found.becomes),
        "steps": [step_fields(step) for step in found.steps],
        "tools": found.tools,
        "consumables": found.consumables,
        "minutes": found.minutes,
        "wait_hours": found.wait_hours,
        "makings": found.makings,
        "moves": found.moves,
        "openings": found.openings,
        "states_visited": found.visited,
        "energy": energy_fields(found.energy),
        "remedies": dict(found.remedies),
        "too_late": {one.check: one.reason for one in found.too_late},
        "falling_due": [falling_due_fields(one) for one in found.falling_due],
        "left_open": {key: one.reason for key, one in found.left_open.items()},
    }


def named_jobs_fields(jobs: Mapping[str, NamedJob]) -> dict[str, Any]:
    """Turn jobs that have a name into plain values."""
    return {"jobs": {key: {"name": one.name, "for": one.purpose, "words": one.words} for key, one in jobs.items()}}


def why_fields(answer: Why) -> dict[str, Any]:
    """Turn the reasons for an order into plain values."""
    return {
        "first": answer.first.step.name,
        "then": answer.then.step.name,
        "asked_the_other_way_round": answer.is_turned,
        "reasons": [
            {"first": one.first.name, "then": one.then.name, "rule": one.rule.value, "words": one.words} for one in answer.chain
        ],
    }


def step_fields(step: PlannedStep) -> dict[str, Any]:
    """Turn one step of a plan into plain values."""
    return {
        "number": step.number,
        "step": step.step.name,
        "name": step.name,
        "place": step.place,
        "purpose": step.purpose,
        "for_checks": step.for_checks,
        "for_work": step.for_work,
        "how": step.how,
        "short": step.short,
        "method": None if step.method is None else step.method.name,
        "trial_closing": step.trial,
        "cautions": [{"harm": one.harm.value, "words": one.words} for one in step.cautions],
        "tools": step.tools,
        "consumables": step.consumables,
        "minutes": step.minutes,
        "wait_hours": step.wait,
        "wait_for": step.wait_for,
        "alike": step.alike,
        "read_before_event": step.read_before,
        "expect": step.expect,
        "seen": step.seen,
        "not_before": step.not_before,
        "not_before_event": step.cures_since,
        "calculator": step.calculator,
        "grades": step.grades,
        "leaves": step.leaves,
        "arrives": step.arrives,
        "becomes": step.becomes,
    }
