"""What a shot depends on: the parts, the day, and the coefficients of the laws."""

from __future__ import annotations

import enum
from typing import Annotated

from stripdown.core.parts.ball import Ball
from stripdown.core.parts.barrel import Barrel
from stripdown.core.parts.cylinder import Cylinder, CylinderHead
from stripdown.core.parts.gun_parts import check_ball_in_barrel
from stripdown.core.parts.hop_up import HopUp
from stripdown.core.parts.nozzle import Leaks, Nozzle
from stripdown.core.parts.piston import Piston
from stripdown.core.parts.spring import Spring
from stripdown.quantities import Q, parameters


class FlowLaw(enum.IntEnum):
    """How a passage turns pressures into mass flow."""

    ISO_6358 = 0
    ISENTROPIC = 1


class HeatLaw(enum.IntEnum):
    """Correlation for heat from the gas to the cylinder's wall."""

    NONE = 0
    ADAIR = 1
    WOSCHNI = 2
    HOHENBERG = 3


@parameters
class Ambient:
    """The air outside, and the temperature of the metal."""

    temperature: Annotated[float, Q("K", low=100, high=1000, usual=(263.15, 313.15), label="air temperature", shown="degC")]
    pressure: Annotated[float, Q("Pa", low=100, high=1e9, usual=(85e3, 104e3), label="air pressure", shown="hPa")]
    wall_temperature: Annotated[
        float, Q("K", low=100, high=1000, usual=(263.15, 313.15), label="temperature of cylinder and barrel", shown="degC")
    ]
    gas_constant: Annotated[
        float, Q("J/(kg K)", low=50, high=5000, usual=(287.0, 290.0), label="specific gas constant of the air")
    ]
    heat_capacity_ratio: Annotated[float, Q("1", low=1.05, high=1.7, usual=(1.4, 1.4), label="ratio of heat capacities")]


@parameters
class ShotLaws:
    """Coefficients of the model: each a parameter with a footing, never a literal in a kernel."""

    flow_law: FlowLaw
    cylinder_heat_law: HeatLaw
    laminar_ratio: Annotated[
        float,
        Q(
            "1",
            low=0.9,
            high=0.99999,
            usual=(0.995, 0.999),
            label="pressure ratio above which flow turns laminar",
            explain="From this ratio to equal pressures a smooth, nearly linear law takes over (ISO 6358 practice).",
        ),
    ]
    cylinder_heat: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=1e9,
            usual=(0.5, 2),
            label="multiplier on heat to the cylinder",
            explain="Published laws differ by a factor of up to fourteen; this scales the chosen one.",
        ),
    ]
    barrel_heat: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=1e9,
            usual=(0.5, 2),
            label="multiplier on heat to the barrel",
            explain="Scales the pipe law for the air behind the ball.",
        ),
    ]
    heat_speed_floor: Annotated[
        float,
        Q(
            "m/s",
            low=0.001,
            high=100,
            usual=(0.2, 1),
            label="least gas speed in the heat laws",
            explain="Keeps some heat flowing when the piston stands.",
        ),
    ]
    gas_inertia: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=1,
            usual=(0.33, 0.6),
            label="share of the gas behind the ball that moves with it",
            explain="One third if speed grows evenly from nozzle to ball, towards one when a wide nozzle feeds the column.",
        ),
    ]
    air_ahead_inertia: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=1,
            usual=(1, 1),
            label="share of the air ahead that moves with the ball",
            explain="One: the whole column between ball and muzzle is pushed.",
        ),
    ]
    air_ahead_friction: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=1,
            usual=(0.02, 0.04),
            label="friction factor of the air ahead",
            explain="Darcy factor of the column pushed along the barrel.",
        ),
    ]
    annulus_discharge: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=1,
            usual=(0.6, 0.9),
            label="discharge coefficient past the ball",
            explain="Flow through the gap between ball and bore divided by the ideal flow.",
        ),
    ]
    muzzle_discharge: Annotated[
        float,
        Q(
            "1",
            low=0.1,
            high=1,
            usual=(0.7, 1),
            label="discharge coefficient of the open muzzle",
            explain="For the air that follows the ball out.",
        ),
    ]
    stiction_speed: Annotated[
        float,
        Q(
            "m/s",
            low=1e-4,
            high=1,
            usual=(0.02, 0.1),
            label="speed below which the ring's friction fades",
            explain="Rounds the corner where friction changes sign.",
        ),
    ]
    longest_time: Annotated[
        float,
        Q(
            "s",
            low=1e-4,
            high=100,
            usual=(0.2, 2),
            label="time after which a shot is given up",
            explain="A piston that floats on trapped air is watched no longer than this.",
        ),
    ]


@parameters
class ShotParameters:
    """Everything that one shot needs, complete, in SI units: of `GunParts` what moves, holds or leaks air, the day, the laws."""

    spring: Spring
    piston: Piston
    cylinder: Cylinder
    cylinder_head: CylinderHead
    nozzle: Nozzle
    leaks: Leaks
    hop_up: HopUp
    barrel: Barrel
    ball: Ball
    ambient: Ambient
    laws: ShotLaws
    piston_start_speed: Annotated[
        float,
        Q(
            "m/s",
            low=-6,
            high=6,
            usual=(-1.5, 0),
            label="piston speed at release",
            explain="Negative while the sector gear still draws it back.",
        ),
    ]

    def cross_check(self) -> None:
        """Refuse a ball that does not fit its barrel.

        Raises
        ------
        OutOfRange
            With both diameters.
        """
        check_ball_in_barrel(self.ball, self.barrel)
