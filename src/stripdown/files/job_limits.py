"""A technician's own limits: what passes, by whose word, and since which version."""

from __future__ import annotations

from typing import Any

from stripdown.errors import InputError
from stripdown.files.job_tables import JobTables
from stripdown.procedures.description import Procedures
from stripdown.procedures.loading import amended
from stripdown.units import from_si, parse, unit_named

_FIELDS = ("low", "high", "name", "version", "reason")


def limits_of(tables: JobTables, procedures: Procedures) -> tuple[Procedures, tuple[str, ...]]:
    """Procedures with the limits that a job file sets instead of the packaged ones."""
    notes = []
    for check, fields in tables.limits().items():
        where = ("limits", check)
        entry = procedures.checks.get(check)
        if entry is None or "reading" not in entry.table.fields:
            numbered = ", ".join(key for key, one in procedures.checks.items() if "reading" in one.table.fields)
            raise tables.wrong(where, f"limits.{check}", "is no check that a number decides.", f"Those are {numbered}.")
        if not isinstance(fields, dict) or not set(fields) <= set(_FIELDS) or not {"low", "high"} & set(fields):
            raise tables.wrong(where, f"limits.{check}", "must have low or high, and may have name, version and reason.")
        reading = entry.table.fields["reading"]
        limits = {side: _number(tables, check, side, fields[side], reading["unit"]) for side in ("low", "high") if side in fields}
        if limits.get("low", float("-inf")) > limits.get("high", float("inf")):
            raise tables.wrong(where, f"limits.{check}.low", "lies above high.", "Turn them round.")
        procedures = amended(
            procedures, check, {"reading": limits, "footing": "common_practice", "source": "", "where": _whose(fields)}
        )
        notes.append(f"Own limit for the {entry.table.fields['name']}: {_shown(limits, reading['unit'])} ({_whose(fields)}).")
    return procedures, tuple(notes)


def _number(tables: JobTables, check: str, side: str, value: Any, unit: str) -> float:
    where = ("limits", check, side)
    if not isinstance(value, str):
        raise tables.wrong(where, f"limits.{check}.{side}", "must be a text with its unit.", f'Write {side} = "0.05 {unit}".')
    try:
        return from_si(parse(value, unit_named(unit).si, bare_unit=None), unit)
    except InputError as reason:
        raise tables.wrong(where, f"limits.{check}.{side}", f"cannot be read: {reason}") from None


def _whose(fields: dict[str, Any]) -> str:
    told = [str(fields[name]) for name in ("name", "version", "reason") if name in fields]
    return "; ".join(told) if told else "set in the job file"


def _shown(limits: dict[str, float], unit: str) -> str:
    return " to ".join(f"{limits[side]:g}" for side in ("low", "high") if side in limits) + f" {unit}"
