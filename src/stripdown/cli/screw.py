"""`stripdown screw`: how tight a screw may be in its boss."""

from __future__ import annotations

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.option_names import options_named
from stripdown.cli.quantity_option import QuantityOption, json_option
from stripdown.cli.terminal import answers
from stripdown.core.part_condition.screws import ENGAGEMENT, FRICTION
from stripdown.plain.si import si_record, written


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown screw M3 --boss zinc --engagement "6 mm"',
        "stripdown screw M2.5 --boss polyamide_glass",
        "stripdown screw M4 --class 8.8",
    ],
)
@click.argument("thread")
@click.option(
    "--boss",
    metavar="MATERIAL",
    help="What it goes into: zinc, zamak_3, aluminium_cast, polyamide_glass …; a steel nut if left out.",
)
@click.option(
    "--engagement",
    type=QuantityOption(ENGAGEMENT),
    metavar="LENGTH",
    help='Thread that holds, as "6 mm"; two diameters if left out.',
)
@click.option(
    "--class", "property_class", default="4.8", show_default=True, help="Property class on the head; 4.8 if there is none."
)
@click.option(
    "--friction",
    type=QuantityOption(FRICTION),
    default="0.12",
    show_default=True,
    metavar="NUMBER",
    help="Of thread and head: 0.10 oiled, 0.12 as bought, 0.14 and more dry.",
)
@json_option
@options_named(thread="THREAD", material="--boss", property_class="--class", engagement="--engagement", friction="--friction")
def screw(
    *, thread: str, boss: str | None, engagement: float | None, property_class: str, friction: float, as_json: bool
) -> None:
    """Say how tight a screw may be: what it bears itself, and what strips its boss.

    The manual's or the maker's torque comes first. In plastic the hand decides.
    """
    from stripdown.studies.screw_tightening import screw_tightening  # noqa: PLC0415  the catalogue is read for this command only

    if boss is None and engagement is not None:
        raise click.UsageError("--engagement is of a boss: name its material with --boss.")
    found = screw_tightening(
        thread=thread, property_class=property_class, friction=friction, material=boss, engagement=engagement
    )
    if as_json:
        click.echo(written(si_record(found)))
        return
    from stripdown.cli.printed_screw import print_tightening  # noqa: PLC0415  the terminal's library takes a while

    print_tightening(answers(), found)
