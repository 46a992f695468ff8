"""What a cycle of the drive depends on: pack, wires, motor, gears, what the sector gear draws, and the day."""

from __future__ import annotations

from typing import Annotated

from stripdown.core.parts.battery import Battery
from stripdown.core.parts.gear_train import GearTrain
from stripdown.core.parts.motor import Motor
from stripdown.core.parts.sector_gear import SectorGear
from stripdown.core.parts.tappet_plate import TappetPlate
from stripdown.core.parts.trigger_unit import TriggerUnit
from stripdown.core.parts.wiring import Wiring
from stripdown.quantities import Q, parameters


@parameters
class DrawnLoad:
    """What the rack draws: spring, piston and the air behind it."""

    rate: Annotated[float, Q("N/m", low=0, high=20000, usual=(350, 900), label="spring rate")]
    preload: Annotated[float, Q("m", low=0, high=0.3, usual=(0.040, 0.070), label="preload", shown="mm")]
    stroke: Annotated[float, Q("m", low=1e-4, high=1, usual=(0.044, 0.054), label="stroke", shown="mm")]
    mass: Annotated[
        float,
        Q(
            "kg",
            low=0,
            high=2,
            usual=(0.020, 0.045),
            label="moving mass",
            shown="g",
            explain="Piston, head, a third of the spring.",
        ),
    ]
    seal_drag: Annotated[float, Q("N", low=0, high=200, usual=(2, 8), label="piston drag in the cylinder")]
    cylinder_area: Annotated[
        float, Q("m2", low=0, high=1, usual=(4.3e-4, 4.6e-4), label="cross-section of the cylinder", shown="cm2")
    ]
    inlet_area: Annotated[
        float,
        Q(
            "m2",
            low=1e-8,
            high=1,
            usual=(6e-6, 20e-6),
            label="area that lets air in behind the drawn piston",
            shown="mm2",
            explain="Discharge coefficient times area of vent and nozzle together.",
        ),
    ]


@parameters
class DriveDay:
    """Air and temperatures at the start."""

    air_temperature: Annotated[float, Q("K", low=200, high=400, usual=(263, 313), label="air temperature", shown="degC")] = 293.15
    air_pressure: Annotated[float, Q("Pa", low=1e3, high=1e7, usual=(85e3, 104e3), label="air pressure", shown="hPa")] = 101325.0
    air_density: Annotated[float, Q("kg/m3", low=0, high=100, usual=(1.0, 1.4), label="density of the air")] = 1.2041
    winding_temperature: Annotated[
        float, Q("K", low=200, high=600, usual=(263, 360), label="temperature of the winding at the start", shown="degC")
    ] = 293.15
    housing_temperature: Annotated[
        float, Q("K", low=200, high=600, usual=(263, 340), label="temperature of the motor's housing at the start", shown="degC")
    ] = 293.15


@parameters
class DriveParameters:
    """Everything that a burst depends on."""

    battery: Battery
    wiring: Wiring
    motor: Motor
    gears: GearTrain
    sector: SectorGear
    tappet: TappetPlate
    trigger: TriggerUnit
    load: DrawnLoad
    day: DriveDay
