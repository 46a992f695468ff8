from __future__ import annotations

from collections.abc import Sequence

import pytest

from stripdown.bench.strings import ChronographSession, ReadingString
from stripdown.core.shot_statistics import FireMode, HopState, Occasion, StringConditions, reading_from_muzzle
from stripdown.studies.before_after import compare_occasions
from stripdown.studies.case_strings import strings_of
from stripdown.studies.service_case import ComparisonOfCase

SLOW, FAST = (79.0, 80.0, 81.0, 80.5, 79.5), (99.0, 100.0, 101.0, 100.5, 99.5)


def _string(speeds: Sequence[float], occasion: Occasion, **said: object) -> ReadingString:
    conditions = StringConditions(occasion=occasion, **said)  # type: ignore[arg-type]
    return ReadingString(
        label="", conditions=conditions, speeds=tuple(speeds), lines=tuple(range(1, len(speeds) + 1)), resolution=0.1
    )


def _compared(*strings: ReadingString, setup: float = 0.0) -> tuple[ComparisonOfCase, ...]:
    session = ChronographSession(strings=strings, setup_uncertainty=setup)
    both = strings_of(session)
    before, after = ([string for string in both if string.reading.conditions.occasion is occasion] for occasion in Occasion)
    return compare_occasions(before, after, session)


def test_strings_with_the_same_ball_and_selector_belong_together() -> None:
    """Whatever their order in the files; each counts once."""
    pairs = _compared(
        _string(SLOW, Occasion.BEFORE, ball_mass=0.2e-3, fire_mode=FireMode.SEMI),
        _string(SLOW, Occasion.BEFORE, ball_mass=0.2e-3, fire_mode=FireMode.AUTOMATIC),
        _string(SLOW, Occasion.BEFORE, ball_mass=0.4e-3, fire_mode=FireMode.SEMI),
        _string(FAST, Occasion.AFTER, ball_mass=0.4e-3, fire_mode=FireMode.SEMI),
        _string(FAST, Occasion.AFTER, ball_mass=0.2e-3, fire_mode=FireMode.AUTOMATIC),
        _string(FAST, Occasion.AFTER, ball_mass=0.2e-3, fire_mode=FireMode.SEMI),
    )
    fired = [(p.before.reading.conditions, p.after.reading.conditions) for p in pairs]
    assert [(one.ball_mass, one.fire_mode) for one, _ in fired] == [(two.ball_mass, two.fire_mode) for _, two in fired]
    assert len(pairs) == 3
    assert all(pair.comparison is not None and pair.obstacles == () for pair in pairs)


def test_what_is_said_alike_goes_before_what_is_not_said() -> None:
    """A string that says semi is compared with the one that says semi, not with the one that is silent."""
    pairs = _compared(
        _string(SLOW, Occasion.BEFORE, ball_mass=0.2e-3, fire_mode=FireMode.SEMI),
        _string(FAST, Occasion.AFTER, ball_mass=0.2e-3),
        _string([speed + 1 for speed in FAST], Occasion.AFTER, ball_mass=0.2e-3, fire_mode=FireMode.SEMI),
    )
    assert len(pairs) == 1
    assert pairs[0].after.reading.conditions.fire_mode is FireMode.SEMI


def test_a_silent_string_is_compared_with_a_caution() -> None:
    """What was not said is taken as equal, and that is said."""
    [pair] = _compared(_string(SLOW, Occasion.BEFORE, ball_mass=0.2e-3), _string(FAST, Occasion.AFTER))
    assert pair.comparison is not None
    assert any("Not said for both strings" in caution for caution in pair.cautions)
    assert pair.comparison.energy is not None


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        ({"ball_mass": 0.2e-3}, {"ball_mass": 0.25e-3}, "different masses"),
        ({"hop": HopState.OFF}, {"hop": HopState.SET}, "hop-up was off for one string"),
        ({"fire_mode": FireMode.SEMI}, {"fire_mode": FireMode.AUTOMATIC}, "on semi and the other on automatic"),
    ],
)
def test_strings_that_differ_in_what_matters_do_not_compare(
    before: dict[str, object], after: dict[str, object], words: str
) -> None:
    """They are shown side by side with the reason, and no difference."""
    [pair] = _compared(_string(SLOW, Occasion.BEFORE, **before), _string(FAST, Occasion.AFTER, **after))
    assert pair.comparison is None
    assert any(words in obstacle for obstacle in pair.obstacles)


