"""Records of any shape as plain values for JSON: SI numbers, the unit in each key, none without."""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Mapping
from types import MappingProxyType
from typing import Annotated, Any, get_args, get_origin, get_type_hints

from stripdown.cli.si_json import plain, si_key
from stripdown.quantities import Q

_NO_UNITS: Mapping[str, str] = MappingProxyType({})


def si_record(record: object, *, units: Mapping[str, str] = _NO_UNITS, leave_out: Collection[str] = ()) -> dict[str, Any]:
    """Turn a record into plain values with the unit in each key."""
    hints = get_type_hints(type(record), include_extras=True)
    fields: dict[str, Any] = {}
    for field in dataclasses.fields(record):  # type: ignore[arg-type]
        if field.name in leave_out:
            continue
        unit = _declared(hints[field.name]) or units.get(field.name)
        value = _plain(getattr(record, field.name), units)
        if unit is None and _holds_number(value):
            message = f"{type(record).__name__}.{field.name} is a number without a unit"
            raise TypeError(message)
        fields[si_key(field.name, unit or "")] = value
    return fields


def _declared(hint: Any) -> str | None:
    if get_origin(hint) is not Annotated:
        return None
    return next((extra.unit for extra in get_args(hint) if isinstance(extra, Q)), None)


def _plain(value: Any, units: Mapping[str, str]) -> Any:
    if dataclasses.is_dataclass(value):
        return si_record(value, units=units)
    if hasattr(value, "_asdict"):  # an interval
        return {name: plain(end) for name, end in value._asdict().items()}
    if isinstance(value, tuple | list):
        return [_plain(entry, units) for entry in value]
    return plain(value)


def _holds_number(value: Any) -> bool:
    """Whether a plain value has a float in it that no key inside gives a unit."""
    if isinstance(value, float):
        return True
    if isinstance(value, list):
        return any(_holds_number(entry) for entry in value if not isinstance(entry, dict))
    return isinstance(value, dict) and set(value) == {"low", "high"}
