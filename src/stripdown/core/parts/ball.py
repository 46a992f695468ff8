"""The BB."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class Ball:
    """One BB, solid and round."""

    mass: Annotated[
        float,
        Q(
            "kg",
            low=1e-6,
            high=1,
            usual=(0.00012, 0.00048),
            label="mass of the ball",
            shown="g",
            explain="Weigh ten and divide by ten.",
        ),
    ]
    diameter: Annotated[
        float,
        Q(
            "m",
            low=1e-4,
            high=0.2,
            usual=(0.00593, 0.00596),
            label="diameter of the ball",
            shown="mm",
            explain="Micrometer across three directions, mean.",
        ),
    ]
