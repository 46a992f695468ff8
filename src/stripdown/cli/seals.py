"""`stripdown seal`: O-rings in their glands, what is left of them, and what their leak or drag costs."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import click

from stripdown.cli.calculated import end_calculated
from stripdown.cli.ending import Shown, shown_options
from stripdown.cli.examples import ExampleGroup
from stripdown.cli.fired import end_priced, fired_options
from stripdown.cli.quantity_option import QuantityOption
from stripdown.cli.record_options import record_options
from stripdown.core.part_condition.parameters import (
    OVERPRESSURE,
    TIME,
    LeakTests,
    PistonDrag,
    PressedRing,
    RingInGland,
    RingInGroove,
    RingsOnATester,
)
from stripdown.studies.calculators import Fired


@click.group(
    cls=ExampleGroup,
    examples=['stripdown seal gland --section "1.78 mm" --depth "1.42 mm" --width "2.4 mm"'],
)
def seal() -> None:
    """Rings and their glands: does it suit, is it still good, what does its leak or drag cost?"""


@seal.command(
    short_help="Squeeze, fill and stretch of a ring at rest.",
    examples=[
        'stripdown seal gland --section "1.78 mm" --depth "1.42 mm" --width "2.4 mm"',
        'stripdown seal gland --section "1.78 mm" --depth "1.42 mm" --width "2.4 mm" --inner "20.3 mm" --groove "20.8 mm"',
    ],
)
@record_options(
    RingInGland,
    names={
        "cross_section": "--section",
        "gland_depth": "--depth",
        "gland_width": "--width",
        "inner_diameter": "--inner",
        "gland_inner_diameter": "--groove",
        "tolerance": "--tolerance",
    },
)
@shown_options(pictures=True)
def gland(asked: RingInGland, *, shown: Shown) -> None:
    """Hold a ring that does not move (cylinder head, nozzle tube) against published bands.

    The ring of a vented piston head floats, and no such table is for it: see `stripdown seal ring`.
    """
    end_calculated("gland", asked, shown)


@seal.command(
    short_help="Room of the floating ring of a vented piston head.",
    examples=['stripdown seal ring --section "2.4 mm" --inner "18.8 mm" --groove "18.4 mm" --width "2.8 mm" --bore "23.8 mm"'],
)
@record_options(
    RingInGroove,
    names={
        "cross_section": "--section",
        "inner_diameter": "--inner",
        "groove_diameter": "--groove",
        "groove_width": "--width",
        "bore": "--bore",
    },
)
@shown_options()
def ring(asked: RingInGroove, *, shown: Shown) -> None:
    """Say whether the ring of a piston head floats in its groove; no squeeze table is for it."""
    end_calculated("ring", asked, shown)


@seal.command(
    "set",
    short_help="Compression set of a ring.",
    examples=['stripdown seal set --original "3.53 mm" --compressed "2.65 mm" --recovered "3.30 mm"'],
)
@record_options(
    PressedRing,
    names={
        "original": "--original",
        "compressed": "--compressed",
        "recovered": "--recovered",
        "hardness": "--hardness",
        "reading_uncertainty": "--uncertainty",
    },
)
@shown_options()
def set_(asked: PressedRing, *, shown: Shown) -> None:
    """Compute the compression set of a ring, and hold it against what makers of seals accept."""
    end_calculated("compression_set", asked, shown)


@seal.command(
    short_help="A used ring beside a new one, on one tester.",
    examples=['stripdown seal hardness --scale shore-m --new "70 71 70" --used "81 83 82"'],
)
@record_options(
    RingsOnATester,
    names={
        "scale": "--scale",
        "used_scale": "--used-scale",
        "new": "--new",
        "used": "--used",
        "test_tolerance": "--test-tolerance",
        "greatest_change": "--greatest-change",
    },
)
@shown_options()
def hardness(asked: RingsOnATester, *, shown: Shown) -> None:
    """Compare a used ring with a new one of its size, read on the same tester: scales do not convert."""
    end_calculated("hardness", asked, shown)


@seal.command(
    short_help="Leak from a timed or gauge test, and its price in velocity.",
    examples=[
        'stripdown seal leak --load "30 N" --distance "30 mm" --time "1.2 s" --bore "23.8 mm" --drag "4 N"',
        'stripdown seal leak my_gun.toml --volume "30 cm3" --reading "0 s" "2.0 bar" --reading "12 s" "0.5 bar"',
    ],
)
@click.argument("gun", metavar="[GUN.toml]", required=False, type=click.Path(path_type=Path))
@record_options(
    LeakTests,
    leave_out=("times", "overpressures"),
    names={
        "load": "--load",
        "load_at_end": "--load-at-end",
        "trapped_length": "--trapped",
        "distance": "--distance",
        "duration": "--time",
        "duration_uncertainty": "--time-uncertainty",
        "bore": "--bore",
        "drag": "--drag",
        "times": "--reading",
        "overpressures": "--reading",
        "volume": "--volume",
        "reading_uncertainty": "--gauge-uncertainty",
        "volume_uncertainty": "--volume-uncertainty",
        "shot_pressure": "--shot-pressure",
    },
)
@click.option(
    "--reading",
    "readings",
    type=(QuantityOption(TIME), QuantityOption(OVERPRESSURE)),
    multiple=True,
    metavar="TIME PRESSURE",
    help='Gauge test: one line of the log, as --reading "5 s" "1.2 bar"; pressure over the air outside.',
)
@fired_options
@shown_options(speeds=True)
def leak(asked: LeakTests, *, readings: tuple[tuple[float, float], ...], fired: Fired, shown: Shown) -> None:
    """Find a leak by a timed test, a gauge test or both, and with a gun's file what it costs.

    Two pressures well apart tell a hole from a creeping gap. A static test cannot see a ring that seals or flips only in motion.
    """
    times, overpressures = (tuple(column) for column in zip(*readings, strict=True)) if readings else ((), ())
    tests = dataclasses.replace(asked, times=times, overpressures=overpressures)
    end_priced("leak", tests, fired, shown, doing="Shooting with the leak")


@seal.command(
    short_help="Price of drag in velocity.",
    examples=['stripdown seal drag my_gun.toml --drag "8 N"'],
)
@click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
@record_options(PistonDrag, names={"drag": "--drag", "reference_drag": "--instead-of"})
@fired_options
@shown_options(speeds=True)
def drag(asked: PistonDrag, *, fired: Fired, shown: Shown) -> None:
    """Fire a gun with two drags of its piston, by the model: what the larger costs."""
    end_priced("drag", asked, fired, shown, doing="Shooting with both drags")
