"""`stripdown shot`, `sweep`, `sensitivity`: guns side by side, one with many balls, one with each dimension changed in turn."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import click

from stripdown.cli.ending import Shown, end, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.limit import typed_limit
from stripdown.cli.quantity_option import BALL_MASS, QuantitiesOption, ball_option, day_options
from stripdown.cli.terminal import model_at_work
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.conditions import HopState
from stripdown.files.gun import load_gun
from stripdown.plain.shot import fired_fields, sensitivity_fields, sweep_fields
from stripdown.studies.joule_creep import sweep_ball_masses
from stripdown.studies.sensitivity import speed_sensitivity
from stripdown.studies.shooting import shoot
from stripdown.words.ledger import PAIR
from stripdown.words.shot import sensitivity_answer, shot_answer, sweep_answer

_BALLS = "0.20 g, 0.23 g, 0.25 g, 0.28 g, 0.30 g, 0.32 g, 0.36 g, 0.40 g, 0.43 g"


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown shot my_gun.toml --ball "0.25 g" --temperature "12 degC"',
        "stripdown shot healthy.toml as_found.toml --pictures out",
    ],
)
@click.argument("guns", metavar="GUN.toml...", nargs=-1, required=True, type=click.Path(path_type=Path))
@ball_option
@click.option("--hop", type=click.Choice(["off", "set"]), help="Hop-up off, or as the file has it set; the file's if left out.")
@day_options
@click.option("--tolerance", type=float, default=1e-4, show_default=True, help="Relative error allowed per step of the solver.")
@shown_options(speeds=True, assumed=True, pictures=True)
def shot(
    guns: tuple[Path, ...],
    *,
    ball: float | None,
    hop: str | None,
    day: Conditions | None,
    tolerance: float,
    shown: Shown,
) -> None:
    """Fire a gun once: speed and energy at the muzzle, and where every joule of the spring went.

    Of two guns the differences are shown as well: fire one as it should be, and as it was found.
    """
    loaded = [load_gun(path) for path in guns]  # a mistake in one is told before anything is fired
    with model_at_work("Shooting", kernel="run_shot"):
        state = None if hop is None else HopState(hop)
        fired = shoot(loaded, ball_mass=ball, hop=state, conditions=day, tolerance=tolerance)
    drawn = {"-and-".join(dict.fromkeys(path.stem for path in guns)): fired}
    if len(guns) > PAIR:  # a picture of differences holds two
        alone = [dataclasses.replace(fired, shootings=(shooting,)) for shooting in fired.shootings]
        drawn = dict(zip(_own_names(guns), alone, strict=True))
    end(
        shown,
        answer=lambda: shot_answer(fired, scale=shown.scale),
        plain=lambda: fired_fields(fired),
        drawn=drawn,
    )


def _own_names(files: tuple[Path, ...]) -> list[str]:
    """What to call the pictures of each gun: by its file, and where two files are called alike, by its place in the command."""
    names = [path.stem for path in files]
    return names if len(set(names)) == len(names) else [f"{place}-{name}" for place, name in enumerate(names, start=1)]


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown sweep my_gun.toml --limit '1.14 J'",
        'stripdown sweep my_gun.toml --balls "0.20 g, 0.25 g, 0.32 g" --pictures out',
    ],
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
@click.option(
    "--limit", metavar="LIMIT", help="Show a limit beside the energies: one of `stripdown limits`, or '1.14 J at 0.3 m'."
)
@day_options
@shown_options(speeds=True, assumed=True, pictures=True)
def sweep(
    gun: Path,
    *,
    balls: tuple[float, ...],
    limit: str | None,
    day: Conditions | None,
    shown: Shown,
) -> None:
    """Fire one gun with balls of several masses: how energy and speed go with the ball (joule creep)."""
    meant = None if limit is None else typed_limit(limit)
    loaded = load_gun(gun)
    with model_at_work("Shooting", kernel="run_shots") as progress:
        creep = sweep_ball_masses(loaded, ball_masses=balls, conditions=day, limit=meant, progress=progress)
    end(
        shown,
        answer=lambda: sweep_answer(creep, scale=shown.scale),
        plain=lambda: sweep_fields(creep),
        drawn={gun.stem: creep},
    )


@click.command(
    cls=ExampleCommand,
    examples=["stripdown sensitivity my_gun.toml --rows 10"],
)
@click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
@ball_option
@day_options
@click.option(
    "--rows", type=click.IntRange(min=1), default=16, show_default=True, help="Dimensions to show, the strongest first."
)
@shown_options(speeds=True, pictures=True)
def sensitivity(
    gun: Path,
    *,
    ball: float | None,
    day: Conditions | None,
    rows: int,
    shown: Shown,
) -> None:
    """Change each dimension by its own tolerance, up and down: what is worth measuring, and what hardly matters."""
    loaded = load_gun(gun)
    with model_at_work("Changing one dimension after the other", kernel="run_shots") as progress:
        found = speed_sensitivity(loaded, ball_mass=ball, conditions=day, progress=progress)
    end(
        shown,
        answer=lambda: sensitivity_answer(found, scale=shown.scale, most=rows),
        plain=lambda: sensitivity_fields(found),
        drawn={gun.stem: dataclasses.replace(found, rows=found.rows[:rows])},
    )
