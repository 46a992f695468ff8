"""Flights that were measured: throws of large balls in the open."""

from __future__ import annotations

import pytest

from stripdown.core.exterior_ballistics import air_state, simulate_flight
from tests.published import Published

AIR = air_state(temperature=293.15, relative_humidity=0.5)


@pytest.mark.source("mencke_2020", "shot put of 7.26 kg", rtol=0.01, because="its diameter and the day's air are not told")
def test_mencke_shot_put(published: Published) -> None:
    """A shot of (9.0, 7.1) m/s from 2.4 m: how far and how high."""
    flight = simulate_flight(
        ball_mass=7.26, ball_diameter=0.12, velocity=(9.0, 0.0, 7.1), position=(0.0, 0.0, 2.4), air=AIR, drag=0.47, lift=None
    )
    published("range", found=flight.end.position[0], expected=15.44, unit="m")
    published("height", found=flight.apex.position[2], expected=5.0, unit="m")


@pytest.mark.source(
    "mencke_2020", "football of 0.43 kg without spin", because="it flew near its drag crisis, whose place is not told"
)
def test_mencke_football(published: Published) -> None:
    """A football of (11.0, 10.2) m/s flew as far as one before and one after its drag crisis have it."""
    ranges, heights = [], []
    for drag in (0.51, 0.20):
        flight = simulate_flight(ball_mass=0.43, ball_diameter=0.22, velocity=(11.0, 0.0, 10.2), air=AIR, drag=drag, lift=None)
        ranges.append(flight.end.position[0])
        heights.append(flight.apex.position[2])
    published.within("measured range", found=17.75, low=ranges[0], high=ranges[1], unit="m")
    published.within("measured height", found=4.59, low=heights[0], high=heights[1], unit="m")
