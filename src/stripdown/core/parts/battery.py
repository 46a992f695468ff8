"""The battery, as the gun meets it."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class Battery:
    """Pack of cells, with what it gives and what stands in its way."""

    cells: Annotated[int, Q("1", low=1, high=12, usual=(2, 3), label="cells in a row")]
    state_of_charge: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=1,
            usual=(0.3, 1),
            label="state of charge",
            shown="%",
            explain="From the rest voltage of its lowest cell; between 20 and 60 % it tells little.",
        ),
    ]
    capacity: Annotated[
        float,
        Q(
            "C",
            low=1,
            high=1e6,
            usual=(3600, 7200),
            label="capacity",
            explain="Charge that the label promises: 1300 mAh are 4680 C.",
        ),
    ]
    fixed_voltage: Annotated[
        float,
        Q(
            "V",
            low=0,
            high=100,
            usual=(0, 0),
            label="voltage at rest, of other chemistries",
            explain="Zero takes the table of lithium polymer cells; any other chemistry needs its own voltage at rest.",
        ),
    ]
    resistance: Annotated[
        float,
        Q(
            "ohm",
            low=0,
            high=10,
            usual=(0.012, 0.06),
            label="resistance of the pack",
            explain="Sag over current, about a second into a load.",
        ),
    ]