def test_one_shot_compares_with_nothing() -> None:
    """It shows no scatter."""
    [pair] = _compared(_string([80.0], Occasion.BEFORE), _string(FAST, Occasion.AFTER))
    assert pair.comparison is None
    assert "One shot before shows no scatter, so no difference can be judged by it." in pair.obstacles


def test_different_distances_are_brought_to_the_muzzle() -> None:
    """The same gun read at 0.3 m and at 3 m has not changed, once the way is taken out; how well the drag is known counts."""
    near, far = (
        [reading_from_muzzle(speed, ball_mass=0.2e-3, distance=distance).speed for speed in FAST] for distance in (0.3, 3.0)
    )
    [pair] = _compared(
        _string(near, Occasion.BEFORE, ball_mass=0.2e-3, distance=0.3),
        _string(far, Occasion.AFTER, ball_mass=0.2e-3, distance=3.0),
    )
    assert pair.comparison is not None
    assert pair.comparison.difference == pytest.approx(0.0, abs=0.01)
    assert any("brought to the muzzle" in caution for caution in pair.cautions)
    [same] = _compared(
        _string(FAST, Occasion.BEFORE, ball_mass=0.2e-3, distance=0.3),
        _string(FAST, Occasion.AFTER, ball_mass=0.2e-3, distance=0.3),
    )
    assert same.comparison is not None
    # 9 % of the ten per cent that a ball of 0.20 g loses between 0.3 m and 3 m.
    way = pair.comparison.speed.standard_uncertainty**2 - same.comparison.speed.standard_uncertainty**2
    assert way**0.5 == pytest.approx(0.09 * 0.107 * 89.0, rel=0.1)


def test_without_a_ball_no_reading_can_be_moved() -> None:
    """Different distances and no mass: refused with the reason."""
    [pair] = _compared(_string(SLOW, Occasion.BEFORE, distance=0.3), _string(FAST, Occasion.AFTER, distance=3.0))
    assert pair.comparison is None
    assert any("without the mass of the ball no speed can be moved" in obstacle for obstacle in pair.obstacles)


def test_a_way_beyond_the_law_of_drag_is_no_comparison() -> None:
    """Balls that would have left far too fast: the reason stands there, and the case goes on."""
    [pair] = _compared(
        _string(FAST, Occasion.BEFORE, ball_mass=0.12e-3, distance=0.3),
        _string(FAST, Occasion.AFTER, ball_mass=0.12e-3, distance=50.0),
    )
    assert pair.comparison is None
    assert any("cannot be brought to the muzzle" in obstacle for obstacle in pair.obstacles)


def test_setting_up_anew_widens_the_difference() -> None:
    """By its uncertainty, once for each string."""
    strings = _string(SLOW, Occasion.BEFORE, ball_mass=0.2e-3), _string(FAST, Occasion.AFTER, ball_mass=0.2e-3)
    plain, set_up = (_compared(*strings, setup=setup)[0].comparison for setup in (0.0, 0.5))
    assert plain is not None
    assert set_up is not None
    added = set_up.speed.standard_uncertainty**2 - plain.speed.standard_uncertainty**2
    assert added == pytest.approx(2 * 0.5**2)


def test_what_has_no_partner_is_left_alone() -> None:
    """Two strings before and one after make one pair."""
    pairs = _compared(
        _string(SLOW, Occasion.BEFORE, ball_mass=0.2e-3),
        _string(SLOW, Occasion.BEFORE, ball_mass=0.4e-3),
        _string(FAST, Occasion.AFTER, ball_mass=0.4e-3),
    )
    assert [pair.before.reading.conditions.ball_mass for pair in pairs] == [0.4e-3]
