from __future__ import annotations

import pytest

from stripdown.charts.shot import pressure_travel, speed_travel
from stripdown.charts.themes import SCREEN
from stripdown.core.interior_ballistics.result import Outcome, Shot
from tests.synthetic_shots import make_shot
from tests.unit.charts.specs import tables


def test_pressure_is_in_bar_along_millimetres(healthy: Shot) -> None:
    """The cylinder's peak and the piston's stroke of 52 mm survive thinning and change of unit."""
    cylinder, _, barrel, _ = tables(pressure_travel([healthy], names=["healthy"], theme=SCREEN))
    assert max(point["of"] for point in cylinder) == pytest.approx(healthy.cylinder_pressure.max() / 1e5, rel=1e-5)
    assert max(point["along"] for point in cylinder) == pytest.approx(52.0, rel=1e-4)
    assert max(point["along"] for point in barrel) == pytest.approx(353.0, rel=1e-5)


def test_the_balls_curve_ends_where_it_leaves_the_muzzle(healthy: Shot) -> None:
    """After 10 ms the barrel is empty: the last point is the muzzle speed at the end of the travel."""
    ball = tables(speed_travel([healthy], names=["healthy"], speed_unit="m/s", theme=SCREEN))[2]
    assert ball[-1]["along"] == pytest.approx(353.0, rel=1e-5)
    assert ball[-1]["of"] == pytest.approx(100.0, rel=1e-5)
    assert ball[-1]["order"] == 750  # sample at 10 ms of 20 ms in 1501 samples


def test_speeds_are_in_the_unit_asked_for(healthy: Shot) -> None:
    """100 m/s are 328.084 ft/s, and the heading says so."""
    chart = speed_travel([healthy], names=["healthy"], speed_unit="ft/s", theme=SCREEN)
    assert tables(chart)[2][-1]["of"] == pytest.approx(100 / 0.3048, rel=1e-5)
    assert chart.to_dict()["hconcat"][1]["title"]["text"] == "Ball speed, ft/s"


def test_milestones_lie_on_their_curves(healthy: Shot) -> None:
    """The piston's panel has all four, the ball's only those while it moves in the barrel."""
    _, piston, _, ball = tables(speed_travel([healthy], names=["healthy"], speed_unit="m/s", theme=SCREEN))
    assert [mark["number"] for mark in piston] == [1, 2, 3, 4]
    assert [mark["number"] for mark in ball] == [1, 2, 3]
    assert ball[1]["of"] == pytest.approx(100 * 0.6 / 4.0, rel=1e-3)  # 0.6 ms of the 4 ms over which it gains 100 m/s
    assert ball[1]["along"] == pytest.approx(353 * (0.6 / 4.0) ** 2, rel=1e-3)


def test_two_shots_share_each_panel(healthy: Shot, as_found: Shot) -> None:
    """Each keeps its name, short, and each has its own dots."""
    names = ["Rack 7, healthy", "Rack 7, as found"]
    chart = pressure_travel([healthy, as_found], names=names, theme=SCREEN)
    curve, dots, *_ = tables(chart)
    assert {point["shot"] for point in curve} == {"healthy", "as found"}
    assert len(dots) == 8


def test_a_ball_that_does_not_move_can_still_be_drawn() -> None:
    """The panel of the ball is empty of travel, and says why."""
    stuck = make_shot(outcome=Outcome.DID_NOT_MOVE)
    _, _, ball, _, words = tables(speed_travel([stuck], names=["stuck"], speed_unit="m/s", theme=SCREEN))
    assert {point["along"] for point in ball} == {0.0}
    assert words == [{"words": "it does not move"}]
