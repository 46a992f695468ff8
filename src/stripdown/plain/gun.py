"""A check of a gun's file as plain values: what is wrong, doubtful, assumed, computed and reworded, each with its place."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stripdown.plain.si import assumed_fields, plain

if TYPE_CHECKING:
    from stripdown.errors import InputError
    from stripdown.files.gun import GunCheck


def gun_check_fields(found: GunCheck) -> dict[str, Any]:
    """Turn a check into plain values."""
    return {
        "file": found.path,
        "gun": found.gun.name if found.gun else None,
        "usable": found.gun is not None,
        "wrong": [_fault_fields(fault) for fault in found.wrong],
        "doubtful": [{"line": doubt.line, "field": doubt.path, "message": doubt.message} for doubt in found.doubtful],
        "assumed": [assumed_fields(entry) for entry in found.missing],
        "computed": [{"field": each.path, "text": each.text, "reason": each.reason} for each in found.derived],
        "reworded": [
            {"line": value.line, "field": path, "typed": value.text, "understood": value.understood}
            for path, value in found.reworded.items()
        ],
    }


def _fault_fields(fault: InputError) -> dict[str, Any]:
    value = fault.value if isinstance(fault.value, str | int | float | bool | None) else str(plain(fault.value))
    return {"line": fault.line, "field": fault.field, "value": value, "message": fault.message, "hint": fault.hint}
