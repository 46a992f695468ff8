"""What can be measured of a gun before the work, and which parameter of a shot it shows."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from stripdown.bench.gun import GUN_LEAVES
from stripdown.quantities import Q


@dataclass(frozen=True, slots=True, kw_only=True)
class AsFound:
    """One reading: the parameter that it shows, whether it says how much of that was lost, and how it is written."""

    path: str
    is_lost: bool = False
    quantity: Q


_QUANTITIES = {leaf.path: leaf.quantity for leaf in GUN_LEAVES if leaf.quantity is not None}


def _shows(path: str, explain: str) -> AsFound:
    return AsFound(path=path, quantity=dataclasses.replace(_QUANTITIES[path], explain=explain))


AS_FOUND_READINGS: Final[Mapping[str, AsFound]] = MappingProxyType(
    {
        "piston_drag": _shows("piston.seal_drag", "Force that kept the piston moving before the work, nozzle off."),
        "spring_free_length": AsFound(
            path="spring.preload",
            is_lost=True,
            quantity=Q(
                "m",
                low=0,
                high=0.1,
                usual=(0, 0.01),
                label="free length lost since new",
                shown="mm",
                explain="Free length lost since new.",
            ),
        ),
        "nozzle_bore": _shows("nozzle.bore", "Narrowest place of the nozzle before the work."),
        "barrel_bore": _shows("barrel.bore", "Bore of the inner barrel that was in the gun before the work."),
        "break_away_force": _shows("hop_up.break_away_force", "Push that freed the seated ball before the work, hop-up off."),
    }
)
"""By key; the first two are the keys of checks, whose readings as found in a log count as well."""
