"""`stripdown shims`: which shims for one gear, or for a whole box."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.option_names import options_named
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import QuantityOption, json_option
from stripdown.cli.terminal import answers
from stripdown.core.shim_selection import (
    BearingEndPlay,
    LostPlace,
    ShimChoice,
    ShimMap,
    ShimSplit,
    bearing_end_play,
    choose_shims,
    choose_split,
    class_clearance,
    lost_places,
)
from stripdown.core.shim_selection.bearing_end_play import BALL_DIAMETER
from stripdown.core.shim_selection.stacks import FLOAT, GAP, GAP_UNCERTAINTY, THICKNESS
from stripdown.errors import InputError, OutOfRange
from stripdown.plain.si import si_record, written
from stripdown.quantities import check_value
from stripdown.units import parse, show_range

_KIND: Final = re.compile(r"\s*(?:(?P<count>\d+)\s*[x×]\s*)?(?P<thickness>\S.*?)\s*", re.IGNORECASE)
_BETWEEN: Final = re.compile(r"(?<=[A-Za-z])\s*[,;]\s*")
_UNITS: Final = dict.fromkeys(
    (
        "thicknesses",
        "float_left",
        "buy",
        "float_band",
        "too_tight",
        "too_loose",
        "left",
        "right",
        "middle",
        "short_by",
        "thickness",
    ),
    "m",
)
_WAYS: Final = 'Write for example --tray "4 x 0.10 mm, 2 x 0.15 mm, 0.31 mm".'


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown shims --play "0.47 mm" --uncertainty "0.01 mm" --tray "4 x 0.10 mm, 4 x 0.15 mm, 2 x 0.30 mm"',
        'stripdown shims --go "0.45 mm" --no-go "0.50 mm" --tray "2 x 0.30 mm" --bearing CN',
        "stripdown shims examples/brackenmoor-12/shims.toml --pictures out",
    ],
)
@click.argument("box", metavar="[BOX.toml]", required=False, type=click.Path(path_type=Path))
@click.option(
    "--play", type=QuantityOption(GAP), metavar="LENGTH", help="Play of one gear without shims, shell closed and screwed up."
)
@click.option(
    "--uncertainty", type=QuantityOption(GAP_UNCERTAINTY), metavar="LENGTH", help="Of the play, either way; 0 if left out."
)
@click.option(
    "--go", type=QuantityOption(GAP), metavar="LENGTH", help="Thickest feeler that goes; with --no-go instead of --play."
)
@click.option("--no-go", type=QuantityOption(GAP), metavar="LENGTH", help="Thinnest feeler that does not go.")
@click.option(
    "--float",
    "float_band",
    nargs=2,
    type=QuantityOption(FLOAT),
    default=("0.05 mm", "0.15 mm"),
    show_default=True,
    metavar="LEAST MOST",
    help="Float that is wanted; what is set here is common practice, no source.",
)
@click.option("--tray", metavar="SHIMS", help='Shims at hand as the micrometer reads them: "4 x 0.10 mm, 0.31 mm".')
@click.option("--most", type=int, default=4, show_default=True, help="Most shims on one gear.")
@click.option(
    "--bearing", metavar="CLASS", help="Clearance class of the ball bearings (CN, C3, MC3 …): how much of the float is theirs."
)
@click.option(
    "--bearing-ball",
    type=QuantityOption(BALL_DIAMETER),
    default="1.588 mm",
    show_default=True,
    metavar="LENGTH",
    help="Diameter of their balls.",
)
@picture_options
@json_option
@options_named(bearing="--bearing", gap_uncertainty="--uncertainty, or half of --no-go less --go", gap="--play", most="--most")
def shims(
    box: Path | None,
    *,
    play: float | None,
    uncertainty: float | None,
    go: float | None,
    no_go: float | None,
    float_band: tuple[float, float],
    tray: str | None,
    most: int,
    bearing: str | None,
    bearing_ball: float,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Choose shims that leave one gear its float, or all gears of a box theirs, each at its height, out of one tray.

    A pack counts only if the float stays in the band wherever in its uncertainty the true play lies. If none does, say which
    comes closest, by how much, and what to buy.
    """
    given = {"play": play, "uncertainty": uncertainty, "go": go, "no-go": no_go, "tray": tray}
    end_plays = None if bearing is None else _end_plays(bearing, bearing_ball)
    if box is not None:
        answer = _of_box(box, given)
    else:
        gap, doubt = _measured(play, uncertainty, go, no_go)
        answer = _Answer(
            found=choose_shims(gap=gap, gap_uncertainty=doubt, float_band=float_band, stock=_tray(tray), most=most), stem="shims"
        )
    if pictures is not None:
        from stripdown.charts.shim_stack import shim_stack  # noqa: PLC0415  heavy imports belong inside commands
        from stripdown.charts.themes import SCREEN  # noqa: PLC0415

        write_pictures(pictures, {answer.stem: shim_stack(answer.found, theme=SCREEN)}, picture_format=picture_format)
    if as_json:
        fields = {**answer.head, **si_record(answer.found, units=_UNITS)}
        if end_plays is not None:
            fields["bearing_end_play_m"] = {"low": end_plays[0].end_play, "high": end_plays[1].end_play}
        click.echo(written(fields))
        return
    from stripdown.cli import printed_shims as printed  # noqa: PLC0415

    console = answers()
    if isinstance(answer.found, ShimSplit):
        printed.print_split(console, answer.name, answer.found)
    else:
        printed.print_choice(console, answer.found)
    if answer.old_shims is not None:
        printed.print_old_shims(console, answer.old_shims, answer.lost)
    if end_plays is not None:
        printed.print_end_play(console, *end_plays)
    printed.print_basis_of_shims(console, answer.found)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Answer:
    """What was found, and what stands beside it."""

    found: ShimChoice | ShimSplit
    stem: str
    name: str = ""
    old_shims: ShimMap | None = None
    lost: tuple[LostPlace, ...] | None = None
    head: Mapping[str, Any] = field(default_factory=dict)


