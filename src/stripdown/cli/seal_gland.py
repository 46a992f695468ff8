"""`stripdown seal gland`: does a ring that does not move suit its gland?"""

from __future__ import annotations

from pathlib import Path

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import QuantityOption, json_option
from stripdown.cli.terminal import answers
from stripdown.core.part_condition.o_ring_gland import (
    GLAND_DEPTH,
    GLAND_INNER_DIAMETER,
    GLAND_WIDTH,
    TOLERANCE,
    o_ring_gland,
)
from stripdown.core.part_condition.o_ring_tolerance import CROSS_SECTION, INNER_DIAMETER
from stripdown.plain.seals import seal_fields
from stripdown.plain.si import written


@click.command(
    cls=ExampleCommand,
    short_help="Squeeze, fill and stretch of a ring at rest.",
    examples=[
        'stripdown seal gland --section "1.78 mm" --depth "1.42 mm" --width "2.4 mm"',
        'stripdown seal gland --section "1.78 mm" --depth "1.42 mm" --width "2.4 mm" --inner "20.3 mm" --groove "20.8 mm"',
    ],
)
@click.option("--section", type=QuantityOption(CROSS_SECTION), required=True, help="Thickness of the ring's cord, unpressed.")
@click.option(
    "--depth", type=QuantityOption(GLAND_DEPTH), required=True, help="Half of bore less diameter of the groove's floor."
)
@click.option("--width", type=QuantityOption(GLAND_WIDTH), required=True, help="Width of the groove along the axis.")
@click.option("--inner", type=QuantityOption(INNER_DIAMETER), help="Inner diameter of the free ring; with --groove.")
@click.option("--groove", type=QuantityOption(GLAND_INNER_DIAMETER), help="Diameter of the groove's floor; with --inner.")
@click.option("--tolerance", type=QuantityOption(TOLERANCE), help="Of the section; ISO 3601-1 class B if left out.")
@picture_options
@json_option
def gland(
    *,
    section: float,
    depth: float,
    width: float,
    inner: float | None,
    groove: float | None,
    tolerance: float | None,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Hold a ring that does not move (cylinder head, nozzle tube) against published bands.

    The ring of a vented piston head floats, and no such table is for it: see `stripdown seal ring`.
    """
    answer = o_ring_gland(
        cross_section=section,
        gland_depth=depth,
        gland_width=width,
        inner_diameter=inner,
        gland_inner_diameter=groove,
        tolerance=tolerance,
    )
    if pictures is not None:
        from stripdown.charts.gland import gland_section  # noqa: PLC0415  heavy imports belong inside commands
        from stripdown.charts.themes import SCREEN  # noqa: PLC0415

        write_pictures(pictures, {"gland": gland_section(answer, theme=SCREEN)}, picture_format=picture_format)
    if as_json:
        click.echo(written(seal_fields(answer)))
        return
    from stripdown.cli.printed_seal import print_gland  # noqa: PLC0415

    print_gland(answers(), answer)
