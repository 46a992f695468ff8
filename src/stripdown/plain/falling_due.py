"""A proof that is owed later, as plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stripdown.procedures.falling_due import FallingDue


def falling_due_fields(one: FallingDue) -> dict[str, Any]:
    """Turn a proof that is owed later into plain values."""
    return {
        "check": one.check,
        "least": one.follow_up.least,
        "most": one.follow_up.most,
        "unit": one.follow_up.unit,
        "event": one.event,
        "when": None if one.when is None else one.when.isoformat(),
        "step": one.step,
    }
