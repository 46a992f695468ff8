"""`stripdown pad`: how thick a pad brings sector gear and rack together at the pitch line, and what it costs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.option_names import options_named
from stripdown.cli.pictures import picture_options, write_pictures
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
from stripdown.core.part_condition.engagement import MODULE, PRESSURE_ANGLE, SECTOR_TEETH, WITNESS_HEIGHT, engagement_pad
from stripdown.core.part_condition.pad import HOLE_DIAMETER, PAD_DIAMETER
from stripdown.plain.si import si_record, written


@click.command(
    cls=ExampleCommand,
    examples=['stripdown pad --mark "0.5 mm"', 'stripdown pad my_gun.toml --mark "0.5 mm" --sector-teeth 16'],
)
@click.argument("gun", metavar="[GUN.toml]", required=False, type=click.Path(path_type=Path))
@click.option(
    "--mark",
    type=QuantityOption(WITNESS_HEIGHT),
    required=True,
    metavar="HEIGHT",
    help='Height of the witness mark above the pitch line, towards the rack\'s tip, as "0.5 mm".',
)
@click.option("--module", type=QuantityOption(MODULE), default="1 mm", show_default=True, help="Module of the rack.")
@click.option("--angle", type=QuantityOption(PRESSURE_ANGLE), default="20 deg", show_default=True, help="Pressure angle.")
@click.option(
    "--sector-teeth",
    type=QuantityOption(SECTOR_TEETH),
    metavar="COUNT",
    help="Teeth that the sector gear would have all round; with few, a mark near the tip is an edge's.",
)
@click.option("--edge", is_flag=True, help="The mark is the nick of an edge: then nothing can be computed.")
@click.option("--pad-diameter", type=QuantityOption(PAD_DIAMETER), metavar="LENGTH", help="Outer diameter; 20 mm if left out.")
@click.option("--pad-hole", type=QuantityOption(HOLE_DIAMETER), metavar="LENGTH", help="Hole in its middle; 6 mm if left out.")
@ball_option
@weather_options
@speed_unit_option
@picture_options
@json_option
@options_named(witness_height="--mark", module="--module", pressure_angle="--angle", sector_tooth_count="--sector-teeth")
def pad(
    gun: Path | None,
    *,
    mark: float,
    module: float,
    angle: float,
    sector_teeth: float | None,
    edge: bool,
    pad_diameter: float | None,
    pad_hole: float | None,
    ball: float | None,
    temperature: float | None,
    pressure: float | None,
    humidity: float | None,
    speed_unit: str,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Say how thick a pad brings first contact to the pitch line; with a gun's file also what it costs.

    More than nine tenths of a pitch is suspect: the wrong tooth. A mark of an edge is not computable: measure again.
    """
    wanted = engagement_pad(
        witness_height=mark, pressure_angle=angle, module=module, sector_teeth=sector_teeth, is_edge_contact=edge
    )
    loaded = cost = None
    if gun is not None:
        from stripdown.files.gun import load_gun  # noqa: PLC0415  heavy imports belong inside commands

        loaded = load_gun(gun)
        with model_at_work("Shooting without and with the pad", kernel="run_shots"):
            from stripdown.studies.pad_cost import pad_cost  # noqa: PLC0415

            cost = pad_cost(
                loaded,
                thickness=wanted.thickness,
                pad_diameter=pad_diameter,
                hole_diameter=pad_hole,
                ball_mass=ball,
                conditions=conditions_of(temperature, pressure, humidity),
            )
    if pictures is not None:
        from stripdown.charts.themes import SCREEN  # noqa: PLC0415
        from stripdown.charts.witness_mark import witness_mark_and_pad  # noqa: PLC0415

        write_pictures(pictures, {"witness-mark": witness_mark_and_pad(wanted, theme=SCREEN)}, picture_format=picture_format)
    if as_json:
        fields: dict[str, Any] = {**si_record(wanted), "share_of_pitch": wanted.share_of_pitch}
        if loaded is not None and cost is not None:
            lost = {"speed_lost": cost.speed_lost, "stroke_lost": cost.stroke_lost, "spring_energy_lost": cost.stored_lost}
            fields |= {"gun": loaded.name, "cost": {**si_record(cost), **lost, "predicted": True}}
        click.echo(written(fields))
        return
    from stripdown.cli.printed_pad import print_pad, print_pad_cost  # noqa: PLC0415

    print_pad(answers(), wanted)
    if loaded is not None and cost is not None:
        print_pad_cost(answers(), display_name(loaded), cost, speed_unit=speed_unit)
