"""What a shot leaves behind: traces, events, outcome, and where every joule went."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.quantities import Q, parameters

Trace = NDArray[np.float64]


class Outcome(enum.IntEnum):
    """How the shot ended for the ball."""

    LEFT_MUZZLE = 0
    STAYED_IN_BARREL = 1
    DID_NOT_MOVE = 2
    TIMED_OUT = 3
    NO_BALL = 4


class EventKind(enum.IntEnum):
    """Moments at which the equations change."""

    PISTON_LANDS = 0
    PISTON_LIFTS = 1
    PORT_1_STARTS = 2
    PORT_1_ENDS = 3
    PORT_2_STARTS = 4
    PORT_2_ENDS = 5
    PORT_3_STARTS = 6
    PORT_3_ENDS = 7
    BALL_STARTS = 8
    BALL_GRIPS = 9
    BALL_SLIPS = 10
    PATCH_ENDS = 11
    BALL_LEAVES_MUZZLE = 12
    BALL_STOPS = 13
    BALL_STARTS_AGAIN = 14
    BALL_RETURNS = 15
    PISTON_RESTS = 16


@dataclass(frozen=True, slots=True)
class Event:
    """One moment at which the equations changed.

    Parameters
    ----------
    kind
        What happened.
    time
        When, in s after release.
    """

    kind: EventKind
    time: float


@parameters
class EnergyLedger:
    """Where the spring's net work went, all in joules; entries add up to ``put_in`` within ``residual``."""

    spring_work: Annotated[float, Q("J", label="net work of the spring")]
    start_energy: Annotated[float, Q("J", label="piston's energy at release")]
    ball_flight: Annotated[float, Q("J", label="ball, flight")]
    ball_spin: Annotated[float, Q("J", label="ball, spin")]
    piston_motion: Annotated[float, Q("J", label="piston, still moving")]
    slam: Annotated[float, Q("J", label="piston slam")]
    seal_drag: Annotated[float, Q("J", label="piston drag")]
    bore_friction: Annotated[float, Q("J", label="bore friction")]
    hop_up: Annotated[float, Q("J", label="hop-up and lips")]
    air_ahead_drag: Annotated[float, Q("J", label="air ahead, friction")]
    air_ahead_motion: Annotated[float, Q("J", label="air ahead, pushed out")]
    blast: Annotated[float, Q("J", label="air behind the ball, motion")]
    cylinder_heat: Annotated[float, Q("J", label="heat to the cylinder")]
    barrel_heat: Annotated[float, Q("J", label="heat to the barrel")]
    blown_out: Annotated[float, Q("J", label="blown out and leaked")]
    left_in_air: Annotated[float, Q("J", label="left in the air inside")]
    leaked_at_cylinder: Annotated[float, Q("J", label="of blown out: past seal, ring and tube")]
    leaked_at_port: Annotated[float, Q("J", label="of blown out: through the port")]
    leaked_at_lip: Annotated[float, Q("J", label="of blown out: at the hop-up lips")]
    leaked_past_ball: Annotated[float, Q("J", label="of blown out: past the ball")]
    leaked_at_muzzle: Annotated[float, Q("J", label="of blown out: out of the muzzle")]

    ENTRIES = (
        "ball_flight",
        "ball_spin",
        "piston_motion",
        "slam",
        "seal_drag",
        "bore_friction",
        "hop_up",
        "air_ahead_drag",
        "air_ahead_motion",
        "blast",
        "cylinder_heat",
        "barrel_heat",
        "blown_out",
        "left_in_air",
    )

    @property
    def put_in(self) -> float:
        """Left side of the balance: net work of the spring and the piston's energy at release, in J."""
        return self.spring_work + self.start_energy

    @property
    def residual(self) -> float:
        """What the fourteen entries leave unexplained, in J: the error of the integration."""
        return self.put_in - sum(float(getattr(self, name)) for name in self.ENTRIES)


