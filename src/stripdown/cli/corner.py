"""`stripdown corner`: what a radius in an inner corner of the shell gains."""

from __future__ import annotations

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.option_names import options_named
from stripdown.cli.quantity_option import QuantityOption, json_option
from stripdown.cli.terminal import answers
from stripdown.core.part_condition.corners import NET_WIDTH, RADIUS, STEP, Loading, corner_radius_gain, stress_concentration
from stripdown.plain.si import si_record, written

_UNITS = {"notch_ratio": "1"}


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown corner --bar "6 mm" --radius "0.3 mm" --to "1.5 mm"',
        'stripdown corner --bar "6 mm" --radius "0.5 mm" --step "4 mm" --load bending',
    ],
)
@click.option(
    "--bar", type=QuantityOption(NET_WIDTH), required=True, metavar="WIDTH", help='Narrow bar beside the corner, as "6 mm".'
)
@click.option("--radius", type=QuantityOption(RADIUS), required=True, metavar="RADIUS", help="Radius that the corner has.")
@click.option("--to", "to_radius", type=QuantityOption(RADIUS), metavar="RADIUS", help="Radius that it would get.")
@click.option(
    "--step",
    type=QuantityOption(STEP),
    metavar="WIDTH",
    help="By how much the shell widens at the corner; half the bar if left out. Deeper gains the same, shallower less.",
)
@click.option(
    "--load",
    type=click.Choice([loading.value for loading in Loading]),
    default=Loading.TENSION.value,
    show_default=True,
    help="How the bar is loaded.",
)
@json_option
@options_named(
    bar_width="--bar",
    net_width="--bar",
    full_width="--bar with --step",
    radius_before="--radius",
    radius_after="--to",
    radius="--radius",
    step="--step",
)
def corner(*, bar: float, radius: float, to_radius: float | None, step: float | None, load: str, as_json: bool) -> None:
    """Say how much a square inner corner concentrates stress, and what a larger radius takes off.

    The inner corners of the cylinder window are where shells crack. The gain is a ratio of peaks, good to a tenth either way.
    """
    loading = Loading(load)
    if to_radius is None:
        step = 0.5 * bar if step is None else step
        found = stress_concentration(full_width=bar + 2.0 * step, net_width=bar, radius=radius, loading=loading)
        if as_json:
            click.echo(written(si_record(found)))
            return
        from stripdown.cli.printed_corner import print_concentration  # noqa: PLC0415  the terminal's library takes a while

        print_concentration(answers(), found)
        return
    gain = corner_radius_gain(bar_width=bar, step=step, radius_before=radius, radius_after=to_radius, loading=loading)
    if as_json:
        click.echo(written(si_record(gain, units=_UNITS)))
        return
    from stripdown.cli.printed_corner import print_gain  # noqa: PLC0415

    print_gain(answers(), gain)
