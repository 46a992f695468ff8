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
BETWEEN_DAYS: Final = Q(
    "1",
    low=0,
    high=0.1,
    usual=(0.002, 0.01),
    label="what two days differ by in themselves",
    shown="%",
    explain="Standard deviation of a gun's mean speed from day to day with nothing done to it, alike for all strings of one day: "
    "cold rubber, grease, battery, light on the screens. 0.5 % if left out (an estimate); write 0 % only if it is known.",
)
USUAL_BETWEEN_DAYS: Final = 0.005
USUAL_OWN_DAY: Final = 0.002
OWN_DAY: Final = Q(
    "1",
    low=0,
    high=0.1,
    usual=(0.0005, 0.01),
    label="what one gun's own day changes",
    shown="%",
    explain="Standard deviation of one gun's mean speed from day to day that no other gun shares, so that a reference gun does "
    "not take it out; 0.2 % if left out (an estimate).",
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
    is_no_shot
        Whether it was understood: as a mean, a deviation, an extreme, a sum or a number of shots.
    """

    line: int
    text: str
    reason: str
    file: str = ""
    is_no_shot: bool = False


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
    asked
        Lines that count, although they may be the mean or the extremes of the others: somebody has to say.
    doubt
        Why nothing may be said of a limit by it: units are mixed, or most lines fell away; empty if nothing is in the way.
    """

    label: str
    conditions: StringConditions
    speeds: tuple[float, ...]
    resolution: float
    set_aside: Mapping[int, str] = field(default_factory=dict)
    file: str = ""
    lines: tuple[int, ...] = ()
    asked: tuple[LeftOut, ...] = ()
    doubt: str = ""

    @property
    def words(self) -> str:
        """The string in a few words: its label, or what sets it apart."""
        if self.label:
            return self.label
        said = self.conditions
        parts = [
            said.gun or "",
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
    between_days
        What all strings of one day have in common and another day has not, as a standard deviation, share of the speed.
    ball_mass_uncertainty
        Standard uncertainty of the mass of each ball, in kg.
    flight
        Ball and air on the way to the chronograph.
    left_out
        Lines that gave no reading, each with its file.
    notes
        How the readings were understood where they could be understood otherwise.
    reference
        Strings of the workshop's reference gun, fired before the session of each day.
    own_day
        Share by which the mean of one gun differs from day to day by itself: what a reference gun cannot take out.
    read_on_both
        Strings of guns that were read on this chronograph and on the site's.
    """

    strings: tuple[ReadingString, ...]
    chronograph: Chronograph = CHRONOGRAPH_AS_READ
    setup_uncertainty: float = 0.0
    between_days: float = USUAL_BETWEEN_DAYS
    ball_mass_uncertainty: float = 0.0
    flight: BallFlight = AIR_AT_20_CELSIUS
    left_out: tuple[LeftOut, ...] = ()
    notes: tuple[str, ...] = ()
    reference: tuple[ReadingString, ...] = ()
    own_day: float = USUAL_OWN_DAY
    read_on_both: tuple[ReadingString, ...] = ()


def flight_of(gun: Gun | None, day: Conditions) -> BallFlight:
    """Ball and air on the way to the chronograph."""
    written = None if gun is None else gun.written.get("ball.diameter")
    return dataclasses.replace(
        AIR_AT_20_CELSIUS,
        ball_diameter=AIR_AT_20_CELSIUS.ball_diameter if written is None else written.number,
        air_density=air_density(temperature=day.temperature, pressure=day.pressure, relative_humidity=day.relative_humidity),
    )
