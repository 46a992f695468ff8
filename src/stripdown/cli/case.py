"""`stripdown case`: a whole case from its folder, on the terminal, as data, as pictures, as a sheet for the owner."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import json_option, speed_unit_option
from stripdown.cli.terminal import answers, model_at_work, remarks
from stripdown.cli.whole_file import write_whole
from stripdown.plain.causes import explanation_fields
from stripdown.plain.limits import limit_fields, verdict_fields
from stripdown.plain.si import assumed_fields, si_fields, written
from stripdown.plain.strings import comparison_fields, left_out_fields, string_fields

if TYPE_CHECKING:
    from stripdown.studies.service_case import CaseStudy


@click.command(
    "case",
    cls=ExampleCommand,
    examples=["stripdown case examples/brackenmoor-07", "stripdown case my_case --pdf my_case.pdf --pictures out"],
)
@click.argument("folder", metavar="FOLDER", type=click.Path(path_type=Path))
@click.option(
    "--pdf",
    type=click.Path(path_type=Path),
    metavar="OUT.pdf",
    help="Also write the sheet for the gun's owner; a file that is there is replaced.",
)
@speed_unit_option
@picture_options
@json_option
def case(folder: Path, *, pdf: Path | None, speed_unit: str, pictures: Path | None, picture_format: str, as_json: bool) -> None:
    """Say what a service changed and how sure that is, what explains it, and whether the gun keeps to the limit.

    The folder holds visit.toml (docs/visit-folder.md), or just a gun's file and readings. What cannot be said is said. A gun
    over its limit is a result and no error.
    """
    from stripdown.files.visit import load_case  # noqa: PLC0415  heavy imports belong inside commands

    loaded = load_case(folder)
    with model_at_work("Working on the case", kernel="run_shots"):
        from stripdown.studies.study_case import study_case  # noqa: PLC0415

        study = study_case(loaded)
    if pdf is not None:
        from stripdown.reports.build import build_sheet  # noqa: PLC0415

        write_whole(pdf, build_sheet(study, scale="imperial" if speed_unit == "ft/s" else "metric"), replace=True)
        remarks().print(f"Written: {pdf}", soft_wrap=True)
    if pictures is not None:
        from stripdown.cli.case_pictures import case_charts  # noqa: PLC0415

        write_pictures(pictures, case_charts(study, speed_unit=speed_unit), picture_format=picture_format)
    if as_json:
        click.echo(written(case_fields(study)))
        return
    from stripdown.cli.printed_case import print_case  # noqa: PLC0415

    print_case(answers(), study, speed_unit=speed_unit)


def case_fields(study: CaseStudy) -> dict[str, Any]:
    """Turn a studied case into plain values."""
    shots = {"before": study.shot_before, "after": study.shot_after}
    return {
        "title": study.title,
        "gun": study.gun.name,
        "file": study.gun.origin,
        "invented": study.invented,
        "unsaid": list(study.unsaid),
        "found": list(study.found),
        "done": list(study.done),
        "before": [string_fields(string) for string in study.before],
        "after": [string_fields(string) for string in study.after],
        "comparisons": [comparison_fields(pair) for pair in study.comparisons],
        "limit": None if study.limit is None else limit_fields(study.limit),
        "verdict": None if study.verdict is None else verdict_fields(study.verdict),
        "explanation": None if study.explanation is None else explanation_fields(study.explanation),
        "simulated_shots": {name: None if shot is None else si_fields(shot.figures) for name, shot in shots.items()},
        "assumed": [assumed_fields(entry) for entry in study.assumed],
        "left_out": left_out_fields(study.left_out),
        "notes": list(study.notes),
        "cautions": list(study.cautions),
        "sources": list(study.sources),
        "input_digest": study.input_digest,
    }
