"""The tappet plate after the fin has slipped off its pin: when the feed port is shut, and when the nozzle is home."""

from __future__ import annotations

import math
from dataclasses import dataclass

from stripdown.core.parts.tappet_plate import TappetPlate


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateReturn:
    """Times since the fin slipped.

    Parameters
    ----------
    shut
        Until the nozzle shuts the feed port, in s.
    home
        Until it is home, in s; infinite where the spring is too weak against lips and friction.
    """

    shut: float
    home: float


def plate_return(plate: TappetPlate) -> PlateReturn:
    """How the plate snaps home: a mass on a spring with dry friction, in two stretches, exactly.

    Parameters
    ----------
    plate
        Plate, spring and nozzle.

    Returns
    -------
    PlateReturn

    Notes
    -----
    From rest at its full travel, without bounce; from where the lips touch they push against it with a constant force.
    """
    pull = plate.spring_force - plate.friction
    if pull + plate.spring_rate * plate.travel <= 0.0:
        return PlateReturn(shut=math.inf, home=math.inf)
    swing = math.sqrt(plate.spring_rate / plate.mass)
    middle = -pull / plate.spring_rate

    def reaches(place: float) -> float:
        share = (place - middle) / (plate.travel - middle)
        return math.inf if share < -1.0 else math.acos(min(1.0, share)) / swing

    shut, touch = reaches(plate.feed_closes), reaches(min(plate.lips_touch, plate.travel))
    if not math.isfinite(touch):
        return PlateReturn(shut=shut, home=math.inf)
    speed = -(plate.travel - middle) * swing * math.sin(swing * touch)
    held = -(pull - plate.lips_force) / plate.spring_rate
    away = min(plate.lips_touch, plate.travel) - held
    reach, phase = math.hypot(away, speed / swing), math.atan2(-speed / swing, away)
    share = -held / reach if reach > 0.0 else 2.0
    if abs(share) > 1.0:
        return PlateReturn(shut=shut, home=math.inf)
    # u = held + reach·cos(swing·t + phase) comes down through zero.
    return PlateReturn(shut=shut, home=touch + (math.acos(share) - phase) / swing)
