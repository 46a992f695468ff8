"""The shot's kernel with the piston held, against worked launches: the same figures as the closed forms, by integration."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import solve_ivp

from stripdown.core.interior_ballistics.reservoir import simulate_reservoir_launch
from stripdown.core.interior_ballistics.result import Shot
from tests.published import Published

AREA = 30e-6
BORE = math.sqrt(4 * AREA / math.pi)
# A multiplier on the wall heat so large that the air keeps the wall's temperature.
ISOTHERMAL = 1e6


def _bare_launch(expansion: float, *, pressure: float, volume: float, mass: float, isothermal: bool) -> Shot:
    """One volume that grows by the given factor against 100 kPa, air without inertia, at 300.15 K."""
    return simulate_reservoir_launch(
        reservoir_pressure=pressure,
        reservoir_volume=volume,
        reservoir_temperature=300.15,
        bore_diameter=BORE,
        travel=volume * (expansion - 1.0) / AREA,
        ball_mass=mass,
        pressure_ahead=100e3,
        gas_inertia=False,
        air_ahead_inertia=False,
        heat=isothermal,
        heat_multiplier=ISOTHERMAL,
    )


@pytest.mark.source("serway_jewett", "problem 21.56, solution", rtol=0.003, because="printed to three figures")
def test_serway_jewett_problem_21_56_integrated(published: Published) -> None:
    """Integrated, the printed pressure drives 1.10 g to 120 m/s into an evacuated bore."""
    shot = simulate_reservoir_launch(
        reservoir_pressure=5.74e6,
        reservoir_volume=12.0e-6,
        bore_diameter=math.sqrt(4 * 0.03e-4 / math.pi),
        travel=0.50,
        ball_mass=1.10e-3,
        pressure_ahead=0.0,
        gas_inertia=False,
        air_ahead_inertia=False,
    )
    published("speed", found=shot.summary().muzzle_speed, expected=120.0, unit="m/s")
    published("energy", found=shot.summary().muzzle_energy, expected=7.92, unit="J")


@pytest.mark.source(
    "derived", "W = p V ln r - p_a (r - 1) V, given quantities of learnthermo_4c4", rtol=0.001, because="worked to four figures"
)
@pytest.mark.parametrize(
    ("expansion", "pressure", "volume", "mass", "speed"),
    [(10.0, 1e6, 1e-6, 0.015, 13.68), (12.0, 1.2e6, 1.5e-6, 0.020, 16.80)],
    ids=["15 g", "20 g"],
)
def test_derived_learnthermo_4c4_integrated(
    published: Published, expansion: float, pressure: float, volume: float, mass: float, speed: float
) -> None:
    """With walls that hold the temperature the kernel gives the isothermal answers."""
    shot = _bare_launch(expansion, pressure=pressure, volume=volume, mass=mass, isothermal=True)
    published("speed", found=shot.summary().muzzle_speed, expected=speed, unit="m/s")


@pytest.mark.source(
    "derived",
    "W = (p V - p2 V2)/(g - 1) - p_a (V2 - V), given quantities of borgnakke_sonntag, problem 8.132",
    rtol=0.001,
    because="worked to four figures",
)
def test_derived_borgnakke_sonntag_8_132_integrated(published: Published) -> None:
    """Without heat the kernel gives the adiabatic answer, and the pressure comes down to the air outside."""
    expansion = 2.5 ** (1 / 1.4)
    shot = _bare_launch(expansion, pressure=250e3, volume=1e-6, mass=0.020, isothermal=False)
    work = (250e3 * 1e-6 - 100e3 * expansion * 1e-6) / 0.4 - 100e3 * (expansion - 1.0) * 1e-6
    published("speed", found=shot.summary().muzzle_speed, expected=math.sqrt(2.0 * work / 0.020), unit="m/s")
    published("pressure behind the ball", found=shot.summary().pressure_behind_ball, expected=100e3, unit="Pa")


@pytest.mark.source(
    "derived",
    "m + k rho A x moved by p A: v^2 = 2 p/(k rho) ln(1 + k rho A x/m), k = 1/3",
    rtol=1e-4,
    because="a large reservoir, not an endless one",
)
@pytest.mark.parametrize("mass", [0.5e-3, 2e-3, 20e-3])
def test_derived_endless_reservoir_with_moving_air(published: Published, mass: float) -> None:
    """From an endless reservoir into vacuum a third of the air in the tube moves with the ball."""
    area, travel, pressure, temperature = math.pi * 0.02**2 / 4, 0.5, 101325.0, 293.15
    shot = simulate_reservoir_launch(
        reservoir_pressure=pressure,
        reservoir_volume=10.0,
        reservoir_temperature=temperature,
        bore_diameter=0.02,
        travel=travel,
        ball_mass=mass,
        pressure_ahead=0.0,
        tolerance=1e-8,
    )
    carried = pressure / (287.05 * temperature) / 3.0
    expected = math.sqrt(2.0 * pressure / carried * math.log1p(carried * area * travel / mass))
    published(f"speed of {mass * 1e3:g} g", found=shot.summary().muzzle_speed, expected=expected, unit="m/s")


@pytest.mark.source(
    "scipy", "solve_ivp, Radau, of two gas volumes with a choking passage", rtol=1e-4, because="tolerances of both integrations"
)
@pytest.mark.parametrize("passage", [2e-6, 8e-6, 15e-6])
def test_scipy_launch_through_a_passage(published: Published, passage: float) -> None:
    """A narrow passage between reservoir and barrel slows the launch as an independent integration says."""
    pressure, volume, mass, travel, ambient = 6e5, 10e-6, 0.3e-3, 0.3, 101325.0
    area = math.pi * 6e-3**2 / 4
    behind = area * 1e-3
    start = [pressure * volume, ambient * behind, pressure * volume / (287.05 * 293.15), ambient * behind / (287.05 * 293.15)]

    def slope(_: float, state: list[float]) -> list[float]:
        first_energy, second_energy, first_mass, second_mass, position, speed = state
        swept = behind + area * position
        pressures = (first_energy / volume, second_energy / swept)
        temperatures = (first_energy / (287.05 * first_mass), second_energy / (287.05 * second_mass))
        source = 0 if pressures[0] > pressures[1] else 1
        ratio = max(pressures[1 - source] / pressures[source], (2 / 2.4) ** 3.5)
        flow = math.sqrt(max(7.0 * (ratio ** (2 / 1.4) - ratio ** (2.4 / 1.4)), 0.0))
        flow *= passage * pressures[source] / math.sqrt(287.05 * temperatures[source]) * (1 if source == 0 else -1)
        heat = 1.4 * 287.05 * temperatures[source] * flow
        return [-heat, heat - 0.4 * pressures[1] * area * speed, -flow, flow, speed, (pressures[1] - ambient) * area / mass]

    def leaves(_: float, state: list[float]) -> float:
        return state[4] - travel

    leaves.terminal = True  # type: ignore[attr-defined]
    end = solve_ivp(slope, (0.0, 0.1), [*start, 0.0, 0.0], method="LSODA", rtol=1e-9, atol=1e-14, events=leaves).y[:, -1]
    shot = simulate_reservoir_launch(
        reservoir_pressure=pressure,
        reservoir_volume=volume,
        bore_diameter=6e-3,
        travel=travel,
        ball_mass=mass,
        passage_area=passage,
        gas_inertia=False,
        air_ahead_inertia=False,
    )
    published(f"speed through {passage * 1e6:g} mm2", found=shot.summary().muzzle_speed, expected=float(end[5]), unit="m/s")