def _of_box(box: Path, given: Mapping[str, object]) -> _Answer:
    from stripdown.files.shim_sheet import load_shim_sheet  # noqa: PLC0415  not needed for one gear

    for option, value in given.items():
        if value is not None:
            raise InputError(
                f"--{option} is for one gear, and the file of a box says it for all.",
                field=f"--{option}",
                hint="Write it in the file, or leave the file out.",
            )
    sheet = load_shim_sheet(box)
    lost = lost_places(sheet.old_shims, sheet.fitted_shims) if sheet.fitted_shims.shims else None
    return _Answer(
        found=choose_split(seats=sheet.seats, clearances=sheet.clearances, stock=sheet.stock, most=sheet.most),
        stem=box.stem,
        name=f"{sheet.name}{' (invented)' if sheet.invented else ''}",
        old_shims=sheet.old_shims,
        lost=lost,
        head={
            "box": sheet.name,
            "file": sheet.origin,
            "invented": sheet.invented,
            "old_shims": [si_record(shim, units=_UNITS) for shim in sheet.old_shims.shims],
            "fitted_shims": [si_record(shim, units=_UNITS) for shim in sheet.fitted_shims.shims],
            "lost_places": None if lost is None else [si_record(place) for place in lost],
        },
    )


def _end_plays(bearing: str, ball: float) -> tuple[BearingEndPlay, BearingEndPlay]:
    """At both ends of the class."""
    low, high = class_clearance(bearing)
    return (
        bearing_end_play(radial_clearance=low, ball_diameter=ball),
        bearing_end_play(radial_clearance=high, ball_diameter=ball),
    )


def _measured(play: float | None, uncertainty: float | None, go: float | None, no_go: float | None) -> tuple[float, float]:
    """Play and its uncertainty in m; two feelers bracket it."""
    if play is not None and go is None and no_go is None:
        return play, uncertainty or 0.0
    if play is None and uncertainty is None and go is not None and no_go is not None:
        if go > no_go:
            raise OutOfRange(
                f"--go {go * 1e3:g} mm is thicker than --no-go {no_go * 1e3:g} mm.",
                field="--go",
                value=go,
                unit="m",
                hint="--go is the thickest feeler that goes, --no-go the thinnest that does not.",
            )
        return (go + no_go) / 2.0, (no_go - go) / 2.0
    raise InputError(
        "The play is not given, or in two ways.",
        field="--play",
        hint='Give --play "0.47 mm" with its --uncertainty, or --go and --no-go, or the file of a box.',
    )


def _tray(typed: str | None) -> Mapping[float, int]:
    if typed is None or not typed.strip():
        raise InputError("No shims are given.", field="--tray", hint=_WAYS)
    stock: dict[float, int] = {}
    for part in _BETWEEN.split(typed.strip().rstrip(",;")):
        found = _KIND.fullmatch(part)
        if found is None:
            raise InputError(f'--tray: "{typed}" has nothing between two commas.', field="--tray", value=typed, hint=_WAYS)
        thickness = parse(found["thickness"], THICKNESS, field="--tray")
        try:
            check_value("--tray", thickness, THICKNESS)
        except OutOfRange as complaint:
            complaint.message = f'--tray: "{part.strip()}" is no thickness of a shim.'
            complaint.hint = f"Possible is {show_range(1e-6, 10e-3, THICKNESS)}."
            raise
        stock[thickness] = stock.get(thickness, 0) + int(found["count"] or 1)
    return stock
