"""The shot's kernel with everything closed: a constant push on a piston, against closed form and independent integration.

The cylinder is all stroke, with next to no dead volume, so that its whole wall is wetted at the start.
"""

from __future__ import annotations

import functools
import math
from collections.abc import Callable

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from stripdown.core.interior_ballistics.closed_forms import closed_cylinder_compression
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
from tests.published import Published

BORE, VOLUME, MASS = 0.024, 25e-6, 0.025
AREA = math.pi * BORE**2 / 4
LENGTH = VOLUME / AREA
ATMOSPHERE, ROOM, GAS_CONSTANT = 101325.0, 293.15, 287.05
NO_SLOT = PortSlot(start=0.0, length=0.0, width=0.0, count=0)
FORCES = [40.0, 60.0, 90.0]


def _closed(force: float, law: HeatLaw) -> ShotParameters:
    """A cylinder without an opening, a piston without friction, and a spring so soft and so far pressed that it pushes evenly."""
    return ShotParameters(
        spring=Spring(rate=1e-6, preload=force * 1e6, mass=0.0),
        piston=Piston(
            mass=MASS, head_mass=0.0, vented=False, vent_area=0.0, seal_drag=0.0, seal_pressure_friction=0.0, seal_area=0.0
        ),
        cylinder=Cylinder(
            bore=BORE, stroke=0.9999 * LENGTH, dead_volume=1e-4 * VOLUME, port_1=NO_SLOT, port_2=NO_SLOT, port_3=NO_SLOT
        ),
        cylinder_head=CylinderHead(restitution=0.0, capture_speed=0.01),
        nozzle=Nozzle(bore=0.0, discharge_coefficient=1.0, critical_ratio=0.5, dead_volume=1e-6),
        leaks=Leaks(piston_seal=0.0, head_ring=0.0, nozzle_tube=0.0, hop_lip=0.0, discharge_coefficient=1.0, critical_ratio=0.5),
        hop_up=HopUp(
            normal_force=0.0, patch_length=1.0, top_friction=0.0, floor_friction=0.0, break_away_force=1.0, break_away_length=1.0
        ),
        barrel=Barrel(bore=6e-3, length=0.3, seat_depth=0.0, friction_force=0.0),
        ball=Ball(mass=0.2e-3, diameter=6e-3),
        ambient=Ambient(
            temperature=ROOM, pressure=ATMOSPHERE, wall_temperature=ROOM, gas_constant=GAS_CONSTANT, heat_capacity_ratio=1.4
        ),
        laws=ShotLaws(
            flow_law=FlowLaw.ISENTROPIC,
            cylinder_heat_law=law,
            laminar_ratio=0.999,
            cylinder_heat=1.0,
            barrel_heat=0.0,
            heat_speed_floor=1e-3,
            gas_inertia=0.0,
            air_ahead_inertia=0.0,
            air_ahead_friction=0.0,
            annulus_discharge=0.75,
            muzzle_discharge=1.0,
            stiction_speed=0.02,
            longest_time=0.012,
        ),
        piston_start_speed=0.0,
    )


@functools.cache
def _shot(force: float, law: HeatLaw) -> Shot:
    return run_one(_closed(force, law), settings_row(tolerance=1e-8))


def _turn(shot: Shot) -> tuple[float, float, float, float]:
    """Time, travel, pressure and temperature where the piston first turns, interpolated in its speed."""
    index = int(np.argmax(shot.piston_speed[1:] <= 0.0)) + 1
    part = shot.piston_speed[index - 1] / (shot.piston_speed[index - 1] - shot.piston_speed[index])
    traces = (shot.time, shot.piston_position, shot.cylinder_pressure, shot.cylinder_temperature)
    time, travel, pressure, temperature = (float(trace[index - 1] + part * (trace[index] - trace[index - 1])) for trace in traces)
    return time, travel, pressure, temperature


@pytest.mark.source(
    "derived",
    "E = p0 V0/(g-1) (r^(g-1) - 1) - p0 V0 (1 - 1/r), E = force times travel",
    rtol=2e-4,
    because="the turn is interpolated",
)
@pytest.mark.parametrize("force", FORCES)
def test_derived_isentropic_bound(published: Published, force: float) -> None:
    """Without heat the piston turns where the closed form says, at its pressure and temperature."""
    _, travel, pressure, temperature = _turn(_shot(force, HeatLaw.NONE))
    bound = closed_cylinder_compression(volume=VOLUME, pressure=ATMOSPHERE, temperature=ROOM, work=force * travel)
    published(f"volume ratio, {force:g} N", found=1.0 / (1.0 - travel / LENGTH), expected=bound.volume_ratio, unit="1")
    published(f"peak pressure, {force:g} N", found=pressure, expected=bound.pressure, unit="Pa")
    published(f"peak temperature, {force:g} N", found=temperature, expected=bound.temperature, unit="K")


@pytest.mark.source(
    "derived", "25 g under 40, 60 and 90 N in 25 cm3, worked to two figures", rtol=0.01, because="worked to two figures"
)
@pytest.mark.parametrize(("force", "milliseconds"), [(40.0, 8.7), (60.0, 7.4), (90.0, 6.1)])
def test_derived_time_of_the_stroke(published: Published, force: float, milliseconds: float) -> None:
    """The stroke to the turn takes 8.7, 7.4 and 6.1 ms."""
    published(
        f"time to the turn, {force:g} N", found=_turn(_shot(force, HeatLaw.ADAIR))[0], expected=milliseconds * 1e-3, unit="s"
    )


