"""`stripdown verdict`: does a gun keep to a limit with every ball that a player may bring?"""

from __future__ import annotations

from pathlib import Path

import click

from stripdown.bench.strings import FIRED_BALL_MASS
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.limit_option import typed_limit
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import QuantitiesOption, json_option, speed_unit_option, weather_options
from stripdown.cli.session_options import SessionOptions, day_of, load_session, session_options
from stripdown.cli.shooting import display_name
from stripdown.cli.string import session_fields
from stripdown.cli.terminal import answers, model_at_work
from stripdown.plain.limits import verdict_fields
from stripdown.plain.si import assumed_fields, written
from stripdown.plain.strings import string_fields


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown verdict my_gun.toml after.csv --limit '1.14 J at 0.3 m'",
        "stripdown verdict my_gun.toml after.csv --limit '350 ft/s on 0.20 g' --balls '0.20 g, 0.25 g, 0.28 g'",
        "stripdown verdict my_gun.toml after.csv --limit uk_automatic --can-fire-automatic",
    ],
)
@click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
@click.argument("readings", metavar="READINGS...", nargs=-1, required=True, type=click.Path(path_type=Path))
@click.option(
    "--limit",
    metavar="LIMIT",
    help="One of `stripdown limits`, or the site's own rule with its measuring point: '1.14 J at 0.3 m', '350 ft/s on 0.20 g'.",
)
@click.option(
    "--balls",
    type=QuantitiesOption(FIRED_BALL_MASS),
    metavar="MASSES",
    help="Masses that a player may bring; left out, the usual ones.",
)
@click.option("--can-fire-automatic/--single-shots-only", default=None, help="What the gun can do; some limits depend on it.")
@session_options
@weather_options
@speed_unit_option
@picture_options
@json_option
def verdict(
    gun: Path,
    readings: tuple[Path, ...],
    *,
    limit: str | None,
    balls: tuple[float, ...] | None,
    can_fire_automatic: bool | None,
    said: SessionOptions,
    temperature: float | None,
    pressure: float | None,
    humidity: float | None,
    speed_unit: str,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Say what strings prove against a limit, and which balls that were not fired are worth firing.

    Of readings before and after the work those after are judged. A gun over its limit is a result: the exit code is 0. A
    predicted speed proves nothing, and never counts as under the limit.
    """
    from stripdown.files.gun import load_gun  # noqa: PLC0415  heavy imports belong inside commands

    meant = typed_limit(limit)
    loaded = load_gun(gun)
    session = load_session(readings, said, gun=loaded)
    with model_at_work("Holding the gun against the limit", kernel="run_shots"):
        from stripdown.bench.completion import complete  # noqa: PLC0415
        from stripdown.studies.case_strings import strings_of  # noqa: PLC0415
        from stripdown.studies.session_answers import judge_strings, latest  # noqa: PLC0415

        strings = latest(strings_of(session))
        day = day_of(temperature, pressure, humidity, strings)
        found = judge_strings(
            loaded, strings, session, limit=meant, ball_masses=balls, can_fire_automatic=can_fire_automatic, day=day
        )
        assumed = complete(loaded, conditions=day).assumed
    if pictures is not None:
        from stripdown.charts.limit import creep_against_limit  # noqa: PLC0415
        from stripdown.charts.themes import SCREEN  # noqa: PLC0415

        write_pictures(pictures, {f"{gun.stem}-limit": creep_against_limit(found, theme=SCREEN)}, picture_format=picture_format)
    if as_json:
        fields = {
            "gun": loaded.name,
            "file": loaded.origin,
            "invented": loaded.invented,
            **verdict_fields(found),
            "readings": [string_fields(string) for string in strings],
            "assumed": [assumed_fields(entry) for entry in assumed],
        }
        click.echo(written({**fields, **session_fields(session)}))
        return
    from stripdown.cli.printed_limit import print_verdict  # noqa: PLC0415
    from stripdown.cli.printed_notes import assumed_words  # noqa: PLC0415
    from stripdown.cli.printed_sheet import print_sentences, print_title  # noqa: PLC0415
    from stripdown.cli.printed_strings import notes_of, session_notes  # noqa: PLC0415

    console = answers()
    print_title(console, display_name(loaded))
    print_verdict(console, found, speed_unit=speed_unit)
    rest = assumed_words(assumed) if found.match is not None else ""
    print_sentences(console, (*notes_of(strings), *session_notes(session), *filter(None, (rest,))))
