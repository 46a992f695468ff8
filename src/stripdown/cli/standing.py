"""`stripdown standing`: which checks of a gun still hold, and why the others do not."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import json_option
from stripdown.cli.terminal import answers
from stripdown.plain.si import written

if TYPE_CHECKING:
    from stripdown.studies.service_job import JobStudy


@click.command(
    cls=ExampleCommand,
    examples=["stripdown standing examples/brackenmoor-12/job.toml", "stripdown standing my_job.toml --all --pictures out"],
)
@click.argument("job", metavar="JOB", type=click.Path(path_type=Path))
@click.option("--all", "with_all", is_flag=True, help="Also list the checks that were never made, each with its reason.")
@picture_options
@json_option
def standing(job: Path, *, with_all: bool, pictures: Path | None, picture_format: str, as_json: bool) -> None:
    """Say of every check whether it is fresh, stale, failed or was never made, each with its reason; and what blocks release.

    JOB is a job file (docs/job-file.md). A check goes stale when a part that it is about is touched in a way that matters, or
    when something that it rests on does.
    """
    from stripdown.files.job import load_job  # noqa: PLC0415
    from stripdown.studies.service_job import study_job  # noqa: PLC0415

    study = study_job(load_job(job))
    if pictures is not None:
        from stripdown.charts.standing_graph import standing_graph  # noqa: PLC0415
        from stripdown.charts.themes import SCREEN  # noqa: PLC0415

        chart = standing_graph(study.job.procedure, study.job.known, theme=SCREEN)
        write_pictures(pictures, {"standing": chart}, picture_format=picture_format)
    if as_json:
        click.echo(written(standing_fields(study)))
        return
    from stripdown.cli.printed_standing import print_standing  # noqa: PLC0415

    print_standing(answers(), study, with_all=with_all)


def standing_fields(study: JobStudy) -> dict[str, Any]:
    """Turn the standing of a job's checks into plain values."""
    job = study.job
    return {
        "job": job.title,
        "variation": job.variation.name,
        "parts_off": sorted(job.parts_off),
        "checks": {
            key: {
                "name": job.procedure.checks[key].name,
                "standing": one.standing.value,
                "reason": one.reason,
                "made": one.made,
                "since": one.since,
                "for_release": key in job.procedure.release_list,
            }
            for key, one in job.known.items()
        },
        "is_ready": study.release.is_ready,
        "blocks": list(study.release.blocks),
        "overridden": list(study.release.overridden),
        "findings": list(study.release.findings),
        "notes": list(job.notes),
    }
