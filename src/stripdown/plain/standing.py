"""How the checks of a job stand, and what keeps the gun on the bench, as plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stripdown.plain.energy import energy_fields
from stripdown.plain.falling_due import falling_due_fields
from stripdown.procedures.falling_due import owed_by_log

if TYPE_CHECKING:
    from stripdown.studies.service_job import Block, JobStudy, LogFinding


def standing_fields(study: JobStudy) -> dict[str, Any]:
    """Turn the standing of a job's checks into plain values."""
    job, release = study.job, study.release
    return {
        "job": job.title,
        "variation": job.variation.name,
        "variation_now": job.procedure.variation,
        "changes": {
            str(one.event.number): {"work": one.becoming.action, "words": one.becoming.words}
            for one in job.log
            if one.becoming is not None
        },
        "parts_off": sorted(job.parts_off),
        "energy": energy_fields(job.energy),
        "checks": {
            key: {
                "name": job.procedure.checks[key].name,
                "standing": one.standing.value,
                "reason": one.reason,
                "made": one.made,
                "since": one.since,
                "when": None if one.when is None else one.when.isoformat(),
                "touched": one.touched or None,
                "base": one.base or None,
                "for_release": key in job.procedure.release_list,
            }
            for key, one in job.known.items()
        },
        "falling_due": [falling_due_fields(one) for one in owed_by_log(job.procedure, job.known)],
        "is_ready": release.is_ready,
        "release": {
            "blocks": [_block(one) for one in release.blocks],
            "overridden": [_block(one) for one in release.overridden],
            "findings": [_finding(one) for one in release.findings],
        },
        "notes": list(job.notes),
    }


def _block(block: Block) -> dict[str, Any]:
    return {"kind": block.kind.value, "key": block.key or None, "parts": block.parts, "event": block.event}


def _finding(finding: LogFinding) -> dict[str, Any]:
    return {
        "kind": finding.kind.value,
        "level": finding.level.value,
        "event": finding.event,
        "step": None if finding.step is None else finding.step.name,
        "guards": finding.guards,
        "part": None if finding.touch is None else finding.touch.part,
        "since": None if finding.too_soon is None else finding.too_soon.since,
        "hours": None if finding.too_soon is None else finding.too_soon.hours,
        "fluid": None if finding.touch is None else finding.touch.fluid,
        "work": finding.work,
    }
