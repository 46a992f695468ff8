"""`stripdown visit`: start the folder of a visit."""

from __future__ import annotations

from pathlib import Path

import click

from stripdown.cli.ending import Shown, shown_options
from stripdown.cli.examples import ExampleGroup
from stripdown.errors import InputError
from stripdown.files.visit_template import visit_template
from stripdown.plain.si import written
from stripdown.tables.whole_file import write_whole


@click.group(
    cls=ExampleGroup,
    examples=['stripdown visit new my_visit --name "Rack 7" --variation "version 2" --job "full service"'],
)
def visit() -> None:
    """Folders of visits: one gun on the bench, from the complaint to release."""


@visit.command(
    short_help="Write a commented folder to start from.",
    examples=[
        'stripdown visit new my_visit --job "full service"',
        'stripdown visit new my_visit --name "Rack 7" --variation "version 3, quick-change, electronic"',
    ],
)
@click.argument("where", metavar="WHERE", type=click.Path(path_type=Path))
@click.option("--name", default="My gun", show_default=True, help="What the gun is called.")
@click.option("--layout", metavar="LAYOUT", help="Typical gun whose figures are written in, marked as typical.")
@click.option("--variation", default="", metavar="TEXT", help='What sort of gun it is: "version 3, quick-change guide".')
@click.option("--job", default="", metavar="JOB", help="A job that has a name (stripdown plan --jobs).")
@shown_options()
def new(where: Path, *, name: str, layout: str | None, variation: str, job: str, shown: Shown) -> None:
    """Write a folder to start a visit from: gun.toml, visit.toml, and a file of readings before the work and one after.

    Every field is there with what it is; nothing that lies there already is touched.
    """
    files = visit_template(name=name, layout=layout, variation=variation, job=job)
    there = [file for file in files if (where / file).exists()]
    if there:
        hint = "Name another folder; nothing was written."
        raise InputError(f"there is a {there[0]} already.", file=str(where), value=there[0], hint=hint)
    for file, text in files.items():
        write_whole(where / file, text.encode(), replace=False)
    if shown.as_json:
        click.echo(written({"folder": str(where), "files": list(files)}))
    else:
        click.echo(
            f"Written: {', '.join(str(where / file) for file in files)}\n"
            f"Say what sort of gun it is in {where / 'gun.toml'} and what is asked for in {where / 'visit.toml'}, "
            f"then: stripdown plan {where}"
        )
