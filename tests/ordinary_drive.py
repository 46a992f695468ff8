"""An ordinary drive, every number as drive builders have it: common practice and estimates, no measurement."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

from stripdown.core.drive_cycle.parameters import DrawnLoad, DriveDay, DriveParameters
from stripdown.core.parts.battery import Battery
from stripdown.core.parts.gear_train import GearTrain
from stripdown.core.parts.motor import Motor
from stripdown.core.parts.sector_gear import SectorGear
from stripdown.core.parts.tappet_plate import TappetPlate
from stripdown.core.parts.trigger_unit import TriggerUnit
from stripdown.core.parts.wiring import Wiring
from stripdown.quantities import replace_at

DEGREE = math.pi / 180.0

ORDINARY = DriveParameters(
    battery=Battery(cells=3, state_of_charge=0.8, capacity=4680.0, fixed_voltage=0.0, resistance=0.024),
    wiring=Wiring(lead_resistance=0.015, switch_resistance=0.010),
    motor=Motor(
        back_emf_constant=3.68e-3,
        resistance=0.12,
        no_load_current=1.8,
        inertia=1.2e-6,
        brush_drop=0.0,
        inductance=0.0,
        magnet_coefficient=-0.001,
        winding_heat_capacity=17.0,
        housing_heat_capacity=55.0,
        winding_to_housing=3.0,
        housing_to_air=10.0,
    ),
    gears=GearTrain(ratio=18.7, efficiency=0.80, friction_torque=3e-3),
    sector=SectorGear(
        round_teeth=30.0,
        module=1e-3,
        pressure_angle=20.0 * DEGREE,
        full_teeth=16,
        cut_at_pick_up=0,
        cut_at_release=0,
        lead=2.0e-3,
        second_tooth_present=False,
        home_tolerance=1e-3,
        rack_efficiency=0.90,
    ),
    tappet=TappetPlate(
        pull_start=20 * DEGREE,
        pull_end=90 * DEGREE,
        slip=140 * DEGREE,
        chip=0.0,
        travel=8e-3,
        feed_closes=6.3e-3,
        lips_touch=1.5e-3,
        lips_force=3.0,
        spring_force=5.0,
        spring_rate=300.0,
        mass=9e-3,
        friction=1.0,
        ball_rise=6e-3,
    ),
    trigger=TriggerUnit(rest_angle=40 * DEGREE, cut_angle=15 * DEGREE, brakes=False, brake_resistance=5e-3, has_latch=True),
    load=DrawnLoad(
        rate=520.0,
        preload=55e-3,
        stroke=52e-3,
        mass=0.033,
        seal_drag=4.0,
        cylinder_area=math.pi * 0.0238**2 / 4,
        inlet_area=12e-6,
    ),
    day=DriveDay(),
)


def ordinary(**changes: Any) -> DriveParameters:
    """The ordinary drive with some leaves changed: ``gears__ratio=16.0``."""
    found = ORDINARY
    for path, value in changes.items():
        found = replace_at(found, path.replace("__", "."), value)
    return dataclasses.replace(found)
