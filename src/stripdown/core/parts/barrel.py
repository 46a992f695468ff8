"""The inner barrel."""

from __future__ import annotations

from typing import Annotated

from stripdown.errors import OutOfRange
from stripdown.quantities import Q, parameters


@parameters
class Barrel:
    """Inner barrel."""

    bore: Annotated[
        float,
        Q(
            "m",
            low=1e-4,
            high=0.2,
            usual=(0.00601, 0.00610),
            label="bore of the inner barrel",
            shown="mm",
            explain="Inner diameter, to a hundredth of a millimetre.",
        ),
    ]
    length: Annotated[
        float,
        Q(
            "m",
            low=0.01,
            high=5,
            usual=(0.110, 0.590),
            label="length of the inner barrel",
            shown="mm",
            explain="The whole tube, end to end.",
        ),
    ]
    seat_depth: Annotated[
        float,
        Q(
            "m",
            low=0,
            high=0.1,
            usual=(0.008, 0.012),
            label="depth at which the ball sits in the barrel",
            shown="mm",
            explain="From the barrel's rear end to the seated ball's widest place; the ball travels the length less this.",
        ),
    ]
    friction_force: Annotated[
        float,
        Q(
            "N",
            low=0,
            high=20,
            usual=(0, 0.05),
            label="friction of the ball in the bore",
            explain="Drag of the ball along the barrel beyond the hop-up.",
        ),
    ]

    def cross_check(self) -> None:
        """Refuse a ball seated beyond the muzzle.

        Raises
        ------
        OutOfRange
            With both lengths.
        """
        if self.seat_depth >= self.length:
            raise OutOfRange(
                f"barrel.seat_depth = {self.seat_depth * 1e3:g} mm leaves no travel in a barrel of {self.length * 1e3:g} mm.",
                field="barrel.seat_depth",
                value=self.seat_depth,
                unit="m",
                limits=(0, self.length),
                hint="Usual is 8 to 12 mm.",
            )
