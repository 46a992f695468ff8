"""Before and after compare, whatever the numbers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.shot_statistics import (
    FireMode,
    HopState,
    StringConditions,
    compare_strings,
    comparison_cautions,
    comparison_obstacles,
)
from stripdown.core.shot_statistics.conditions import filled_in
from stripdown.errors import OutOfRange

BEFORE, AFTER = (88.0, 88.4, 87.9, 88.2, 88.1), (97.0, 97.1, 96.8, 97.2)
_ANY = st.lists(st.floats(allow_nan=False, allow_infinity=False), min_size=2, max_size=12)


@given(_ANY, _ANY)
def test_any_finite_numbers_are_compared(before: list[float], after: list[float]) -> None:
    """Nothing is raised and nothing is NaN."""
    found = compare_strings(before, after, ball_mass=0.2e-3)
    numbers = (found.difference, *found.interval, found.p_value, found.degrees_of_freedom)
    assert not any(math.isnan(number) for number in numbers if number is not None)
    assert 0.0 <= found.p_value <= 1.0


def test_after_minus_before() -> None:
    """A gain is positive, and turning the strings round turns the sign."""
    one, other = compare_strings(BEFORE, AFTER), compare_strings(AFTER, BEFORE)
    assert one.difference > 8.0
    assert one.difference == pytest.approx(-other.difference)
    assert one.interval == pytest.approx((-other.interval.high, -other.interval.low))
    assert one.speed.share == pytest.approx(one.difference / 88.12)


def test_energy_is_compared_with_the_ball() -> None:
    """The change of energy is that of the mean of m v²/2."""
    found = compare_strings(BEFORE, AFTER, ball_mass=0.2e-3).energy
    assert found is not None
    mean = [sum(0.1e-3 * speed**2 for speed in string) / len(string) for string in (BEFORE, AFTER)]
    assert found.difference == pytest.approx(mean[1] - mean[0])
    assert compare_strings(BEFORE, AFTER).energy is None


def test_no_scatter_has_no_degrees_of_freedom() -> None:
    """Two strings of equal readings differ for certain, and the record says that no gun is like that."""
    found = compare_strings([88.0, 88.0], [97.0, 97.0])
    assert (found.degrees_of_freedom, found.p_value, found.interval) == (None, 0.0, (9.0, 9.0))
    assert found.notes
    assert compare_strings([88.0, 88.0], [88.0, 88.0]).p_value == 1.0


def test_scatter_in_one_string_only() -> None:
    """The degrees of freedom are then those of that string."""
    found = compare_strings([88.0, 88.0, 88.0], AFTER)
    assert found.degrees_of_freedom == pytest.approx(3.0)


def test_setting_up_anew_widens_the_interval() -> None:
    """What the chronograph's place adds counts once for each string."""
    narrow, wide = compare_strings(BEFORE, AFTER), compare_strings(BEFORE, AFTER, setup_uncertainty=0.3)
    assert wide.speed.standard_uncertainty == pytest.approx(math.hypot(narrow.speed.standard_uncertainty, 0.3 * math.sqrt(2)))


@pytest.mark.parametrize(("before", "after", "field"), [([88.0], AFTER, "before"), (BEFORE, [], "after")])
def test_one_reading_does_not_compare(before: list[float], after: list[float], field: str) -> None:
    """The complaint names the string that is too short."""
    with pytest.raises(OutOfRange, match=field):
        compare_strings(before, after)


def test_unlike_conditions_are_obstacles() -> None:
    """Ball, distance, hop-up and selector must agree where both are said."""
    one = StringConditions(ball_mass=0.2e-3, distance=0.3, hop=HopState.OFF, fire_mode=FireMode.SEMI)
    other = StringConditions(ball_mass=0.25e-3, distance=1.0, hop=HopState.SET, fire_mode=FireMode.AUTOMATIC)
    assert len(comparison_obstacles(one, other)) == 4
    assert comparison_obstacles(one, one) == ()
    assert comparison_obstacles(one, StringConditions()) == ()


def test_what_was_not_said_is_a_caution() -> None:
    """So is a cold day."""
    one = StringConditions(ball_mass=0.2e-3, distance=0.3, hop=HopState.OFF, fire_mode=FireMode.SEMI, temperature=293.0)
    assert comparison_cautions(one, one) == ()
    (caution,) = comparison_cautions(one, StringConditions(ball_mass=0.2e-3, distance=0.3, hop=HopState.OFF))
    assert "semi or automatic" in caution
    (caution,) = comparison_cautions(one, filled_in(StringConditions(temperature=275.0), one))
    assert "temperatures" in caution