@dataclass(frozen=True, slots=True)
class SolverCounts:
    """Work done by the integration.

    Parameters
    ----------
    steps
        Accepted steps, those cut at events included.
    rejected
        Steps thrown away because their error was too large.
    evaluations
        Evaluations of the rates, those for the Jacobian included.
    """

    steps: int
    rejected: int
    evaluations: int


@parameters
class ShotSummary:
    """The numbers of a shot that are stored and compared; None where the event did not happen."""

    outcome: Outcome
    muzzle_speed: Annotated[float, Q("m/s", label="muzzle speed")]
    muzzle_energy: Annotated[float, Q("J", label="muzzle energy")]
    backspin: Annotated[float, Q("rad/s", label="backspin at the muzzle", shown="rpm")]
    spin_ratio: Annotated[float, Q("1", label="spin ratio at the muzzle")]
    time_to_muzzle: Annotated[float | None, Q("s", label="ball leaves the muzzle", shown="ms")]
    time_to_slam: Annotated[float | None, Q("s", label="piston lands", shown="ms")]
    time_to_rest: Annotated[float | None, Q("s", label="piston at rest", shown="ms")]
    peak_pressure: Annotated[float, Q("Pa", label="peak pressure in the cylinder", shown="bar")]
    peak_temperature: Annotated[float, Q("K", label="peak temperature in the cylinder", shown="degC")]
    slam_speed: Annotated[float, Q("m/s", label="piston speed at the slam")]
    gas_behind_ball: Annotated[float, Q("kg", label="air behind the ball as it leaves", shown="mg")]
    pressure_behind_ball: Annotated[float, Q("Pa", label="pressure behind the ball as it leaves", shown="bar")]


@keeps_arrays
@dataclass(frozen=True, eq=False, kw_only=True, slots=True)
class Shot:
    """One simulated shot: what went in, the traces on one time base, events, ledger.

    The arrays have the same length and are read-only. Pressures are absolute. The ball's position is its travel
    from the seat, the piston's its travel from the drawn position.
    """

    parameters: ShotParameters
    time: Annotated[Trace, Q("s", label="time after release", shown="ms")]
    piston_position: Annotated[Trace, Q("m", label="piston travel", shown="mm")]
    piston_speed: Annotated[Trace, Q("m/s", label="piston speed")]
    cylinder_pressure: Annotated[Trace, Q("Pa", label="pressure in the cylinder", shown="bar")]
    cylinder_temperature: Annotated[Trace, Q("K", label="temperature in the cylinder", shown="degC")]
    cylinder_gas_mass: Annotated[Trace, Q("kg", label="air in the cylinder", shown="mg")]
    barrel_pressure: Annotated[Trace, Q("Pa", label="pressure behind the ball", shown="bar")]
    barrel_temperature: Annotated[Trace, Q("K", label="temperature behind the ball", shown="degC")]
    barrel_gas_mass: Annotated[Trace, Q("kg", label="air behind the ball", shown="mg")]
    ball_position: Annotated[Trace, Q("m", label="ball travel", shown="mm")]
    ball_speed: Annotated[Trace, Q("m/s", label="ball speed")]
    ball_spin: Annotated[Trace, Q("rad/s", label="backspin", shown="rpm")]
    gas_mass_lost: Annotated[Trace, Q("kg", label="air lost to the outside, net", shown="mg")]
    events: tuple[Event, ...]
    outcome: Outcome
    ledger: EnergyLedger
    solver: SolverCounts
    notes: tuple[str, ...]
    figures: ShotSummary

    def summary(self) -> ShotSummary:
        """The numbers of this shot that are stored and compared.

        Returns
        -------
        ShotSummary
        """
        return self.figures

    def event_time(self, kind: EventKind) -> float | None:
        """Time of the first event of a kind.

        Parameters
        ----------
        kind
            Which event.

        Returns
        -------
        float or None
            Time after release in s; None if it never happened.
        """
        return next((event.time for event in self.events if event.kind is kind), None)
