"""`stripdown seal drag`: what does drag of the piston cost?"""

from __future__ import annotations

from pathlib import Path

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import (
    QuantityOption,
    ball_option,
    conditions_of,
    json_option,
    speed_unit_option,
    weather_options,
)
from stripdown.cli.shooting import display_name
from stripdown.cli.terminal import answers, model_at_work
from stripdown.core.part_condition.leak_quantities import DRAG
from stripdown.plain.si import si_record, written


@click.command(
    cls=ExampleCommand,
    short_help="Price of drag in velocity.",
    examples=['stripdown seal drag my_gun.toml --drag "8 N"'],
)
@click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
@click.option("--drag", type=QuantityOption(DRAG), required=True, help="Pulled with a spring scale, nozzle off.")
@click.option("--instead-of", type=QuantityOption(DRAG), default="4 N", show_default=True, help="Drag that it is compared with.")
@ball_option
@weather_options
@speed_unit_option
@json_option
def drag(
    gun: Path,
    *,
    drag: float,
    instead_of: float,
    ball: float | None,
    temperature: float | None,
    pressure: float | None,
    humidity: float | None,
    speed_unit: str,
    as_json: bool,
) -> None:
    """Fire a gun with two drags of its piston, by the model: what the larger costs."""
    from stripdown.files.gun import load_gun  # noqa: PLC0415  heavy imports belong inside commands

    loaded = load_gun(gun)
    with model_at_work("Shooting with both drags", kernel="run_shots"):
        from stripdown.studies.drag_cost import drag_cost  # noqa: PLC0415

        cost = drag_cost(
            loaded,
            drag=drag,
            reference_drag=instead_of,
            ball_mass=ball,
            conditions=conditions_of(temperature, pressure, humidity),
        )
    if as_json:
        click.echo(written({"gun": loaded.name, **si_record(cost), "speed_lost": cost.speed_lost, "predicted": True}))
        return
    from stripdown.cli.printed_leak import print_drag_cost  # noqa: PLC0415

    print_drag_cost(answers(), display_name(loaded), cost, speed_unit=speed_unit)
