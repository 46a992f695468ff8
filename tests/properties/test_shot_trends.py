"""How a shot must change with the gun: limits in closed form, exact similarities, and trends that no gun escapes."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.closed_forms import (
    IdealLaunch,
    adiabatic_launch_speed,
    closed_cylinder_compression,
    isothermal_launch_speed,
)
from stripdown.core.interior_ballistics.parameters import HeatLaw, ShotParameters
from stripdown.core.interior_ballistics.reservoir import simulate_reservoir_launch
from stripdown.core.interior_ballistics.result import Outcome, Shot
from stripdown.core.interior_ballistics.simulate import integrate_shots, run_one, settings_row
from stripdown.quantities import leaves, replace_at, value_at
from tests.properties.strategies import usual_guns

GUNS = {key: gun.parameters for key, gun in load_guns().items()}
RIFLE = GUNS["full_stroke_rifle"]
BALLS = np.array([0.12e-3, 0.20e-3, 0.25e-3, 0.30e-3, 0.36e-3])

each_gun = pytest.mark.parametrize("gun", GUNS.values(), ids=GUNS)


def change(gun: ShotParameters, values: dict[str, object]) -> ShotParameters:
    """A gun with some leaves replaced."""
    for path, value in values.items():
        gun = replace_at(gun, path, value)
    return gun


def fire(gun: ShotParameters, tolerance: float = 1e-6, *, with_ball: bool = True) -> Shot:
    """One shot, whatever it shows."""
    return run_one(gun, settings_row(tolerance=tolerance, with_ball=with_ball))


TIGHT_BOX: dict[str, object] = {
    "laws.cylinder_heat_law": HeatLaw.NONE,
    "laws.barrel_heat": 0.0,
    "leaks.piston_seal": 0.0,
    "leaks.head_ring": 0.0,
    "leaks.nozzle_tube": 0.0,
    "leaks.hop_lip": 0.0,
    "cylinder.port_1.count": 0,
    "piston.seal_drag": 0.0,
    "piston.seal_pressure_friction": 0.0,
    "hop_up.break_away_force": 100.0,  # holds the ball against any pressure
}


@pytest.mark.parametrize("preload", [0.030, 0.055, 0.080])
def test_a_stuck_ball_in_a_tight_box_meets_the_isentropic_limit(preload: float) -> None:
    """Nothing lost, nozzle wide: at the piston's turning point the air is pressed as the closed form says."""
    wide = {"nozzle.bore": 0.05, "nozzle.discharge_coefficient": 1.0, "spring.preload": preload, "laws.longest_time": 0.02}
    gun = change(RIFLE, TIGHT_BOX | wide)
    shot = fire(gun, 1e-7)
    turning = int(np.argmax(shot.piston_position[: int(np.argmax(shot.piston_speed < 0.0)) + 1]))
    travel = float(shot.piston_position[turning])
    assert travel < gun.cylinder.stroke
    drawn = gun.spring.preload + gun.cylinder.stroke
    expected = closed_cylinder_compression(
        volume=gun.cylinder.dead_volume + gun.nozzle.dead_volume + 0.25 * math.pi * gun.cylinder.bore**2 * gun.cylinder.stroke,
        pressure=gun.ambient.pressure,
        temperature=gun.ambient.temperature,
        work=gun.spring.rate * travel * (drawn - 0.5 * travel),
    )
    assert shot.figures.peak_pressure == pytest.approx(expected.pressure, rel=1e-3)
    swept = 0.25 * math.pi * gun.cylinder.bore**2 * travel
    volume = gun.cylinder.dead_volume + gun.nozzle.dead_volume + 0.25 * math.pi * gun.cylinder.bore**2 * gun.cylinder.stroke
    assert volume / (volume - swept) == pytest.approx(expected.volume_ratio, rel=1e-4)


@each_gun
def test_no_gun_presses_its_air_beyond_the_isentropic_limit(gun: ShotParameters) -> None:
    """With all that the spring gives over the whole stroke, pressure and temperature stay below the closed form."""
    shot = fire(gun, 1e-4)
    limit = closed_cylinder_compression(
        volume=gun.cylinder.dead_volume + gun.nozzle.dead_volume + 0.25 * math.pi * gun.cylinder.bore**2 * gun.cylinder.stroke,
        pressure=gun.ambient.pressure,
        temperature=gun.ambient.temperature,
        work=0.5 * gun.spring.rate * ((gun.spring.preload + gun.cylinder.stroke) ** 2 - gun.spring.preload**2),
    )
    assert shot.figures.peak_pressure < limit.pressure
    assert shot.figures.peak_temperature < limit.temperature


