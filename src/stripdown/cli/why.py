"""`stripdown why`: why one step comes before another."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import json_option
from stripdown.cli.terminal import answers, print_paragraph
from stripdown.errors import InputError
from stripdown.plain.si import written

if TYPE_CHECKING:
    from stripdown.procedures.why import Why


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
@json_option
def why(words: tuple[str, ...], *, job: Path | None, variation: str | None, as_json: bool) -> None:
    """Say what demands that one step comes before another, reason by reason.

    A step is named as `stripdown plan --json` names it (do:replace_main_spring, make:cylinder_seal, take_off:battery), by its
    key, by its words, or by its number in the plan. Without a job, the plan is the one that these two steps ask for.
    """
    first, then = _two_steps(words)
    from stripdown.procedures.loading import load_procedures  # noqa: PLC0415
    from stripdown.procedures.why import plan_with, why_before  # noqa: PLC0415

    if job is None:
        found = plan_with(load_procedures(), (first, then), variation=variation or ())
    else:
        from stripdown.files.job import load_job  # noqa: PLC0415
        from stripdown.studies.service_job import study_job  # noqa: PLC0415

        found = study_job(load_job(job)).plan
    answer = why_before(found, first, then)
    if as_json:
        click.echo(
            written(
                {
                    "first": answer.first.step.name,
                    "then": answer.then.step.name,
                    "asked_the_other_way_round": answer.is_turned,
                    "reasons": [
                        {"first": one.first.name, "then": one.then.name, "rule": one.rule.value, "words": one.words}
                        for one in answer.chain
                    ],
                }
            )
        )
        return
    _print_why(answer)


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


def _print_why(answer: Why) -> None:
    console = answers()
    if answer.is_turned:
        print_paragraph(console, "It is the other way round.")
    first, then = answer.first, answer.then
    print_paragraph(console, f'"{first.name}" (step {first.number}) comes before "{then.name}" (step {then.number}):')
    if not answer.chain:
        print_paragraph(console, "Nothing demands it. The order was chosen to change place at the bench less often.")
    for number, one in enumerate(answer.chain, start=1):
        print_paragraph(console, f"  {number}. {one.words}")
