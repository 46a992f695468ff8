"""What a burst leaves behind: events, the figures of its settled cycle, and where every joule of the battery went."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from stripdown.core.drive_cycle.geometry import SectorAngles
from stripdown.core.drive_cycle.parameters import DriveParameters
from stripdown.core.drive_cycle.tappet import PlateReturn
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.quantities import Q, parameters

Trace = NDArray[np.float64]


class DriveEventKind(enum.IntEnum):
    """Moments of a burst."""

    STARTS = 0
    ENTRY = 1
    PICK_UP = 2
    RELEASE = 3
    SLIP = 4
    CUT = 5
    STOPS = 6
    STALLS = 7


class BurstOutcome(enum.IntEnum):
    """How a burst ended for the drive."""

    RESTED = 0
    STALLED = 1
    RUNS_AWAY = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class DriveEvent:
    """One moment of a burst.

    Parameters
    ----------
    kind
        What happened.
    time
        Since the contacts closed, in s.
    angle
        Of the sector gear, in rad.
    speed
        Of the motor just after, in rad/s.
    speed_before
        Of the motor just before, in rad/s.
    """

    kind: DriveEventKind
    time: float
    angle: float
    speed: float
    speed_before: float


@parameters
class DriveLedger:
    """Where the battery's work went, all in joules; entries add up to ``battery`` within ``residual``."""

    battery: Annotated[float, Q("J", label="work of the battery")]
    pack: Annotated[float, Q("J", label="warmed the pack")]
    leads: Annotated[float, Q("J", label="warmed leads, switch and brake")]
    motor: Annotated[float, Q("J", label="warmed winding and brushes")]
    friction: Annotated[float, Q("J", label="friction of motor and box")]
    gears: Annotated[float, Q("J", label="lost in the meshes")]
    rack: Annotated[float, Q("J", label="lost at rack and rails")]
    seal_drag: Annotated[float, Q("J", label="piston drag")]
    air: Annotated[float, Q("J", label="drew air in")]
    tappet: Annotated[float, Q("J", label="drew the tappet plate")]
    spring: Annotated[float, Q("J", label="into the main spring")]
    piston: Annotated[float, Q("J", label="motion of the piston at release")]
    impact: Annotated[float, Q("J", label="lost as the sector met the rack")]
    cut: Annotated[float, Q("J", label="field of the winding at the cut")]
    stored: Annotated[float, Q("J", label="still in motion at the end")]

    @property
    def residual(self) -> float:
        """What the entries leave unexplained, in J."""
        entries = (
            self.pack,
            self.leads,
            self.motor,
            self.friction,
            self.gears,
            self.rack,
            self.seal_drag,
            self.air,
            self.tappet,
            self.spring,
            self.piston,
            self.impact,
            self.cut,
            self.stored,
        )
        return self.battery - sum(entries)


@keeps_arrays
@dataclass(frozen=True, eq=False, kw_only=True, slots=True)
class Burst:
    """A burst of the drive, from the contacts' closing until all rests.

    Parameters
    ----------
    parameters
        What it depends on.
    shots
        How many were asked for.
    angles
        Geometry of sector and rack.
    plate
        How the tappet plate returns.
    outcome
        How it ended.
    events
        In order of time.
    time, angle, speed, current, winding_temperature
        Traces: s, rad of the sector, rad/s of the motor, A, K; shape (n,).
    first_release
        From the contacts' closing to the first release, in s; infinite if there was none.
    rate, burst_rate
        Of the settled cycle and from first to last release, in 1/s; 0 where there are not two releases under power.
    current_mean, current_rms, current_peak
        Of the settled cycle, in A.
    inrush
        Greatest current before the first release, in A.
    charge_per_shot
        Of the settled cycle, in C.
    least_voltage
        At the pack, in V.
    winding_rise
        In K.
    first_start_speed, start_speed
        Speed of the piston at its first and its settled release, in m/s: negative, for it is still drawn.
    entry_time, pick_up_time
        From the settled release until the tip enters, and until the rack is taken, in s; 0 where neither followed under power.
    over_spin
        How far beyond the next pick-up the sector came to rest, in rad; negative before it.
    run_on
        From the cut to rest, in rad.
    shots_fired
        Count of releases.
    pick_up_blow_speed
        Speed of the rack just after the settled pick-up, in m/s.
    ledger
        Where the battery's work went.
    steps, rejected, evaluations
        Counts of the integration.
    """

    parameters: DriveParameters
    shots: int
    angles: SectorAngles
    plate: PlateReturn
    outcome: BurstOutcome
    events: tuple[DriveEvent, ...]
    time: Trace
    angle: Trace
    speed: Trace
    current: Trace
    winding_temperature: Trace
    first_release: float
    rate: float
    burst_rate: float
    current_mean: float
    current_rms: float
    current_peak: float
    inrush: float
    charge_per_shot: float
    least_voltage: float
    winding_rise: float
    first_start_speed: float
    start_speed: float
    entry_time: float
    pick_up_time: float
    over_spin: float
    run_on: float
    shots_fired: int
    pick_up_blow_speed: float
    ledger: DriveLedger
    steps: int
    rejected: int
    evaluations: int

    @property
    def entry_angle(self) -> float:
        """Angle at which the tip enters, in rad."""
        return self.angles.entry

    @property
    def pick_up_angle(self) -> float:
        """Angle at which the rack is taken, in rad."""
        return self.angles.pick_up

    @property
    def release_angle(self) -> float:
        """Angle at which the rack is let go, in rad."""
        return self.angles.release

    @property
    def rests_drawn(self) -> bool:
        """Whether the sector came to rest with the spring drawn."""
        return self.over_spin > 0.0
