"""`stripdown seal ring`: does the ring of a piston head float?"""

from __future__ import annotations

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.option_names import options_named
from stripdown.cli.quantity_option import QuantityOption, json_option
from stripdown.cli.terminal import answers
from stripdown.core.part_condition.o_ring_tolerance import CROSS_SECTION, INNER_DIAMETER
from stripdown.core.part_condition.piston_ring import BORE, GROOVE_DIAMETER, GROOVE_WIDTH, floating_ring
from stripdown.plain.seals import seal_fields
from stripdown.plain.si import written


@click.command(
    cls=ExampleCommand,
    short_help="Room of the floating ring of a vented piston head.",
    examples=['stripdown seal ring --section "2.4 mm" --inner "18.8 mm" --groove "18.4 mm" --width "2.8 mm" --bore "23.8 mm"'],
)
@click.option("--section", type=QuantityOption(CROSS_SECTION), required=True, help="Thickness of the ring's cord, unpressed.")
@click.option("--inner", type=QuantityOption(INNER_DIAMETER), required=True, help="Inner diameter of the free ring.")
@click.option("--groove", type=QuantityOption(GROOVE_DIAMETER), required=True, help="Diameter of the groove's floor.")
@click.option("--width", type=QuantityOption(GROOVE_WIDTH), required=True, help="Width of the groove along the axis.")
@click.option("--bore", type=QuantityOption(BORE), required=True, help="Bore of the cylinder.")
@json_option
@options_named(groove_diameter="--groove", inner_diameter="--inner", section="--section", width="--width", bore="--bore")
def ring(*, section: float, inner: float, groove: float, width: float, bore: float, as_json: bool) -> None:
    """Say whether the ring of a piston head floats in its groove; no squeeze table is for it."""
    answer = floating_ring(cross_section=section, inner_diameter=inner, groove_diameter=groove, groove_width=width, bore=bore)
    if as_json:
        click.echo(written(seal_fields(answer)))
        return
    from stripdown.cli.printed_seal import print_ring  # noqa: PLC0415  heavy imports belong inside commands

    print_ring(answers(), answer)
