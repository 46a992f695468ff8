"""`stripdown plan`, `standing` and `why`: what is left to do on a gun, in which order, and which of its checks still hold."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Any

import click

from stripdown.cli.ending import Shown, end, shown_options, write_and_say
from stripdown.cli.examples import ExampleCommand
from stripdown.errors import InputError
from stripdown.files.visit import load_job
from stripdown.plain.plan import job_fields, named_jobs_fields, why_fields
from stripdown.plain.standing import standing_fields
from stripdown.procedures.bodies import body_named
from stripdown.reports.sheets import build_service_sheet
from stripdown.studies.service_job import JobStudy, named_jobs, names_for_jobs, study_job, why_in_order
from stripdown.words.plan import plan_answer
from stripdown.words.release import release_sentences
from stripdown.words.requests import named_jobs_answer, names_answer, why_answer
from stripdown.words.standing import standing_answer


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown plan --jobs",
        "stripdown plan --names",
        "stripdown plan --body two_receivers > my_body.toml",
        "stripdown plan examples/brackenmoor-12/job.toml",
        "stripdown plan my_job.toml --how --pdf my_job.pdf",
    ],
)
@click.argument("job", metavar="[JOB]", required=False, type=click.Path(path_type=Path))
@click.option("--jobs", "with_jobs", is_flag=True, help="List the jobs that have a name, and stop.")
@click.option(
    "--names",
    "with_names",
    is_flag=True,
    help="List keys and words of parts, checks, work, looks and choices, of the gun of JOB or of all, and stop.",
)
@click.option(
    "--body",
    metavar="BODY",
    help="Print the ready own steps for a body around the box, as a start for a file of your own (--names lists them), and stop.",
)
@click.option("--how", is_flag=True, help="Also say how each step is done.")
@click.option("--short", is_flag=True, help="Also say it in short, and how a passed check is seen: for the trained.")
@click.option(
    "--pdf",
    type=click.Path(path_type=Path),
    metavar="OUT.pdf",
    help="Also write the service sheet, with boxes to tick; a file that is there is replaced.",
)
@shown_options()
def plan(
    job: Path | None,
    *,
    with_jobs: bool,
    with_names: bool,
    body: str | None,
    how: bool,
    short: bool,
    pdf: Path | None,
    shown: Shown,
) -> None:
    """Say what to do in which order for a job: opening, work, checks, refit, and proof again of what the work spoils.

    JOB is the folder of a visit (docs/visit-folder.md) or a job file (docs/job-file.md): the gun's variation, what is asked
    for, and the log so far. The plan begins where the log ends; after each event it is made anew. Nothing is proved again that
    still holds.
    """
    if with_jobs:
        jobs = named_jobs()
        end(shown, answer=lambda: named_jobs_answer(jobs), plain=lambda: named_jobs_fields(jobs))
    elif with_names:
        names = names_for_jobs(None if job is None else load_job(job))
        end(shown, answer=lambda: names_answer(names), plain=lambda: names)
    elif body is not None:
        click.echo(body_named(body).text, nl=False)
    elif job is None:
        raise click.UsageError(
            "Name a visit's folder or a job file (docs/job-file.md), or list the jobs that have a name with --jobs."
        )
    else:
        study = study_job(load_job(job))
        if pdf is not None:
            write_and_say(pdf, build_service_sheet(study))
        in_full = frozenset(key for key, is_asked in (("how", how), ("short", short)) if is_asked)
        end(
            dataclasses.replace(shown, in_full=in_full),
            answer=lambda: plan_answer(study),
            plain=lambda: job_fields(study),
        )


@click.command(
    cls=ExampleCommand,
    examples=["stripdown standing examples/brackenmoor-12/job.toml", "stripdown standing my_job.toml --all --pictures out"],
)
@click.argument("job", metavar="JOB", type=click.Path(path_type=Path))
@click.option("--all", "with_all", is_flag=True, help="Also list the checks that were never made, each with its reason.")
@shown_options(pictures=True)
def standing(job: Path, *, with_all: bool, shown: Shown) -> None:
    """Say of every check whether it is fresh, stale, failed or was never made, each with its reason; and what blocks release.

    JOB is the folder of a visit (docs/visit-folder.md) or a job file (docs/job-file.md). A check goes stale when a part that it
    is about is touched in a way that matters, or when something that it rests on does.
    """
    study = study_job(load_job(job))
    end(
        shown,
        answer=lambda: standing_answer(study, with_all=with_all),
        plain=lambda: _standing_fields(study),
        drawn=study,
    )


def _standing_fields(study: JobStudy) -> dict[str, Any]:
    """The keys of what keeps the gun on the bench, and what is said of each."""
    said = {key: [one.full for one in some] for key, some in release_sentences(study).items()}
    return {**standing_fields(study), **said}


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown why do:bond_bevel_bearing_left before make:bevel_shim_pack",
        "stripdown why 12 before 30 --job examples/brackenmoor-12/job.toml",
    ],
)
@click.argument("words", metavar="STEP before STEP", nargs=-1, required=True)
@click.option("--job", type=click.Path(path_type=Path), metavar="JOB", help="Look in the plan of this job file.")
@click.option("--variation", metavar="TEXT", help='What gun it is, without a job: "version 3, quick-change guide".')
@shown_options()
def why(words: tuple[str, ...], *, job: Path | None, variation: str | None, shown: Shown) -> None:
    """Say what demands that one step comes before another, reason by reason.

    A step is named as `stripdown plan --json` names it (do:replace_main_spring, make:cylinder_seal, take_off:battery), by its
    key, by its words, or by its number in the plan. Without a job, the plan is the one that these two steps ask for.
    """
    first, then = _two_steps(words)
    study = None if job is None else study_job(load_job(job))
    found = why_in_order(first, then, study=study, variation=variation or "")
    end(shown, answer=lambda: why_answer(found), plain=lambda: why_fields(found))


def _two_steps(words: tuple[str, ...]) -> tuple[str, str]:
    text = " ".join(words)
    first, middle, then = text.partition(" before ")
    if not middle or not first.strip() or not then.strip():
        raise InputError(
            f'"{text}" does not name two steps.',
            field="STEP before STEP",
            value=text,
            hint="Write: stripdown why take_off:battery before take_off:gearbox",
        )
    return first.strip(), then.strip()
