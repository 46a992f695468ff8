"""The sheets: an answer on paper, with its pictures, as the bytes of a PDF."""

from __future__ import annotations

from stripdown import __version__
from stripdown.reports.press import PageHead, press, running_title
from stripdown.studies.service_case import CaseStudy
from stripdown.studies.service_job import JobStudy
from stripdown.units import Scale
from stripdown.words.case import case_answer
from stripdown.words.gun import INVENTED
from stripdown.words.plan import bench_sheet


def build_sheet(study: CaseStudy, *, scale: Scale = "metric") -> bytes:
    """Print the sheet of a case for the gun's owner.

    Parameters
    ----------
    study
        The case.
    scale
        In which speeds are written.

    Returns
    -------
    bytes
        A PDF, the same for the same case.

    Raises
    ------
    RenderError
        If a chart or the page cannot be drawn.
    """
    from stripdown.reports.pictures import sheet_pictures  # noqa: PLC0415  the chart library takes half a second

    answer = case_answer(study, scale=scale)
    head = PageHead(
        title=running_title(study.title, study.gun.name),
        invented=INVENTED.full if INVENTED in answer.lead else "",
        program=f"stripdown {study.program_version}",
        digest=study.input_digest,
    )
    return press("sheet.typ", answer, head=head, pictures=sheet_pictures(study, answer, scale=scale))


def build_service_sheet(study: JobStudy) -> bytes:
    """Print the service sheet of a job.

    Parameters
    ----------
    study
        The job, studied.

    Returns
    -------
    bytes
        A PDF.
    """
    from stripdown.reports.pictures import service_pictures  # noqa: PLC0415  as above

    head = PageHead(
        title=running_title(study.job.title, study.job.gun_name),
        invented=INVENTED.full if study.is_invented else "",
        program=f"stripdown {__version__}",
        digest=study.job.digest,
    )
    return press("service.typ", bench_sheet(study), head=head, pictures=dict(service_pictures(study)))