LAUNCH = IdealLaunch(
    reservoir_pressure=6e5, reservoir_volume=20e-6, bore_diameter=6.05e-3, travel=0.35, ball_mass=0.2e-3, friction_force=0.3
)


def _launch(**more: float) -> float:
    shot = simulate_reservoir_launch(
        reservoir_pressure=LAUNCH.reservoir_pressure,
        reservoir_volume=LAUNCH.reservoir_volume,
        bore_diameter=LAUNCH.bore_diameter,
        travel=LAUNCH.travel,
        ball_mass=LAUNCH.ball_mass,
        friction_force=LAUNCH.friction_force,
        gas_inertia=False,
        air_ahead_inertia=False,
        **more,  # type: ignore[arg-type]
    )
    return shot.figures.muzzle_speed


def test_one_volume_of_air_launches_the_ball_as_the_closed_form_says() -> None:
    """With the piston held, no passage, no inertia of air, the muzzle speed is the adiabatic one."""
    assert _launch(tolerance=1e-9) == pytest.approx(adiabatic_launch_speed(LAUNCH), rel=1e-7)


def test_walls_that_give_all_heat_at_once_launch_isothermally() -> None:
    """With the pipe law multiplied a hundred thousand times the launch is the isothermal one."""
    assert _launch(heat=True, heat_multiplier=1e5, tolerance=1e-7) == pytest.approx(isothermal_launch_speed(LAUNCH), rel=2e-3)


def test_a_wide_passage_is_no_passage() -> None:
    """Two volumes joined by an opening far wider than the bore launch as one does."""
    wide = _launch(passage_area=1e-2, tolerance=1e-7)
    assert wide == pytest.approx(adiabatic_launch_speed(LAUNCH), rel=1e-3)
    assert _launch(passage_area=5e-6) < wide


def test_a_held_piston_is_a_reservoir_launch() -> None:
    """A gun whose drawn piston is held and whose cylinder is charged launches as a reservoir of the same size does."""
    gun = change(
        RIFLE,
        TIGHT_BOX
        | {
            "hop_up.break_away_force": 0.0,
            "hop_up.normal_force": 0.0,
            "laws.air_ahead_friction": 0.0,
            "laws.annulus_discharge": 0.0,
            "laws.gas_inertia": 1.0 / 3.0,
            "laws.flow_law": 1,
            "nozzle.critical_ratio": 0.5,
            "laws.laminar_ratio": 0.999,
            "barrel.friction_force": 0.1,
            "ambient.gas_constant": 287.05,
        },
    )
    held = settings_row(tolerance=1e-8, piston_held=True, reservoir_pressure=5e5, reservoir_temperature=gun.ambient.temperature)
    launched = simulate_reservoir_launch(
        reservoir_pressure=5e5,
        reservoir_volume=gun.cylinder.dead_volume + 0.25 * math.pi * gun.cylinder.bore**2 * gun.cylinder.stroke,
        reservoir_temperature=gun.ambient.temperature,
        bore_diameter=gun.barrel.bore,
        travel=gun.barrel.length - gun.barrel.seat_depth,
        ball_mass=gun.ball.mass,
        pressure_ahead=gun.ambient.pressure,
        passage_area=0.25 * math.pi * gun.nozzle.bore**2,
        discharge_coefficient=gun.nozzle.discharge_coefficient,
        volume_behind_ball=gun.nozzle.dead_volume,
        friction_force=0.1,
        tolerance=1e-8,
    )
    assert run_one(gun, held).figures.muzzle_speed == pytest.approx(launched.figures.muzzle_speed, rel=1e-6)


# Units whose doubling leaves every speed alone, by the power with which a leaf of that unit is scaled.
_TWICE_THE_FORCE = {"N": 1, "N/m": 1, "kg": 1, "Pa": 1}
_TWICE_THE_SIZE = {"m": 1, "m2": 2, "m3": 3, "kg": 3, "N": 2, "N/m": 1, "s": 1}


def scale(gun: ShotParameters, powers: dict[str, int], factor: float) -> ShotParameters:
    """A gun with every number scaled by the power that its unit has."""
    for leaf in leaves(ShotParameters):
        power = powers.get(leaf.quantity.unit, 0) if leaf.quantity is not None else 0
        if power:
            gun = replace_at(gun, leaf.path, value_at(gun, leaf.path) * factor**power)
    return gun


