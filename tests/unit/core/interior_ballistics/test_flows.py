"""The shot's laws one by one: constants by hand, passages, ports, heat, lips and mound."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics import flows
from stripdown.core.interior_ballistics.parameters import FlowLaw, HeatLaw, ShotParameters
from stripdown.core.mechanics.orifice_flow import flow_shape_isentropic, flow_shape_iso6358, isentropic_mass_flow
from stripdown.quantities import replace_at
from tests.shot_problem import ShotProblem

CARBINE = load_guns()["carbine"].parameters


def constants(gun: ShotParameters = CARBINE) -> Any:
    """The row of constants of a gun."""
    return ShotProblem(gun).constants


def gas(c: Any, pressure: float, temperature: float) -> flows.Gas:
    """Air of a pressure and a temperature."""
    return flows.Gas(pressure, pressure / (c.gas_constant * temperature), temperature, math.sqrt(temperature))


def test_constants_are_what_the_parts_say() -> None:
    """Areas, masses, travel and drawn compression, each worked by hand from the parts."""
    c, p = constants(), CARBINE
    assert c.cylinder_area == pytest.approx(math.pi * p.cylinder.bore**2 / 4, rel=1e-15)
    assert c.moving_mass == pytest.approx(p.piston.mass + p.piston.head_mass + p.spring.mass / 3, rel=1e-15)
    assert c.travel == pytest.approx(p.barrel.length - p.barrel.seat_depth, rel=1e-15)
    assert c.drawn_compression == pytest.approx(p.spring.preload + p.cylinder.stroke, rel=1e-15)
    assert c.ball_inertia == pytest.approx(0.4 * p.ball.mass * (p.ball.diameter / 2) ** 2, rel=1e-15)
    assert c.heat_capacity_pressure - c.heat_capacity_volume == pytest.approx(p.ambient.gas_constant, rel=1e-14)


def test_leaks_in_parallel_add_up() -> None:
    """Seal, head ring and nozzle tube are one passage: only their sum matters."""
    total = 0.3e-6
    alone = replace_at(
        replace_at(replace_at(CARBINE, "leaks.piston_seal", total), "leaks.head_ring", 0.0), "leaks.nozzle_tube", 0.0
    )
    shared = alone
    for path in ("leaks.piston_seal", "leaks.head_ring", "leaks.nozzle_tube"):
        shared = replace_at(shared, path, total / 3)
    assert constants(alone).cylinder_leak == pytest.approx(constants(shared).cylinder_leak, rel=1e-14)


def test_an_unvented_head_has_no_vents() -> None:
    """Vents count only in a head that is vented."""
    assert constants(replace_at(CARBINE, "piston.vented", value=False)).vent == 0.0
    assert constants(replace_at(CARBINE, "piston.vented", value=True)).vent > 0.0


@pytest.mark.parametrize("law", list(FlowLaw))
@pytest.mark.parametrize("beyond", [0.2, 0.5, 0.7, 0.9, 0.99, 0.9995, 1.0])
def test_flow_turns_its_sign_with_its_sides(law: FlowLaw, beyond: float) -> None:
    """Exchanged, the two sides have the opposite flow, bit for bit, and equal pressures have none."""
    c = constants(replace_at(CARBINE, "laws.flow_law", law))
    first, second = gas(c, 4e5, 400.0), gas(c, beyond * 4e5, 300.0)
    forwards = flows.flow_per_conductance(c, c.nozzle, first, second)
    assert flows.flow_per_conductance(c, c.nozzle, second, first) == -forwards
    assert (forwards == 0.0) == (beyond == 1.0)
    assert forwards >= 0.0


@pytest.mark.parametrize("ratio", [0.1, 0.5283, 0.6, 0.8, 0.95, 0.998])
def test_the_isentropic_law_is_that_of_the_nozzle(ratio: float) -> None:
    """Away from equal pressures conductance times flow is the mass flow of an ideal nozzle of that area."""
    c = constants(replace_at(CARBINE, "laws.flow_law", FlowLaw.ISENTROPIC))
    inside, outside = gas(c, 3e5, 350.0), gas(c, ratio * 3e5, 293.15)
    area = CARBINE.nozzle.discharge_coefficient * math.pi * CARBINE.nozzle.bore**2 / 4
    expected = isentropic_mass_flow(3e5, 350.0, ratio * 3e5, area, c.gas_constant, c.heat_capacity_ratio)
    found = c.nozzle_conductance * flows.flow_per_conductance(c, c.nozzle, inside, outside)
    assert found == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("law", list(FlowLaw))
@pytest.mark.parametrize("laminar_ratio", [0.99, 0.995, 0.999])
def test_the_laminar_start_joins_the_law_smoothly(law: FlowLaw, laminar_ratio: float) -> None:
    """At the laminar ratio value and slope of the start meet the law, and from rest the flow grows all the way."""
    gun = replace_at(replace_at(CARBINE, "laws.flow_law", law), "laws.laminar_ratio", laminar_ratio)
    c = constants(gun)
    critical, heat = float(c.nozzle.critical_ratio), float(c.heat_capacity_ratio)

    def by_law(ratio: float) -> float:
        return flow_shape_isentropic(ratio, heat) if law is FlowLaw.ISENTROPIC else flow_shape_iso6358(ratio, critical)

    width = 1.0 - laminar_ratio
    step = 1e-5 * width
    start = [flows.flow_shape(c, c.nozzle, laminar_ratio + k * step) for k in (1, 2)]
    assert start[0] == pytest.approx(by_law(laminar_ratio), rel=1e-4)
    start_slope = (start[1] - start[0]) / step
    law_slope = (by_law(laminar_ratio) - by_law(laminar_ratio - step)) / step
    assert start_slope == pytest.approx(law_slope, rel=1e-2)
    shapes = [flows.flow_shape(c, c.nozzle, ratio) for ratio in np.linspace(1.0, 0.9, 400)]
    assert (np.diff(shapes) > 0.0).all()
    assert shapes[0] == 0.0


@pytest.mark.parametrize(
    ("travel", "sides", "part"),
    [
        (0.0, (1, 1), 1.0),
        (0.0024, (-1, 1), 1.0),
        (0.0044, (-1, 1), 0.75),
        (0.0104, (-1, 1), 0.0),
        (0.0204, (-1, -1), 0.0),
    ],
)
def test_a_port_is_open_as_far_as_the_seal_has_not_passed(travel: float, sides: tuple[int, int], part: float) -> None:
    """The slot of 8 by 4 mm from 2.4 mm on is open whole, three quarters, or not at all, by the seal's place."""
    c = constants()
    edges = np.array([*sides, 0.0, 0.0, 0.0, 0.0], dtype=np.float64)
    whole = flows.port_conductance(c, np.array([1.0, 1.0, 0.0, 0.0, 0.0, 0.0]), 0.0)
    per_area = c.nozzle_conductance / (CARBINE.nozzle.discharge_coefficient * math.pi * CARBINE.nozzle.bore**2 / 4)
    assert whole == pytest.approx(per_area * CARBINE.leaks.discharge_coefficient * 8e-3 * 4e-3, rel=1e-12)
    assert flows.port_conductance(c, edges, travel) == pytest.approx(part * whole, rel=1e-12, abs=1e-15 * whole)


