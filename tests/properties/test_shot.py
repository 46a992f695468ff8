"""Every shot, of typical guns and of random ones: the ledger closes, air is conserved, results hold together."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import Outcome, Shot
from stripdown.core.interior_ballistics.simulate import run_one, settings_row
from tests.properties.invariants import check_shot, energy_put_in
from tests.properties.strategies import usual_guns

GUNS = {key: gun.parameters for key, gun in load_guns().items()}
TOLERANCES = (1e-3, 1e-4, 1e-5, 1e-6)
TIGHT = 1e-9

each_gun = pytest.mark.parametrize("gun", GUNS.values(), ids=GUNS)


def fire(gun: ShotParameters, tolerance: float, *, with_ball: bool = True) -> Shot:
    """One shot, whatever it shows."""
    return run_one(gun, settings_row(tolerance=tolerance, with_ball=with_ball))


@each_gun
@pytest.mark.parametrize("tolerance", [*TOLERANCES, TIGHT])
def test_a_typical_gun_keeps_every_rule(gun: ShotParameters, tolerance: float) -> None:
    """At every tolerance a typical gun keeps energy, mass, positive air, one time base, events in order."""
    shot = fire(gun, tolerance)
    check_shot(shot, tolerance=tolerance)
    assert shot.outcome is Outcome.LEFT_MUZZLE


@each_gun
def test_a_typical_gun_fired_empty_keeps_every_rule(gun: ShotParameters) -> None:
    """Without a ball the same rules hold, and the outcome says that there was none."""
    shot = fire(gun, 1e-4, with_ball=False)
    check_shot(shot, tolerance=1e-4)
    assert shot.outcome is Outcome.NO_BALL


@given(usual_guns(), st.sampled_from(TOLERANCES))
def test_any_usual_gun_keeps_every_rule(gun: ShotParameters, tolerance: float) -> None:
    """Any combination of usual dimensions keeps them too, whether the ball leaves or not."""
    check_shot(fire(gun, tolerance), tolerance=tolerance)


@given(usual_guns())
@settings(max_examples=10)
def test_the_ledger_of_any_usual_gun_closes_to_a_hundred_millionth(gun: ShotParameters) -> None:
    """At a tight tolerance what the entries leave unexplained is below 1e-8 of what was put in."""
    shot = fire(gun, TIGHT)
    assert abs(shot.ledger.residual) <= 1e-8 * energy_put_in(shot)


@each_gun
def test_the_residual_falls_with_the_tolerance(gun: ShotParameters) -> None:
    """A thousand times the accuracy leaves at most a hundredth of the residual."""
    loose, tight = (max(abs(fire(gun, factor * base).ledger.residual) for factor in (1.0, 0.7, 0.5)) for base in (1e-3, 1e-6))
    assert tight <= 0.01 * loose


@each_gun
def test_the_default_tolerance_is_good_to_a_ten_thousandth(gun: ShotParameters) -> None:
    """Muzzle speed at the default tolerance is within 1e-4 of that at 1e-9, and slam, times and peaks within 1e-3."""
    usual, tight = fire(gun, 1e-4).figures, fire(gun, TIGHT).figures
    assert usual.muzzle_speed == pytest.approx(tight.muzzle_speed, rel=1e-4)
    for name in ("backspin", "slam_speed", "time_to_muzzle", "time_to_slam", "time_to_rest", "peak_pressure", "peak_temperature"):
        assert getattr(usual, name) == pytest.approx(getattr(tight, name), rel=1e-3), name


@each_gun
def test_work_is_bounded(gun: ShotParameters) -> None:
    """A typical shot to rest takes under 250 steps at the default tolerance and under 1500 at 1e-7."""
    usual, tight = fire(gun, 1e-4).solver, fire(gun, 1e-7).solver
    assert usual.steps <= 250
    assert usual.rejected <= 100
    assert usual.evaluations <= 7 * (usual.steps + usual.rejected)
    assert tight.steps <= 1500


@given(usual_guns())
def test_one_shot_is_the_same_every_time(gun: ShotParameters) -> None:
    """Nothing is left over from one shot to the next: fired twice, all numbers are equal bit for bit."""
    assert fire(gun, 1e-3).ledger == fire(gun, 1e-3).ledger
