"""Pictures of flights carry the numbers of their studies, in workshop units."""

from __future__ import annotations

import numpy as np
import pytest

from stripdown.charts.ball_choice import balls_side_by_side
from stripdown.charts.flight import drop_and_speed, side_view
from stripdown.charts.on_target import fan_on_target
from stripdown.charts.themes import SCREEN
from stripdown.studies.ball_choice import study_balls
from stripdown.studies.effective_range import Group, study_range
from stripdown.studies.flight import FlightStudy, study_flight
from stripdown.studies.lift import flat_to
from stripdown.studies.muzzle import Stance
from tests.fired_strings import sound_gun
from tests.unit.charts.specs import table_with


@pytest.fixture(scope="module")
def study() -> FlightStudy:
    """A level shot that was seen to fly flat to 35 m."""
    return study_flight(sound_gun(), stance=Stance(elevation=0.0, zero=25.0), sightings=(flat_to(35.0),))


def test_the_side_view_has_path_band_and_what_was_seen(study: FlightStudy) -> None:
    """Heights in centimetres over the muzzle; the point that was seen lies on it."""
    chart = side_view(study, scale="metric", theme=SCREEN)
    path = table_with(chart, "height", "speed")
    assert path[0] == {"distance": 0.0, "height": 0.0, "speed": pytest.approx(study.muzzle.speed, abs=0.01)}
    assert path[-1]["height"] == pytest.approx(-150.0, abs=0.1)
    band = table_with(chart, "height_low", "height_high")
    assert all(row["height_low"] <= row["height_high"] for row in band)
    assert {"distance": 35.0, "height": -10.0} in table_with(chart, "distance", "height") or any(
        row == {"distance": 35.0, "height": -10.0} for table in chart.to_dict()["datasets"].values() for row in table
    )


def test_speeds_are_in_feet_when_asked(study: FlightStudy) -> None:
    """One metre is 3.2808 ft."""
    rows = table_with(drop_and_speed(study, scale="imperial", theme=SCREEN), "height", "speed")
    assert rows[0]["speed"] == pytest.approx(study.muzzle.speed / 0.3048, abs=0.01)


def test_a_fan_lies_on_its_target() -> None:
    """Right is right: what drifts to the left is drawn left of the middle; the ring has the size of the target."""
    found = study_range(
        sound_gun(),
        rng=np.random.default_rng(1),
        group=Group(width=0.12, height=0.15, shots=10, distance=20.0),
        stance=Stance(elevation=0.0, zero=20.0),
    )
    chart = fan_on_target(found, scale="metric", theme=SCREEN)
    ring = table_with(chart, "order", "across", "up")
    assert max(row["across"] for row in ring) == pytest.approx(50 * found.target.width)
    points = [row for table in chart.to_dict()["datasets"].values() for row in table if set(row) == {"across", "up"}]
    assert {"across": round(-found.impacts[0][0] * 100, 2), "up": round(found.impacts[0][1] * 100, 2)} in points


def test_each_ball_is_a_point_in_each_panel() -> None:
    """Grams, metres, joules."""
    found = study_balls(sound_gun(), ball_masses=(0.20e-3, 0.30e-3))
    rows = table_with(balls_side_by_side(found, theme=SCREEN), "mass", "carry", "muzzle")
    assert [row["mass"] for row in rows] == [0.2, 0.3]
    assert [row["muzzle"] for row in rows] == [round(ball.energy, 4) for ball in found.balls]
