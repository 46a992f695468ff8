"""Ball and air on the way to the chronograph."""

from __future__ import annotations

import dataclasses

from stripdown.core.air import air_density
from stripdown.core.mechanics.ball_drag import AIR_AT_20_CELSIUS, BallFlight
from stripdown.core.parts.conditions import Conditions
from stripdown.files.gun import Gun


def flight_of(gun: Gun | None, day: Conditions) -> BallFlight:
    """Ball and air on the way to the chronograph."""
    written = None if gun is None else gun.written.get("ball.diameter")
    return dataclasses.replace(
        AIR_AT_20_CELSIUS,
        ball_diameter=AIR_AT_20_CELSIUS.ball_diameter if written is None else written.number,
        air_density=air_density(temperature=day.temperature, pressure=day.pressure, relative_humidity=day.relative_humidity),
    )
