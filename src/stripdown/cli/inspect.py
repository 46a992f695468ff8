"""`stripdown inspect`: keep, watch or replace, on what look?"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import json_option
from stripdown.cli.terminal import answers
from stripdown.cli.variation_option import variation_option
from stripdown.plain.si import written

if TYPE_CHECKING:
    from stripdown.procedures.inspection import Inspection


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown inspect",
        "stripdown inspect piston",
        'stripdown inspect "bevel gear" --variation "version 3"',
        "stripdown inspect seals --limits my_limits.toml",
    ],
)
@click.argument("part", required=False)
@variation_option
@click.option(
    "--limits",
    type=click.Path(path_type=Path),
    metavar="FILE.toml",
    help="Limits of your own, which amend the packaged ones (docs/models/inspection.md).",
)
@json_option
def inspect(*, part: str | None, variation: str, limits: Path | None, as_json: bool) -> None:
    """Say what to look at or to measure on a part, how, with what, and the grade that follows: sound, watch, reject.

    PART is a part (piston, "bevel gear") or a word for several (gears, seals, bearings, hop-up). Without it, all parts with
    something to look at are listed. Every limit says on whose word it stands; most are common practice without a source, and
    yours to change.
    """
    from stripdown.procedures.damage import load_damage  # noqa: PLC0415  the data take a moment

    inspection = _inspection(limits)
    sheet = inspection.sheet(variation)
    if part is None:
        from stripdown.cli.printed_inspect import print_parts  # noqa: PLC0415

        if as_json:
            from stripdown.plain.inspection import part_list_fields  # noqa: PLC0415

            click.echo(written(part_list_fields(sheet)))
            return
        print_parts(answers(), sheet)
        return
    parts = sheet.parts_named(part)
    keys = {one.key for one in parts}
    patterns = [one for one in load_damage().patterns(sheet.variation) if keys & set(one.parts)]
    if as_json:
        from stripdown.plain.inspection import inspection_fields  # noqa: PLC0415

        click.echo(written(inspection_fields(sheet, parts, patterns)))
        return
    from stripdown.cli.printed_inspect import print_inspection  # noqa: PLC0415

    print_inspection(answers(), sheet, parts, patterns)


def _inspection(limits: Path | None) -> Inspection:
    from stripdown.procedures.inspection import add_own_limits, load_inspection  # noqa: PLC0415  the data take a moment

    if limits is None:
        return load_inspection()
    from stripdown.tables.toml_file import read_toml  # noqa: PLC0415

    return add_own_limits(read_toml(limits).text, file=str(limits))
