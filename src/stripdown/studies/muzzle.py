"""With what speed and spin does the ball leave this gun: read off a chronograph, or predicted?"""

from __future__ import annotations

import dataclasses
import math
from dataclasses import dataclass
from typing import Annotated

from stripdown.bench.completion import CompleteGun, complete
from stripdown.bench.gun import Gun
from stripdown.core.exterior_ballistics import FlightAir, FlightLaws, FlightParameters, Launch, Sphere, Wind, air_state
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.core.mechanics.ball_drag import BallFlight
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import muzzle_from_reading
from stripdown.errors import InputError
from stripdown.quantities import Q, parameters
from stripdown.studies.whole_gun import simulate_shot


@parameters
class Stance:
    """How the gun is held over the ground, and where its sights look."""

    muzzle_height: Annotated[float, Q("m", low=0.01, high=100, usual=(0.2, 2), label="height of the muzzle")] = 1.5
    elevation: Annotated[
        float | None,
        Q(
            "rad",
            low=-1.5,
            high=1.5,
            usual=(-0.02, 0.1),
            label="elevation of the barrel",
            shown="deg",
            explain="Above the level: a spirit level on the barrel shows zero.",
        ),
    ] = None
    sight_height: Annotated[float, Q("m", low=0, high=0.5, usual=(0.02, 0.12), label="sights above the barrel", shown="mm")] = (
        0.06
    )
    zero: Annotated[float | None, Q("m", low=1, high=150, usual=(10, 60), label="distance at which the sights are zeroed")] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MuzzleState:
    """How the ball leaves.

    Parameters
    ----------
    gun
        As written.
    complete
        With what was assumed of it.
    speed
        At the muzzle, in m/s.
    backspin
        In rad/s: the shot's, an estimate whatever the speed rests on.
    predicted_speed
        What the shot says, in m/s.
    reading
        What the chronograph showed, in m/s; None if the speed is the shot's.
    read_at
        Distance of the chronograph from the muzzle, in m.
    air
        Of the day.
    """

    gun: Gun
    complete: CompleteGun
    speed: Annotated[float, Q("m/s", label="muzzle speed")]
    backspin: Annotated[float, Q("rad/s", label="backspin at the muzzle", shown="rpm")]
    predicted_speed: Annotated[float, Q("m/s", label="predicted muzzle speed")]
    reading: float | None
    read_at: float
    air: FlightAir

    @property
    def ball(self) -> Sphere:
        """The ball as a flight knows it."""
        ball = self.complete.parameters.ball
        return Sphere(mass=ball.mass, diameter=ball.diameter)

    @property
    def energy(self) -> float:
        """Energy at the muzzle in J."""
        return 0.5 * self.ball.mass * self.speed**2

    @property
    def spin_ratio(self) -> float:
        """Speed of the surface over that of the ball."""
        return 0.5 * self.ball.diameter * self.backspin / self.speed

    @property
    def flight(self) -> BallFlight:
        """Ball and air as far as a chronograph needs them."""
        return ball_flight(self.complete, self.air)

    def launched(self, stance: Stance, *, laws: FlightLaws | None = None, wind: Wind | None = None) -> FlightParameters:
        """What a flight depends on, the barrel level unless the stance says otherwise.

        Parameters
        ----------
        stance
            How the gun is held.
        laws
            None for the usual ones.
        wind
            None for calm air.

        Returns
        -------
        FlightParameters
        """
        elevation = stance.elevation or 0.0
        return FlightParameters(
            ball=self.ball,
            launch=Launch(
                z=stance.muzzle_height,
                speed_x=self.speed * math.cos(elevation),
                speed_z=self.speed * math.sin(elevation),
                spin_y=-self.backspin,
            ),
            air=self.air,
            wind=wind or Wind(),
            laws=laws or FlightLaws(),
        )


def muzzle_state(
    gun: Gun,
    *,
    ball_mass: float | None = None,
    reading: float | None = None,
    read_at: float = 0.0,
    conditions: Conditions | None = None,
) -> MuzzleState:
    """Find the speed and spin with which a ball leaves a gun.

    Parameters
    ----------
    gun
        As loaded from its file.
    ball_mass
        Mass of the ball in kg; None for the file's.
    reading
        Mean reading of a chronograph in m/s; None for the predicted speed.
    read_at
        Distance of the chronograph from the muzzle, in m.
    conditions
        The day; None is a workshop at 20 °C.

    Returns
    -------
    MuzzleState

    Raises
    ------
    InputError
        If the ball does not leave the muzzle.
    OutOfRange
        For an impossible value.

    Notes
    -----
    A speed that was read changes the backspin in the same ratio: the spin ratio is the shot's.
    """
    whole = complete(gun, ball_mass=ball_mass, conditions=conditions)
    shot = simulate_shot(gun, ball_mass=ball_mass, conditions=conditions)
    air = air_of(conditions)
    if shot.outcome is not Outcome.LEFT_MUZZLE:
        raise InputError(
            f"{gun.shown_name}: the ball does not leave the muzzle, so there is nothing to follow.",
            field="ball.mass",
            value=whole.parameters.ball.mass,
            hint="Fire a lighter ball, or look at leaks and spring in the gun's file.",
        )
    predicted, speed = shot.figures.muzzle_speed, shot.figures.muzzle_speed
    if reading is not None:
        flight = ball_flight(whole, air)
        mass = whole.parameters.ball.mass
        speed = muzzle_from_reading(reading, ball_mass=mass, distance=read_at, flight=flight).speed
    return MuzzleState(
        gun=gun,
        complete=whole,
        speed=speed,
        backspin=shot.figures.backspin * speed / predicted,
        predicted_speed=predicted,
        reading=reading,
        read_at=read_at,
        air=air,
    )


def air_of(conditions: Conditions | None) -> FlightAir:
    """The air of a day."""
    day = conditions or Conditions()
    return air_state(temperature=day.temperature, pressure=day.pressure, relative_humidity=day.relative_humidity)


def ball_flight(whole: CompleteGun, air: FlightAir) -> BallFlight:
    """Ball and air as far as a chronograph needs them."""
    return dataclasses.replace(
        BallFlight(),
        ball_diameter=whole.parameters.ball.diameter,
        air_density=air.density,
        air_viscosity=air.viscosity,
    )
