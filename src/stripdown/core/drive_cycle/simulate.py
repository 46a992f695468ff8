"""From records to results: check, find the angles, run the burst, describe it."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from stripdown.core.drive_cycle import kernel
from stripdown.core.drive_cycle.geometry import SectorAngles, sector_angles
from stripdown.core.drive_cycle.parameters import DriveParameters
from stripdown.core.drive_cycle.result import Burst, BurstOutcome, DriveEvent, DriveEventKind, DriveLedger, Trace
from stripdown.core.drive_cycle.tappet import plate_return
from stripdown.core.numerics.dormand_prince import STAGES
from stripdown.core.numerics.rows import Rows, blank_rows, pack
from stripdown.errors import InputError, NumericalFailure, OutOfRange, OutsideValidity
from stripdown.quantities import check, replace_at

TOLERANCE: Final = 1e-8
MOST_SHOTS: Final = 200
_NODES: Final = 4096


def simulate_drive(
    parameters: DriveParameters,
    *,
    shots: int,
    start_angle: float | None = None,
    brake: bool | None = None,
    tolerance: float = TOLERANCE,
) -> Burst:
    """Simulate a burst of the drive alone, as if each piston were home in time.

    Parameters
    ----------
    parameters
        Complete description of the drive and the day.
    shots
        Count of releases after which the current is cut; 1 is a shot on semi.
    start_angle
        How far after a release the sector rests at the start, in rad; None for the trigger unit's own.
    brake
        Whether the motor is braked after the cut; None for the trigger unit's own way.
    tolerance
        Error allowed per step, as a share.

    Returns
    -------
    Burst
        A stall or a runaway is a result.

    Raises
    ------
    InputError
        For a count of shots or a tolerance that makes no sense.
    OutOfRange
        For an impossible value, or parts that cannot be assembled.
    OutsideValidity
        Where the rack would be unloaded, or the air behind the piston thins too much.
    NumericalFailure
        If it cannot be integrated.

    Notes
    -----
    One shaft, constant efficiencies, no backlash; battery at rest by a table, no relaxation of the pack. Edge contact outside the
    conjugate arc is left out: the rack's true speed falls to 0.74 of the rolled at a late release.
    """
    asked: object = shots  # whatever a script hands over
    if isinstance(asked, bool) or not isinstance(asked, int) or not 1 <= asked <= MOST_SHOTS:
        raise InputError(
            f"shots = {shots!r} is no burst.",
            field="shots",
            value=shots,
            limits=(1, MOST_SHOTS),
            hint=f"A count from 1 to {MOST_SHOTS}.",
        )
    if not 1e-12 <= tolerance <= 1e-3:
        raise InputError(
            f"A tolerance of {tolerance:g} cannot be kept.",
            field="tolerance",
            value=tolerance,
            limits=(1e-12, 1e-3),
            hint="1e-8 is usual.",
        )
    if brake is not None:
        parameters = replace_at(parameters, "trigger.brakes", brake)
    check(parameters)
    _check_rules(parameters)
    angles = sector_angles(parameters.sector, stroke=parameters.load.stroke)
    constants = constants_row(parameters, angles, shots=shots, start_angle=start_angle, tolerance=tolerance)
    mode, room = blank_rows(kernel.MODE), _NODES
    events = np.zeros((8 * (shots + 5), kernel.EVENT_FIELDS))
    while True:
        nodes = np.zeros((room, 1 + kernel.SIZE))
        state = np.zeros(kernel.SIZE)
        happened, kept, _ = kernel.run_burst(
            pack(parameters)[0], constants[0], mode[0], state, np.zeros((STAGES + 1, kernel.SIZE)), events, nodes
        )
        if kept <= room:
            break
        room = kept
    _judge(mode, state, float(events[happened - 1, 1]))
    return _described(parameters, angles, constants, mode, events[:happened], nodes[:kept], shots)


def constants_row(
    parameters: DriveParameters,
    angles: SectorAngles,
    *,
    shots: int,
    start_angle: float | None = None,
    tolerance: float = TOLERANCE,
) -> Rows:
    """Pack what the rates read, worked out once a burst.

    Parameters
    ----------
    parameters
        Complete description of the drive and the day.
    angles
        Geometry of sector and rack.
    shots
        Count of releases after which the current is cut.
    start_angle
        How far after a release the sector rests at the start, in rad; None for the trigger unit's own.
    tolerance
        Error allowed per step, as a share.

    Returns
    -------
    numpy.ndarray
        Shape (1,).
    """
    rest = parameters.trigger.rest_angle if start_angle is None else start_angle
    if not 0.0 <= rest < 2.0 * math.pi:
        raise OutOfRange(
            f"start_angle = {rest:g} rad is no angle between two releases.",
            field="start_angle",
            value=rest,
            unit="rad",
            limits=(0.0, 2.0 * math.pi),
            hint="Give how far the sector gear stands after its last release.",
        )
    row = blank_rows(kernel.CONSTANTS)
    motor, warm = parameters.motor, parameters.day.housing_temperature - 293.15
    row["pitch_radius"] = angles.pitch_radius
    row["entry"], row["pick_up"], row["release"] = angles.entry, angles.pick_up, angles.release
    row["slip"] = parameters.tappet.slip + parameters.tappet.chip
    row["cut"] = angles.release + 2.0 * math.pi * (shots - 1) + parameters.trigger.cut_angle
    row["start"] = angles.release - 2.0 * math.pi + rest
    row["back_emf"] = motor.back_emf_constant * (1.0 + motor.magnet_coefficient * warm)
    row["piston_inertia"] = parameters.load.mass * (angles.pitch_radius / parameters.gears.ratio) ** 2
    row["shots"], row["tolerance"] = shots, tolerance
    return row


def _check_rules(parameters: DriveParameters) -> None:
    motor, pull = parameters.motor, parameters.tappet
    voltage = kernel.electromotive_force(pack(parameters)[0], 0.0)
    if motor.no_load_current * motor.resistance >= voltage:
        raise OutOfRange(
            f"motor.no_load_current = {motor.no_load_current:g} A and motor.resistance = {motor.resistance:g} ohm contradict "
            f"each other: {voltage:.1f} V cannot drive that current.",
            field="motor.no_load_current",
            value=motor.no_load_current,
            unit="A",
            limits=(0.0, voltage / motor.resistance),
            hint="Measure the resistance again through the brushes, and the current with the bare motor running.",
        )
    if not pull.pull_start < pull.pull_end <= pull.slip:
        raise OutOfRange(
            "tappet.pull_start, pull_end and slip do not follow each other.",
            field="tappet.pull_end",
            value=pull.pull_end,
            unit="rad",
            limits=(pull.pull_start, pull.slip),
            hint="The pin first pulls, then holds, then lets the fin slip.",
        )
    if not 0.0 <= pull.lips_touch < pull.feed_closes <= pull.travel:
        raise OutOfRange(
            "tappet.lips_touch, feed_closes and travel do not follow each other.",
            field="tappet.feed_closes",
            value=pull.feed_closes,
            unit="m",
            limits=(pull.lips_touch, pull.travel),
            hint="On its way home the nozzle first shuts the feed port, then meets the lips.",
        )


def _judge(mode: Rows, state: Trace, time: float) -> None:
    code = int(mode["code"][0])
    if code == kernel.TOO_MANY_STEPS:
        raise NumericalFailure(
            "The burst needed too many steps.",
            time=time,
            state=tuple(float(one) for one in state[: kernel.DYNAMIC]),
            steps=int(mode["steps"][0]),
            rejected=int(mode["rejected"][0]),
            evaluations=int(mode["evaluations"][0]),
        )
    if code == kernel.RACK_UNLOADED:
        raise OutsideValidity(
            "The rack would run ahead of the sector gear: the model holds while the spring presses it back.",
            model="drive cycle",
            quantity="force at the rack",
            value=0.0,
            limits=(0.0, math.inf),
        )
    if code == kernel.NO_AIR:
        raise OutsideValidity(
            "The piston is drawn faster than air gets in behind it: the model holds to a tenth of the air's pressure.",
            model="drive cycle",
            quantity="inlet_area",
            value=0.0,
            limits=(0.0, 0.1),
        )


def _described(
    parameters: DriveParameters, angles: SectorAngles, constants: Rows, mode: Rows, events: Trace, nodes: Trace, shots: int
) -> Burst:
    kinds = events[:, 0].astype(int)
    state = events[:, 4:]
    releases = np.flatnonzero(kinds == DriveEventKind.RELEASE)
    cuts = np.flatnonzero(kinds == DriveEventKind.CUT)
    powered = releases if cuts.size == 0 else releases[releases < cuts[0]]
    radius, ratio = angles.pitch_radius, parameters.gears.ratio
    times = events[:, 1]

    def start_speed(row: int) -> float:
        return float(-radius * events[row, 2] / ratio)

    figures: dict[str, float] = {}
    two = powered[-2:] if powered.size >= 2 else powered[:0]
    if two.size:
        period = float(times[two[1]] - times[two[0]])
        charge = float(state[two[1], kernel.CHARGE] - state[two[0], kernel.CHARGE])
        square = float(state[two[1], kernel.SQUARE] - state[two[0], kernel.SQUARE])
        figures = {
            "rate": 1.0 / period,
            "burst_rate": float((powered.size - 1) / (times[powered[-1]] - times[powered[0]])),
            "current_mean": charge / period,
            "current_rms": math.sqrt(square / period),
            "current_peak": float(events[two[1], 3]),
            "charge_per_shot": charge,
        }
        between = slice(two[0], two[1])
        entries = np.flatnonzero(kinds[between] == DriveEventKind.ENTRY) + two[0]
        pick_ups = np.flatnonzero(kinds[between] == DriveEventKind.PICK_UP) + two[0]
        figures["entry_time"] = float(times[entries[-1]] - times[two[0]]) if entries.size else 0.0
        figures["pick_up_time"] = float(times[pick_ups[-1]] - times[two[0]]) if pick_ups.size else 0.0
        figures["pick_up_blow_speed"] = float(radius * state[pick_ups[-1], kernel.SPEED] / ratio) if pick_ups.size else 0.0
    names = ("rate", "burst_rate", "current_mean", "current_rms", "current_peak", "charge_per_shot", "entry_time", "pick_up_time")
    figures = {**dict.fromkeys((*names, "pick_up_blow_speed"), 0.0), **figures}
    last = nodes[-1, 1:]
    end_angle = float(state[-1, kernel.ANGLE])
    return Burst(
        parameters=parameters,
        shots=shots,
        angles=angles,
        plate=plate_return(parameters.tappet),
        outcome=BurstOutcome(int(mode["code"][0])),
        events=tuple(
            DriveEvent(
                kind=DriveEventKind(int(row[0])),
                time=float(row[1]),
                angle=float(row[4 + kernel.ANGLE]),
                speed=float(row[4 + kernel.SPEED]),
                speed_before=float(row[2]),
            )
            for row in events
        ),
        time=nodes[:, 0].copy(),
        angle=nodes[:, 1 + kernel.ANGLE].copy(),
        speed=nodes[:, 1 + kernel.SPEED].copy(),
        current=nodes[:, 1 + kernel.CURRENT].copy(),
        winding_temperature=nodes[:, 1 + kernel.WINDING].copy(),
        first_release=float(times[releases[0]]) if releases.size else math.inf,
        inrush=float(events[releases[0], 3]) if releases.size else float(mode["peak"][0]),
        least_voltage=float(mode["least_voltage"][0]),
        winding_rise=float(last[kernel.WINDING] - parameters.day.winding_temperature),
        first_start_speed=start_speed(int(releases[0])) if releases.size else 0.0,
        start_speed=start_speed(int(powered[-1])) if powered.size else 0.0,
        over_spin=end_angle - angles.pick_up - 2.0 * math.pi * shots,
        run_on=end_angle - float(state[cuts[0], kernel.ANGLE]) if cuts.size else 0.0,
        shots_fired=int(releases.size),
        ledger=_ledger(parameters, constants, mode, last),
        steps=int(mode["steps"][0]),
        rejected=int(mode["rejected"][0]),
        evaluations=int(mode["evaluations"][0]),
        **figures,
    )


def _ledger(parameters: DriveParameters, constants: Rows, mode: Rows, last: Trace) -> DriveLedger:
    integrals = {
        "battery": kernel.FROM_BATTERY,
        "pack": kernel.IN_PACK,
        "leads": kernel.IN_LEADS,
        "motor": kernel.IN_MOTOR,
        "friction": kernel.IN_FRICTION,
        "gears": kernel.IN_GEARS,
        "rack": kernel.IN_RACK,
        "seal_drag": kernel.IN_DRAG,
        "air": kernel.IN_AIR,
        "tappet": kernel.IN_TAPPET,
        "spring": kernel.IN_SPRING,
    }
    return DriveLedger(
        **{name: float(last[place]) for name, place in integrals.items()},
        piston=float(mode["thrown"][0]),
        impact=float(mode["impact"][0]),
        cut=float(mode["broken"][0]),
        stored=float(kernel.stored(pack(parameters)[0], constants[0], mode[0], np.ascontiguousarray(last))),
    )
