"""`stripdown explain`: what may have cost the velocity."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from stripdown.cli.compare import compared
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import json_option, speed_unit_option, weather_options
from stripdown.cli.session_options import SessionOptions, day_of, load_session, session_options
from stripdown.cli.shooting import display_name
from stripdown.cli.string import session_fields
from stripdown.cli.terminal import answers, model_at_work
from stripdown.plain.causes import explanation_fields
from stripdown.plain.si import assumed_fields, written
from stripdown.plain.strings import comparison_fields

if TYPE_CHECKING:
    from stripdown.units import Scale


@click.command(
    cls=ExampleCommand,
    examples=["stripdown explain my_gun.toml readings.csv", "stripdown explain my_gun.toml before.csv after.csv --hop off"],
)
@click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
@click.argument("readings", metavar="READINGS...", nargs=-1, required=True, type=click.Path(path_type=Path))
@session_options
@weather_options
@speed_unit_option
@picture_options
@json_option
def explain(
    gun: Path,
    readings: tuple[Path, ...],
    *,
    said: SessionOptions,
    temperature: float | None,
    pressure: float | None,
    humidity: float | None,
    speed_unit: str,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Say which single fault, and how much of it, lies between strings before and after, and what would tell causes apart.

    The gun's file describes it sound. Two ball masses tell far more than one.
    """
    from stripdown.files.gun import load_gun  # noqa: PLC0415  heavy imports belong inside commands

    loaded = load_gun(gun)
    session = load_session(readings, said, in_turn=True, gun=loaded)
    strings, pairs = compared(session)
    with model_at_work("Looking for causes", kernel="run_shots"):
        from stripdown.bench.completion import complete  # noqa: PLC0415
        from stripdown.core.shot_statistics import Occasion  # noqa: PLC0415
        from stripdown.studies.session_answers import explain_pairs, strings_on  # noqa: PLC0415

        day = day_of(temperature, pressure, humidity, strings_on(strings, Occasion.AFTER))
        explanation = explain_pairs(loaded, pairs, session, day=day)
        assumed = complete(loaded, conditions=day).assumed
    scale: Scale = "imperial" if speed_unit == "ft/s" else "metric"
    if pictures is not None:
        from stripdown.charts.loss import causes_of_loss  # noqa: PLC0415
        from stripdown.charts.themes import SCREEN  # noqa: PLC0415

        charts = {f"{gun.stem}-causes": causes_of_loss(explanation, scale=scale, theme=SCREEN)}
        write_pictures(pictures, charts, picture_format=picture_format)
    if as_json:
        fields = {
            "gun": loaded.name,
            "file": loaded.origin,
            "invented": loaded.invented,
            **explanation_fields(explanation),
            "comparisons": [comparison_fields(pair) for pair in pairs],
            "assumed": [assumed_fields(entry) for entry in assumed],
        }
        click.echo(written({**fields, **session_fields(session)}))
        return
    from stripdown.cli.printed_causes import print_causes  # noqa: PLC0415
    from stripdown.cli.printed_notes import PREDICTION, assumed_words  # noqa: PLC0415
    from stripdown.cli.printed_sheet import print_sentences, print_title  # noqa: PLC0415
    from stripdown.cli.printed_strings import notes_of, pair_notes, print_pairs, session_notes  # noqa: PLC0415

    console = answers()
    print_title(console, display_name(loaded))
    print_pairs(console, pairs, speed_unit=speed_unit)
    console.print()
    print_causes(console, explanation, scale=scale)
    print_sentences(console, (*pair_notes(pairs), *notes_of(strings), *session_notes(session)))
    print_sentences(console, (*filter(None, (assumed_words(assumed),)), PREDICTION))
