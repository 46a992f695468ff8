"""Synthetic shots: shapes drawn by hand, so that what a picture or a print shows of them is derived in the test."""

from __future__ import annotations

import dataclasses

import numpy as np

from stripdown.core.interior_ballistics.parameters import Ambient, FlowLaw, HeatLaw, ShotLaws, ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger, Event, EventKind, Outcome, Shot, ShotSummary, SolverCounts
from stripdown.core.parts.ball import Ball
from stripdown.core.parts.barrel import Barrel
from stripdown.core.parts.cylinder import Cylinder, CylinderHead, PortSlot
from stripdown.core.parts.hop_up import HopUp
from stripdown.core.parts.nozzle import Leaks, Nozzle
from stripdown.core.parts.piston import Piston
from stripdown.core.parts.spring import Spring

_NO_PORT = PortSlot(start=0.0, length=0.0, width=0.0, count=0)

PARAMETERS = ShotParameters(
    spring=Spring(rate=520.0, preload=0.055, mass=0.014),
    piston=Piston(
        mass=0.018,
        head_mass=0.010,
        vented=True,
        vent_area=6e-6,
        seal_drag=4.0,
        seal_pressure_friction=0.1,
        seal_area=80e-6,
    ),
    cylinder=Cylinder(bore=0.0238, stroke=0.052, dead_volume=0.6e-6, port_1=_NO_PORT, port_2=_NO_PORT, port_3=_NO_PORT),
    cylinder_head=CylinderHead(restitution=0.4, capture_speed=0.05),
    nozzle=Nozzle(bore=0.0047, discharge_coefficient=0.85, critical_ratio=0.5, dead_volume=0.7e-6),
    leaks=Leaks(
        piston_seal=0.1e-6, head_ring=0.0, nozzle_tube=0.1e-6, hop_lip=0.1e-6, discharge_coefficient=0.75, critical_ratio=0.5
    ),
    hop_up=HopUp(
        normal_force=0.6,
        patch_length=0.004,
        top_friction=0.7,
        floor_friction=0.2,
        break_away_force=1.0,
        break_away_length=0.0015,
    ),
    barrel=Barrel(bore=0.00605, length=0.363, seat_depth=0.010, friction_force=0.02),
    ball=Ball(mass=0.0002, diameter=0.00595),
    ambient=Ambient(temperature=293.15, pressure=101325.0, wall_temperature=293.15, gas_constant=287.5, heat_capacity_ratio=1.4),
    laws=ShotLaws(
        flow_law=FlowLaw.ISO_6358,
        cylinder_heat_law=HeatLaw.ADAIR,
        laminar_ratio=0.999,
        cylinder_heat=1.0,
        barrel_heat=1.0,
        heat_speed_floor=0.5,
        gas_inertia=0.4,
        air_ahead_inertia=1.0,
        air_ahead_friction=0.03,
        annulus_discharge=0.75,
        muzzle_discharge=0.8,
        stiction_speed=0.02,
        longest_time=0.2,
    ),
    piston_start_speed=0.0,
)

LEDGER = EnergyLedger(
    spring_work=2.19,
    start_energy=0.0,
    ball_flight=1.000,
    ball_spin=0.004,
    piston_motion=0.0,
    slam=0.120,
    seal_drag=0.210,
    bore_friction=0.007,
    hop_up=0.030,
    air_ahead_drag=0.045,
    air_ahead_motion=0.070,
    blast=0.080,
    cylinder_heat=0.190,
    barrel_heat=0.330,
    blown_out=0.180,
    left_in_air=-0.076,
    leaked_at_cylinder=0.050,
    leaked_at_port=0.0,
    leaked_at_lip=0.020,
    leaked_past_ball=0.080,
    leaked_at_muzzle=0.030,
)

_SAMPLES = 1501
_LANDS, _STARTS, _LEAVES, _RESTS = 12.5e-3, 6.0e-3, 10.0e-3, 20.0e-3
_STROKE, _TRAVEL = 0.052, 0.353


def _piston(time: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """A piston that runs home along half a cosine and bounces once by 2 mm."""
    phase = np.clip(time / _LANDS, 0.0, 1.0) * np.pi
    position = _STROKE * 0.5 * (1 - np.cos(phase))
    after = np.clip((time - _LANDS) / (_RESTS - _LANDS), 0.0, 1.0) * np.pi
    position = position - 0.002 * np.sin(after)
    return position, np.gradient(position, time)


def make_shot(*, ball_speed: float = 100.0, ledger: EnergyLedger = LEDGER, outcome: Outcome = Outcome.LEFT_MUZZLE) -> Shot:
    """Draw a shot whose ball gains speed evenly over its travel and leaves at the speed given."""
    time = np.linspace(0.0, _RESTS, _SAMPLES)
    piston_position, piston_speed = _piston(time)
    flight = np.clip((time - _STARTS) / (_LEAVES - _STARTS), 0.0, 1.0)
    pressure = 101325.0 * (1 + 4.5 * np.exp(-(((time - 8.2e-3) / 1.6e-3) ** 2)))
    flat = np.full(_SAMPLES, 293.15)
    mass = np.full(_SAMPLES, 2.8e-5)
    moves = outcome is not Outcome.DID_NOT_MOVE
    events = [Event(EventKind.PISTON_LANDS, _LANDS), Event(EventKind.PISTON_RESTS, _RESTS)]
    if moves:
        events = [
            Event(EventKind.BALL_STARTS, _STARTS),
            Event(EventKind.PATCH_ENDS, 6.6e-3),
            Event(EventKind.BALL_LEAVES_MUZZLE, _LEAVES),
            *events,
        ]
    return Shot(
        parameters=PARAMETERS,
        time=time,
        piston_position=piston_position,
        piston_speed=piston_speed,
        cylinder_pressure=pressure,
        cylinder_temperature=flat,
        cylinder_gas_mass=mass,
        barrel_pressure=101325.0 + 0.85 * (pressure - 101325.0),
        barrel_temperature=flat,
        barrel_gas_mass=mass,
        ball_position=_TRAVEL * flight**2 * moves,
        ball_speed=ball_speed * flight * moves,
        ball_spin=np.full(_SAMPLES, 2000.0) * (flight > 0.1),
        gas_mass_lost=np.zeros(_SAMPLES),
        events=tuple(events),
        outcome=outcome,
        ledger=ledger,
        solver=SolverCounts(steps=100, rejected=4, evaluations=900),
        notes=(),
        figures=ShotSummary(
            outcome=outcome,
            muzzle_speed=ball_speed * moves,
            muzzle_energy=0.5 * 0.0002 * ball_speed**2 * moves,
            backspin=2000.0 * moves,
            spin_ratio=0.06 * moves,
            time_to_muzzle=_LEAVES if moves else None,
            time_to_slam=_LANDS,
            time_to_rest=_RESTS,
            peak_pressure=float(pressure.max()),
            peak_temperature=470.0,
            slam_speed=4.2,
            gas_behind_ball=2.8e-5,
            pressure_behind_ball=1.6e5,
        ),
    )


AS_FOUND_LEDGER = dataclasses.replace(
    LEDGER,
    ball_flight=0.640,
    seal_drag=0.330,
    slam=0.180,
    blown_out=0.420,
    left_in_air=-0.136,
    leaked_at_cylinder=0.230,
    leaked_at_lip=0.090,
    leaked_past_ball=0.070,
)
