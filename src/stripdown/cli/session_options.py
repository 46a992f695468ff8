"""Options that say what a readings file does not, and the session that they make of it."""

from __future__ import annotations

import dataclasses
import functools
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from stripdown.bench.strings import FIRED_BALL_MASS, SETUP_UNCERTAINTY
from stripdown.cli.quantity_option import QuantityOption, conditions_of
from stripdown.errors import InputError
from stripdown.quantities import Q

if TYPE_CHECKING:
    from stripdown.bench.gun import Gun
    from stripdown.bench.strings import ChronographSession
    from stripdown.core.parts.conditions import Conditions
    from stripdown.files.chronograph_session import SetAsideLine
    from stripdown.studies.service_case import StringOfCase

_F = TypeVar("_F", bound=Callable[..., Any])

# As `StringConditions` and `Chronograph` declare them; those cannot be imported here, since their room loads SciPy.
_DISTANCE = Q("m", low=0, high=100, usual=(0, 3), label="distance of the chronograph")
_SPEED_UNCERTAINTY = Q("m/s", low=0, high=100, usual=(0, 1), label="standard uncertainty of the chronograph")
_SHARE_UNCERTAINTY = Q("1", low=0, high=0.5, usual=(0, 0.01), label="standard uncertainty of the chronograph", shown="%")
_ASIDE = re.compile(r"\s*(?:(?P<file>[^:]+):)?(?P<line>[1-9]\d{0,8})\s+(?P<reason>\S.*)", re.DOTALL)
_TWO = 2


class UncertaintyOption(click.ParamType[tuple[float, bool]]):
    """A standard uncertainty as a speed or as a share; the second of the pair says whether it is a share."""

    name = "uncertainty"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, bool]:
        """Read what was typed."""
        is_share = str(value).strip().endswith("%")
        return QuantityOption(_SHARE_UNCERTAINTY if is_share else _SPEED_UNCERTAINTY).convert(value, param, ctx), is_share


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionOptions:
    """What was said of readings on the command line."""

    ball: float | None
    distance: float | None
    hop: str | None
    selector: str | None
    unit: str | None
    uncertainty: tuple[float, bool] | None
    setup_uncertainty: float | None
    set_aside: tuple[str, ...]


_OPTIONS = (
    click.option(
        "--ball", type=QuantityOption(FIRED_BALL_MASS), metavar="MASS", help="Mass of the ball, where the file does not say."
    ),
    click.option(
        "--distance",
        type=QuantityOption(_DISTANCE),
        metavar="DISTANCE",
        help="From the muzzle to the middle of the chronograph, where the file does not say.",
    ),
    click.option("--hop", type=click.Choice(["off", "set"]), help="Whether the hop-up pressed, where the file does not say."),
    click.option("--selector", type=click.Choice(["semi", "automatic"]), help="Selector, where the file does not say."),
    click.option(
        "--unit", type=click.Choice(["m/s", "ft/s", "km/h", "mph"]), help="Unit of readings for which the file names none; m/s."
    ),
    click.option(
        "--uncertainty",
        type=UncertaintyOption(),
        metavar="UNCERTAINTY",
        help='Standard uncertainty of the chronograph, as "0.5 m/s" or "0.4 %": half of a stated plus-or-minus.',
    ),
    click.option(
        "--setup-uncertainty",
        type=QuantityOption(SETUP_UNCERTAINTY),
        metavar="SPEED",
        help="What setting the chronograph up anew changes between before and after, as a standard uncertainty.",
    ),
    click.option(
        "--set-aside",
        multiple=True,
        metavar="'LINE REASON'",
        help="Do not count the reading in this line, as '12 two balls'; of two files, 'after.csv:12 two balls'. May be repeated.",
    ),
)


def session_options(command: _F) -> _F:
    """Give a command the options for readings."""
    names = [field.name for field in dataclasses.fields(SessionOptions)]

    @functools.wraps(command)
    def collected(*args: Any, **settings: Any) -> Any:
        said = SessionOptions(**{name: settings.pop(name) for name in names})
        return command(*args, said=said, **settings)

    for option in reversed(_OPTIONS):
        collected = option(collected)
    return collected  # type: ignore[return-value]


def load_session(
    files: Sequence[Path],
    said: SessionOptions,
    *,
    in_turn: bool = False,
    gun: Gun | None = None,
    day: Conditions | None = None,
) -> ChronographSession:
    """Read files of readings, completed with what was said on the command line."""
    from stripdown.bench.strings import flight_of  # noqa: PLC0415
    from stripdown.core.parts.conditions import Conditions  # noqa: PLC0415  heavy imports belong inside commands
    from stripdown.core.shot_statistics.chronograph import Chronograph  # noqa: PLC0415
    from stripdown.core.shot_statistics.conditions import FireMode, HopState, Occasion, StringConditions  # noqa: PLC0415
    from stripdown.files.chronograph_session import check_set_aside, session_of  # noqa: PLC0415
    from stripdown.files.readings import load_readings  # noqa: PLC0415
    from stripdown.files.visit_folder import occasion_of  # noqa: PLC0415

    conditions = StringConditions(
        ball_mass=said.ball,
        distance=said.distance,
        hop=None if said.hop is None else HopState(said.hop),
        fire_mode=None if said.selector is None else FireMode(said.selector),
    )
    occasions = (Occasion.BEFORE, Occasion.AFTER) if in_turn and len(files) == _TWO else (None,) * len(files)
    readings = tuple(
        load_readings(file, unit=said.unit, said=dataclasses.replace(conditions, occasion=occasion_of(file) or occasion))
        for file, occasion in zip(files, occasions, strict=True)
    )
    asides = tuple(_aside(text, files) for text in said.set_aside)
    check_set_aside(asides, readings)
    value, is_share = said.uncertainty or (0.0, False)
    return session_of(
        readings,
        chronograph=Chronograph(standard_uncertainty=0.0 if is_share else value, relative_uncertainty=value if is_share else 0.0),
        setup_uncertainty=said.setup_uncertainty or 0.0,
        flight=flight_of(gun, day or Conditions()),
        set_aside=asides,
    )


def day_of(
    temperature: float | None, pressure: float | None, humidity: float | None, strings: Sequence[StringOfCase]
) -> Conditions | None:
    """The day as it was given, else as the strings say it."""
    from stripdown.studies.session_answers import day_said  # noqa: PLC0415  heavy imports belong inside commands

    if (temperature, pressure, humidity) == (None, None, None):
        return day_said(strings)
    return conditions_of(temperature, pressure, humidity)


def _aside(text: str, files: Sequence[Path]) -> SetAsideLine:
    from stripdown.files.chronograph_session import SetAsideLine  # noqa: PLC0415
    from stripdown.tables.nearest import nearest_name  # noqa: PLC0415

    found = _ASIDE.fullmatch(text)
    if found is None:
        message = f'--set-aside: "{text}" is not a line with a reason.'
        raise InputError(message, field="--set-aside", value=text, hint="Write for example '12 two balls at once'.")
    named = [str(file) for file in files if found["file"] is None or found["file"].strip() in (str(file), file.name)]
    if not named:
        message = f'--set-aside: "{found["file"]}" is none of the readings.'
        hint = nearest_name(found["file"], [file.name for file in files])
        raise InputError(message, field="--set-aside", value=text, hint=hint)
    return SetAsideLine(file=named[0] if len(named) == 1 else "", line=int(found["line"]), reason=found["reason"].strip())
