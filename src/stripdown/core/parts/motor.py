"""The motor, by its constants."""

from __future__ import annotations

from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class Motor:
    """Brushed motor, as its data sheet or the bench has it."""

    back_emf_constant: Annotated[
        float,
        Q(
            "V s",
            low=1e-5,
            high=10,
            usual=(0.0025, 0.005),
            label="back-EMF constant",
            explain="Voltage per speed: without load, voltage less current times resistance, over speed.",
        ),
    ]
    resistance: Annotated[
        float,
        Q(
            "ohm",
            low=1e-4,
            high=1e3,
            usual=(0.06, 0.3),
            label="resistance of the winding at 20 °C",
            explain="Through the brushes, at several angles of the shaft, the mean.",
        ),
    ]
    no_load_current: Annotated[
        float, Q("A", low=0, high=100, usual=(0.8, 3), label="current without load", explain="The bare motor, without the box.")
    ]
    inertia: Annotated[
        float,
        Q(
            "kg m2",
            low=1e-10,
            high=1,
            usual=(0.8e-6, 2e-6),
            label="inertia at the motor's shaft",
            explain="Rotor, pinion and the gears behind it by their ratios, once.",
        ),
    ]
    brush_drop: Annotated[
        float, Q("V", low=0, high=10, usual=(0, 0.3), label="voltage lost at the brushes, if the resistance leaves it out")
    ]
    inductance: Annotated[float, Q("H", low=0, high=1, usual=(0, 1e-4), label="inductance of the winding")]
    magnet_coefficient: Annotated[
        float, Q("1/K", low=-0.01, high=0, usual=(-0.002, -0.0003), label="loss of the magnet per kelvin")
    ]
    winding_heat_capacity: Annotated[float, Q("J/K", low=1e-3, high=1e6, usual=(10, 30), label="heat capacity of the winding")]
    housing_heat_capacity: Annotated[float, Q("J/K", low=1e-3, high=1e6, usual=(30, 90), label="heat capacity of the housing")]
    winding_to_housing: Annotated[
        float, Q("K/W", low=1e-3, high=1e4, usual=(1.5, 6), label="thermal resistance from winding to housing")
    ]
    housing_to_air: Annotated[float, Q("K/W", low=1e-3, high=1e4, usual=(5, 20), label="thermal resistance from housing to air")]
