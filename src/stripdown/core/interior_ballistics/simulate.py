"""From records to results: check, pack, run, and describe what happened."""

from __future__ import annotations

import math
import os
from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stripdown.core.interior_ballistics import kernel
from stripdown.core.interior_ballistics.flows import CONSTANTS
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import (
    EnergyLedger,
    Event,
    EventKind,
    Outcome,
    Shot,
    ShotSummary,
    SolverCounts,
)
from stripdown.core.interior_ballistics.run import (
    IMPOSSIBLE,
    MOST_EVENTS,
    MOST_STEPS,
    run_shot,
    run_shots,
)
from stripdown.core.interior_ballistics.summary import NEVER, SETTINGS, SUMMARY
from stripdown.core.interior_ballistics.variations import check_variations
from stripdown.core.numerics import stiff
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.core.numerics.rows import Rows, blank_rows, pack, vary
from stripdown.errors import InputError, NumericalFailure, OutsideValidity
from stripdown.quantities import check

# Lumped volumes hold while the gas behind the ball stays well below the speed of sound.
GREATEST_MACH_NUMBER = 0.6
LOOSEST_TOLERANCE = 1e-2
TIGHTEST_TOLERANCE = 1e-11

_TRACE_ROWS = 4096
_GAS = [1 + entry for entry in (kernel.CYLINDER_MASS, kernel.CYLINDER_ENERGY, kernel.BARREL_MASS, kernel.BARREL_ENERGY)]
NOT_ACCOUNTED_FOR = 9
"""Code of a shot whose ledger does not close."""
_LEDGER_CLOSES = 0.01  # of the largest entry; a hundred times what the loosest tolerance leaves
_BLOCK = 64


@keeps_arrays
@dataclass(frozen=True, eq=False, kw_only=True, slots=True)
class ShotBatch:
    """Many shots of one gun with some quantities varied: one read-only structured array, one row a shot.

    Parameters
    ----------
    parameters
        The gun that was started from.
    variations
        Dotted path to the values that were tried, SI, shape (n,).
    tolerance
        Relative error allowed per step.
    rows
        Figures of each shot, fields as in `summary.Summary`, SI, shape (n,); the time of an event that did not happen is -1 s.
    """

    parameters: ShotParameters
    variations: Mapping[str, NDArray[np.float64]]
    tolerance: float
    rows: NDArray[np.void]

    @property
    def muzzle_speed(self) -> NDArray[np.float64]:
        """Muzzle speeds in m/s, zero where the ball did not leave; shape (n,)."""
        return np.asarray(self.rows["muzzle_speed"], dtype=np.float64)

    @property
    def muzzle_energy(self) -> NDArray[np.float64]:
        """Muzzle energies in J; shape (n,)."""
        masses = np.broadcast_to(self.variations.get("ball.mass", self.parameters.ball.mass), self.rows.shape)
        return np.asarray(0.5 * masses * self.muzzle_speed**2, dtype=np.float64)

    @property
    def outcome(self) -> tuple[Outcome, ...]:
        """How each shot ended for the ball."""
        return tuple(Outcome(int(code)) for code in self.rows["outcome"])


def settings_row(
    *,
    tolerance: float,
    until_muzzle: bool = False,
    with_ball: bool = True,
    piston_held: bool = False,
    one_volume: bool = False,
    reservoir_pressure: float = 0.0,
    reservoir_temperature: float = 0.0,
) -> Rows:
    """Pack how a shot is to be run.

    Parameters
    ----------
    tolerance
        Relative error allowed per step, 1e-11 to 1e-2.
    until_muzzle
        Stop as the ball leaves, instead of when the piston rests.
    with_ball
        False fires the gun empty.
    piston_held
        Hold the piston: a reservoir launch.
    one_volume
        Reservoir and barrel are one volume.
    reservoir_pressure
        In Pa, with a held piston.
    reservoir_temperature
        In K, with a held piston.

    Returns
    -------
    numpy.ndarray
        Shape (1,).

    Raises
    ------
    InputError
        For a tolerance that the method cannot keep.
    """
    if not TIGHTEST_TOLERANCE <= tolerance <= LOOSEST_TOLERANCE:
        message = f"A tolerance of {tolerance:g} cannot be kept."
        raise InputError(
            message,
            field="tolerance",
            value=tolerance,
            limits=(TIGHTEST_TOLERANCE, LOOSEST_TOLERANCE),
            hint=f"Choose between {TIGHTEST_TOLERANCE:g} and {LOOSEST_TOLERANCE:g}; 1e-4 is usual.",
        )
    row = blank_rows(SETTINGS)
    row["tolerance"] = tolerance
    row["most_steps"] = MOST_STEPS
    row["until_muzzle"] = until_muzzle
    row["with_ball"] = with_ball
    row["piston_held"] = piston_held
    row["one_volume"] = one_volume
    row["reservoir_pressure"] = reservoir_pressure
    row["reservoir_temperature"] = reservoir_temperature
    return row


