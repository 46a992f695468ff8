from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from stripdown.charts.themes import PAPER, SCREEN
from stripdown.charts.travel_panel import Panel, lanes, travel_panel, value_at_time
from stripdown.core.interior_ballistics.result import Shot
from tests.unit.charts.specs import tables


def test_headings_come_from_the_declarations() -> None:
    """Label and workshop unit are read from the quantity; a unit asked for wins."""
    panel = Panel(along="ball_position", of="ball_spin")
    assert panel.heading() == "Backspin, rpm"
    assert panel.foot() == "ball travel, mm"
    assert Panel(along="ball_position", of="ball_speed", unit="ft/s").heading() == "Ball speed, ft/s"


def test_numbers_stay_above_the_curve(healthy: Shot) -> None:
    """Each number stands higher than the highest point, and inside the plot."""
    chart = travel_panel(Panel(along="piston_position", of="piston_speed"), [healthy], ["healthy"], width=300, theme=SCREEN)
    curve, marks = tables(chart)
    top = chart.to_dict()["layer"][0]["encoding"]["y"]["scale"]["domain"][1]
    assert max(point["of"] for point in curve) < min(mark["top"] for mark in marks)
    assert max(mark["top"] for mark in marks) < top


def test_a_finger_has_room_on_the_screen_and_not_on_paper(healthy: Shot, as_found: Shot) -> None:
    """Dots of a pair lie under an invisible area of at least 44 pixels across; on paper nobody points."""
    panel = Panel(along="piston_position", of="piston_speed")
    screen, paper = (
        travel_panel(panel, [healthy, as_found], ["a", "b"], width=300, theme=theme).to_dict()["layer"]
        for theme in (SCREEN, PAPER)
    )
    areas = [layer["mark"]["size"] for layer in screen if layer["mark"].get("opacity") == 0]
    assert areas
    assert min(areas) >= 3.1415 * 22**2
    assert not [layer for layer in paper if layer["mark"].get("opacity") == 0]


def test_a_value_between_samples_is_interpolated(healthy: Shot) -> None:
    """Half way between two samples lies half way between their values."""
    time = 0.5 * (healthy.time[700] + healthy.time[701])
    expected = 0.5 * (healthy.ball_position[700] + healthy.ball_position[701])
    assert value_at_time(healthy, healthy.ball_position, time) == pytest.approx(expected)


def test_at_a_jump_the_value_before_it_is_read(healthy: Shot) -> None:
    """The slam speed is the speed before the slam, not the one of the rebound."""
    time = np.array([0.0, 1.0, 1.0, 2.0])
    jumping = dataclasses.replace(healthy, time=time)
    assert value_at_time(jumping, np.array([0.0, 4.0, -1.0, 0.0]), 1.0) == 4.0


def test_numbers_that_would_collide_go_into_lanes() -> None:
    """Those too near to the last one of a lane take the next lane; far ones come back to the first."""
    assert lanes([0.0, 1.0, 1.5, 10.0], gap=2.0) == [0, 1, 2, 0]
    assert lanes([10.0, 0.0], gap=2.0) == [0, 0]
    assert lanes([], gap=2.0) == []
