"""One declaration per quantity: name, unit, limits, what is usual, and the words a technician reads.

Forms, command help, the gun file, charts, reports and the tests' random guns all read these declarations.
Standard library only, so that part declarations load without arrays or compilers.
"""

from __future__ import annotations

import copyreg
import dataclasses
import enum
import functools
import math
import numbers
from collections.abc import Iterator
from dataclasses import KW_ONLY, dataclass
from types import MappingProxyType
from typing import Annotated, Any, TypeVar, dataclass_transform, get_args, get_origin, get_type_hints

from stripdown.errors import OutOfRange

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Q:
    """Declaration of one quantity.

    Parameters
    ----------
    unit
        SI unit of the stored value, ``"1"`` for a pure number.
    low, high
        Limits outside which the value is impossible, in ``unit``; None for no limit.
    usual
        Range outside which the value is doubtful, in ``unit``; random test guns are drawn from it.
    label
        The workshop's words for it.
    shown
        Unit in which a workshop writes it (``"mm"``); the SI unit when empty.
    explain
        One plain sentence: what it is and where to measure it.
    """

    unit: str
    _: KW_ONLY
    low: float | None = None
    high: float | None = None
    usual: tuple[float, float] | None = None
    label: str = ""
    shown: str = ""
    explain: str = ""

    @property
    def workshop_unit(self) -> str:
        """Unit in which people read and write this quantity."""
        return self.shown or self.unit

    def explained(self, words: str) -> Q:
        """Declare the same quantity with other words of explanation, for one record's field.

        Parameters
        ----------
        words
            One plain sentence.

        Returns
        -------
        Q
        """
        return dataclasses.replace(self, explain=words)


@dataclass(frozen=True, slots=True)
class Leaf:
    """One number, switch or choice of a record, with its dotted path and its declaration."""

    path: str
    type: type
    quantity: Q | None

    @property
    def may_be_none(self) -> bool:
        """Whether it may be left open."""
        return type(None) in get_args(self.type)


@dataclass_transform(frozen_default=True, kw_only_default=True)
def parameters(cls: type[_T]) -> type[_T]:
    """Turn a class of annotated fields into a frozen, slotted, keyword-only record.

    Parameters
    ----------
    cls
        Class whose fields are float (with a `Q`), int (with a `Q`), bool, Enum, or another such record; what a calculator
        is asked may also hold text, and any of these may be None or several.

    Returns
    -------
    type
        The dataclass.

    Raises
    ------
    TypeError
        If a float or int field declares no `Q`: a mistake of the programmer, found at import.
    """
    record = dataclass(frozen=True, slots=True, kw_only=True)(cls)
    for field in own_fields(record):
        if _holds_a_number(field.type) and field.quantity is None:
            message = f"{cls.__name__}.{field.path} is a number without a declared quantity"
            raise TypeError(message)
    return record


def own_fields(record_type: type) -> tuple[Leaf, ...]:
    """Read the fields of a record type, inner records whole.

    Parameters
    ----------
    record_type
        A dataclass.

    Returns
    -------
    tuple of Leaf
        In declaration order: name, bare type, and declaration (None for anything but a number).
    """
    return _own_fields(record_type)


@functools.cache  # to resolve the annotations of a gun's records takes longer than to integrate its shot
def _own_fields(record_type: type) -> tuple[Leaf, ...]:
    hints = get_type_hints(record_type, include_extras=True)
    return tuple(Leaf(name, *_split(hint)) for name, hint in hints.items())


def leaves(record_type: type, prefix: str = "") -> Iterator[Leaf]:
    """Walk every leaf of a record type in declaration order.

    Parameters
    ----------
    record_type
        A class made by `parameters`.
    prefix
        Dotted path to put in front of each name.

    Yields
    ------
    Leaf
        Path such as ``"spring.rate"``, bare type, and declaration (None for bool and Enum).
    """
    yield from _all_leaves(record_type, prefix)


@functools.cache  # every simulated shot walks them
def _all_leaves(record_type: type, prefix: str) -> tuple[Leaf, ...]:
    found: list[Leaf] = []
    for field in own_fields(record_type):
        path = f"{prefix}{field.path}"
        if dataclasses.is_dataclass(field.type):
            found.extend(_all_leaves(field.type, f"{path}."))
        else:
            found.append(dataclasses.replace(field, path=path))
    return tuple(found)