def test_lips_and_mound_let_go_smoothly() -> None:
    """Lips hold their force at the seat and nothing at the end of their length; the nub's force ends where the patch does."""
    c, hop = constants(), CARBINE.hop_up
    assert flows.lip_force(c, 0.0) == hop.break_away_force
    assert flows.lip_force(c, hop.break_away_length) == 0.0
    assert flows.lip_force(c, 0.9999 * hop.break_away_length) < 1e-9
    assert flows.nub_force(c, 0.0) == hop.normal_force
    assert flows.nub_force(c, hop.patch_length) == pytest.approx(0.0, abs=1e-12)
    forces = [flows.lip_force(c, travel) for travel in np.linspace(0.0, 2.0 * hop.break_away_length, 50)]
    assert (np.diff(forces) <= 0.0).all()


def test_what_the_lips_no_longer_hold_they_no_longer_seal() -> None:
    """The gap round the ball is shut on the seat and behind it, whole past the lips, and between opens as their force falls."""
    c, hop = constants(), CARBINE.hop_up
    assert flows.gap_conductance(c, 0.0) == flows.gap_conductance(c, -1e-6) == 0.0
    assert flows.gap_conductance(c, hop.break_away_length) == c.annulus > 0.0
    for travel in np.linspace(0.0, 2.0 * hop.break_away_length, 50):
        held = flows.lip_force(c, travel) / hop.break_away_force
        assert flows.gap_conductance(c, travel) == pytest.approx(c.annulus * (1.0 - held), rel=1e-12, abs=1e-18)


