"""What is known of a gun as a store of energy, as plain values."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stripdown.procedures.energy import Energy


def energy_fields(energy: Energy) -> dict[str, Any]:
    """Turn the three facts into plain values, with what the gun came with."""
    return {
        "has_run": energy.has_run,
        "spring": energy.spring.value,
        "spring_unknown": energy.is_spring_unknown,
        "not_yet_run": energy.is_not_yet_run,
        "needs_rod": energy.needs_rod,
        "troubles": [trouble.key for trouble in energy.troubles],
    }