def integrate_shot(parameters: ShotParameters, *, tolerance: float = 1e-4, with_ball: bool = True) -> Shot:
    """Simulate one shot from release until the piston rests.

    Parameters
    ----------
    parameters
        Complete description of gun, ball and day.
    tolerance
        Relative error allowed per step.
    with_ball
        False fires the gun empty.

    Returns
    -------
    Shot
        Traces, events, outcome, ledger.

    Raises
    ------
    OutOfRange
        For impossible parameters.
    OutsideValidity
        If the ball outruns the range of lumped volumes (Mach 0.6 of the gas behind it).
    NumericalFailure
        If the integration cannot go on.

    Notes
    -----
    Equations, sources and range: docs/models/shot.md.
    """
    check(parameters)
    shot = run_one(parameters, settings_row(tolerance=tolerance, with_ball=with_ball))
    _refuse_fast_gas(shot)
    return shot


def integrate_shots(
    parameters: ShotParameters,
    *,
    variations: Mapping[str, ArrayLike],
    tolerance: float = 1e-4,
    until_muzzle: bool = False,
    threads: int | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> ShotBatch:
    """Simulate many shots of one gun with some quantities varied, over all processors, without traces.

    Parameters
    ----------
    parameters
        The gun to start from.
    variations
        Dotted path (``"ball.mass"``) to values, SI, shape (n,); all of one length.
    tolerance
        Relative error allowed per step.
    until_muzzle
        Stop each shot as the ball leaves: faster, but nothing after that moment is known.
    threads
        Threads to use; None for as many as there are processors.
    progress
        Called with shots done and shots in all.

    Returns
    -------
    ShotBatch
        One row a shot.

    Raises
    ------
    InputError
        For an unknown path, arrays of different lengths, or no shots.
    OutOfRange
        For an impossible value.
    NumericalFailure
        If a shot cannot be integrated; names its number.
    """
    given = {path: np.asarray(values, dtype=np.float64) for path, values in variations.items()}
    count = max((column.size for column in given.values()), default=0)
    if count == 0:
        message = "No variations were given, so there is nothing to simulate."
        raise InputError(message, field="variations", hint="Give at least one path with at least one value.")
    # One number beside columns serves every shot.
    columns = {path: np.full(count, column) if column.ndim == 0 else column for path, column in given.items()}
    check(parameters)
    with np.errstate(invalid="ignore"):  # a choice that is no number is refused below
        rows = vary(parameters, count, columns)
    check_variations(parameters, columns, count)
    summaries = run_batch(rows, settings_row(tolerance=tolerance, until_muzzle=until_muzzle), threads=threads, progress=progress)
    _mark_unaccounted(summaries)
    failed = np.flatnonzero(summaries["code"] >= stiff.TOO_MANY_STEPS)
    if failed.size:
        _raise_failure(summaries[failed[0]], (), f"Shot {int(failed[0]) + 1} of {count}: ")
    summaries.flags.writeable = False
    return ShotBatch(parameters=parameters, variations=columns, tolerance=tolerance, rows=summaries)


def run_batch(
    rows: Rows,
    settings: Rows,
    *,
    threads: int | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> NDArray[np.void]:
    """Run rows in blocks over threads; the kernel holds no interpreter lock.

    Parameters
    ----------
    rows
        Packed parameters, shape (n,).
    settings
        From `settings_row`, shape (1,).
    threads
        Threads to use; None for as many as there are processors.
    progress
        Called with shots done and shots in all.

    Returns
    -------
    numpy.ndarray
        Summaries, shape (n,); code 5 and above means that a shot failed.
    """
    count = len(rows)
    summaries = blank_rows(SUMMARY, count)
    workers = max(1, min(threads or os.cpu_count() or 1, math.ceil(count / _BLOCK)))

    def run_block(first: int) -> int:
        last = min(first + _BLOCK, count)
        with np.errstate(all="ignore"):  # with the compiler off, steps into the impossible warn before they are thrown away
            run_shots(rows, settings, *_scratch(), summaries, first, last)
        return last - first

    firsts = range(0, count, _BLOCK)
    done = 0
    if workers == 1:
        for first in firsts:
            done += run_block(first)
            if progress is not None:
                progress(done, count)
        return summaries
    with ThreadPoolExecutor(workers) as pool:
        for finished in pool.map(run_block, firsts):
            done += finished
            if progress is not None:
                progress(done, count)
    return summaries


def run_one(parameters: ShotParameters, settings: Rows) -> Shot:
    """Run one shot with its trace, without judging its parameters.

    Parameters
    ----------
    parameters
        Complete description of gun, ball and day.
    settings
        From `settings_row`, shape (1,).

    Returns
    -------
    Shot

    Raises
    ------
    NumericalFailure
        If the integration cannot go on.
    """
    row = pack(parameters)
    happened = np.zeros((MOST_EVENTS, 2))
    summary = blank_rows(SUMMARY)
    length = _TRACE_ROWS
    while True:
        trace = np.zeros((length, kernel.SIZE + 1))
        constants, modes, works = _scratch()
        with np.errstate(all="ignore"):
            recorded, events = run_shot(
                row[0], constants[0], modes[0], works[0], settings[0], summary[0], trace, happened, np.zeros(kernel.FORCES)
            )
        full = summary["code"][0] == stiff.TOO_MANY_STEPS and works["steps"][0] < MOST_STEPS
        if not full:
            break
        length *= 4
    if not settings["piston_held"][0]:  # a reservoir launch has no spring to account for
        _mark_unaccounted(summary)
        if np.any(trace[:recorded, _GAS] <= 0.0):  # between two steps
            summary["code"] = IMPOSSIBLE
    if summary["code"][0] >= stiff.TOO_MANY_STEPS:
        _raise_failure(summary[0], tuple(float(value) for value in works["state"][0]), "")
    return _describe(parameters, summary[0], trace[:recorded], happened[:events], constants[0])


def _scratch() -> tuple[Rows, Rows, Rows]:
    works = stiff.workspace(dynamic=kernel.DYNAMIC, integrals=kernel.SIZE - kernel.DYNAMIC, guards=kernel.GUARDS)
    return blank_rows(CONSTANTS), blank_rows(kernel.MODE), works


_WHY = {
    stiff.TOO_MANY_STEPS: "needed too many steps",
    stiff.STEP_TOO_SMALL: "came to a step too small to take",
    IMPOSSIBLE: "came to a state that no gun has (a volume without gas, a piston or ball out of its place)",
    NOT_ACCOUNTED_FOR: "did not account for the energy of the spring",
}


def _mark_unaccounted(summaries: NDArray[np.void]) -> None:
    """Give shots whose ledger does not close a code of failure."""
    put_in = summaries["spring_work"] + summaries["start_energy"]
    entries = np.stack([summaries[name] for name in EnergyLedger.ENTRIES])
    scale = np.maximum(np.abs(put_in), np.abs(entries).max(axis=0))
    open_end = ~(np.abs(put_in - entries.sum(axis=0)) <= _LEDGER_CLOSES * scale)
    summaries["code"][open_end & (summaries["code"] < stiff.TOO_MANY_STEPS)] = NOT_ACCOUNTED_FOR


def _raise_failure(summary: np.void, state: tuple[float, ...], whose: str) -> None:
    message = f"{whose}The simulation {_WHY[int(summary['code'])]} {float(summary['end_time']) * 1e3:.3f} ms after release."
    raise NumericalFailure(
        message,
        time=float(summary["end_time"]),
        state=state,
        steps=int(summary["steps"]),
        rejected=int(summary["rejected"]),
        evaluations=int(summary["evaluations"]),
    )


def _describe(
    parameters: ShotParameters,
    summary: np.void,
    trace: NDArray[np.float64],
    happened: NDArray[np.float64],
    constants: np.void,
) -> Shot:
    columns = {name: trace[:, index + 1] for index, name in enumerate(_STATE_NAMES)}
    excess = float(constants["heat_capacity_ratio"]) - 1.0
    volume_1 = constants["cylinder_dead_volume"] + constants["cylinder_area"] * (constants["stroke"] - columns["piston_position"])
    volume_2 = constants["barrel_dead_volume"] + constants["barrel_area"] * columns["ball_position"]
    columns["cylinder_pressure"] = excess * columns["cylinder_energy"] / volume_1
    columns["barrel_pressure"] = excess * columns["barrel_energy"] / volume_2
    capacity = float(constants["heat_capacity_volume"])
    columns["cylinder_temperature"] = columns.pop("cylinder_energy") / (columns["cylinder_gas_mass"] * capacity)
    columns["barrel_temperature"] = columns.pop("barrel_energy") / (columns["barrel_gas_mass"] * capacity)
    columns["gas_mass_lost"] = trace[:, kernel.MASS_LOST + 1]
    columns["time"] = trace[:, 0]
    arrays = {name: _read_only(column) for name, column in columns.items()}
    ledger = EnergyLedger(**{name: float(summary[name]) for name in EnergyLedger.__dataclass_fields__})
    return Shot(
        parameters=parameters,
        events=tuple(Event(kind=EventKind(int(kind)), time=float(time)) for kind, time in happened),
        outcome=Outcome(int(summary["outcome"])),
        ledger=ledger,
        solver=SolverCounts(
            steps=int(summary["steps"]), rejected=int(summary["rejected"]), evaluations=int(summary["evaluations"])
        ),
        notes=_validity_notes(summary, constants),
        figures=_figures(parameters, summary),
        **arrays,
    )


_STATE_NAMES = (
    "piston_position",
    "piston_speed",
    "cylinder_gas_mass",
    "cylinder_energy",
    "barrel_gas_mass",
    "barrel_energy",
    "ball_position",
    "ball_speed",
    "ball_spin",
)


def _read_only(column: NDArray[np.float64]) -> NDArray[np.float64]:
    own = np.ascontiguousarray(column, dtype=np.float64)
    own = own.copy() if own.base is not None else own
    own.flags.writeable = False
    return own


def _figures(parameters: ShotParameters, summary: np.void) -> ShotSummary:
    speed = float(summary["muzzle_speed"])
    spin = float(summary["backspin"])
    return ShotSummary(
        outcome=Outcome(int(summary["outcome"])),
        muzzle_speed=speed,
        muzzle_energy=0.5 * parameters.ball.mass * speed * speed,
        backspin=spin,
        spin_ratio=0.5 * parameters.ball.diameter * spin / speed if speed > 0 else 0.0,
        time_to_muzzle=_time(summary["time_to_muzzle"]),
        time_to_slam=_time(summary["time_to_slam"]),
        time_to_rest=_time(summary["time_to_rest"]),
        peak_pressure=float(summary["peak_pressure"]),
        peak_temperature=float(summary["peak_temperature"]),
        slam_speed=float(summary["slam_speed"]),
        gas_behind_ball=float(summary["gas_behind_ball"]),
        pressure_behind_ball=float(summary["pressure_behind_ball"]),
    )


def _time(value: float) -> float | None:
    return None if value == NEVER else float(value)


def mach_number(summary: np.void, constants: np.void) -> float:
    """Muzzle speed over the speed of sound in the gas behind the ball.

    Parameters
    ----------
    summary
        One row of `run.SUMMARY`.
    constants
        One row of `flows.CONSTANTS`.

    Returns
    -------
    float
        Zero if the ball did not leave.
    """
    temperature = float(summary["temperature_behind_ball"])
    if temperature <= 0.0:
        return 0.0
    sound = math.sqrt(float(constants["heat_capacity_ratio"]) * float(constants["gas_constant"]) * temperature)
    return float(summary["muzzle_speed"]) / sound


def _validity_notes(summary: np.void, constants: np.void) -> tuple[str, ...]:
    mach = mach_number(summary, constants)
    notes = []
    if mach > GREATEST_MACH_NUMBER:
        notes.append(
            f"The ball leaves at Mach {mach:.2f} of the gas behind it; lumped volumes hold to about {GREATEST_MACH_NUMBER:g} "
            "and promise too much speed beyond."
        )
    if float(summary["peak_pressure"]) > 1.0e6:
        notes.append(
            f"Peak pressure {float(summary['peak_pressure']) / 1e5:.1f} bar: an ideal gas with a fixed ratio of heat "
            "capacities is within 1 % only to about 10 bar."
        )
    return tuple(notes)


def _refuse_fast_gas(shot: Shot) -> None:
    for note in shot.notes:
        if "Mach" in note:
            raise OutsideValidity(
                note,
                model="shot",
                quantity="muzzle speed",
                value=shot.figures.muzzle_speed,
                limits=(0.0, None),
                reference="docs/models/shot.md, range",
            )
