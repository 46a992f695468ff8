"""A ball driven by a charged reservoir: the shot's own kernel with the piston held, for checks against closed forms."""

from __future__ import annotations

import math

from stripdown.core.constants import AIR_GAS_CONSTANT
from stripdown.core.interior_ballistics.parameters import Ambient, FlowLaw, HeatLaw, ShotLaws, ShotParameters
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.interior_ballistics.simulate import run_one, settings_row
from stripdown.core.parts.ball import Ball
from stripdown.core.parts.barrel import Barrel
from stripdown.core.parts.cylinder import Cylinder, CylinderHead, PortSlot
from stripdown.core.parts.hop_up import HopUp
from stripdown.core.parts.nozzle import Leaks, Nozzle
from stripdown.core.parts.piston import Piston
from stripdown.core.parts.spring import Spring
from stripdown.errors import OutOfRange

# What a reservoir launch has no use for.
_NO_SPRING = Spring(rate=0.0, preload=0.0, mass=0.0)
_HELD_PISTON = Piston(
    mass=1.0,
    head_mass=0.0,
    vented=False,
    vent_area=0.0,
    seal_drag=0.0,
    seal_pressure_friction=0.0,
    seal_area=0.0,
)
_NO_LEAKS = Leaks(piston_seal=0.0, head_ring=0.0, nozzle_tube=0.0, hop_lip=0.0, discharge_coefficient=1.0, critical_ratio=0.5)
_NO_HOP_UP = HopUp(
    normal_force=0.0,
    patch_length=1.0,
    top_friction=0.0,
    floor_friction=0.0,
    break_away_force=0.0,
    break_away_length=0.0,  # no lips seal the gap round a resting ball
)
_NO_SLOT = PortSlot(start=0.0, length=0.0, width=0.0, count=0)
_MILLIMETRE = 1e-3
_GAS_INERTIA = 1.0 / 3.0
_CUT_OFF = 1e-9
_FILLING_SPEED = 100.0


