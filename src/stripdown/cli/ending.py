"""How a command ends: pictures into a folder if they are wanted, then the answer as JSON or for people."""

from __future__ import annotations

import functools
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, TypeVar

import click

from stripdown.cli.rendered import print_answer
from stripdown.cli.terminal import answers, remarks, working
from stripdown.plain.si import written
from stripdown.tables.whole_file import write_whole

if TYPE_CHECKING:
    from stripdown.charts.render import AnyChart
    from stripdown.units import Scale
    from stripdown.words.answer import Answer

_F = TypeVar("_F", bound=Callable[..., Any])
BY_KEYS: Mapping[str, str] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """How an answer is wanted, as the options say: scale, JSON or words, pictures, and which long notes in full."""

    as_json: bool = False
    scale: Scale = "metric"
    pictures: Path | None = None
    picture_format: str = "svg"
    in_full: Collection[str] = field(default_factory=frozenset)


_SPEED_UNIT = click.option(
    "--speed-unit",
    type=click.Choice(["m/s", "ft/s"]),
    default="m/s",
    show_default=True,
    envvar="STRIPDOWN_SPEED_UNIT",
    show_envvar=True,
    help="Unit of speeds in prints and pictures; --json is always SI.",
)
_ASSUMED = click.option("--assumed", is_flag=True, help="Name each value that the gun's file leaves out.")
_PICTURES = click.option(
    "--pictures",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Also write pictures into this folder; it is made if it is not there.",
)
_FORMAT = click.option(
    "--format",
    "picture_format",
    type=click.Choice(["svg", "png", "html"]),
    default="svg",
    show_default=True,
    help="Sort of picture; html answers to the pointer and needs no network.",
)
_JSON = click.option("--json", "as_json", is_flag=True, help="Print JSON in SI, the unit in each key, and nothing else.")


def shown_options(*, speeds: bool = False, assumed: bool = False, pictures: bool = False) -> Callable[[_F], _F]:
    """Give a command that takes `shown` the options for how its answer is wanted: JSON always, the others if asked for."""
    asked = (
        (_SPEED_UNIT, speeds),
        (_ASSUMED, assumed),
        (_PICTURES, pictures),
        (_FORMAT, pictures),
        (_JSON, True),
    )

    def give(command: _F) -> _F:
        @functools.wraps(command)
        def collected(*args: Any, **settings: Any) -> Any:
            shown = Shown(
                as_json=settings.pop("as_json"),
                scale="imperial" if settings.pop("speed_unit", "m/s") == "ft/s" else "metric",
                pictures=settings.pop("pictures", None),
                picture_format=settings.pop("picture_format", "svg"),
                in_full=frozenset({"assumed"} if settings.pop("assumed", False) else ()),
            )
            return command(*args, shown=shown, **settings)

        for option, is_asked in reversed(asked):
            collected = option(collected) if is_asked else collected
        return collected  # type: ignore[return-value]

    return give


def end(
    shown: Shown,
    *,
    answer: Callable[[], Answer],
    plain: Callable[[], Mapping[str, Any]],
    drawn: object | Mapping[str, object] = None,
    named: Mapping[str, str] = BY_KEYS,
) -> None:
    """Write pictures of what was studied, if wanted: by key, by `named`, or by the stem given with it; print answer or JSON."""
    if shown.pictures is not None:
        from stripdown.charts.pictures import Look, pictures_of  # noqa: PLC0415  the chart library takes half a second

        look = Look(scale=shown.scale)
        charts = {
            f"{prefix}-{key}" if prefix else named.get(key, key): chart
            for prefix, study in (drawn if isinstance(drawn, Mapping) else {"": drawn}).items()
            for key, chart in pictures_of(study, look).items()
        }
        _write_pictures(shown.pictures, charts, picture_format=shown.picture_format)
    if shown.as_json:
        click.echo(written(dict(plain())))
    else:
        print_answer(answers(), answer(), in_full=shown.in_full)


def _write_pictures(folder: Path, charts: Mapping[str, AnyChart], *, picture_format: str) -> None:
    """Write charts into a folder and say where."""
    with working("Drawing"):
        drawn = {folder / f"{name}.{picture_format}": _drawn(name, chart, picture_format) for name, chart in charts.items()}
    for path, content in drawn.items():
        write_and_say(path, content)


def write_and_say(path: Path, content: bytes) -> None:
    """Write a picture or a sheet and say where; one that is there is replaced."""
    write_whole(path, content, replace=True)
    remarks().print(f"Written: {path}", soft_wrap=True)


def _drawn(name: str, chart: AnyChart, picture_format: str) -> bytes:
    from stripdown.charts.render import to_html, to_png, to_svg  # noqa: PLC0415  the chart library takes half a second

    if picture_format == "png":
        return to_png(chart)
    return (to_html(chart, title=name) if picture_format == "html" else to_svg(chart)).encode()
