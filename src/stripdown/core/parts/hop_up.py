"""The hop-up unit with its rubber: what holds the ball, and what spins it."""

from __future__ import annotations

from typing import Annotated

from stripdown.errors import OutOfRange
from stripdown.quantities import Q, parameters


@parameters
class HopUp:
    """Hop-up unit as set; a normal force of zero is hop-up off."""

    normal_force: Annotated[
        float,
        Q(
            "N",
            low=0,
            high=50,
            usual=(0, 1.5),
            label="force of the nub on the ball",
            explain="How hard the nub presses the rubber's mound on the ball at its seat; zero with the hop-up off.",
        ),
    ]
    patch_length: Annotated[
        float,
        Q(
            "m",
            low=1e-4,
            high=0.05,
            usual=(0.002, 0.006),
            label="length of the hop-up patch",
            shown="mm",
            explain="Travel of the ball over which the mound still touches it.",
        ),
    ]
    top_friction: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=3,
            usual=(0.4, 0.9),
            label="friction of the rubber on the ball",
            explain="Between mound and ball.",
        ),
    ]
    floor_friction: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=3,
            usual=(0.1, 0.3),
            label="friction of the barrel's floor on the ball",
            explain="Between ball and the barrel or rubber opposite the mound.",
        ),
    ]
    break_away_force: Annotated[
        float,
        Q(
            "N",
            low=0,
            high=100,
            usual=(0.3, 2.5),
            label="force that frees the ball from the lips",
            explain="Push on the seated ball, hop-up off, until it slides: push gauge through the nozzle.",
        ),
    ]
    break_away_length: Annotated[
        float,
        Q(
            "m",
            low=1e-5,
            high=0.02,
            usual=(0.001, 0.002),
            label="travel in which the lips let go",
            shown="mm",
            explain="Travel of the ball over which the lips' hold falls to nothing and the gap round the ball opens.",
        ),
    ]

    def cross_check(self) -> None:
        """Refuse a floor that grips better than the rubber: the ball would roll forwards.

        Raises
        ------
        OutOfRange
            With both coefficients.
        """
        if self.floor_friction > self.top_friction:
            raise OutOfRange(
                f"hop_up.floor_friction = {self.floor_friction:g} is above hop_up.top_friction = {self.top_friction:g}.",
                field="hop_up.floor_friction",
                value=self.floor_friction,
                unit="1",
                limits=(0, self.top_friction),
                hint="The rubber grips the ball better than the barrel does; correct one of the two.",
            )
