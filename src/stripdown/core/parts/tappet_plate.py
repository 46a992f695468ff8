"""The tappet plate with its spring, and the nozzle that it carries."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class TappetPlate:
    """Plate, pin, spring and nozzle."""

    pull_start: Annotated[
        float, Q("rad", low=-1, high=7, usual=(0.2, 0.6), label="angle at which the pin begins to pull", shown="deg")
    ]
    pull_end: Annotated[
        float, Q("rad", low=-1, high=7, usual=(1.2, 2), label="angle at which the plate is fully drawn", shown="deg")
    ]
    slip: Annotated[
        float, Q("rad", low=-1, high=7, usual=(2.2, 2.7), label="angle at which the fin slips off the pin", shown="deg")
    ]
    chip: Annotated[float, Q("rad", low=0, high=3, usual=(0, 0.35), label="how much longer a delay chip holds it", shown="deg")]
    travel: Annotated[float, Q("m", low=1e-4, high=0.1, usual=(0.007, 0.009), label="travel of the plate", shown="mm")]
    feed_closes: Annotated[
        float, Q("m", low=0, high=0.1, usual=(0.0055, 0.007), label="travel at which the nozzle shuts the feed port", shown="mm")
    ]
    lips_touch: Annotated[
        float, Q("m", low=0, high=0.1, usual=(0.001, 0.002), label="travel at which the nozzle meets the lips", shown="mm")
    ]
    lips_force: Annotated[float, Q("N", low=0, high=100, usual=(1, 5), label="force of the lips against the nozzle")]
    spring_force: Annotated[float, Q("N", low=0.01, high=100, usual=(3, 8), label="force of the tappet spring, plate forward")]
    spring_rate: Annotated[float, Q("N/m", low=0.1, high=1e5, usual=(150, 500), label="rate of the tappet spring")]
    mass: Annotated[float, Q("kg", low=1e-5, high=1, usual=(0.006, 0.012), label="mass of plate and nozzle", shown="g")]
    friction: Annotated[float, Q("N", low=0, high=100, usual=(0.5, 2), label="friction of plate and nozzle")]
    ball_rise: Annotated[float, Q("s", low=0, high=1, usual=(0.003, 0.01), label="time that a ball needs to rise", shown="ms")]
