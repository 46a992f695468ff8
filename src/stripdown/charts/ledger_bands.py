"""The fourteen ledger entries as the bands that a picture or a table shows, in the order in which they are drawn."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from stripdown.core.interior_ballistics.result import EnergyLedger
from stripdown.quantities import leaves

_LABELS = {leaf.path: leaf.quantity.label for leaf in leaves(EnergyLedger) if leaf.quantity is not None}

# Heat, outflow and what is left over lean on each other (the rest can be negative when its heat is already in the wall),
# so that only their sum can be read as a share.
_AIR = ("cylinder_heat", "barrel_heat", "blown_out", "left_in_air")
_AIR_LABEL = "air: heat, blown out, left over"


class Group(enum.Enum):
    """What a band has to do with: one colour each."""

    BALL = "ball"
    PISTON = "piston"
    RUBBER = "bore and hop-up"
    COLUMN = "air pushed along"
    AIR = "air"
    LEAK = "leak"
    GAP = "gap"


_GROUPS = (
    (Group.BALL, ("ball_flight", "ball_spin")),
    (Group.PISTON, ("slam", "seal_drag", "piston_motion")),
    (Group.RUBBER, ("hop_up", "bore_friction")),
    (Group.COLUMN, ("air_ahead_drag", "air_ahead_motion", "blast")),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """One band of the ledger."""

    label: str
    group: Group
    energy: float
    share: float | None


def bands(ledger: EnergyLedger) -> tuple[Band, ...]:
    """Cut a ledger into bands: the ball first, the air's four entries as the last one."""
    parts = [(_LABELS[name], group, float(getattr(ledger, name))) for group, names in _GROUPS for name in names]
    parts.append((_AIR_LABEL, Group.AIR, sum(float(getattr(ledger, name)) for name in _AIR)))
    return tuple(
        Band(label=label, group=group, energy=energy, share=_share(energy, ledger.put_in)) for label, group, energy in parts
    )


def escaped(ledger: EnergyLedger) -> tuple[Band, ...]:
    """What went past seals and lips, and what past the ball: parts of the last band, not bands beside it."""
    return tuple(
        Band(label=label, group=group, energy=energy, share=_share(energy, ledger.put_in))
        for label, group, energy in (
            ("of it past seals and lips", Group.LEAK, ledger.leaked_at_cylinder + ledger.leaked_at_lip),
            ("of it past the ball", Group.GAP, ledger.leaked_past_ball),
        )
    )


def _share(energy: float, put_in: float) -> float | None:
    return energy / put_in if put_in > 0 else None
