"""`stripdown plan`: the steps for a job, in the order that wastes nothing."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import json_option
from stripdown.cli.terminal import answers, remarks
from stripdown.plain.si import written

if TYPE_CHECKING:
    from stripdown.procedures.plan import Plan, PlannedStep


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown plan --jobs",
        "stripdown plan --names",
        "stripdown plan examples/brackenmoor-12/job.toml",
        "stripdown plan my_job.toml --how --pdf my_job.pdf",
    ],
)
@click.argument("job", metavar="[JOB]", required=False, type=click.Path(path_type=Path))
@click.option("--jobs", "with_jobs", is_flag=True, help="List the jobs that have a name, and stop.")
@click.option(
    "--names", "with_names", is_flag=True, help="List the names of parts, checks and work that a job file may use, and stop."
)
@click.option("--how", is_flag=True, help="Also say how each step is done.")
@click.option(
    "--pdf",
    type=click.Path(path_type=Path),
    metavar="OUT.pdf",
    help="Also write the service sheet, with boxes to tick; a file that is there is replaced.",
)
@json_option
def plan(job: Path | None, *, with_jobs: bool, with_names: bool, how: bool, pdf: Path | None, as_json: bool) -> None:
    """Say what to do in which order for a job: opening, work, checks, refit, and proof again of what the work spoils.

    JOB is a job file (docs/job-file.md): the gun's variation, what is asked for, and the log so far. The plan begins where the
    log ends; after each event it is made anew. Nothing is proved again that still holds.
    """
    if with_jobs:
        _list_jobs(as_json=as_json)
        return
    if with_names:
        _list_names(as_json=as_json)
        return
    if job is None:
        raise click.UsageError("Name a job file (docs/job-file.md), or list the jobs that have a name with --jobs.")
    from stripdown.files.job import load_job  # noqa: PLC0415
    from stripdown.studies.service_job import study_job  # noqa: PLC0415

    study = study_job(load_job(job))
    if pdf is not None:
        from stripdown.cli.whole_file import write_whole  # noqa: PLC0415
        from stripdown.reports.job_sheet import build_job_sheet  # noqa: PLC0415

        write_whole(pdf, build_job_sheet(study), replace=True)
        remarks().print(f"Written: {pdf}", soft_wrap=True)
    if as_json:
        from stripdown.plain.calculators import reckoned_fields  # noqa: PLC0415

        head = {"job": study.job.title, "variation": study.job.variation.name}
        click.echo(written({**head, **plan_fields(study.plan), "reckoned": reckoned_fields(study.reckoned)}))
        return
    from stripdown.cli.printed_plan import print_plan  # noqa: PLC0415

    print_plan(answers(), study, with_how=how)


def _list_jobs(*, as_json: bool) -> None:
    from stripdown.cli.hanging import print_hanging  # noqa: PLC0415
    from stripdown.procedures.loading import load_procedures  # noqa: PLC0415

    jobs = load_procedures().named_jobs(())
    if as_json:
        fields = {key: {"name": one.name, "for": one.purpose, "words": one.words} for key, one in jobs.items()}
        click.echo(written({"jobs": fields}))
        return
    for key, one in jobs.items():
        print_hanging(answers(), f"{key:<18} ", f"{one.name}. {one.purpose}")


def _list_names(*, as_json: bool) -> None:
    from stripdown.cli.hanging import print_hanging  # noqa: PLC0415
    from stripdown.procedures.loading import load_procedures  # noqa: PLC0415

    known = load_procedures()
    sorts = {"parts": known.parts, "checks": known.checks, "work": known.actions}
    if as_json:
        click.echo(written({sort: list(entries) for sort, entries in sorts.items()}))
        return
    for sort, entries in sorts.items():
        print_hanging(answers(), f"{sort}: ", ", ".join(entries))
        click.echo()


def plan_fields(found: Plan) -> dict[str, Any]:
    """Turn a plan into plain values."""
    return {
        "request": {"work": found.request.work, "wanted": found.request.wanted, "as_found": found.request.as_found},
        "steps": [_step_fields(step) for step in found.steps],
        "tools": found.tools,
        "consumables": found.consumables,
        "minutes": found.minutes,
        "makings": found.makings,
        "moves": found.moves,
        "openings": found.openings,
        "states_visited": found.visited,
        "remedies": dict(found.remedies),
        "too_late": {one.check: one.reason for one in found.too_late},
        "left_open": {key: one.reason for key, one in found.left_open.items()},
    }


def _step_fields(step: PlannedStep) -> dict[str, Any]:
    return {
        "number": step.number,
        "step": step.step.name,
        "name": step.name,
        "place": step.place,
        "purpose": step.purpose,
        "how": step.how,
        "method": None if step.method is None else step.method.name,
        "trial_closing": step.trial,
        "cautions": step.cautions,
        "tools": step.tools,
        "consumables": step.consumables,
        "minutes": step.minutes,
        "wait_hours": step.wait,
        "wait_for": step.wait_for,
        "expect": step.expect,
        "not_before": step.not_before,
        "calculator": step.calculator,
    }
