"""`stripdown gun`: start a gun's file, and check one."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stripdown.cli.examples import ExampleGroup
from stripdown.cli.quantity_option import json_option
from stripdown.cli.whole_file import write_whole
from stripdown.plain.si import assumed_fields, plain, written

if TYPE_CHECKING:
    from stripdown.errors import InputError
    from stripdown.files.gun import GunCheck

_WRONG = 2  # as for any other complaint about what a person wrote


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
@json_option
def new(file: Path, *, name: str, layout: str | None, as_json: bool) -> None:
    """Write a commented file to start from; a file that is there already is left alone."""
    from stripdown.files.gun_template import gun_template  # noqa: PLC0415  heavy imports belong inside commands

    write_whole(file, gun_template(name=name, layout=layout).encode(), replace=False)
    if as_json:
        click.echo(written({"file": str(file), "gun": name}))
    else:
        click.echo(f"Written: {file}\nPut in what you measured, then: stripdown gun check {file}")


@gun.command(
    short_help="Say what is wrong, doubtful or missing.",
    examples=["stripdown gun check my_gun.toml"],
)
@click.argument("file", metavar="FILE", type=click.Path(path_type=Path))
@json_option
@click.pass_context
def check(context: click.Context, file: Path, *, as_json: bool) -> None:
    """Say what is wrong, doubtful, missing or computed in a gun's file.

    Ends with exit code 2 if the gun cannot be used as it stands.
    """
    from stripdown.files.gun import check_gun  # noqa: PLC0415  heavy imports belong inside commands
    from stripdown.files.gun_check_text import check_text  # noqa: PLC0415

    found = check_gun(file)
    click.echo(written(_check_fields(found)) if as_json else check_text(found), nl=as_json)
    if found.gun is None:
        context.exit(_WRONG)


def _check_fields(found: GunCheck) -> dict[str, Any]:
    return {
        "file": found.path,
        "gun": found.gun.name if found.gun else None,
        "usable": found.gun is not None,
        "wrong": [_complaint_fields(complaint) for complaint in found.wrong],
        "doubtful": [{"line": doubt.line, "field": doubt.path, "message": doubt.message} for doubt in found.doubtful],
        "assumed": [assumed_fields(entry) for entry in found.missing],
        "computed": [{"field": each.path, "text": each.text, "reason": each.reason} for each in found.derived],
        "reworded": [
            {"line": value.line, "field": path, "typed": value.text, "understood": value.understood}
            for path, value in found.reworded.items()
        ],
    }


def _complaint_fields(complaint: InputError) -> dict[str, Any]:
    value = complaint.value if isinstance(complaint.value, str | int | float | bool | None) else str(plain(complaint.value))
    return {
        "line": complaint.line,
        "field": complaint.field,
        "value": value,
        "message": complaint.message,
        "hint": complaint.hint,
    }
