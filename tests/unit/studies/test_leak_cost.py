from __future__ import annotations

import pytest

from stripdown.bench.completion import complete
from stripdown.core.part_condition.gauge_leak import gauge_leak
from stripdown.core.part_condition.leak_found import find_leak
from stripdown.errors import OutOfRange
from stripdown.studies.leak_cost import LeakCost, found_leak_cost, leak_cost
from stripdown.studies.whole_gun import simulate_shot
from tests.fired_strings import HEAVY, LIGHT, sound_gun


@pytest.fixture(scope="module")
def cost() -> LeakCost:
    """Half a square millimetre, uncertain by half."""
    return leak_cost(sound_gun(), leak_area=0.5e-6, least_area=0.25e-6, greatest_area=1e-6)


def test_a_larger_leak_costs_more(cost: LeakCost) -> None:
    """None, least, likeliest, most; the interval keeps its order."""
    speeds = [case.shot.muzzle_speed for case in (cost.tight, cost.at_least, cost.measured, cost.at_most)]
    assert speeds == sorted(speeds, reverse=True)
    assert cost.speed_lost(cost.tight) == 0.0
    assert cost.speed_lost(cost.measured) > 0.0


def test_the_gun_as_described_is_the_gun_as_described(cost: LeakCost) -> None:
    """Its three leaks put together at the ring change nothing: the model cannot tell them apart either."""
    leaks = complete(sound_gun()).parameters.leaks
    together = leaks.discharge_coefficient * (leaks.piston_seal + leaks.head_ring + leaks.nozzle_tube)
    assert cost.as_described.leak_area == pytest.approx(together)
    shot = simulate_shot(sound_gun(), tolerance=1e-6)
    assert cost.as_described.shot.muzzle_speed == pytest.approx(shot.summary().muzzle_speed, rel=1e-5)


def test_a_heavier_ball_loses_more_to_the_same_leak() -> None:
    """It stays longer in the barrel."""
    light, heavy = (leak_cost(sound_gun(), leak_area=1e-6, ball_mass=mass) for mass in (LIGHT, HEAVY))
    assert heavy.speed_lost(heavy.measured) > light.speed_lost(light.measured)


def test_a_test_goes_straight_to_its_price() -> None:
    """The interval of the leak becomes that of the velocity."""
    found = find_leak(readings=gauge_leak(times=[0, 1, 2.5], overpressures=[2e5, 1e5, 0.3e5], volume=30e-6))
    price = found_leak_cost(sound_gun(), found=found)
    assert price.measured.leak_area == found.leak_area
    assert price.at_least.leak_area == found.least_area
    assert price.at_most.leak_area == found.greatest_area


def test_an_impossible_leak_is_refused_by_name() -> None:
    """Negative or as wide as the cylinder."""
    for wrong in (-1e-9, 1e-2):
        with pytest.raises(OutOfRange, match="leak_area"):
            leak_cost(sound_gun(), leak_area=wrong)
