from __future__ import annotations

import pytest

from stripdown.core.shim_selection import bearing_end_play, class_clearance
from stripdown.errors import OutOfRange


def test_end_play_is_of_the_order_of_the_float() -> None:
    """A few micrometres across are some hundredths of a millimetre along: sqrt(4 A Gr) with A = 0.04 balls."""
    found = bearing_end_play(radial_clearance=8e-6, ball_diameter=1.588e-3)
    assert found.end_play == pytest.approx((4 * 0.04 * 1.588e-3 * 8e-6) ** 0.5, rel=0.02)
    assert "hard push" in found.note


def test_a_bearing_without_clearance_has_no_end_play() -> None:
    """And more clearance means more of it."""
    assert bearing_end_play(radial_clearance=0.0, ball_diameter=1e-3).end_play == 0.0
    plays = [bearing_end_play(radial_clearance=k * 1e-6, ball_diameter=1e-3).end_play for k in range(30)]
    assert plays == sorted(plays)


@pytest.mark.parametrize(
    "change",
    [
        {"radial_clearance": -1e-6},
        {"ball_diameter": 0.0},
        {"groove_radius": 0.4},
        {"radial_clearance": 9e-5, "ball_diameter": 4e-4},
    ],
)
def test_an_impossible_bearing_is_refused(change: dict[str, float]) -> None:
    """Negative clearance, no balls, grooves tighter than the balls, more clearance than the grooves leave."""
    with pytest.raises(OutOfRange):
        bearing_end_play(**({"radial_clearance": 8e-6, "ball_diameter": 1.5e-3} | change))


def test_an_unknown_class_names_those_that_are() -> None:
    """C9 is none; the message lists the others."""
    with pytest.raises(OutOfRange, match="MC3"):
        class_clearance("C9")
