"""`stripdown inspect` and `complaint`: what to look at, and what follows from it."""

from __future__ import annotations

from pathlib import Path

import click

from stripdown.cli.ending import Shown, end, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.plain.complaints import complaint_fields, complaints_fields
from stripdown.plain.inspection import inspection_fields, part_list_fields
from stripdown.procedures.inspection import add_own_limits
from stripdown.studies.looks import complaint_trees, inspect_parts
from stripdown.tables.toml_file import read_toml
from stripdown.words.complaints import complaint_answer, complaints_answer
from stripdown.words.inspection import inspection_answer, part_list_answer

_VARIATION = click.option(
    "--variation",
    default="",
    metavar="TEXT",
    help='What gun it is, as "version 3, quick-change guide, bushings"; what is not said is assumed.',
)


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown inspect",
        "stripdown inspect piston",
        'stripdown inspect "bevel gear" --variation "version 3"',
        "stripdown inspect seals --limits my_limits.toml",
    ],
)
@click.argument("part", required=False)
@_VARIATION
@click.option(
    "--limits",
    type=click.Path(path_type=Path),
    metavar="FILE.toml",
    help="Limits of your own, which amend the packaged ones (docs/models/inspection.md).",
)
@shown_options()
def inspect(*, part: str | None, variation: str, limits: Path | None, shown: Shown) -> None:
    """Say what to look at or to measure on a part, how, with what, and the grade that follows: sound, watch, reject.

    PART is a part (piston, "bevel gear") or a word for several (gears, seals, bearings, hop-up). Without it, all parts with
    something to look at are listed. Every limit says on whose word it stands; most are common practice without a source, and
    yours to change.
    """
    own = None if limits is None else add_own_limits(read_toml(limits).text, file=str(limits))
    found = inspect_parts(part, variation=variation, inspection=own)
    if part is None:
        end(shown, answer=lambda: part_list_answer(found), plain=lambda: part_list_fields(found.sheet))
    else:
        end(
            shown,
            answer=lambda: inspection_answer(found),
            plain=lambda: inspection_fields(found.sheet, found.parts, found.patterns),
        )


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown complaint",
        "stripdown complaint will not fire",
        'stripdown complaint "bursts on semi" --variation "version 3, electronic"',
    ],
)
@click.argument("words", nargs=-1)
@_VARIATION
@shown_options()
def complaint(*, words: tuple[str, ...], variation: str, shown: Shown) -> None:
    """Print the short tree of questions for a complaint: what to look at, what each answer says, and what to ask of the planner.

    WORDS are what the player says: "fires, no ball", whine, "over the limit". Without them, all complaints are listed. Work,
    checks and readings stand with their keys, as a job file takes them.
    """
    said = " ".join(words).strip()
    found = complaint_trees(said, variation=variation)
    if said:
        end(shown, answer=lambda: complaint_answer(found), plain=lambda: complaint_fields(found.trees[0], found.variation))
    else:
        end(shown, answer=lambda: complaints_answer(found), plain=lambda: complaints_fields(found.trees))
