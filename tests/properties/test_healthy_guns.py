"""Are typical healthy guns what the trade knows? Ranges of common practice, without a published source.

None of these figures was measured by anybody who published it: they are estimates of the trade, wide enough to hold any healthy
gun, and there to catch a factor of two. What must hold exactly is tested elsewhere.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.interior_ballistics.simulate import integrate_shot
from stripdown.quantities import replace_at

GUNS = {key: gun.parameters for key, gun in load_guns().items()}
BOX = GUNS["full_stroke_rifle"]

each_gun = pytest.mark.parametrize("gun", GUNS.values(), ids=GUNS)


def fire(gun: ShotParameters, changes: Mapping[str, object] | None = None) -> Shot:
    """One shot of a gun with some leaves replaced."""
    for path, value in (changes or {}).items():
        gun = replace_at(gun, path, value)
    return integrate_shot(gun)


@each_gun
def test_a_healthy_gun_turns_a_third_to_three_fifths_of_its_spring_into_the_ball(gun: ShotParameters) -> None:
    """Muzzle energy is 0.35 to 0.60 of the spring's work (estimate)."""
    shot = fire(gun)
    assert 0.35 <= shot.figures.muzzle_energy / shot.ledger.spring_work <= 0.60


@each_gun
def test_a_healthy_guns_air_stays_below_eight_bar_and_520_kelvin(gun: ShotParameters) -> None:
    """Peak pressure is below 8 bar, peak temperature below 520 K (estimate)."""
    figures = fire(gun).figures
    assert 2e5 < figures.peak_pressure < 8e5
    assert 330.0 < figures.peak_temperature < 520.0


@each_gun
def test_a_healthy_guns_ball_is_out_in_time_and_the_piston_home_soon_after(gun: ShotParameters) -> None:
    """The ball leaves 7 to 18 ms after release, the piston lands 2 to 5 ms later (estimate)."""
    figures = fire(gun).figures
    assert figures.time_to_muzzle is not None
    assert figures.time_to_slam is not None
    assert 7e-3 <= figures.time_to_muzzle <= 18e-3
    assert 2e-3 <= figures.time_to_slam - figures.time_to_muzzle <= 5e-3


@each_gun
def test_a_healthy_guns_backspin_is_a_small_part_of_its_speed(gun: ShotParameters) -> None:
    """The spin ratio at the muzzle is below 0.15, and above nothing with the hop-up set (estimate)."""
    assert 0.005 < fire(gun).figures.spin_ratio < 0.15


def test_the_typical_box_is_the_one_of_which_figures_are_known() -> None:
    """The full-stroke rifle is the box of 520 N/m, 52 mm and 353 mm of travel to which the next figures belong."""
    assert (BOX.spring.rate, BOX.spring.preload, BOX.cylinder.bore) == (520.0, 0.055, 0.0238)
    assert (BOX.cylinder.stroke, BOX.nozzle.bore, BOX.barrel.bore) == (0.052, 0.0047, 0.00605)
    assert BOX.piston.mass + BOX.piston.head_mass == pytest.approx(0.028)
    assert BOX.spring.mass == pytest.approx(0.014)
    assert BOX.barrel.length - BOX.barrel.seat_depth == pytest.approx(0.353)
    assert BOX.ball.mass == 0.2e-3


def test_a_typical_box_shoots_a_joule() -> None:
    """With a ball of 0.20 g: 92 to 105 m/s, about one joule (common practice)."""
    figures = fire(BOX).figures
    assert 92.0 <= figures.muzzle_speed <= 105.0
    assert figures.muzzle_energy == pytest.approx(1.0, abs=0.12)


def test_a_worn_box_shoots_two_thirds_of_a_joule() -> None:
    """The same box with 1.2 mm2 open at the seal, 0.7 mm2 at the lips and 10 N of drag: 73 to 84 m/s (common practice)."""
    discharge = BOX.leaks.discharge_coefficient
    worn = {
        "leaks.piston_seal": 1.2e-6 / discharge,
        "leaks.hop_lip": 0.7e-6 / discharge,
        "piston.seal_drag": 10.0,
    }
    assert 73.0 <= fire(BOX, worn).figures.muzzle_speed <= 84.0


def test_twice_the_drag_costs_a_twentieth_of_the_speed() -> None:
    """From 4 to 8 N of piston drag the typical box loses 5 to 6 per cent of its speed, to the nearest per cent (estimate)."""
    free, dragging = (fire(BOX, {"piston.seal_drag": drag}).figures.muzzle_speed for drag in (4.0, 8.0))
    assert 0.045 <= 1.0 - dragging / free < 0.065
