"""What is said of the energy ledger: its fourteen entries as bands in the order in which they are shown, and the words around."""

from __future__ import annotations

import enum
from collections.abc import Sequence
from dataclasses import dataclass

from stripdown.core.interior_ballistics.result import EnergyLedger
from stripdown.quantities import leaves
from stripdown.words.answer import Cell, Column, FigureFooting, Table
from stripdown.words.numbers import joules, joules_gained, per_cent

PAIR = 2
"""Shots of which the differences are shown."""
WHERE_IT_WENT = "Where the spring's energy went"
WENT_AND_RETURNS = "Where the energy went, and what a repair returns"
ESTIMATED_RETURN = "estimated with the model of the shot; a leak carries off energy that its repair returns only in part"
RETURNED_ALONE = "What a repair returns, each cause alone"
SICK, SOUND = "with the likeliest cause", "without it"
CARRIED, RETURNED = "carried off by the fault", "returned to the ball by a repair"

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
    """One band of the ledger, by the key of its entry."""

    key: str
    label: str
    group: Group
    energy: float
    share: float | None


def bands(ledger: EnergyLedger) -> tuple[Band, ...]:
    """Cut a ledger into bands: the ball first, the air's four entries as the last one."""
    parts = [(name, _LABELS[name], group, float(getattr(ledger, name))) for group, names in _GROUPS for name in names]
    parts.append(("air", _AIR_LABEL, Group.AIR, sum(float(getattr(ledger, name)) for name in _AIR)))
    return tuple(_band(*part, ledger.put_in) for part in parts)


def escaped(ledger: EnergyLedger) -> tuple[Band, ...]:
    """What went past seals and lips, and what past the ball: parts of the last band, not bands beside it."""
    past_seals = ledger.leaked_at_cylinder + ledger.leaked_at_lip
    return (
        _band("past_seals", "of it past seals and lips", Group.LEAK, past_seals, ledger.put_in),
        _band("past_ball", "of it past the ball", Group.GAP, ledger.leaked_past_ball, ledger.put_in),
    )


def ledger_table(ledgers: Sequence[EnergyLedger], names: Sequence[str]) -> Table:
    """Set out one ledger with a bar for each band, or several beside each other, with the difference of two."""
    put_in = " and ".join(dict.fromkeys(joules(ledger.put_in) for ledger in ledgers))
    columns = [Column(head=WHERE_IT_WENT.replace("energy", put_in)), *([Column(head="")] if len(ledgers) == 1 else [])]
    columns += [Column(head=name, footing=FigureFooting.COMPUTED, is_figure=True) for name in names]
    if len(ledgers) == PAIR:
        columns.append(Column(head="difference", is_figure=True))
    rows = zip(*((*bands(ledger), *escaped(ledger)) for ledger in ledgers), strict=True)
    return Table(key="ledger", columns=tuple(columns), rows=tuple(_row(row) for row in rows if any(band.energy for band in row)))


def _row(row: Sequence[Band]) -> tuple[Cell, ...]:
    cells = [Cell(text=f"{joules(band.energy)} {per_cent(band.share):>5}") for band in row]
    if len(row) == 1:
        cells.insert(0, Cell(share=row[0].share or 0.0))
    if len(row) == PAIR:
        cells.append(Cell(text=joules_gained(row[1].energy - row[0].energy)))
    return (Cell(text=row[0].label, key=row[0].key), *cells)


def _band(key: str, label: str, group: Group, energy: float, put_in: float) -> Band:
    return Band(key=key, label=label, group=group, energy=energy, share=energy / put_in if put_in > 0 else None)
