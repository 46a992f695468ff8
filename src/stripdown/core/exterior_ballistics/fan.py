"""A fan of flights that differ in some quantities, over all processors: where each passes a distance or meets the ground."""

from __future__ import annotations

import os
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stripdown.core.exterior_ballistics import kernel
from stripdown.core.exterior_ballistics.parameters import FlightParameters
from stripdown.core.exterior_ballistics.simulate import Until, check_tolerance, end_of, judge_end, remarks_of
from stripdown.core.numerics.dormand_prince import STAGES
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.core.numerics.rows import blank_rows, vary
from stripdown.errors import InputError, OutOfRange
from stripdown.quantities import check, check_value, leaves

FAN_TOLERANCE: Final = 1e-6
"""Error allowed per step, as a share: it leaves some micrometres."""
_BLOCK: Final = 256


@keeps_arrays
@dataclass(frozen=True, eq=False, kw_only=True, slots=True)
class FlightFan:
    """Many flights that differ in some quantities, where each passes a distance or meets the ground.

    Parameters
    ----------
    parameters
        The flight that was started from.
    variations
        Dotted path to the values that were tried, SI, shape (n,).
    until
        ``"ground"``, or the distance in m.
    position, velocity
        At the end, in m and m/s, shape (n, 3).
    time
        Of the flight, in s, shape (n,).
    spin_left
        Share of the spin that is left, shape (n,).
    remarks
        As of a single flight, of any of them.
    evaluations
        Count of all of them together.
    """

    parameters: FlightParameters
    variations: Mapping[str, NDArray[np.float64]]
    until: Until
    position: NDArray[np.float64]
    velocity: NDArray[np.float64]
    time: NDArray[np.float64]
    spin_left: NDArray[np.float64]
    remarks: tuple[str, ...]
    evaluations: int

    @property
    def speed(self) -> NDArray[np.float64]:
        """Speeds at the end in m/s, shape (n,)."""
        return np.asarray(np.linalg.norm(self.velocity, axis=1), dtype=np.float64)


def integrate_fan(
    parameters: FlightParameters,
    *,
    variations: Mapping[str, ArrayLike],
    until: Until = "ground",
    extrapolate: bool = False,
    tolerance: float = FAN_TOLERANCE,
    threads: int | None = None,
) -> FlightFan:
    """Simulate many flights that differ in some quantities, over all processors.

    Parameters
    ----------
    parameters
        The flight to start from.
    variations
        Dotted path (``"launch.speed_x"``) to values, SI, shape (n,); all of one length.
    until
        ``"ground"``, or a distance downrange in m.
    extrapolate
        Whether laws may be used outside their range; the result says so.
    tolerance
        Error allowed per step, as a share.
    threads
        Threads to use; None for as many as there are processors.

    Returns
    -------
    FlightFan

    Raises
    ------
    InputError
        For an unknown path, arrays of different lengths, or no flights.
    OutOfRange
        For an impossible value.
    OutsideValidity
        Above Mach 0.9, outside the range of a law, or for a distance that a ball never gets to; names its number.
    NumericalFailure
        If one cannot be integrated.
    """
    given = {path: np.asarray(values, dtype=np.float64) for path, values in variations.items()}
    count = max((column.size for column in given.values()), default=0)
    if count == 0:
        raise InputError("No variations were given.", field="variations", hint="Give at least one path with at least one value.")
    for path, column in given.items():
        if not np.isfinite(column).all():
            raise OutOfRange(f"{path} holds a value that is no number.", field=path, hint="Leave such a flight out.")
    columns = {path: np.full(count, column) if column.ndim == 0 else column for path, column in given.items()}
    known = {leaf.path: leaf.quantity for leaf in leaves(FlightParameters)}
    for path, column in columns.items():
        quantity = known.get(path)
        if quantity is not None:
            check_value(path, float(column.min()), quantity)
            check_value(path, float(column.max()), quantity)
    check(parameters)
    distance = end_of(parameters.launch, until)
    check_tolerance(tolerance)
    rows, ends = vary(parameters, count, columns), blank_rows(kernel.FLIGHT_END, count)
    nothing = np.empty((0, 1 + 2 * kernel.SIZE))

    def follow(first: int) -> None:
        last = min(first + _BLOCK, count)
        work = np.zeros((STAGES + 2, kernel.SIZE))
        kernel.fly_many(rows, tolerance, distance, int(until == "ground"), work, ends, nothing, first, last)

    firsts = range(0, count, _BLOCK)
    with ThreadPoolExecutor(max(1, min(threads or os.cpu_count() or 1, len(firsts)))) as pool:
        list(pool.map(follow, firsts))
    failed = np.flatnonzero(ends["code"] >= kernel.NEVER_ARRIVES)
    if failed.size:
        judge_end(ends[failed[0]], until, f"Flight {int(failed[0]) + 1} of {count}: ")
    remarks = sorted({remark for end in _extremes(ends) for remark in remarks_of(parameters, end, extrapolate=extrapolate)})
    return FlightFan(
        parameters=parameters,
        variations=columns,
        until=until,
        position=np.stack([ends[name] for name in ("x", "y", "z")], axis=1),
        velocity=np.stack([ends[name] for name in ("speed_x", "speed_y", "speed_z")], axis=1),
        time=ends["time"].copy(),
        spin_left=ends["spin"].copy(),
        remarks=tuple(remarks),
        evaluations=int(ends["evaluations"].sum()),
    )


def _extremes(ends: NDArray[np.void]) -> list[np.void]:
    """The flights in which the laws were asked for the greatest and the least."""
    picked = {int(np.argmin(ends["least_reynolds"]))}
    picked |= {int(np.argmax(ends[name])) for name in ("greatest_reynolds", "greatest_spin_ratio", "greatest_mach")}
    return [ends[one] for one in sorted(picked)]