def test_without_lips_the_gap_is_whole_from_the_start() -> None:
    """Lips of no length, as in a launch from a reservoir, neither hold nor seal a resting ball."""
    c = constants(replace_at(CARBINE, "hop_up.break_away_length", 0.0))
    for travel in (0.0, 1e-9, 1e-3):
        assert flows.lip_force(c, travel) == 0.0
        assert flows.gap_conductance(c, travel) == c.annulus


def test_a_seated_ball_is_held_by_lips_bore_and_a_rolling_mound() -> None:
    """The push that a resting ball withstands: lips, bore, and twice the floor's friction, since the mound turns it."""
    p = replace_at(CARBINE, "barrel.friction_force", 0.02)
    expected = p.hop_up.break_away_force + 0.02 + 2.0 * p.hop_up.floor_friction * p.hop_up.normal_force
    assert flows.holding_force(constants(p), 0.0) == pytest.approx(expected, rel=1e-14)


def test_ring_friction_opposes_motion_and_fades_at_rest() -> None:
    """Friction has the sign of the speed, its full force beyond the stiction speed, more of it under pressure."""
    c, p = constants(), CARBINE
    outside = p.ambient.pressure
    fast = 20.0 * p.laws.stiction_speed
    assert flows.seal_friction(c, fast, outside) == pytest.approx(p.piston.seal_drag, rel=1e-9)
    assert flows.seal_friction(c, -fast, outside) == -flows.seal_friction(c, fast, outside)
    assert flows.seal_friction(c, 0.0, 5e5) == 0.0
    pressed = p.piston.seal_drag + p.piston.seal_pressure_friction * p.piston.seal_area * 2e5
    assert flows.seal_friction(c, fast, outside + 2e5) == pytest.approx(pressed, rel=1e-9)
    below = p.piston.seal_drag + p.piston.seal_pressure_friction * p.piston.seal_area * 0.5e5
    assert flows.seal_friction(c, fast, outside - 0.5e5) == pytest.approx(below, rel=1e-9)


@pytest.mark.parametrize("law", [HeatLaw.ADAIR, HeatLaw.WOSCHNI, HeatLaw.HOHENBERG])
def test_heat_to_the_cylinder_grows_with_speed_and_multiplier(law: HeatLaw) -> None:
    """Each law gives more heat to a faster piston, and the multiplier scales it."""
    c = constants(replace_at(CARBINE, "laws.cylinder_heat_law", law))
    twice = constants(replace_at(replace_at(CARBINE, "laws.cylinder_heat_law", law), "laws.cylinder_heat", 2.0))
    air = gas(c, 3e5, 400.0)
    found = [flows.cylinder_heat_conductance(c, 0.02, speed, air) for speed in (0.0, 2.0, 10.0)]
    assert 0.0 < found[0] < found[1] < found[2]
    assert flows.cylinder_heat_conductance(twice, 0.02, 2.0, air) == pytest.approx(2.0 * found[1], rel=1e-14)


def test_without_a_law_no_heat_reaches_the_cylinder() -> None:
    """The choice of no law is none, whatever the multiplier."""
    c = constants(replace_at(CARBINE, "laws.cylinder_heat_law", HeatLaw.NONE))
    assert flows.cylinder_heat_conductance(c, 0.02, 10.0, gas(c, 3e5, 400.0)) == 0.0


def test_gas_that_moves_with_the_ball_is_all_of_it_or_the_barrels_share() -> None:
    """In two volumes all air behind the ball moves; in one, the share that stands in the barrel."""
    two, one = constants(), ShotProblem(CARBINE, one_volume=True).constants
    assert flows.moving_gas_share(two, 0.1) == 1.0
    bore = math.pi * CARBINE.barrel.bore**2 / 4
    share = bore * 0.1 / (CARBINE.nozzle.dead_volume + bore * 0.1)
    assert flows.moving_gas_share(one, 0.1) == pytest.approx(share, rel=1e-14)
    assert flows.moving_gas_share(one, 0.0) == 0.0
