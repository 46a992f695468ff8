"""Chronograph strings with their conditions, and with the instrument and the balls that they were taken with."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from stripdown.bench.gun import Gun
from stripdown.core.air import air_density
from stripdown.core.mechanics.ball_drag import AIR_AT_20_CELSIUS, BallFlight
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ, Chronograph
from stripdown.core.shot_statistics.conditions import StringConditions
from stripdown.quantities import Q

FIRED_BALL_MASS: Final = Q(
    "kg",
    low=0.1e-3,
    high=0.6e-3,
    usual=(0.00012, 0.00048),
    label="mass of the ball",
    shown="g",
    explain="Weigh ten and divide by ten.",
)
SETUP_UNCERTAINTY: Final = Q(
    "m/s",
    low=0,
    high=20,
    usual=(0, 1),
    label="standard uncertainty of setting the chronograph up anew",
    explain="What packing the chronograph away and setting it up again changes; a bias that stays the same is not in it.",
)
BALL_MASS_UNCERTAINTY: Final = Q(
    "kg",
    low=0,
    high=1e-4,
    usual=(0, 5e-6),
    label="standard uncertainty of the ball's mass",
    shown="mg",
    explain="Of the mean mass of the balls: balance and weighing, not the scatter from ball to ball.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """One line, or one cell of it, from which nothing was taken.

    Parameters
    ----------
    line
        Its number in the file, from 1.
    text
        What it says.
    reason
        Why nothing was taken, and what would be right.
    file
        Name of the file, where several are told of together; empty otherwise.
    """

    line: int
    text: str
    reason: str
    file: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingString:
    """One chronograph string as the file has it.

    Parameters
    ----------
    label
        Its name in the file; empty if it has none.
    conditions
        How it was fired, as far as the file or the caller said.
    speeds
        In m/s, in the order of the file.
    resolution
        Smallest step of the readings as they were written, in m/s.
    set_aside
        Readings that are not counted: reason by index.
    file, lines
        Where it was written down, to be shown: name of the file without folders, line of each reading; empty if not known.
    """

    label: str
    conditions: StringConditions
    speeds: tuple[float, ...]
    resolution: float
    set_aside: Mapping[int, str] = field(default_factory=dict)
    file: str = ""
    lines: tuple[int, ...] = ()

    @property
    def words(self) -> str:
        """The string in a few words: its label, or what sets it apart."""
        if self.label:
            return self.label
        said = self.conditions
        parts = [
            said.occasion.value if said.occasion else "",
            f"{said.ball_mass * 1000:.3f}".removesuffix("0") + " g" if said.ball_mass is not None else "",
            f"hop-up {said.hop.value}" if said.hop else "",
            said.fire_mode.value if said.fire_mode else "",
        ]
        return ", ".join(part for part in parts if part) or "string"


@dataclass(frozen=True, slots=True, kw_only=True)
class ChronographSession:
    """Everything that was read with one instrument.

    Parameters
    ----------
    strings
        In the order in which they were read.
    chronograph
        Bias and uncertainty of the instrument.
    setup_uncertainty
        What setting it up anew changes between before and after, as a standard uncertainty in m/s.
    ball_mass_uncertainty
        Standard uncertainty of the mass of each ball, in kg.
    flight
        Ball and air on the way to the chronograph.
    left_out
        Lines that gave no reading, each with its file.
    notes
        How the readings were understood where they could be understood otherwise.
    """

    strings: tuple[ReadingString, ...]
    chronograph: Chronograph = CHRONOGRAPH_AS_READ
    setup_uncertainty: float = 0.0
    ball_mass_uncertainty: float = 0.0
    flight: BallFlight = AIR_AT_20_CELSIUS
    left_out: tuple[LeftOut, ...] = ()
    notes: tuple[str, ...] = ()


def flight_of(gun: Gun | None, day: Conditions) -> BallFlight:
    """Ball and air on the way to the chronograph."""
    written = None if gun is None else gun.written.get("ball.diameter")
    return dataclasses.replace(
        AIR_AT_20_CELSIUS,
        ball_diameter=AIR_AT_20_CELSIUS.ball_diameter if written is None else written.number,
        air_density=air_density(temperature=day.temperature, pressure=day.pressure, relative_humidity=day.relative_humidity),
    )
