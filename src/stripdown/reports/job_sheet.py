"""The service sheet of a job: what the job's file says goes to its head."""

from __future__ import annotations

from stripdown.procedures.happenings import in_order
from stripdown.procedures.labels import Labels
from stripdown.reports.service_job import OpenReject, ServiceJob
from stripdown.reports.service_sheet import build_service_sheet
from stripdown.studies.service_job import JobStudy


def build_job_sheet(study: JobStudy) -> bytes:
    """Print the service sheet of a job."""
    return build_service_sheet(head_of(study), study.plan, study.job.known)


def head_of(study: JobStudy) -> ServiceJob:
    """What the sheet of a job is told besides the plan."""
    job = study.job
    return ServiceJob(
        title=job.title,
        gun=job.gun_name,
        input_digest=job.digest,
        is_invented=job.invented or (job.to_reckon.shims is not None and job.to_reckon.shims.invented),
        rejects=tuple(
            OpenReject(words=one.reason, override=one.record.overridden, who=one.record.who)
            for one in job.grades
            if one.is_open_reject
        ),
        shims_in_place={part: ", ".join(sorted(labels)) for part, labels in _lying(study).items()},
        reckoned=study.reckoned,
        understood=job.notes,
    )


def _lying(study: JobStudy) -> dict[str, frozenset[str]]:
    labels = Labels(study.job.procedure)
    for event in in_order(study.job.events):
        labels.place(event)
    return dict(labels.lying)
