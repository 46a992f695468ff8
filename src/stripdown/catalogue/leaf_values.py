"""From what a file says to one leaf of a record, and from many leaves to the record."""

from __future__ import annotations

import dataclasses
import difflib
import enum
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from stripdown.errors import InputError, UnitError
from stripdown.quantities import Q, is_choice, own_fields
from stripdown.units import show, show_number, understand

_T = TypeVar("_T")

LeafValue = float | int | bool | enum.Enum
"""Value of a leaf: SI number, count, switch, or choice among laws."""


@dataclass(frozen=True, slots=True)
class Typed:
    """One value as it was typed and understood."""

    value: LeafValue
    text: str
    reworded: bool = False


def read_leaf(raw: object, bare: type, quantity: Q | None, *, field: str) -> Typed:
    """Understand what a TOML file says for one leaf."""
    if bare is bool:
        return _switch(raw, field)
    if is_choice(bare):
        return _choice(raw, bare, field)
    assert quantity is not None  # noqa: S101  narrows: every number declares a quantity
    if bare is int:
        return _count(raw, field)
    return _number(raw, quantity, field)


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
    if isinstance(raw, str) and raw in names:
        return Typed(names[raw], raw)
    near = difflib.get_close_matches(str(raw), names, n=1)
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


def _example(quantity: Q) -> str:
    low, high = quantity.usual or (quantity.low or 0.0, quantity.high or 1.0)
    return show((low + high) / 2, quantity, digits=2)


def _shown(raw: object) -> str:
    if isinstance(raw, str):
        return f'"{raw}"'
    return str(raw).lower() if isinstance(raw, bool) else str(raw)
