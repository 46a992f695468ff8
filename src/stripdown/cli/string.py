"""`stripdown string`: what chronograph readings say."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.pictures import picture_options, write_pictures
from stripdown.cli.quantity_option import json_option, speed_unit_option
from stripdown.cli.session_options import SessionOptions, load_session, session_options
from stripdown.cli.terminal import answers
from stripdown.plain.si import written
from stripdown.plain.strings import left_out_fields, string_fields

if TYPE_CHECKING:
    from stripdown.bench.strings import ChronographSession


@click.command(
    "string",
    cls=ExampleCommand,
    examples=["stripdown string readings.csv", "stripdown string readings.csv --unit ft/s --ball '0.20 g' --distance '1 ft'"],
)
@click.argument("readings", metavar="READINGS...", nargs=-1, required=True, type=click.Path(path_type=Path))
@session_options
@speed_unit_option
@picture_options
@json_option
def string(
    readings: tuple[Path, ...],
    *,
    said: SessionOptions,
    speed_unit: str,
    pictures: Path | None,
    picture_format: str,
    as_json: bool,
) -> None:
    """Say what each string of readings holds: mean, scatter, energy, intervals, and whether its shots belong together.

    One reading a line, or a table; several strings in one file by columns or headings. Lines that give no reading are named.
    """
    session = load_session(readings, said)
    from stripdown.studies.case_strings import strings_of  # noqa: PLC0415  heavy imports belong inside commands

    strings = strings_of(session)
    if pictures is not None:
        from stripdown.cli.case_pictures import string_charts  # noqa: PLC0415

        write_pictures(pictures, string_charts(strings, speed_unit=speed_unit), picture_format=picture_format)
    if as_json:
        click.echo(written({"strings": [string_fields(each) for each in strings], **session_fields(session)}))
        return
    from stripdown.cli.printed_sheet import print_sentences  # noqa: PLC0415
    from stripdown.cli.printed_strings import print_strings, session_notes  # noqa: PLC0415

    print_strings(answers(), strings, speed_unit=speed_unit)
    print_sentences(answers(), session_notes(session))


def session_fields(session: ChronographSession) -> dict[str, Any]:
    """Turn what a session left out and noted into plain values."""
    return {"left_out": left_out_fields(session.left_out), "readings_notes": list(session.notes)}