@pytest.mark.source(
    "derived",
    "25 g under 40, 60 and 90 N in 25 cm3, an earlier integration of the same laws",
    rtol=0.02,
    because="worked to two figures",
)
@pytest.mark.parametrize(
    ("law", "shares"),
    [(HeatLaw.ADAIR, (0.041, 0.043)), (HeatLaw.WOSCHNI, (0.063, 0.066)), (HeatLaw.HOHENBERG, (0.082, 0.084))],
    ids=["Adair", "Woschni", "Hohenberg"],
)
def test_derived_heat_of_the_stroke(published: Published, law: HeatLaw, shares: tuple[float, float]) -> None:
    """The three laws take four to eight per cent of the compression work; the peak pressure hardly changes."""
    for force in FORCES:
        shot, without = _shot(force, law), _shot(force, HeatLaw.NONE)
        _, travel, _, temperature = _turn(shot)
        work = (force + ATMOSPHERE * AREA) * travel
        lost = work - ATMOSPHERE * VOLUME / 0.4 * (temperature / ROOM - 1.0)
        published.within(f"heat over work, {force:g} N", found=round(lost / work, 3), low=shares[0], high=shares[1], unit="1")
        change = float(shot.cylinder_pressure.max() / without.cylinder_pressure.max()) - 1.0
        published.within(f"change of peak pressure, {force:g} N", found=change, low=-0.01, high=0.01, unit="1")
        cooler = float(without.cylinder_temperature.max() - shot.cylinder_temperature.max())
        published.within(f"fall of the peak temperature, {force:g} N", found=round(cooler), low=5.0, high=21.0, unit="K")


def _adair(speed: float, pressure: float, temperature: float, volume: float) -> float:
    """The published equation, with the short formulas for air written out."""
    del volume
    viscosity = 1.458e-6 * temperature**1.5 / (temperature + 110.4)
    conductivity = 2.436e-3 * temperature**1.5 / (temperature + 178.2)
    reynolds = pressure / (GAS_CONSTANT * temperature) * speed * BORE / viscosity
    return float(0.053 * conductivity / BORE * reynolds**0.8 * 0.703**0.6)


def _woschni(speed: float, pressure: float, temperature: float, volume: float) -> float:
    """The published equation, pressure in bar."""
    del volume
    return float(129.8 * BORE**-0.2 * (pressure / 1e5) ** 0.8 * temperature**-0.53 * (2.28 * speed) ** 0.8)


def _hohenberg(speed: float, pressure: float, temperature: float, volume: float) -> float:
    """The published equation, pressure in bar."""
    return float(129.8 * volume**-0.06 * (pressure / 1e5) ** 0.8 * temperature**-0.4 * (speed + 1.4) ** 0.8)


@pytest.mark.source(
    "scipy", "solve_ivp, Radau, of piston and gas with the published heat law", rtol=5e-4, because="the turn is interpolated"
)
@pytest.mark.parametrize(
    ("law", "coefficient"),
    [(HeatLaw.ADAIR, _adair), (HeatLaw.WOSCHNI, _woschni), (HeatLaw.HOHENBERG, _hohenberg)],
    ids=["Adair", "Woschni", "Hohenberg"],
)
def test_scipy_stroke_with_heat(published: Published, law: HeatLaw, coefficient: Callable[..., float]) -> None:
    """Heat lost, peak pressure and temperature, and the time are those of an independent integration."""
    force = 60.0
    air_mass = ATMOSPHERE * VOLUME / (GAS_CONSTANT * ROOM)

    def slope(_: float, state: list[float]) -> list[float]:
        position, speed, energy, _ = state
        volume = VOLUME - AREA * position
        pressure, temperature = 0.4 * energy / volume, 0.4 * energy / (air_mass * GAS_CONSTANT)
        wetted = 2.0 * AREA + math.pi * BORE * volume / AREA
        heat = coefficient(max(speed, 1e-9), pressure, temperature, volume) * wetted * (temperature - ROOM)
        return [speed, (force - (pressure - ATMOSPHERE) * AREA) / MASS, pressure * AREA * speed - heat, heat]

    def turns(time: float, state: list[float]) -> float:
        return state[1] if time > 1e-4 else 1.0

    turns.terminal = True  # type: ignore[attr-defined]
    start = [0.0, 0.0, ATMOSPHERE * VOLUME / 0.4, 0.0]
    run = solve_ivp(slope, (0.0, 0.1), start, method="Radau", rtol=1e-9, atol=1e-12, events=turns)
    position, _, energy, heat = (float(value) for value in run.y[:, -1])
    time, travel, pressure, temperature = _turn(_shot(force, law))
    published("time to the turn", found=time, expected=float(run.t[-1]), unit="s")
    published("peak pressure", found=pressure, expected=0.4 * energy / (VOLUME - AREA * position), unit="Pa")
    published("temperature at the turn", found=temperature, expected=0.4 * energy / (air_mass * GAS_CONSTANT), unit="K")
    stored = air_mass * GAS_CONSTANT / 0.4 * (temperature - ROOM) - ATMOSPHERE * AREA * travel
    published("heat lost", found=force * travel - stored, expected=heat, unit="J", rtol=0.005)