@given(usual_guns(), st.sampled_from(["force", "size"]))
def test_a_similar_gun_shoots_with_the_same_speeds(gun: ShotParameters, what: str) -> None:
    """All masses, forces, rates and pressures doubled, or all lengths doubled in keeping, leave every speed alone (no heat)."""
    gun = change(gun, {"laws.cylinder_heat_law": HeatLaw.NONE, "laws.barrel_heat": 0.0})
    twin = scale(gun, _TWICE_THE_FORCE if what == "force" else _TWICE_THE_SIZE, 2.0)
    shot, similar = fire(gun, 1e-7), fire(twin, 1e-7)
    assert similar.outcome is shot.outcome
    assert similar.figures.muzzle_speed == pytest.approx(shot.figures.muzzle_speed, rel=1e-5)
    assert similar.figures.slam_speed == pytest.approx(shot.figures.slam_speed, rel=1e-4)
    by = 2.0 if what == "force" else 8.0
    assert similar.ledger.spring_work == pytest.approx(by * shot.ledger.spring_work, rel=1e-6)


@each_gun
@pytest.mark.parametrize(("leak", "area"), [("leaks.hop_lip", 0.7e-6), ("leaks.piston_seal", 1.2e-6)])
def test_a_leak_costs_more_per_cent_with_a_heavier_ball(gun: ShotParameters, leak: str, area: float) -> None:
    """A heavier ball stays longer over the leak, so the share of speed that the leak takes grows with its mass."""
    whole = integrate_shots(gun, variations={"ball.mass": BALLS}, tolerance=1e-6, until_muzzle=True, threads=1)
    leaky = integrate_shots(
        gun, variations={"ball.mass": BALLS, leak: np.full(len(BALLS), area)}, tolerance=1e-6, until_muzzle=True, threads=1
    )
    lost = 1.0 - leaky.muzzle_speed / whole.muzzle_speed
    assert (lost > 0.0).all()
    assert (np.diff(lost) > 0.0).all()


@each_gun
def test_the_piston_slams_hardest_without_a_ball(gun: ShotParameters) -> None:
    """Every ball leaves a cushion, so an empty gun's piston lands faster than with any ball."""
    empty = fire(gun, 1e-4, with_ball=False).figures.slam_speed
    balls = integrate_shots(gun, variations={"ball.mass": BALLS}, threads=1)
    assert (balls.rows["slam_speed"] < empty).all()


@each_gun
def test_there_is_a_best_barrel_length(gun: ShotParameters) -> None:
    """Speed rises with the barrel's length, reaches its best inside the range, and falls when the air runs out."""
    lengths = np.linspace(0.1, 1.2, 23)
    batch = integrate_shots(gun, variations={"barrel.length": lengths}, tolerance=1e-5, until_muzzle=True, threads=1)
    best = int(np.argmax(batch.muzzle_speed))
    assert 0 < best < len(lengths) - 1
    assert (np.diff(batch.muzzle_speed[: best + 1]) > 0.0).all()
    assert (np.diff(batch.muzzle_speed[best:]) < 0.0).all()


@each_gun
def test_a_piston_drawn_back_at_release_gives_more(gun: ShotParameters) -> None:
    """A piston that is still drawn back as it is released brings its energy with it, and returns it."""
    batch = integrate_shots(gun, variations={"piston_start_speed": [0.0, -0.75, -1.5]}, tolerance=1e-6, threads=1)
    assert (np.diff(batch.rows["start_energy"]) > 0.0).all()
    assert (np.diff(batch.muzzle_speed) > 0.0).all()


def test_a_vented_head_lets_the_piston_bounce_on_less_suction() -> None:
    """Holes behind the ring let air in when the cylinder is below the outside: its lowest pressure is higher than without."""
    gun = change(RIFLE, {"cylinder_head.restitution": 0.6, "barrel.length": 0.6})
    vented, plain = (fire(change(gun, {"piston.vented": vented}), 1e-6) for vented in (True, False))
    assert plain.cylinder_pressure.min() < gun.ambient.pressure
    assert vented.cylinder_pressure.min() > plain.cylinder_pressure.min()


def test_a_vent_that_never_opens_changes_nothing() -> None:
    """A check valve in a cylinder that never falls below the outside is no valve: the same shot bit for bit to the muzzle."""
    vented, plain = (
        run_one(change(RIFLE, {"piston.vented": is_vented}), settings_row(tolerance=1e-4, until_muzzle=True))
        for is_vented in (True, False)
    )
    assert vented.outcome is Outcome.LEFT_MUZZLE
    assert vented.cylinder_pressure.min() >= RIFLE.ambient.pressure * (1.0 - 1e-9)
    assert vented.figures == plain.figures
