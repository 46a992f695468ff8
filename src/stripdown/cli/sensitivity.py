"""`stripdown sensitivity`: what each part's tolerance does to the muzzle speed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import ball_option, conditions_of, json_option, speed_unit_option, weather_options
from stripdown.cli.shooting import display_name
from stripdown.cli.terminal import answers, model_at_work
from stripdown.plain.si import written

if TYPE_CHECKING:
    from stripdown.bench.gun import Gun
    from stripdown.studies.sensitivity import Sensitivity, SensitivityRow


@click.command(
    cls=ExampleCommand,
    examples=["stripdown sensitivity my_gun.toml --rows 10"],
)
@click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
@ball_option
@weather_options
@speed_unit_option
@click.option(
    "--rows", type=click.IntRange(min=1), default=16, show_default=True, help="Dimensions to show, the strongest first."
)
@picture_options
@json_option
def sensitivity(
    gun: Path,
    *,
    ball: float | None,
    temperature: float | None,
    pressure: float | None,
    humidity: float | None,
    speed_unit: str,
    rows: int,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Change each dimension by its own tolerance, up and down: what is worth measuring, and what hardly matters."""
    from stripdown.files.gun import load_gun  # noqa: PLC0415  heavy imports belong inside commands

    loaded = load_gun(gun)
    day = conditions_of(temperature, pressure, humidity)
    with model_at_work("Changing one dimension after the other", kernel="run_shots") as progress:
        from stripdown.studies.sensitivity import speed_sensitivity  # noqa: PLC0415

        answer = speed_sensitivity(loaded, ball_mass=ball, conditions=day, progress=progress)
    if pictures is not None:
        from stripdown.charts import sensitivity as charts  # noqa: PLC0415
        from stripdown.charts.themes import SCREEN  # noqa: PLC0415

        chart = charts.speed_sensitivity(answer, name=display_name(loaded), speed_unit=speed_unit, theme=SCREEN, most=rows)
        write_pictures(pictures, {f"{gun.stem}-tolerances": chart}, picture_format=picture_format)
    if as_json:
        click.echo(written(_fields(loaded, answer)))
        return
    from stripdown.cli.printed_sensitivity import print_sensitivity  # noqa: PLC0415

    print_sensitivity(answers(), display_name(loaded), answer, speed_unit=speed_unit, rows=rows)


def _fields(gun: Gun, answer: Sensitivity) -> dict[str, Any]:
    return {
        "gun": gun.name,
        "file": gun.origin,
        "invented": gun.invented,
        "ball_mass_kg": answer.ball_mass,
        "muzzle_speed_m_per_s": answer.muzzle_speed,
        "solver_noise_m_per_s": answer.solver_noise,
        "rows": [_row_fields(row) for row in answer.rows],
        "without_effect": list(answer.without_effect),
        "predicted": True,
    }


def _row_fields(row: SensitivityRow) -> dict[str, Any]:
    return {
        "field": row.path,
        "label": row.label,
        "value": row.value,
        "step": row.step,
        "unit": row.quantity.unit,
        "speed_change_up_m_per_s": row.speed_change_up,
        "speed_change_down_m_per_s": row.speed_change_down,
        "derivative_m_per_s_per_unit": row.derivative,
        "relative": row.relative,
        "is_assumed": row.is_assumed,
    }
