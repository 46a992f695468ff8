"""`stripdown gun`: start a gun's file, and check one."""

from __future__ import annotations

from pathlib import Path

import click

from stripdown.cli.ending import Shown, end, shown_options
from stripdown.cli.examples import ExampleGroup
from stripdown.files.gun import check_gun
from stripdown.files.gun_template import gun_template
from stripdown.plain.gun import gun_check_fields
from stripdown.plain.si import written
from stripdown.tables.whole_file import write_whole
from stripdown.words.gun import gun_check_answer

_WRONG = 2  # as for any other mistake in what a person wrote


@click.group(
    cls=ExampleGroup,
    examples=["stripdown gun new my_gun.toml", "stripdown gun check my_gun.toml"],
)
def gun() -> None:
    """Files that describe a gun."""


@gun.command(
    short_help="Write a commented file to start from.",
    examples=['stripdown gun new my_gun.toml --name "Rack 7"'],
)
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path))
@click.option("--name", default="My gun", show_default=True, help="What the gun is called.")
@click.option(
    "--layout", metavar="LAYOUT", help="Typical gun to start from, such as full_stroke_rifle; a wrong name lists them all."
)
@shown_options()
def new(file: Path, *, name: str, layout: str | None, shown: Shown) -> None:
    """Write a commented file to start from; a file that is there already is left alone."""
    write_whole(file, gun_template(name=name, layout=layout).encode(), replace=False)
    if shown.as_json:
        click.echo(written({"file": str(file), "gun": name}))
    else:
        click.echo(f"Written: {file}\nPut in what you measured, then: stripdown gun check {file}")


@gun.command(
    short_help="Say what is wrong, doubtful or missing.",
    examples=["stripdown gun check my_gun.toml"],
)
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path))
@shown_options()
@click.pass_context
def check(context: click.Context, file: Path, *, shown: Shown) -> None:
    """Say what is wrong, doubtful, missing or computed in a gun's file.

    Ends with exit code 2 if the gun cannot be used as it stands.
    """
    found = check_gun(file)
    end(shown, answer=lambda: gun_check_answer(found), plain=lambda: gun_check_fields(found))
    if found.gun is None:
        context.exit(_WRONG)
