"""What was entered into a log, as plain values."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any

from stripdown.plain.plan import step_fields

if TYPE_CHECKING:
    from stripdown.procedures.events import Event
    from stripdown.procedures.grading import GradeRecord
    from stripdown.studies.service_log import Entered


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
    """An entry as it stands in the log; a moment as ISO 8601 writes it."""
    said = dataclasses.asdict(entry)
    return {**said, "when": None if entry.when is None else entry.when.isoformat()}
