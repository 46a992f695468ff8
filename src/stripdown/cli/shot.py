"""`stripdown shot`: fire a gun, or several side by side."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stripdown.charts.pair import PAIR
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import ball_option, conditions_of, json_option, speed_unit_option, weather_options
from stripdown.cli.shooting import Shooting, shoot
from stripdown.cli.terminal import answers
from stripdown.plain.si import assumed_fields, input_digest, ledger_fields, plain, si_fields, written

if TYPE_CHECKING:
    from stripdown.charts.render import AnyChart


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown shot my_gun.toml --ball "0.25 g" --temperature "12 degC"',
        "stripdown shot healthy.toml as_found.toml --pictures out",
    ],
)
@click.argument("guns", metavar="GUN.toml...", nargs=-1, required=True, type=click.Path(path_type=Path))
@ball_option
@weather_options
@speed_unit_option
@click.option("--tolerance", type=float, default=1e-4, show_default=True, help="Relative error allowed per step of the solver.")
@picture_options
@json_option
def shot(
    guns: tuple[Path, ...],
    *,
    ball: float | None,
    temperature: float | None,
    pressure: float | None,
    humidity: float | None,
    speed_unit: str,
    tolerance: float,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Fire a gun once: speed and energy at the muzzle, and where every joule of the spring went.

    Of two guns the differences are shown as well: fire one as it should be, and as it was found.
    """
    day = conditions_of(temperature, pressure, humidity)
    shootings = shoot(guns, ball_mass=ball, conditions=day, tolerance=tolerance)
    if pictures is not None:
        write_pictures(pictures, _charts(shootings, speed_unit), picture_format=picture_format)
    if as_json:
        shots = [shot_fields(shooting, tolerance=tolerance) for shooting in shootings]
        click.echo(written(shots[0] if len(shots) == 1 else {"shots": shots}))
        return
    from stripdown.cli.printed_shot import print_shots  # noqa: PLC0415  heavy imports belong inside commands

    print_shots(answers(), shootings, speed_unit=speed_unit)


def shot_fields(shooting: Shooting, *, tolerance: float) -> dict[str, Any]:
    """Turn a shot into plain values, the unit in each key."""
    result = shooting.shot
    return {
        "gun": shooting.gun.name,
        "file": shooting.gun.origin,
        "invented": shooting.gun.invented,
        **{f"ball_{key}": value for key, value in si_fields(result.parameters.ball).items()},
        **si_fields(result.figures),
        **ledger_fields(result.ledger),
        "events": [{"kind": plain(event.kind), "time_s": event.time} for event in result.events],
        "conditions": si_fields(result.parameters.ambient),
        "assumed": [assumed_fields(entry) for entry in shooting.complete.assumed],
        "notes": list(dict.fromkeys((*shooting.complete.notes, *result.notes))),
        "predicted": True,
        "tolerance": tolerance,
        "input_digest": input_digest(result.parameters, tolerance=tolerance),
    }


def _charts(shootings: tuple[Shooting, ...], speed_unit: str) -> dict[str, AnyChart]:
    """One sheet for one or two guns; of more, a sheet each."""
    sheets = [shootings] if len(shootings) <= PAIR else [(shooting,) for shooting in shootings]
    return {name: chart for sheet in sheets for name, chart in _sheet(sheet, speed_unit).items()}


def _sheet(shootings: tuple[Shooting, ...], speed_unit: str) -> dict[str, AnyChart]:
    from stripdown.charts.ledger import ledger_at_a_glance  # noqa: PLC0415  heavy imports belong inside commands
    from stripdown.charts.shot import pressure_travel, speed_travel  # noqa: PLC0415
    from stripdown.charts.themes import SCREEN  # noqa: PLC0415

    shots = [shooting.shot for shooting in shootings]
    names = [shooting.name for shooting in shootings]
    stem = "-and-".join(dict.fromkeys(shooting.path.stem for shooting in shootings))
    return {
        f"{stem}-ledger": ledger_at_a_glance(shots, names=names, speed_unit=speed_unit, theme=SCREEN),
        f"{stem}-pressure": pressure_travel(shots, names=names, theme=SCREEN),
        f"{stem}-speed": speed_travel(shots, names=names, speed_unit=speed_unit, theme=SCREEN),
    }