def value_at(record: object, path: str) -> Any:
    """Read the leaf at a dotted path of a record.

    Parameters
    ----------
    record
        Instance of a class made by `parameters`.
    path
        Dotted path such as ``"spring.rate"``.

    Returns
    -------
    float, int, bool or Enum
        The value there, SI.
    """
    here: Any = record
    for name in path.split("."):
        here = getattr(here, name)
    return here


def replace_at(record: _T, path: str, value: object) -> _T:
    """Copy a record with one leaf changed.

    Parameters
    ----------
    record
        Instance of a class made by `parameters`.
    path
        Dotted path such as ``"spring.rate"``.
    value
        New value, SI.

    Returns
    -------
    record
        A new record of the same type.
    """
    head, _, rest = path.partition(".")
    inner = replace_at(getattr(record, head), rest, value) if rest else value
    return dataclasses.replace(record, **{head: inner})  # type: ignore[type-var]


def check(record: object) -> None:
    """Hold a record against its declared limits and its own cross-field rules.

    Parameters
    ----------
    record
        Instance of a class made by `parameters`. If it has a method ``cross_check()``, that is called
        too, on inner records first.

    Raises
    ------
    OutOfRange
        With field, value, unit and limits.
    """
    for leaf in leaves(type(record)):
        value = value_at(record, leaf.path)
        if leaf.quantity is not None and not (value is None and leaf.may_be_none):
            check_value(leaf.path, value, leaf.quantity)
    check_rules(record)


def check_value(path: str, value: float, quantity: Q) -> None:
    """Hold one number against its declared limits.

    Parameters
    ----------
    path
        Dotted path, for the message.
    value
        The number, SI.
    quantity
        Its declaration.

    Raises
    ------
    OutOfRange
        If the value is not finite or outside ``low`` to ``high``.
    """
    low, high = quantity.low, quantity.high
    given: object = value  # whatever a script hands over
    if isinstance(given, bool) or not isinstance(given, numbers.Real):
        raise OutOfRange(
            f"{path} ({quantity.label}) = {given!r} is no number.",
            field=path,
            value=given,
            unit=quantity.unit,
            limits=(low, high),
            hint=f"Give a number in {quantity.unit}." if quantity.unit != "1" else "Give a pure number.",
        )
    if math.isfinite(value) and (low is None or value >= low) and (high is None or value <= high):
        return
    raise OutOfRange(
        f"{path} ({quantity.label}) = {value:g} {quantity.unit} is impossible.",
        field=path,
        value=value,
        unit=quantity.unit,
        limits=(low, high),
        hint=f"It must lie between {_bound(low)} and {_bound(high)} {quantity.unit}.",
    )


def is_usual(value: float, quantity: Q) -> bool:
    """Whether a possible value also lies in the usual range (True when none is declared).

    Parameters
    ----------
    value
        The number, SI.
    quantity
        Its declaration.

    Returns
    -------
    bool
        False only for a value outside a declared ``usual``.
    """
    return quantity.usual is None or quantity.usual[0] <= value <= quantity.usual[1]


def _bound(value: float | None) -> str:
    return "any" if value is None else f"{value:g}"


def check_rules(record: object) -> None:
    """Hold a record against its rules between fields, and not against the limits of each.

    Parameters
    ----------
    record
        Instance of a class made by `parameters`. If it has a method ``cross_check()``, that is called, after those of
        its inner records.

    Raises
    ------
    OutOfRange
        With field, value, unit and limits.
    """
    for field in dataclasses.fields(record):  # type: ignore[arg-type]
        inner = getattr(record, field.name)
        if dataclasses.is_dataclass(inner):
            check_rules(inner)
    rule = getattr(record, "cross_check", None)
    if rule is not None:
        rule()


def _holds_a_number(bare: object) -> bool:
    return bare in (float, int) or any(_holds_a_number(inner) for inner in get_args(bare))


def _split(hint: object) -> tuple[type, Q | None]:
    if get_origin(hint) is Annotated:
        bare, *extras = get_args(hint)
        return bare, next((extra for extra in extras if isinstance(extra, Q)), None)
    return hint, None  # type: ignore[return-value]


def is_choice(bare: type) -> bool:
    """Whether a leaf's type is an Enum (a choice among named laws).

    Parameters
    ----------
    bare
        Type of the leaf.

    Returns
    -------
    bool
    """
    return issubclass(bare, enum.Enum)


def _mapping_again(entries: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    return MappingProxyType(entries)


# Read-only mappings stand in most records, and Python can neither pickle nor copy them by itself.
copyreg.pickle(MappingProxyType, lambda mapping: (_mapping_again, (dict(mapping),)))