def simulate_reservoir_launch(
    *,
    reservoir_pressure: float,
    reservoir_volume: float,
    reservoir_temperature: float = 293.15,
    bore_diameter: float,
    travel: float,
    ball_mass: float,
    ball_diameter: float | None = None,
    pressure_ahead: float = 101325.0,
    passage_area: float | None = None,
    discharge_coefficient: float = 1.0,
    volume_behind_ball: float | None = None,
    friction_force: float = 0.0,
    gas_inertia: bool = True,
    air_ahead_inertia: bool = True,
    heat: bool = False,
    tolerance: float = 1e-6,
    heat_multiplier: float = 1.0,
) -> Shot:
    """Simulate a ball driven from rest by a reservoir that is opened at once.

    Parameters
    ----------
    reservoir_pressure
        Absolute, in Pa.
    reservoir_volume
        In m3; with no passage, all the volume behind the resting ball.
    reservoir_temperature
        In K, also of the walls and of the air ahead.
    bore_diameter
        Of the barrel, in m.
    travel
        Of the ball from rest to muzzle, in m.
    ball_mass
        In kg.
    ball_diameter
        In m; None for a ball that fills the bore and lets no air past.
    pressure_ahead
        Absolute, in Pa; zero for an evacuated barrel.
    passage_area
        Of the opening between reservoir and barrel, in m2; None makes both one gas volume.
    discharge_coefficient
        Of the passage.
    volume_behind_ball
        Between passage and resting ball, in m3; None for 1 mm of bore, or for nothing when both are one volume.
    friction_force
        Against the ball, in N.
    gas_inertia
        Whether the moving gas behind the ball has mass: a third of it moves with the ball.
    air_ahead_inertia
        Whether the air ahead must be pushed out.
    heat
        Whether heat goes to the walls (Adair, and Dittus and Boelter).
    tolerance
        Relative error allowed per step.
    heat_multiplier
        Scales both heat laws; a very large one makes the launch isothermal.

    Returns
    -------
    Shot
        With validity as notes: any positive size is computed.

    Raises
    ------
    OutOfRange
        For a size, mass, pressure or temperature that is not positive (``pressure_ahead`` and forces may be zero).
    NumericalFailure
        If the integration cannot go on.

    Notes
    -----
    Lumped volumes: gas speeds below about Mach 0.6. Equations: docs/models/shot.md.
    """
    _require_positive(
        reservoir_pressure=reservoir_pressure,
        reservoir_volume=reservoir_volume,
        reservoir_temperature=reservoir_temperature,
        bore_diameter=bore_diameter,
        travel=travel,
        ball_mass=ball_mass,
        ball_diameter=ball_diameter,
        passage_area=passage_area,
        discharge_coefficient=discharge_coefficient,
    )
    _require_not_negative(
        pressure_ahead=pressure_ahead,
        friction_force=friction_force,
        volume_behind_ball=volume_behind_ball,
        heat_multiplier=heat_multiplier,
    )
    if ball_diameter is not None and ball_diameter > bore_diameter:
        message = f"ball_diameter = {ball_diameter:g} m does not pass bore_diameter = {bore_diameter:g} m."
        raise OutOfRange(message, field="ball_diameter", value=ball_diameter, unit="m", limits=(0.0, bore_diameter))
    one_volume = passage_area is None
    bore_area = 0.25 * math.pi * bore_diameter**2
    if volume_behind_ball is None:
        volume_behind_ball = 0.0 if one_volume else bore_area * _MILLIMETRE
    # Patience: the ball's time under the full pressure difference, and the time to fill the barrel at 100 m/s in the passage.
    patience = math.sqrt(2.0 * travel * ball_mass / (bore_area * max(reservoir_pressure - pressure_ahead, 1.0)))
    if passage_area is not None:
        patience += (bore_area * travel + volume_behind_ball) / (discharge_coefficient * passage_area * _FILLING_SPEED)
    parameters = ShotParameters(
        spring=_NO_SPRING,
        piston=_HELD_PISTON,
        cylinder=Cylinder(
            # A held piston in a cylinder as wide as it is deep, so that the heat laws see a plain vessel.
            bore=(4.0 * reservoir_volume / math.pi) ** (1.0 / 3.0),
            stroke=0.0,
            # When both are one volume the barrel holds all of it and the cylinder a cut-off billionth.
            dead_volume=_CUT_OFF * reservoir_volume if one_volume else reservoir_volume,
            port_1=_NO_SLOT,
            port_2=_NO_SLOT,
            port_3=_NO_SLOT,
        ),
        cylinder_head=CylinderHead(restitution=0.0, capture_speed=0.01),
        nozzle=Nozzle(
            bore=2.0 * math.sqrt((passage_area or 0.0) / math.pi),
            discharge_coefficient=discharge_coefficient,
            critical_ratio=0.5,
            dead_volume=reservoir_volume + volume_behind_ball if one_volume else volume_behind_ball,
        ),
        leaks=_NO_LEAKS,
        hop_up=_NO_HOP_UP,
        barrel=Barrel(bore=bore_diameter, length=travel, seat_depth=0.0, friction_force=friction_force),
        ball=Ball(mass=ball_mass, diameter=bore_diameter if ball_diameter is None else ball_diameter),
        ambient=Ambient(
            temperature=reservoir_temperature,
            pressure=pressure_ahead,
            wall_temperature=reservoir_temperature,
            gas_constant=AIR_GAS_CONSTANT,
            heat_capacity_ratio=1.4,
        ),
        laws=ShotLaws(
            flow_law=FlowLaw.ISENTROPIC,
            cylinder_heat_law=HeatLaw.ADAIR if heat else HeatLaw.NONE,
            laminar_ratio=0.999,
            cylinder_heat=heat_multiplier,
            barrel_heat=heat_multiplier if heat else 0.0,
            heat_speed_floor=0.5,
            gas_inertia=_GAS_INERTIA if gas_inertia else 0.0,
            air_ahead_inertia=1.0 if air_ahead_inertia else 0.0,
            air_ahead_friction=0.0,
            annulus_discharge=0.75,
            muzzle_discharge=1.0,
            stiction_speed=0.02,
            longest_time=50.0 * patience,
        ),
        piston_start_speed=0.0,
    )
    return run_one(
        parameters,
        settings_row(
            tolerance=tolerance,
            piston_held=True,
            one_volume=one_volume,
            reservoir_pressure=reservoir_pressure,
            reservoir_temperature=reservoir_temperature,
        ),
    )


def _require_positive(**values: float | None) -> None:
    for name, value in values.items():
        if value is not None and not (math.isfinite(value) and value > 0.0):
            message = f"{name} = {value:g} must be positive."
            raise OutOfRange(message, field=name, value=value, limits=(0.0, None))


def _require_not_negative(**values: float | None) -> None:
    for name, value in values.items():
        if value is not None and not (math.isfinite(value) and value >= 0.0):
            message = f"{name} = {value:g} must not be negative."
            raise OutOfRange(message, field=name, value=value, limits=(0.0, None))
