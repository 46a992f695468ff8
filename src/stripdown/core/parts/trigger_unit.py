"""What starts and stops the motor."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class TriggerUnit:
    """Contacts or an electronic unit, by what they do."""

    rest_angle: Annotated[
        float, Q("rad", low=0, high=6.2, usual=(0.35, 1.4), label="angle after release at which the sector rests", shown="deg")
    ]
    cut_angle: Annotated[
        float,
        Q(
            "rad",
            low=-3,
            high=7,
            usual=(0.1, 0.5),
            label="angle after release at which the current is cut",
            shown="deg",
            explain="Beyond the next pick-up it is pre-cocking.",
        ),
    ]
    brakes: bool
    brake_resistance: Annotated[float, Q("ohm", low=0, high=10, usual=(0.003, 0.02), label="resistance of the brake")]
    has_latch: bool
