"""Records as plain values: SI, the unit in each key, made from the declarations of the quantities."""

from __future__ import annotations

import dataclasses
import enum
import json
from collections.abc import Collection, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from stripdown import __version__
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.quantities import leaves, own_fields, value_at

if TYPE_CHECKING:
    from stripdown.bench.gun import Assumed
    from stripdown.core.interior_ballistics.result import EnergyLedger


def si_key(name: str, unit: str) -> str:
    """Put the unit into a key."""
    if unit in {"", "1"}:
        return name
    spelt = unit.replace("(", "").replace(")", "").replace("/", "_per_").replace(" ", "_")
    return f"{name}_{spelt}"


def si_fields(record: object) -> dict[str, Any]:
    """Turn a record into plain values with the unit in each key."""
    fields: dict[str, Any] = {}
    for leaf in leaves(type(record)):
        unit = leaf.quantity.unit if leaf.quantity is not None else ""
        fields[si_key(leaf.path, unit)] = plain(value_at(record, leaf.path))
    return fields


def plain(value: object) -> Any:
    """Turn one leaf into what JSON knows."""
    if isinstance(value, enum.Enum):
        return value.name.lower()
    return float(value) if isinstance(value, float) else value


def ledger_fields(ledger: EnergyLedger) -> dict[str, Any]:
    """Turn a ledger into three objects whose keys say that all in them is in joules."""
    every = {leaf.path: value_at(ledger, leaf.path) for leaf in leaves(type(ledger))}
    ways = {name: energy for name, energy in every.items() if name.startswith("leaked_")}
    sources = {name: energy for name, energy in every.items() if name not in ledger.ENTRIES and name not in ways}
    entries = {name: every[name] for name in ledger.ENTRIES}
    return {
        "ledger_J": {**entries, "put_in": ledger.put_in, "residual": ledger.residual},
        "put_in_J": sources,
        "blown_out_J": ways,
    }


def assumed_fields(assumed: Assumed) -> dict[str, Any]:
    """Turn one assumption into plain values."""
    return {
        "field": assumed.path,
        "value": plain(assumed.value),
        "unit": _unit_of(assumed.path),
        "text": assumed.text,
        "is_typical": assumed.is_typical,
        "footing": assumed.footing.value,
        "source": assumed.source,
        "reason": assumed.reason,
    }


def written(fields: dict[str, Any]) -> str:
    """Write an answer as JSON text with the version of the program."""
    return json.dumps({**fields, "program_version": __version__}, indent=2, ensure_ascii=False, allow_nan=False)


def _unit_of(path: str) -> str | None:
    found = next((leaf.quantity for leaf in leaves(ShotParameters) if leaf.path == path), None)
    return None if found is None else found.unit


_NO_UNITS: Mapping[str, str] = MappingProxyType({})


def si_record(record: object, *, units: Mapping[str, str] = _NO_UNITS, leave_out: Collection[str] = ()) -> dict[str, Any]:
    """Turn a record into plain values with the unit in each key."""
    fields: dict[str, Any] = {}
    for field in own_fields(type(record)):
        if field.path in leave_out:
            continue
        unit = field.quantity.unit if field.quantity else units.get(field.path)
        value = _plain(getattr(record, field.path), units)
        if unit is None and _holds_number(value):
            message = f"{type(record).__name__}.{field.path} is a number without a unit"
            raise TypeError(message)
        fields[si_key(field.path, unit or "")] = value
    return fields


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
