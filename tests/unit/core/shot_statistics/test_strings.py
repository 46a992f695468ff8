"""A string of any numbers is reduced, and says what it does not know."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.shot_statistics import Chronograph, analyse_string
from stripdown.errors import OutOfRange

BALL = 0.2e-3
SOUND = (97.1, 96.8, 97.4, 97.0, 96.9, 97.3, 97.2, 96.7, 97.1, 97.0)


def _all_numbers(thing: object) -> list[float]:
    if isinstance(thing, float):
        return [thing]
    if dataclasses.is_dataclass(thing):
        return [number for field in dataclasses.fields(thing) for number in _all_numbers(getattr(thing, field.name))]
    return [number for item in thing for number in _all_numbers(item)] if isinstance(thing, tuple) else []


@given(st.lists(st.floats(allow_nan=False, allow_infinity=False), min_size=1, max_size=30))
def test_any_finite_numbers_are_taken(speeds: list[float]) -> None:
    """Whatever finite numbers come, nothing is raised and nothing is NaN."""
    found = analyse_string(speeds, ball_mass=BALL)
    assert not any(math.isnan(number) for number in _all_numbers(found))
    assert found.count == len(speeds)


@given(st.lists(st.floats(50, 150), min_size=2, max_size=30), st.floats(-20, 20))
def test_a_shift_moves_the_mean_and_leaves_the_scatter(speeds: list[float], shift: float) -> None:
    """Adding the same to all readings changes the mean by it and the standard deviation not at all."""
    one, other = analyse_string(speeds, ball_mass=BALL), analyse_string([speed + shift for speed in speeds], ball_mass=BALL)
    assert other.mean == pytest.approx(one.mean + shift, rel=1e-12)
    assert other.standard_deviation == pytest.approx(one.standard_deviation, rel=1e-6, abs=1e-11)


@pytest.mark.parametrize("kind", [list, tuple, np.array, iter])
def test_any_sequence_is_taken(kind: type) -> None:
    """A list, a tuple, an array and an iterator give the same."""
    assert analyse_string(kind(SOUND), ball_mass=BALL) == analyse_string(SOUND, ball_mass=BALL)


def test_one_shot_has_a_mean_and_no_scatter() -> None:
    """Of one shot there are mean and energy, and None for everything that needs two."""
    found = analyse_string([98.0], ball_mass=BALL)
    assert (found.mean, found.extreme_spread) == (98.0, 0.0)
    assert found.mean_energy == pytest.approx(0.5 * BALL * 98.0**2)
    nothing = (found.standard_deviation, found.mean_interval, found.next_shot_interval, found.tolerance_interval)
    assert nothing == (None, None, None, None)
    assert found.lag_one_autocorrelation is None
    assert any("One shot" in note for note in found.notes)


def test_equal_readings_are_noted() -> None:
    """A string without any scatter says that the chronograph hides it."""
    found = analyse_string([98.0] * 10, ball_mass=BALL)
    assert found.standard_deviation == 0.0
    assert found.lag_one_autocorrelation is None
    assert any("equal" in note for note in found.notes)


def test_equal_readings_are_as_uncertain_as_the_steps_of_the_chronograph() -> None:
    """With its resolution given, the next shot is as uncertain as one step."""
    found = analyse_string([98.0] * 10, ball_mass=BALL, chronograph=Chronograph(resolution=1.0))
    assert found.next_shot_interval is not None
    assert found.next_shot_interval.high - 98.0 == pytest.approx(1.959964 / math.sqrt(12), rel=1e-6)


def test_a_sound_string_has_nothing_to_say() -> None:
    """Ten shots that belong together give numbers and no note."""
    found = analyse_string(SOUND, ball_mass=BALL)
    assert found.notes == ()
    signs = (found.has_drift, found.has_two_heaps, found.has_low_first_shot, found.outliers)
    assert not any(signs)


def test_the_mean_energy_is_more_than_that_of_the_mean() -> None:
    """Scatter adds s²(n - 1)/n to the square of the mean."""
    found = analyse_string((90.0, 100.0, 110.0), ball_mass=BALL)
    assert found.standard_deviation == pytest.approx(10.0)
    assert found.mean_energy == pytest.approx(0.5 * BALL * (100.0**2 + 10.0**2 * 2 / 3))


def test_without_a_ball_nothing_is_said_of_energy() -> None:
    """Speeds are reduced all the same."""
    found = analyse_string(SOUND, ball_mass=None)
    assert found.energy is None
    assert found.mean_energy is None
    assert found.mean == pytest.approx(97.05)


def test_bias_is_taken_off_and_uncertainty_widens() -> None:
    """A chronograph that reads high by a known amount is corrected, and its uncertainty is in the interval of the mean."""
    bare = analyse_string(SOUND, ball_mass=BALL)
    found = analyse_string(SOUND, ball_mass=BALL, chronograph=Chronograph(bias=1.0, standard_uncertainty=0.5))
    assert found.mean == pytest.approx(bare.mean - 1.0)
    assert found.mean_interval is not None
    assert found.mean_interval.high - found.mean > 1.96 * 0.5
    assert found.standard_deviation == pytest.approx(bare.standard_deviation)


def test_a_shot_set_aside_is_kept_in_sight() -> None:
    """It is out of the numbers, and in the record with its reason."""
    found = analyse_string((*SOUND, 60.0), ball_mass=BALL, set_aside={10: "two balls at once"})
    assert found.count == 10
    assert found.mean == analyse_string(SOUND, ball_mass=BALL).mean
    assert [(shot.index, shot.value, shot.reason) for shot in found.set_aside] == [(10, 60.0, "two balls at once")]


@pytest.mark.parametrize(
    ("aside", "complaint"),
    [({3: " "}, "without a reason"), ({40: "x"}, "no shot at place 40"), (dict.fromkeys(range(10), "x"), "Every")],
)
def test_setting_aside_needs_a_shot_and_a_reason(aside: dict[int, str], complaint: str) -> None:
    """No reason, no such shot, or nothing left: each is said."""
    with pytest.raises(OutOfRange, match=complaint):
        analyse_string(SOUND, ball_mass=BALL, set_aside=aside)


def test_an_outlier_is_named_and_counted() -> None:
    """It is named by its place in the whole string, and the mean still has it."""
    found = analyse_string((90.0, *SOUND[:5], 80.0, *SOUND[5:]), ball_mass=BALL, set_aside={0: "first after a rest"})
    assert [outlier.index for outlier in found.outliers] == [6]
    assert found.slowest == 80.0
    assert "Shot 7" in found.notes[0]


def test_a_warming_gun_drifts() -> None:
    """A string that climbs is called drifting, and the note says that it climbs."""
    found = analyse_string([speed + 0.3 * place for place, speed in enumerate(SOUND)], ball_mass=BALL)
    assert found.has_drift
    assert any("rise" in note for note in found.notes)


@pytest.mark.parametrize(
    ("speeds", "complaint"),
    [
        ([], "0 readings"),
        ([98.0, math.nan], "Number 2"),
        ([math.inf], "Number 1"),
        (["fast"], "'fast'"),
        ("98.0", "not one text"),
    ],
)
def test_bad_readings_are_refused(speeds: list[float], complaint: str) -> None:
    """None at all, not a number, infinite, or text: each complaint names it."""
    with pytest.raises(OutOfRange, match=complaint):
        analyse_string(speeds, ball_mass=BALL)


@pytest.mark.parametrize("mass", [0.0, -0.2e-3, math.nan, 20.0])
def test_an_impossible_ball_is_refused(mass: float) -> None:
    """A ball weighs something, and less than a kilogram."""
    with pytest.raises(OutOfRange, match="ball_mass"):
        analyse_string(SOUND, ball_mass=mass)


def test_ten_thousand_readings_are_reduced() -> None:
    """A very long string gets the same answers."""
    speeds = np.random.default_rng(5).normal(97.0, 0.4, 10_000)
    found = analyse_string(speeds, ball_mass=BALL)
    assert found.standard_deviation == pytest.approx(float(np.std(speeds, ddof=1)), rel=1e-12)
    assert not found.has_two_heaps
