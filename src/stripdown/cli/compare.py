"""`stripdown compare`: what changed between strings before and after."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import json_option, speed_unit_option
from stripdown.cli.session_options import SessionOptions, load_session, session_options
from stripdown.cli.string import session_fields
from stripdown.cli.terminal import answers
from stripdown.errors import InputError
from stripdown.plain.si import written
from stripdown.plain.strings import comparison_fields, string_fields

if TYPE_CHECKING:
    from stripdown.bench.strings import ChronographSession
    from stripdown.studies.service_case import ComparisonOfCase, StringOfCase


@click.command(
    cls=ExampleCommand,
    examples=["stripdown compare readings.csv", "stripdown compare before.csv after.csv --ball '0.20 g'"],
)
@click.argument("readings", metavar="READINGS...", nargs=-1, required=True, type=click.Path(path_type=Path))
@session_options
@speed_unit_option
@picture_options
@json_option
def compare(
    readings: tuple[Path, ...],
    *,
    said: SessionOptions,
    speed_unit: str,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Say what changed between strings before and after, with its interval: same ball, hop-up and selector only.

    One file that says before and after, or two files, the first before and the second after.
    """
    session = load_session(readings, said, in_turn=True)
    strings, pairs = compared(session)
    if pictures is not None:
        from stripdown.charts.string_pairs import before_and_after  # noqa: PLC0415  heavy imports belong inside commands
        from stripdown.charts.themes import SCREEN  # noqa: PLC0415

        drawn = [pair for pair in pairs if pair.comparison is not None]
        charts = {"before-and-after": before_and_after(drawn, speed_unit=speed_unit, theme=SCREEN)} if drawn else {}
        write_pictures(pictures, charts, picture_format=picture_format)
    if as_json:
        fields = {
            "comparisons": [comparison_fields(pair) for pair in pairs],
            "strings": [string_fields(string) for string in strings],
        }
        click.echo(written({**fields, **session_fields(session)}))
        return
    from stripdown.cli.printed_sheet import print_sentences  # noqa: PLC0415
    from stripdown.cli.printed_strings import notes_of, pair_notes, print_pairs, session_notes  # noqa: PLC0415

    print_pairs(answers(), pairs, speed_unit=speed_unit)
    print_sentences(answers(), (*pair_notes(pairs), *notes_of(strings), *session_notes(session)))


def compared(session: ChronographSession) -> tuple[tuple[StringOfCase, ...], tuple[ComparisonOfCase, ...]]:
    """Reduce the strings of a session, and hold those before against those after."""
    from stripdown.core.shot_statistics import Occasion  # noqa: PLC0415  heavy imports belong inside commands
    from stripdown.studies.before_after import compare_occasions  # noqa: PLC0415
    from stripdown.studies.case_strings import strings_of  # noqa: PLC0415
    from stripdown.studies.session_answers import strings_on  # noqa: PLC0415

    strings = strings_of(session)
    sides = {occasion: strings_on(strings, occasion) for occasion in Occasion}
    for occasion, found in sides.items():
        if not found:
            raise InputError(
                f"No string says that it was fired {occasion.value} the work, so there is nothing to compare.",
                field="occasion",
                hint=f'Write "{occasion.value}" above those readings or in a column, or give two files, before and after.',
            )
    return strings, compare_occasions(sides[Occasion.BEFORE], sides[Occasion.AFTER], session)
