"""The day on which a shot is fired."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class Conditions:
    """Air, metal and how the piston is released; what is left out is a workshop at 20 °C."""

    temperature: Annotated[
        float,
        Q(
            "K",
            low=200,
            high=340,
            usual=(263.15, 313.15),
            label="air temperature",
            shown="degC",
            explain="Air of the room or the field, in the shade.",
        ),
    ] = 293.15
    pressure: Annotated[
        float,
        Q(
            "Pa",
            low=1e4,
            high=2e5,
            usual=(85e3, 104e3),
            label="air pressure",
            shown="hPa",
            explain="As the barometer at the place shows it, not reduced to sea level.",
        ),
    ] = 101325.0
    relative_humidity: Annotated[
        float,
        Q("1", low=0, high=1, usual=(0.1, 0.95), label="relative humidity", shown="%", explain="Of the air, 0 to 100 %."),
    ] = 0.5
    wall_temperature: Annotated[
        float | None,
        Q(
            "K",
            low=200,
            high=400,
            usual=(263.15, 313.15),
            label="temperature of cylinder and barrel",
            shown="degC",
            explain="The metal's temperature; left out, it is the air's.",
        ),
    ] = None
    piston_start_speed: Annotated[
        float,
        Q(
            "m/s",
            low=-6,
            high=6,
            usual=(-1.5, 0),
            label="piston speed at release",
            explain="Negative while the sector gear still draws it back; zero for a shot alone.",
        ),
    ] = 0.0
