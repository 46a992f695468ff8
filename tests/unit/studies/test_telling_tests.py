from __future__ import annotations

import dataclasses

import pytest

from stripdown.catalogue.faults import load_faults
from stripdown.core.interior_ballistics.simulate import integrate_shot
from stripdown.studies.loss_causes import Cause, Plausibility, Signature
from stripdown.studies.telling_tests import telling_tests
from tests.fired_strings import HEAVY, LIGHT, sound_parameters

SOUND = Signature(light_loss=0.0, heavy_loss=0.0, piston_home_shift=0.0, muzzle_to_slam=4.3e-3)


@pytest.fixture(scope="module")
def pair() -> tuple[Cause, Cause]:
    """A leak and a drag that both cost about 6 % with the light ball; the slam comes 1.7 ms earlier, and 0.5 ms later."""
    ledger = integrate_shot(sound_parameters()).ledger

    def cause(key: str, amount: float, slam: float) -> Cause:
        return Cause(
            fault=load_faults()[key],
            amount=amount,
            low=amount,
            high=amount,
            plausibility=Plausibility.ORDINARY,
            share_explained=1.0,
            fit=None,
            signature=dataclasses.replace(SOUND, muzzle_to_slam=slam),
            ledger=ledger,
            carried_off=0.0,
            returned=0.0,
        )

    return cause("cylinder_leak", 1.8e-6, 2.6e-3), cause("seal_drag", 4.0, 4.8e-3)


def test_a_heavy_ball_and_the_sound_part_a_leak_from_a_drag(pair: tuple[Cause, Cause]) -> None:
    """One heavy ball is enough beside a light one; so is a recording."""
    tests = telling_tests(sound_parameters(), SOUND, pair, [LIGHT])
    assert {test.ball_masses for test in tests} == {(HEAVY,), ()}
    assert all(test.separated == (("cylinder_leak", "seal_drag"),) and test.undecided == () for test in tests)


def test_beside_a_light_and_a_heavy_ball_a_third_adds_nothing(pair: tuple[Cause, Cause]) -> None:
    """The model is doubted for it as for the others: only the sound is left."""
    assert [test.ball_masses for test in telling_tests(sound_parameters(), SOUND, pair, [LIGHT, HEAVY])] == [()]


def test_a_slam_that_does_not_happen_is_not_heard(pair: tuple[Cause, Cause]) -> None:
    """Without its time in one of them the recording tells nothing."""
    leak, drag = pair
    silent = dataclasses.replace(drag, signature=dataclasses.replace(drag.signature, muzzle_to_slam=None))
    assert [test.ball_masses for test in telling_tests(sound_parameters(), SOUND, (leak, silent), [LIGHT])] == [(HEAVY,)]


def test_one_cause_needs_no_test(pair: tuple[Cause, Cause]) -> None:
    """There is nothing to tell apart; nor is there between a cause and itself."""
    assert telling_tests(sound_parameters(), SOUND, pair[:1], [LIGHT]) == ()
    assert telling_tests(sound_parameters(), SOUND, (pair[0], pair[0]), [LIGHT]) == ()
