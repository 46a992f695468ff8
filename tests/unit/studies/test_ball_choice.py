"""Balls side by side: creep, carry and limit, and nothing proved of a ball that was not fired."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from stripdown.catalogue.limits import own_site_rule
from stripdown.core.shot_statistics import energy_limit_at
from stripdown.errors import InputError, OutOfRange
from stripdown.files.chronograph_session import load_session
from stripdown.studies.ball_choice import BallChoice, study_balls
from stripdown.studies.joule_creep import sweep_ball_masses
from stripdown.words.ball_choice import balls_answer, limit_words
from tests.fired_strings import sound_gun

MASSES = (0.20e-3, 0.25e-3, 0.40e-3)
READINGS = Path(__file__).parents[3] / "examples" / "brackenmoor-07" / "after.csv"
LIMIT = own_site_rule(energy="1.14 J", measured_at="1 m")


@pytest.fixture(scope="module")
def predicted() -> BallChoice:
    """Three balls, from the gun's file alone."""
    return study_balls(sound_gun(), ball_masses=MASSES)


@pytest.fixture(scope="module")
def fired() -> BallChoice:
    """The same with strings and a limit."""
    return study_balls(sound_gun(), ball_masses=MASSES, session=load_session([READINGS], gun=sound_gun()), limit=LIMIT)


def test_creep_is_that_of_the_sweep(predicted: BallChoice) -> None:
    """Speed and energy at the muzzle."""
    creep = sweep_ball_masses(sound_gun(), ball_masses=MASSES)
    assert [ball.energy for ball in predicted.balls] == pytest.approx(creep.muzzle_energy, rel=1e-3)


def test_a_heavier_ball_needs_less_lift_for_its_weight_and_drifts_less(predicted: BallChoice) -> None:
    """But more spin: it is slower."""
    hops = [ball.hop for ball in predicted.balls]
    assert all(hop is not None and hop.deviation <= predicted.window for hop in hops)
    weights = [hop.over_weight for hop in hops if hop is not None]
    assert weights == sorted(weights, reverse=True)
    spins = [hop.times_present for hop in hops if hop is not None]
    assert spins == sorted(spins)
    drifts = [ball.drift_there or 0.0 for ball in predicted.balls]
    assert drifts == sorted(drifts, reverse=True)


def test_nothing_is_proved_of_a_ball_that_was_not_fired(fired: BallChoice) -> None:
    """The fired ones carry their verdict; the others are worth a string at most."""
    words = {round(ball.ball_mass * 1e5): limit_words(ball, fired) for ball in fired.balls}
    assert words[20] == "under the limit"
    assert words[25].startswith("not fired")
    assert [ball.is_measured for ball in fired.balls] == [True, False, True]
    assert all(ball.speed_uncertainty is not None for ball in fired.balls)


def test_a_limit_without_strings_proves_nothing() -> None:
    """And says so."""
    study = study_balls(sound_gun(), ball_masses=MASSES, limit=LIMIT)
    assert {limit_words(ball, study) for ball in study.balls} == {"not fired: nothing is proved"}
    assert "nothing is proved" in " ".join(sentence.full for sentence in balls_answer(study, scale="metric").lead)


def test_the_limit_is_moved_to_the_muzzle_of_each_ball(fired: BallChoice) -> None:
    """More than at a metre, and the more the lighter the ball."""
    limits = [ball.limit_at_muzzle or 0.0 for ball in fired.balls]
    assert limits == sorted(limits, reverse=True)
    expected = energy_limit_at(1.14, ball_mass=0.2e-3, measured_at=1.0, distance=0.0).energy
    assert limits[0] == pytest.approx(expected, rel=0.005)  # the air of the day is moist, that of the other is not


def test_a_hop_up_that_presses_nothing_leaves_the_carry_open() -> None:
    """Without backspin there is no setting to compare."""
    gun = sound_gun()
    off = dataclasses.replace(gun.written["hop_up.normal_force"], value=0.0, text="0 N")
    gun = dataclasses.replace(gun, written={**gun.written, "hop_up.normal_force": off})
    assert [ball.hop for ball in study_balls(gun, ball_masses=MASSES).balls] == [None] * 3


def test_no_ball_or_an_impossible_window_is_refused() -> None:
    """By name."""
    with pytest.raises(InputError, match="one to sixty"):
        study_balls(sound_gun(), ball_masses=())
    with pytest.raises(OutOfRange, match="window"):
        study_balls(sound_gun(), ball_masses=MASSES, window=-1.0)
