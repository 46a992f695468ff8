"""What a flight depends on: ball, launch, air, wind, and the laws that slow, lift and spin it down."""

from __future__ import annotations

import enum
from typing import Annotated

from stripdown.core.constants import STANDARD_GRAVITY
from stripdown.quantities import Q, parameters


class DragLaw(enum.IntEnum):
    """How the drag of a smooth sphere depends on the Reynolds number."""

    CONSTANT = 0
    CLIFT_GAUVIN = 1
    MORRISON = 2
    BROWN_LAWLER = 3


class LiftLaw(enum.IntEnum):
    """How the lift of a spinning sphere depends on the spin ratio."""

    NONE = 0
    CONSTANT = 1
    LOTH = 2
    TSUJI = 3
    RUBINOW_KELLER = 4
    SAWICKI = 5


class SpinDecayLaw(enum.IntEnum):
    """What slows the spin."""

    NONE = 0
    CROSS_FLOW = 1
    STILL_FLUID = 2


@parameters
class Sphere:
    """A ball in flight: any solid sphere; what is plausible at a bench is judged elsewhere."""

    mass: Annotated[float, Q("kg", low=1e-9, high=1e3, usual=(0.00012, 0.00048), label="mass of the ball", shown="g")]
    diameter: Annotated[float, Q("m", low=1e-6, high=10, usual=(0.00593, 0.00596), label="diameter of the ball", shown="mm")]


@parameters
class Launch:
    """Where the flight begins, how fast and with which spin: x downrange, y to the left, z up."""

    x: Annotated[float, Q("m", low=-1e6, high=1e6, usual=(0, 0), label="start downrange")] = 0.0
    y: Annotated[float, Q("m", low=-1e6, high=1e6, usual=(0, 0), label="start to the left")] = 0.0
    z: Annotated[float, Q("m", low=-1e6, high=1e6, usual=(1.2, 1.7), label="height of the muzzle")] = 0.0
    speed_x: Annotated[float, Q("m/s", low=-1e3, high=1e3, usual=(60, 130), label="speed downrange")]
    speed_y: Annotated[float, Q("m/s", low=-1e3, high=1e3, usual=(-1, 1), label="speed to the left")] = 0.0
    speed_z: Annotated[float, Q("m/s", low=-1e3, high=1e3, usual=(-2, 5), label="speed upward")] = 0.0
    spin_x: Annotated[float, Q("rad/s", low=-1e6, high=1e6, usual=(-50, 50), label="spin about the line of flight")] = 0.0
    spin_y: Annotated[
        float,
        Q(
            "rad/s",
            low=-1e6,
            high=1e6,
            usual=(-3000, 0),
            label="spin about the axis to the left",
            explain="Negative is backspin: the top of the ball runs back toward the shooter, and the air lifts it.",
        ),
    ] = 0.0
    spin_z: Annotated[float, Q("rad/s", low=-1e6, high=1e6, usual=(-300, 300), label="spin about the upright axis")] = 0.0


@parameters
class FlightAir:
    """The air that a ball flies through."""

    density: Annotated[float, Q("kg/m3", low=0, high=1e4, usual=(1.0, 1.4), label="density of the air")]
    viscosity: Annotated[float, Q("Pa s", low=1e-9, high=1e3, usual=(1.6e-5, 2e-5), label="viscosity of the air")]
    speed_of_sound: Annotated[float, Q("m/s", low=1, high=1e5, usual=(318, 356), label="speed of sound")]


@parameters
class Wind:
    """Wind over open ground: its speed grows with the height by a power law."""

    along: Annotated[
        float, Q("m/s", low=-100, high=100, usual=(-8, 8), label="wind from behind", explain="Negative is in the face.")
    ] = 0.0
    across: Annotated[
        float, Q("m/s", low=-100, high=100, usual=(-8, 8), label="wind toward the left", explain="Negative blows to the right.")
    ] = 0.0
    height: Annotated[float, Q("m", low=0.01, high=1e3, usual=(1.5, 10), label="height at which the wind was measured")] = 2.0
    exponent: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=1,
            usual=(0, 0.3),
            label="growth of the wind with height",
            explain="One seventh over open grass; zero for the same wind at every height.",
        ),
    ] = 1.0 / 7.0


@parameters
class FlightLaws:
    """Which laws, and their coefficients: each a parameter with a footing, never a literal in a kernel."""

    drag: DragLaw = DragLaw.CLIFT_GAUVIN
    drag_coefficient: Annotated[float, Q("1", low=0, high=10, usual=(0.38, 0.52), label="constant drag coefficient")] = 0.45
    drag_factor: Annotated[float, Q("1", low=0, high=10, usual=(0.9, 1.1), label="multiplier on the drag")] = 1.0
    with_mach_factor: bool = False
    lift: LiftLaw = LiftLaw.LOTH
    lift_coefficient: Annotated[float, Q("1", low=-10, high=10, usual=(0, 0.3), label="constant lift coefficient")] = 0.0
    lift_factor: Annotated[
        float,
        Q(
            "1",
            low=-100,
            high=100,
            usual=(0.5, 3),
            label="multiplier on the lift",
            explain="No lift of such a ball was ever published: it is fitted to what one sees.",
        ),
    ] = 1.0
    spin_decay: SpinDecayLaw = SpinDecayLaw.CROSS_FLOW
    spin_torque: Annotated[
        float,
        Q(
            "1",
            low=0,
            high=10,
            usual=(0.01, 0.03),
            label="torque coefficient of a spinning ball in a stream",
            explain="Torque over ½·density·cross-section·radius·speed² and the spin ratio; measured with golf balls.",
        ),
    ] = 0.019
    gravity: Annotated[float, Q("m/s2", low=0, high=100, usual=(9.78, 9.83), label="acceleration of free fall")] = (
        STANDARD_GRAVITY
    )


@parameters
class FlightParameters:
    """Everything that one flight depends on."""

    ball: Sphere
    launch: Launch
    air: FlightAir
    wind: Wind
    laws: FlightLaws
