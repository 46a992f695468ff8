"""From what a TOML file says to one typed value, and from the values of all leaves to a record."""

from __future__ import annotations

import dataclasses
import enum
import math
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from stripdown.errors import InputError, OutOfRange, UnitError
from stripdown.quantities import Q, check_value, is_choice, own_fields
from stripdown.tables.nearest import near_names
from stripdown.units import show, show_number, show_range, typed_unit, understand

_T = TypeVar("_T")

LeafValue = float | int | bool | enum.Enum
"""Value of a leaf: SI number, count, switch, or choice among laws."""
Kind = Q | type
"""How a field is written: a number with its unit, a text, a switch, a count or a choice."""


@dataclass(frozen=True, slots=True)
class Typed:
    """One value as it was typed and understood."""

    value: LeafValue
    text: str
    reworded: bool = False


def read_value(raw: object, kind: Kind, *, field: str) -> Any:
    """Understand what a TOML file says for one field; a number is held against its limits."""
    if isinstance(kind, Q):
        return read_checked(raw, float, kind, field=field)
    return read_words(raw, field=field) if kind is str else read_leaf(raw, kind, None, field=field).value


def read_values(raw: object, kind: Kind, *, field: str) -> tuple[Any, ...]:
    """Understand a list of values; one value stands for a list of one."""
    return tuple(read_value(one, kind, field=field) for one in (raw if isinstance(raw, list) else [raw]))


def read_words(raw: object, *, field: str, is_plain: bool = True) -> str:
    """Understand a text, which must say something, and if plain it must hold nothing that steers a terminal."""
    if not isinstance(raw, str) or not raw.strip():
        raise InputError(f"{field} = {_shown(raw)} is not a text.", field=field, value=raw, hint="Write words in quotes.")
    stray = next((sign for sign in raw if unicodedata.category(sign) == "Cc" and sign not in "\n\t"), None)
    if is_plain and stray is not None:
        message = f"{field} holds a control character (U+{ord(stray):04X})."
        raise InputError(message, field=field, value=raw, hint="Write plain text.")
    return raw


def read_leaf(raw: object, bare: type, quantity: Q | None, *, field: str) -> Typed:
    """Understand what a TOML file says for one leaf, whatever its limits."""
    if bare is bool:
        return _switch(raw, field)
    if is_choice(bare):
        return _choice(raw, bare, field)
    if bare is int:
        return _count(raw, field)
    assert quantity is not None  # noqa: S101  narrows: every number declares a quantity
    return _number(raw, quantity, field)


def read_checked(raw: object, bare: type, quantity: Q | None, *, field: str) -> LeafValue:
    """Understand what a TOML file says for one leaf, and hold a number against its limits."""
    typed = read_leaf(raw, bare, quantity, field=field)
    if quantity is not None:
        check_typed(float(typed.value), raw if isinstance(raw, str) else typed.text, quantity, field=field)  # type: ignore[arg-type]
    return typed.value


def check_typed(value: float, text: str, quantity: Q, *, field: str, because: str = "") -> None:
    """Hold one number against its limits, and say what is possible in the units of the workshop."""
    try:
        check_value(field, value, quantity)
    except OutOfRange as reason:
        raise OutOfRange(
            f'{field} = "{text}" ({quantity.label}) is impossible.{because}',
            field=field,
            value=value,
            unit=quantity.unit,
            limits=reason.limits,
            hint=_possible(quantity, typed_unit(text, quantity)),
        ) from None


def assemble(record_type: type[_T], values: Mapping[str, LeafValue], prefix: str = "") -> _T:
    """Build a record from the values of all its leaves."""
    fields: dict[str, Any] = {}
    for field in own_fields(record_type):
        path = f"{prefix}{field.path}"
        fields[field.path] = assemble(field.type, values, f"{path}.") if dataclasses.is_dataclass(field.type) else values[path]
    return record_type(**fields)


def _switch(raw: object, field: str) -> Typed:
    if isinstance(raw, bool):
        return Typed(raw, "yes" if raw else "no")
    raise InputError(
        f"{field} = {_shown(raw)} is neither yes nor no.", field=field, value=raw, hint="Write true or false, without quotes."
    )


def _choice(raw: object, bare: type, field: str) -> Typed:
    names = {str(name).lower(): member for name, member in bare.__members__.items()}  # type: ignore[attr-defined]
    wanted = raw.strip().lower() if isinstance(raw, str) else ""
    if wanted in names:
        return Typed(names[wanted], wanted)
    near = near_names(str(raw), names, most=1)
    meant = f'Did you mean "{near[0]}"? ' if near else ""
    choices = ", ".join(f'"{name}"' for name in names)
    raise InputError(f"{field} = {_shown(raw)} is not known.", field=field, value=raw, hint=f"{meant}Choose from {choices}.")


def _count(raw: object, field: str) -> Typed:
    if isinstance(raw, str) and raw.strip().isascii() and raw.strip().isdecimal():
        return Typed(int(raw), raw.strip())
    if isinstance(raw, int) and not isinstance(raw, bool):
        return Typed(raw, str(raw))
    raise InputError(
        f"{field} = {_shown(raw)} is not a count.", field=field, value=raw, hint="Write a whole number, for example 2."
    )


def _number(raw: object, quantity: Q, field: str) -> Typed:
    if isinstance(raw, str):
        understood = understand(raw, quantity, field=field)
        return Typed(understood.value, understood.text, understood.reworded)
    if isinstance(raw, int | float) and not isinstance(raw, bool):
        if quantity.unit == "1" and math.isfinite(raw):
            return Typed(float(raw), show_number(float(raw)))
        understand(show_number(raw), quantity, field=field)  # refuses it, and says which units there are
    raise UnitError(
        f"{field} = {_shown(raw)} is not a number with a unit.",
        field=field,
        value=raw,
        unit=quantity.unit,
        hint=f'Write it as text, for example {field.rpartition(".")[2]} = "{_example(quantity)}".',
    )


def _possible(quantity: Q, unit: Q | str) -> str:
    """What is possible and usual, in the unit in which it was typed."""
    low, high = quantity.low, quantity.high
    if low is not None and high is not None:
        possible = f"between {show_range(low, high, unit).replace(' to ', ' and ')}"
    else:
        possible = f"at least {show(low, unit)}" if low is not None else f"at most {show(high or 0.0, unit)}"
    usual = f"; usual is {show_range(*quantity.usual, unit)}" if quantity.usual else ""
    return f"It must lie {possible}{usual}."


def _example(quantity: Q) -> str:
    low, high = quantity.usual or (quantity.low or 0.0, quantity.high or 1.0)
    return show((low + high) / 2, quantity, digits=2)


def _shown(raw: object) -> str:
    if isinstance(raw, str):
        return f'"{raw}"'
    return str(raw).lower() if isinstance(raw, bool) else str(raw)
