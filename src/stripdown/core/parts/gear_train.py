"""The gears between motor and sector gear."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class GearTrain:
    """Three meshes and their bearings."""

    ratio: Annotated[float, Q("1", low=1, high=200, usual=(12, 32), label="turns of the motor for one of the sector gear")]
    efficiency: Annotated[float, Q("1", low=0.05, high=1, usual=(0.7, 0.9), label="efficiency of the three meshes", shown="%")]
    friction_torque: Annotated[
        float,
        Q(
            "N m",
            low=0,
            high=1,
            usual=(0.001, 0.006),
            label="friction of the box at the motor's shaft",
            explain="Back-EMF constant times what the box adds to the current without load, spring out.",
        ),
    ]
