"""`stripdown shims`: which shims for one gear, or for a whole box."""

from __future__ import annotations

import dataclasses
from pathlib import Path
from typing import Final

import click

from stripdown.bench.calculators import Asked
from stripdown.cli.calculated import end_answered
from stripdown.cli.ending import Shown, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.record_options import record_options
from stripdown.core.shim_selection.parameters import BearingClass, PlayOfGear
from stripdown.errors import InputError
from stripdown.files.shim_sheet import load_shim_sheet
from stripdown.studies.calculators import calculate, end_plays

_NAMES: Final = {
    "gap": "--play",
    "gap_uncertainty": "--uncertainty",
    "go": "--go",
    "no_go": "--no-go",
    "float_band": "--float",
    "stock": "--tray",
    "most": "--most",
}


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown shims --play "0.47 mm" --uncertainty "0.01 mm" --tray "4 x 0.10 mm, 4 x 0.15 mm, 2 x 0.30 mm"',
        'stripdown shims --go "0.45 mm" --no-go "0.50 mm" --tray "2 x 0.30 mm" --bearing CN',
        "stripdown shims examples/brackenmoor-12/shims.toml --pictures out",
    ],
)
@click.argument("box", metavar="[BOX.toml]", required=False, type=click.Path(path_type=Path))
@record_options(PlayOfGear, names=_NAMES, in_errors={"gap_uncertainty": "--uncertainty, or half of --no-go less --go"})
@record_options(BearingClass, names={"bearing": "--bearing", "ball_diameter": "--bearing-ball"}, to="bearings")
@shown_options(pictures=True)
def shims(asked: PlayOfGear, *, bearings: BearingClass, box: Path | None, shown: Shown) -> None:
    """Choose shims that leave one gear its float, or all gears of a box theirs, each at its height, out of one tray.

    A pack counts only if the float stays in the band wherever in its uncertainty the true play lies. If none does, say which
    comes closest, by how much, and what to buy.
    """
    plays = end_plays(bearings)
    answered = calculate(Asked(key="shims", record=asked) if box is None else _of_box(box, asked))
    answered = dataclasses.replace(answered, found=dataclasses.replace(answered.found, end_plays=plays))
    end_answered(answered, shown, named={} if box is None else {"shims": box.stem})


def _of_box(box: Path, asked: PlayOfGear) -> Asked:
    for field in ("gap", "gap_uncertainty", "go", "no_go", "stock"):
        if getattr(asked, field) is not None:
            option = _NAMES[field]
            raise InputError(
                f"{option} is for one gear, and the file of a box says it for all.",
                field=option,
                hint="Write it in the file, or leave the file out.",
            )
    sheet = load_shim_sheet(box)
    return Asked(key="shims", record=sheet, name=f"{sheet.name}{' (invented)' if sheet.invented else ''}")
