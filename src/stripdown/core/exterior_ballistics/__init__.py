"""Exterior ballistics: from the muzzle to where the ball lands.

Where is the ball, how fast is it, and how does it spin, at any distance?
"""

from stripdown.core.exterior_ballistics.air_state import air_state, standard_atmosphere
from stripdown.core.exterior_ballistics.drag import drag_coefficient
from stripdown.core.exterior_ballistics.fan import FlightFan, integrate_fan
from stripdown.core.exterior_ballistics.lift import lift_coefficient
from stripdown.core.exterior_ballistics.parameters import (
    DragLaw,
    FlightAir,
    FlightLaws,
    FlightParameters,
    Launch,
    LiftLaw,
    Sphere,
    SpinDecayLaw,
    Wind,
)
from stripdown.core.exterior_ballistics.result import Flight, FlightState, Passings
from stripdown.core.exterior_ballistics.simulate import flight_laws, integrate_flight, simulate_flight

__all__ = [
    "DragLaw",
    "Flight",
    "FlightAir",
    "FlightFan",
    "FlightLaws",
    "FlightParameters",
    "FlightState",
    "Launch",
    "LiftLaw",
    "Passings",
    "Sphere",
    "SpinDecayLaw",
    "Wind",
    "air_state",
    "drag_coefficient",
    "flight_laws",
    "integrate_fan",
    "integrate_flight",
    "lift_coefficient",
    "simulate_flight",
    "standard_atmosphere",
]
