"""`stripdown match`: a gun's model fitted to its readings."""

from __future__ import annotations

from pathlib import Path

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import json_option, speed_unit_option, weather_options
from stripdown.cli.session_options import SessionOptions, day_of, load_session, session_options
from stripdown.cli.shooting import display_name
from stripdown.cli.string import session_fields
from stripdown.cli.terminal import answers, model_at_work
from stripdown.plain.causes import match_fields, prediction_fields
from stripdown.plain.si import assumed_fields, written
from stripdown.plain.strings import string_fields


@click.command(
    cls=ExampleCommand,
    examples=["stripdown match my_gun.toml readings.csv", "stripdown match my_gun.toml readings.csv --ball '0.25 g' --hop off"],
)
@click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
@click.argument("readings", metavar="READINGS...", nargs=-1, required=True, type=click.Path(path_type=Path))
@session_options
@weather_options
@speed_unit_option
@json_option
def match(
    gun: Path,
    readings: tuple[Path, ...],
    *,
    said: SessionOptions,
    temperature: float | None,
    pressure: float | None,
    humidity: float | None,
    speed_unit: str,
    as_json: bool,
) -> None:
    """Fit a gun's model to its readings: at most three numbers, the rest as assumed and widening the answer.

    Of readings before and after the work those after are used. One ball mass carries one number, two carry two, three or
    both states of the hop-up three.
    """
    from stripdown.files.gun import load_gun  # noqa: PLC0415  heavy imports belong inside commands

    loaded = load_gun(gun)
    session = load_session(readings, said, gun=loaded)
    with model_at_work("Fitting", kernel="run_shots"):
        from stripdown.bench.completion import complete  # noqa: PLC0415
        from stripdown.core.shot_statistics import HopState  # noqa: PLC0415
        from stripdown.studies.case_strings import strings_of  # noqa: PLC0415
        from stripdown.studies.match_chronograph import predict_speeds  # noqa: PLC0415
        from stripdown.studies.session_answers import latest, match_strings  # noqa: PLC0415
        from stripdown.studies.verdict import USUAL_BALLS  # noqa: PLC0415

        strings = latest(strings_of(session))
        day = day_of(temperature, pressure, humidity, strings)
        fitted = match_strings(loaded, strings, session, day=day)
        # As they were fired: with the hop-up off, what it would do pressed is another question.
        hop = HopState.OFF if {string.hop for string in fitted.strings} == {HopState.OFF} else None
        expected = predict_speeds(fitted, ball_masses=USUAL_BALLS, hop=hop)
        assumed = complete(loaded, conditions=day).assumed
    if as_json:
        fields = {
            "gun": loaded.name,
            "file": loaded.origin,
            "invented": loaded.invented,
            **match_fields(fitted),
            "predictions": prediction_fields(expected),
            "predicted_with_hop_up": None if hop is None else "off",
            "readings": [string_fields(string) for string in strings],
            "assumed": [assumed_fields(entry) for entry in assumed],
        }
        click.echo(written({**fields, **session_fields(session)}))
        return
    from stripdown.cli.printed_match import print_match  # noqa: PLC0415
    from stripdown.cli.printed_sheet import print_sentences  # noqa: PLC0415
    from stripdown.cli.printed_strings import notes_of, session_notes  # noqa: PLC0415

    print_match(answers(), display_name(loaded), fitted, expected, hop=hop, assumed=assumed, speed_unit=speed_unit)
    print_sentences(answers(), (*notes_of(strings), *session_notes(session)))
