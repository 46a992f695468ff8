"""`stripdown tooth`: what the hardest-worked tooth bears."""

from __future__ import annotations

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import QuantityOption, json_option
from stripdown.cli.terminal import answers
from stripdown.core.mechanics.gear_teeth import FACE_WIDTH, MODULE, TANGENTIAL_FORCE, YOUNGS_MODULUS
from stripdown.core.part_condition.teeth import STEEL, tooth_load
from stripdown.plain.si import si_record, written

_UNITS = {"tooth_count": "1", "mate_tooth_count": "1"}
_LEAST_TEETH = 4


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown tooth --force "110 N" --width "5 mm" --teeth 16',
        'stripdown tooth --force "110 N" --width "5 mm" --teeth 16 --mate-modulus "3 GPa"',
        'stripdown tooth --force "20 N" --width "4 mm" --module "0.6 mm" --teeth 12 --mate-teeth 30',
    ],
)
@click.option(
    "--force",
    type=QuantityOption(TANGENTIAL_FORCE),
    required=True,
    metavar="FORCE",
    help="On the tooth; at release the drawn spring's.",
)
@click.option(
    "--width", type=QuantityOption(FACE_WIDTH), required=True, metavar="WIDTH", help="Of the narrower of the two teeth."
)
@click.option("--module", type=QuantityOption(MODULE), default="1 mm", show_default=True, metavar="MODULE", help="Of the gear.")
@click.option("--teeth", type=click.IntRange(min=_LEAST_TEETH), required=True, help="Teeth that the gear would have all round.")
@click.option("--mate-teeth", type=click.IntRange(min=_LEAST_TEETH), help="Teeth of its mate; a rack if left out.")
@click.option(
    "--modulus", type=QuantityOption(YOUNGS_MODULUS), metavar="MODULUS", help="Young's modulus of the gear; steel if left out."
)
@click.option(
    "--mate-modulus",
    type=QuantityOption(YOUNGS_MODULUS),
    metavar="MODULUS",
    help='Of its mate, as "3 GPa" for plastic; steel if left out.',
)
@json_option
def tooth(
    *,
    force: float,
    width: float,
    module: float,
    teeth: int,
    mate_teeth: int | None,
    modulus: float | None,
    mate_modulus: float | None,
    as_json: bool,
) -> None:
    """Say what a tooth bears that carries everything alone: bending at its root and its mate's, pressure on the flank.

    The last tooth of the sector holds the whole spring at its tip. Figures compare one gear with another; eyes decide.
    """
    found = tooth_load(
        tangential_force=force,
        face_width=width,
        module=module,
        tooth_count=float(teeth),
        mate_tooth_count=None if mate_teeth is None else float(mate_teeth),
        youngs_modulus=STEEL if modulus is None else modulus,
        mate_youngs_modulus=STEEL if mate_modulus is None else mate_modulus,
    )
    if as_json:
        click.echo(written(si_record(found, units=_UNITS)))
        return
    from stripdown.cli.printed_tooth import print_tooth  # noqa: PLC0415  the terminal's library takes a while

    print_tooth(answers(), found)
