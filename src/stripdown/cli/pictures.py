"""Pictures beside an answer: drawn first, then written whole, so that a failure leaves nothing half done."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from stripdown.cli.terminal import remarks, working
from stripdown.cli.whole_file import write_whole

if TYPE_CHECKING:
    from stripdown.charts.render import AnyChart

_F = TypeVar("_F", bound=Callable[..., Any])


def picture_options(command: _F) -> _F:
    """Give a command the options for pictures."""
    for option in (
        click.option(
            "--format",
            "picture_format",
            type=click.Choice(["svg", "png", "html"]),
            default="svg",
            show_default=True,
            help="Sort of picture; html answers to the pointer and needs no network.",
        ),
        click.option(
            "--pictures",
            type=click.Path(path_type=Path),
            metavar="FOLDER",
            help="Also write pictures into this folder; it is made if it is not there.",
        ),
    ):
        command = option(command)
    return command


def write_pictures(folder: Path, charts: Mapping[str, AnyChart], *, picture_format: str) -> None:
    """Write charts into a folder and say where."""
    with working("Drawing"):
        drawn = {folder / f"{name}.{picture_format}": _drawn(name, chart, picture_format) for name, chart in charts.items()}
    for path, content in drawn.items():
        write_whole(path, content, replace=True)
        remarks().print(f"Written: {path}", soft_wrap=True)


def _drawn(name: str, chart: AnyChart, picture_format: str) -> bytes:
    from stripdown.charts.render import to_html, to_png, to_svg  # noqa: PLC0415  the chart library takes half a second

    if picture_format == "png":
        return to_png(chart)
    return (to_html(chart, title=name) if picture_format == "html" else to_svg(chart)).encode()
