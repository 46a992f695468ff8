"""Options that take a number with its unit, and the day on which a shot is fired."""

from __future__ import annotations

import functools
import re
from collections.abc import Callable
from typing import Any, Final, TypeVar

import click

from stripdown.core.parts.ball import Ball
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import InputError, OutOfRange
from stripdown.quantities import Q, is_usual, leaves
from stripdown.units import parse, show, show_range, typed_unit

_F = TypeVar("_F", bound=Callable[..., Any])

# A comma between digits is a decimal sign; one after a unit parts two values.
_BETWEEN_VALUES = re.compile(r"(?<=[A-Za-z%])\s*[,;]\s*")


class QuantityOption(click.ParamType[float]):
    """One number with its unit, read into SI and held against its limits."""

    name = "quantity"

    def __init__(self, quantity: Q) -> None:
        self.quantity = quantity

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> float:  # noqa: ARG002  click's
        """Read what was typed."""
        return _read(str(value), self.quantity, _field(param, self.quantity))


class QuantitiesOption(click.ParamType[tuple[float, ...]]):
    """Several numbers with their units, parted by commas."""

    name = "quantities"

    def __init__(self, quantity: Q) -> None:
        self.quantity = quantity

    def convert(
        self,
        value: object,
        param: click.Parameter | None,
        ctx: click.Context | None,  # noqa: ARG002  click's
    ) -> tuple[float, ...]:
        """Read what was typed."""
        field = _field(param, self.quantity)
        parts = _BETWEEN_VALUES.split(str(value).strip().rstrip(",;"))
        if any(part.strip()[:1] in ("", ",", ";") for part in parts):
            raise InputError(
                f'{field}: "{value}" has nothing between two commas.',
                field=field,
                value=value,
                hint='Write for example "0.20 g, 0.25 g, 0.30 g".',
            )
        return tuple(_read(part, self.quantity, field) for part in parts)


def _field(param: click.Parameter | None, quantity: Q) -> str:
    return param.opts[0] if param is not None else quantity.label


def _read(typed: str, quantity: Q, field: str) -> float:
    value = parse(typed, quantity, field=field)
    low, high = quantity.low, quantity.high
    unit = typed_unit(typed, quantity)
    possible = f"Possible is {show_range(low, high, unit)}." if low is not None and high is not None else ""
    if (low is not None and value < low) or (high is not None and value > high):
        raise OutOfRange(
            f"{field}: {show(value, unit)} is impossible for the {quantity.label}.",
            field=field,
            value=value,
            unit=quantity.unit,
            limits=(low, high),
            hint=" ".join(filter(None, (possible, quantity.explain))) or None,
        )
    if quantity.usual is not None and not is_usual(value, quantity):
        usual = show_range(*quantity.usual, unit)
        click.echo(f"{field}: {show(value, unit)} is possible and unusual (usual is {usual}); look again.", err=True)
    return value


def _declared(record: type, name: str) -> Q:
    return next(leaf.quantity for leaf in leaves(record) if leaf.path == name and leaf.quantity is not None)


BALL_MASS = _declared(Ball, "mass")

_DAY: Final = {
    "temperature": ("temperature", 'Temperature of air and gun, as "12 degC"; 20 degC if left out.'),
    "pressure": ("pressure", 'Air pressure at the place, as "1013 hPa".'),
    "humidity": ("relative_humidity", 'Relative humidity, as "60 %".'),
}


def ball_option(command: _F) -> _F:
    """Give a command the choice of ball."""
    return click.option(
        "--ball", type=QuantityOption(BALL_MASS), metavar="MASS", help='Mass of the ball, as "0.25 g"; the file\'s if left out.'
    )(command)


def day_options(command: _F) -> _F:
    """Give a command that takes `day` the options for it: nothing said is no day, the rest of one a workshop at 20 °C."""

    @functools.wraps(command)
    def collected(*args: Any, **settings: Any) -> Any:
        said = {name: settings.pop(option) for option, (name, _) in _DAY.items()}
        given = {name: value for name, value in said.items() if value is not None}
        return command(*args, day=Conditions(**given) if given else None, **settings)

    for option, (name, words) in reversed(_DAY.items()):
        sort = QuantityOption(_declared(Conditions, name))
        collected = click.option(f"--{option}", type=sort, metavar=option.upper(), help=words)(collected)
    return collected  # type: ignore[return-value]
