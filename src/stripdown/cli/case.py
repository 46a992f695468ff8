"""`stripdown case`: a whole case from its folder, on the terminal, as data, as pictures, as a sheet for the owner."""

from __future__ import annotations

from pathlib import Path

import click

from stripdown.cli.ending import Shown, end, shown_options, write_and_say
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.terminal import model_at_work
from stripdown.files.visit import load_case
from stripdown.plain.case import case_fields
from stripdown.reports.sheets import build_sheet
from stripdown.studies.study_case import study_case
from stripdown.words.case import case_answer, case_cautions, unsaid_sentences


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
@shown_options(speeds=True, assumed=True, pictures=True)
def case(folder: Path, *, pdf: Path | None, shown: Shown) -> None:
    """Say what a service changed and how sure that is, what explains it, and whether the gun keeps to the limit.

    The folder holds visit.toml (docs/visit-folder.md), or just a gun's file and readings. What cannot be said is said. A gun
    over its limit is a result and no error.
    """
    loaded = load_case(folder)
    with model_at_work("Working on the case", kernel="run_shots"):
        study = study_case(loaded)
    if pdf is not None:
        write_and_say(pdf, build_sheet(study, scale=shown.scale))
    unsaid, cautions = unsaid_sentences(study), case_cautions(study)
    end(
        shown,
        answer=lambda: case_answer(study, scale=shown.scale),
        plain=lambda: case_fields(study, unsaid=[one.full for one in unsaid], cautions=[one.full for one in cautions]),
        drawn=study,
    )
