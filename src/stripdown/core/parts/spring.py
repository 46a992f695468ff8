"""The main spring."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class Spring:
    """Main spring, as fitted."""

    rate: Annotated[
        float,
        Q(
            "N/m",
            low=10,
            high=20000,
            usual=(350, 900),
            label="spring rate",
            explain="Force gained per length pressed: press it by two known lengths on a scale and divide.",
        ),
    ]
    preload: Annotated[
        float,
        Q(
            "m",
            low=0,
            high=0.3,
            usual=(0.040, 0.070),
            label="preload",
            shown="mm",
            explain="How far the spring is pressed in the closed box with the piston home: free length less fitted length.",
        ),
    ]
    mass: Annotated[
        float,
        Q(
            "kg",
            low=0,
            high=0.2,
            usual=(0.010, 0.020),
            label="mass of the spring",
            shown="g",
            explain="Weigh it; a third of it moves with the piston.",
        ),
    ]
