"""Options of a command that asks a record: made from its declaration, and named where a study finds a mistake in a field."""

from __future__ import annotations

import enum
import functools
import re
from collections.abc import Callable, Collection, Iterator, Mapping
from contextlib import contextmanager
from types import MappingProxyType
from typing import Annotated, Any, Final, TypeVar, get_args, get_origin, get_type_hints

import click

from stripdown.cli.quantity_option import QuantityOption
from stripdown.core.shim_selection.stacks import THICKNESS
from stripdown.errors import InputError, OutOfRange
from stripdown.quantities import Leaf, Q, check_value, own_fields
from stripdown.units import display_unit, from_si, parse, show_number, show_range

_F = TypeVar("_F", bound=Callable[..., Any])
_METAVARS: Final = {"m": "LENGTH", "rad": "ANGLE", "N": "FORCE", "Pa": "PRESSURE", "s": "TIME", "m3": "VOLUME", "1": "NUMBER"}
_BETWEEN_READINGS: Final = re.compile(r"[;\s]+|,\s+")  # a comma inside a number is a decimal sign
_BETWEEN_SHIMS: Final = re.compile(r"(?<=[A-Za-z])\s*[,;]\s*")
_SHIM: Final = re.compile(r"\s*(?:(?P<count>\d+)\s*[x×]\s*)?(?P<thickness>\S.*?)\s*", re.IGNORECASE)
_SHIMS: Final = 'Write for example "4 x 0.10 mm, 2 x 0.15 mm, 0.31 mm".'


def record_options(
    record: type,
    *,
    names: Mapping[str, str],
    in_errors: Mapping[str, str] = MappingProxyType({}),
    to: str = "asked",
    leave_out: Collection[str] = (),
) -> Callable[[_F], _F]:
    """Give a command an option for each field of a record, and hand it that; a mistake in a field names its option."""
    leaves = [leaf for leaf in own_fields(record) if leaf.path not in leave_out]
    hints = get_type_hints(record, include_extras=True)
    told = {**{field: name for field, name in names.items() if not name.startswith("[")}, **in_errors}

    def give(command: _F) -> _F:
        @functools.wraps(command)
        def asked(*args: Any, **settings: Any) -> Any:
            given = {leaf.path: settings.pop(leaf.path) for leaf in leaves}
            with options_named(**told):
                settings[to] = record(**{name: value for name, value in given.items() if value is not None})
                return command(*args, **settings)

        for leaf in reversed(leaves):
            asked = _option(leaf, names[leaf.path], hints[leaf.path], _default(record, leaf.path))(asked)
        return asked  # type: ignore[return-value]

    return give


@contextmanager
def options_named(**options: str) -> Iterator[None]:
    """Name options where a study names its parameters; it also decorates a command."""
    try:
        yield
    except InputError as reason:
        names = re.compile(rf"(?<![\w-])({'|'.join(map(re.escape, options))})(?= = | is missing|: | \()")
        reason.message = names.sub(lambda found: options[found[0]], reason.message)
        if reason.field in options:
            reason.field = options[reason.field]
            if reason.field not in reason.message:
                reason.message = f"{reason.field}: {reason.message}"
        raise


def _option(leaf: Leaf, name: str, hint: Any, default: Any) -> Callable[[Any], Any]:
    bare, quantity = _bare(leaf.type), leaf.quantity
    required = default is _REQUIRED
    if not name.startswith("-"):
        return click.argument(leaf.path, metavar=name, required=required)
    settings: dict[str, Any] = {"help": _words(hint, quantity), "required": required}
    if quantity is not None:
        settings |= _of_quantity(bare, quantity, None if required else default)
    elif bare is bool:
        settings |= {"is_flag": True, "default": default}
    else:
        settings["type"] = _ChoiceOf(bare) if isinstance(bare, type) and issubclass(bare, enum.Enum) else str
        if default is not None and not required:
            settings |= {"default": _spelt(default), "show_default": True}
    return click.option(name, leaf.path, **settings)


