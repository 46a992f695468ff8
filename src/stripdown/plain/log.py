"""What was entered into a log, as plain values."""

from __future__ import annotations

import dataclasses
import enum
from typing import TYPE_CHECKING, Any

from stripdown.plain.plan import step_fields
from stripdown.studies.service_log import Entered

if TYPE_CHECKING:
    from stripdown.procedures.events import Event
    from stripdown.procedures.grading import GradeRecord
    from stripdown.studies.service_job import JobStudy


def log_fields(study: JobStudy) -> dict[str, Any]:
    """Turn the whole log of a job, and the plan from there, into plain values."""
    return entered_fields(Entered(events=study.job.events, grades=study.job.graded, study=study))


def entered_fields(found: Entered) -> dict[str, Any]:
    """Turn what one answer entered, and the plan from there, into plain values."""
    passed = {one.event.number: one.outcome.has_passed for one in found.happened if one.outcome is not None}
    return {
        "job": found.study.job.title,
        "events": [{**_entry(one), "has_passed": passed.get(one.number)} for one in found.events],
        "grades": [_entry(one) for one in found.grades],
        "skipped": [step.step.name for step in found.skipped],
        "left": [step_fields(step) for step in found.study.plan.steps],
        "is_ready": found.study.release.is_ready,
    }


def _entry(entry: Event | GradeRecord) -> dict[str, Any]:
    """An entry as it stands in the log; a moment as ISO 8601 writes it, a choice by its word."""
    said = {name: one.value if isinstance(one, enum.Enum) else one for name, one in dataclasses.asdict(entry).items()}
    return {**said, "when": None if entry.when is None else entry.when.isoformat()}
