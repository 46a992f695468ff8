"""`stripdown sweep`: one gun, many ball masses."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import (
    BALL_MASS,
    QuantitiesOption,
    conditions_of,
    json_option,
    speed_unit_option,
    weather_options,
)
from stripdown.cli.shooting import display_name
from stripdown.cli.terminal import answers, model_at_work
from stripdown.plain.si import assumed_fields, si_fields, si_rows, written

if TYPE_CHECKING:
    from stripdown.bench.completion import CompleteGun
    from stripdown.bench.gun import Gun
    from stripdown.studies.joule_creep import JouleCreep

_BALLS = "0.20 g, 0.23 g, 0.25 g, 0.28 g, 0.30 g, 0.32 g, 0.36 g, 0.40 g, 0.43 g"


@click.command(
    cls=ExampleCommand,
    examples=["stripdown sweep my_gun.toml", 'stripdown sweep my_gun.toml --balls "0.20 g, 0.25 g, 0.32 g" --pictures out'],
)
@click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
@click.option(
    "--balls",
    type=QuantitiesOption(BALL_MASS),
    default=_BALLS,
    show_default=True,
    metavar="MASSES",
    help="Masses of the balls, each with its unit.",
)
@weather_options
@speed_unit_option
@picture_options
@json_option
def sweep(
    gun: Path,
    *,
    balls: tuple[float, ...],
    temperature: float | None,
    pressure: float | None,
    humidity: float | None,
    speed_unit: str,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Fire one gun with balls of several masses: how energy and speed go with the ball (joule creep)."""
    from stripdown.files.gun import load_gun  # noqa: PLC0415  heavy imports belong inside commands

    loaded = load_gun(gun)
    day = conditions_of(temperature, pressure, humidity)
    with model_at_work("Shooting", kernel="run_shots") as progress:
        from stripdown.bench.completion import complete  # noqa: PLC0415
        from stripdown.studies.joule_creep import sweep_ball_masses  # noqa: PLC0415

        completed = complete(loaded, conditions=day)
        creep = sweep_ball_masses(loaded, ball_masses=balls, conditions=day, progress=progress)
    if pictures is not None:
        from stripdown.charts.sweep import joule_creep  # noqa: PLC0415
        from stripdown.charts.themes import SCREEN  # noqa: PLC0415

        chart = joule_creep(creep, name=display_name(loaded), speed_unit=speed_unit, theme=SCREEN)
        write_pictures(pictures, {f"{gun.stem}-ball-masses": chart}, picture_format=picture_format)
    if as_json:
        click.echo(written(_fields(loaded, completed, creep)))
        return
    from stripdown.cli.printed_sweep import print_sweep  # noqa: PLC0415

    print_sweep(answers(), display_name(loaded), completed, creep, speed_unit=speed_unit)


def _fields(gun: Gun, completed: CompleteGun, creep: JouleCreep) -> dict[str, Any]:
    from stripdown.core.interior_ballistics.result import ShotSummary  # noqa: PLC0415
    from stripdown.quantities import leaves  # noqa: PLC0415

    units = {leaf.path: leaf.quantity.unit for leaf in leaves(ShotSummary) if leaf.quantity is not None}
    return {
        "gun": gun.name,
        "file": gun.origin,
        "invented": gun.invented,
        "shots": si_rows(creep, units=units),
        "conditions": si_fields(completed.parameters.ambient),
        "assumed": [assumed_fields(entry) for entry in completed.assumed],
        "notes": list(completed.notes),
        "predicted": True,
    }