def _of_quantity(bare: Any, quantity: Q, default: Any) -> dict[str, Any]:
    """Type, default and placeholder of an option that takes one number or several."""
    metavar = _METAVARS.get(quantity.unit, "QUANTITY")
    if bare is int:
        low = None if quantity.low is None else int(quantity.low)
        return {"type": click.INT if low is None else click.IntRange(min=low), **_shown(default)}
    if get_origin(bare) is tuple and get_args(bare)[-1] is not Ellipsis:
        ends = None if default is None else tuple(_typed(end, quantity) for end in default)
        return {"type": QuantityOption(quantity), "nargs": len(get_args(bare)), "metavar": "LEAST MOST", **_shown(ends)}
    if get_origin(bare) is tuple:
        return {"type": ReadingsOption(quantity)}
    if bare is not float:
        return {"type": ShimsOption(), "metavar": "SHIMS"}
    return {
        "type": QuantityOption(quantity),
        "metavar": metavar,
        **_shown(None if default is None else _typed(default, quantity)),
    }


def _shown(default: Any) -> dict[str, Any]:
    return {} if default is None else {"default": default, "show_default": True}


def _typed(value: float, quantity: Q) -> str:
    """Write a value as somebody would type it."""
    unit = display_unit(quantity)
    return f"{show_number(from_si(value, unit.name))} {unit.name}".strip()


def _words(hint: Any, quantity: Q | None) -> str:
    if quantity is not None:
        return quantity.explain
    return next((one for one in get_args(hint)[1:] if isinstance(one, str)), "") if get_origin(hint) is Annotated else ""


def _bare(hint: Any) -> Any:
    """Type of a field that may be None without the None."""
    inner = [one for one in get_args(hint) if one is not type(None)]
    return inner[0] if type(None) in get_args(hint) else hint


_REQUIRED: Final = object()


def _default(record: type, name: str) -> Any:
    field = record.__dataclass_fields__[name]  # type: ignore[attr-defined]
    return field.default if field.default is not field.default_factory else _REQUIRED


def _spelt(value: Any) -> str:
    return value.value.lower().replace(" ", "-") if isinstance(value, enum.Enum) else str(value)


class _ChoiceOf(click.Choice[str]):
    """A choice among the members of an enumeration, by what they are called."""

    def __init__(self, kind: type[enum.Enum]) -> None:
        self._members = {_spelt(member): member for member in kind}
        super().__init__(list(self._members))

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """Find the member that was named."""
        return value if isinstance(value, enum.Enum) else self._members[super().convert(value, param, ctx)]


class ReadingsOption(click.ParamType[tuple[float, ...]]):
    """Several readings, parted by spaces."""

    name = "readings"

    def __init__(self, quantity: Q) -> None:
        self._quantity = quantity

    def convert(
        self,
        value: object,
        param: click.Parameter | None,
        ctx: click.Context | None,  # noqa: ARG002  click's
    ) -> tuple[float, ...]:
        """Read what was typed."""
        field = param.opts[0] if param is not None else self.name
        parts = [part for part in _BETWEEN_READINGS.split(str(value).strip().rstrip(",;")) if part]
        return tuple(parse(part, self._quantity, field=field) for part in parts)


class ShimsOption(click.ParamType[Mapping[float, int]]):
    """Shims at hand, as "4 x 0.10 mm, 0.31 mm"."""

    name = "shims"

    def convert(
        self,
        value: object,
        param: click.Parameter | None,
        ctx: click.Context | None,  # noqa: ARG002  click's
    ) -> Mapping[float, int]:
        """Read what was typed."""
        field, typed = param.opts[0] if param is not None else self.name, str(value).strip()
        stock: dict[float, int] = {}
        for part in _BETWEEN_SHIMS.split(typed.rstrip(",;")) if typed else ():
            found = _SHIM.fullmatch(part)
            if found is None:
                raise InputError(f'{field}: "{typed}" has nothing between two commas.', field=field, value=typed, hint=_SHIMS)
            thickness = parse(found["thickness"], THICKNESS, field=field)
            try:
                check_value(field, thickness, THICKNESS)
            except OutOfRange as reason:
                reason.message = f'{field}: "{part.strip()}" is no thickness of a shim.'
                reason.hint = f"Possible is {show_range(1e-6, 10e-3, THICKNESS)}."
                raise
            stock[thickness] = stock.get(thickness, 0) + int(found["count"] or 1)
        return stock
