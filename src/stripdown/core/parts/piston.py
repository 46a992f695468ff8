"""The piston with its head, and how its ring rubs."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class Piston:
    """Piston and piston head, moving as one."""

    mass: Annotated[
        float,
        Q(
            "kg",
            low=0.001,
            high=1,
            usual=(0.012, 0.028),
            label="mass of the piston body",
            shown="g",
            explain="Piston body with its rack, without the head.",
        ),
    ]
    head_mass: Annotated[
        float,
        Q(
            "kg",
            low=0,
            high=1,
            usual=(0.004, 0.014),
            label="mass of the piston head",
            shown="g",
            explain="Piston head with its screw, washers, bearing and O-ring.",
        ),
    ]
    vented: bool
    vent_area: Annotated[
        float,
        Q(
            "m2",
            low=0,
            high=1e-3,
            usual=(2e-6, 12e-6),
            label="open area of the head's vents",
            shown="mm2",
            explain="All holes behind the ring together; they let air in when the cylinder's pressure is low, never out.",
        ),
    ]
    seal_drag: Annotated[
        float,
        Q(
            "N",
            low=0,
            high=200,
            usual=(2, 8),
            label="piston drag in the cylinder",
            explain="Pull the piston slowly through the dry-wiped, freshly greased cylinder with a spring scale, nozzle off.",
        ),
    ]
    seal_pressure_friction: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=3,
            usual=(0.05, 0.3),
            label="friction coefficient of the pressed ring",
            explain="Friction of the ring on the wall when the air presses it outwards.",
        ),
    ]
    seal_area: Annotated[
        float,
        Q(
            "m2",
            low=0,
            high=1e-3,
            usual=(40e-6, 150e-6),
            label="area over which air presses the ring to the wall",
            shown="mm2",
            explain="About the cylinder's circumference times half the ring's section.",
        ),
    ]
