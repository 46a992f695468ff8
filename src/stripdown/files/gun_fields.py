"""Every table and field that a gun's file may have, read from the declarations of the parts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.bench.gun import GUN_LEAVES
from stripdown.catalogue.springs import FREE_LENGTH
from stripdown.core.parts.cylinder import PortSlot
from stripdown.quantities import Q, leaves

PORTS = 3
"""Rings of port slots that a cylinder may have."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field of a gun's file."""

    table: str
    name: str
    type: type
    quantity: Q | None
    explain: str

    @property
    def path(self) -> str:
        """Dotted path."""
        return f"{self.table}.{self.name}"


_WORDS = {
    "gun.name": (str, "What you call this gun."),
    "gun.note": (str, "Anything worth knowing: who measured it, when, in what state."),
    "gun.invented": (bool, "true if gun or figures are made up, so that no reader takes them for real."),
    "spring.label": (str, 'Trade label such as "M100". A label is not a measurement: it stands in only for what you leave out.'),
    "spring.wire_material": (str, "Material of the wire, if the rate is to be computed from wire and coils."),
    "cylinder.ported": (bool, "false if you looked and the cylinder has no port."),
    "piston.vented": (bool, "true if the piston head has holes behind its ring."),
    "laws.flow_law": (None, "How a passage turns pressures into flow."),
    "laws.cylinder_heat_law": (None, "Which published law gives the heat from the air to the cylinder."),
}
_COILS = {
    "wire_diameter": Q(
        "m",
        low=1e-4,
        high=0.01,
        usual=(0.0011, 0.0017),
        label="wire diameter",
        shown="mm",
        explain="Micrometer across the wire, to a hundredth: a hundredth of a millimetre is 3 % of the rate.",
    ),
    "mean_diameter": Q(
        "m",
        low=1e-3,
        high=0.1,
        usual=(0.0095, 0.0135),
        label="mean coil diameter",
        shown="mm",
        explain="Outer diameter of the coil less one wire.",
    ),
    "outer_diameter": Q(
        "m",
        low=1e-3,
        high=0.1,
        usual=(0.011, 0.015),
        label="outer coil diameter",
        shown="mm",
        explain="Calipers over the coil; stands in for the mean diameter.",
    ),
    "active_coils": Q("1", low=1, high=500, usual=(20, 45), label="active coils", explain="Coils that can move."),
    "total_coils": Q(
        "1",
        low=3,
        high=502,
        usual=(22, 47),
        label="all coils",
        explain="All coils, the two closed ends included; stands in for the active coils.",
    ),
    "free_length": FREE_LENGTH,
    "fitted_length": Q(
        "m",
        low=0.005,
        high=1,
        usual=(0.085, 0.150),
        label="length of the spring in the closed box",
        shown="mm",
        explain="Length between its seats with the piston home; with the free length it gives the preload.",
    ),
}


def _fields() -> dict[str, dict[str, Field]]:
    tables: dict[str, dict[str, Field]] = {}

    def add(path: str, kind: type, quantity: Q | None, explain: str) -> None:
        table, _, name = path.rpartition(".")
        tables.setdefault(table, {})[name] = Field(table=table, name=name, type=kind, quantity=quantity, explain=explain)

    for name in ("name", "note", "invented"):
        kind, explain = _WORDS[f"gun.{name}"]
        add(f"gun.{name}", kind or str, None, explain)
    for leaf in GUN_LEAVES:
        if ".port_" in leaf.path:
            continue
        explain = leaf.quantity.explain if leaf.quantity else _WORDS[leaf.path][1]
        add(leaf.path, leaf.type, leaf.quantity, explain)
        if leaf.path == "spring.mass":
            for name, quantity in _COILS.items():
                add(f"spring.{name}", float, quantity, quantity.explain)
            for name in ("wire_material", "label"):
                add(f"spring.{name}", str, None, _WORDS[f"spring.{name}"][1])
        if leaf.path == "cylinder.dead_volume":
            add("cylinder.ported", bool, None, _WORDS["cylinder.ported"][1])
            for slot in leaves(PortSlot):
                add(f"cylinder.port.{slot.path}", slot.type, slot.quantity, slot.quantity.explain if slot.quantity else "")
    return tables


TABLES: Mapping[str, Mapping[str, Field]] = MappingProxyType(_fields())
"""Fields by name, by dotted name of their table, in the order of a gun's file."""
