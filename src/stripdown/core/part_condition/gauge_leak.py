"""Gauge test: how large is the leak, from a log of pressure against time in a closed volume?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from stripdown.core.constants import STANDARD_ATMOSPHERE
from stripdown.core.mechanics.pressure_decay import pressure_decay_leak
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.leak_reading import LeakReading
from stripdown.core.part_condition.parameters import (
    AMBIENT,
    GAUGE_UNCERTAINTY,
    OVERPRESSURE,
    TEMPERATURE,
    TIME,
    VOLUME,
    VOLUME_UNCERTAINTY,
)
from stripdown.errors import OutOfRange
from stripdown.quantities import check_value

# A log whose overpressure falls below this share of its start holds two pressures far enough apart to tell one from the other.
_SPLIT_BELOW: Final = 0.7
BASIS: Final = Basis(
    footing="published",
    source="leak_testing_pages",
    place="pressure-decay equations, with the exact law of the ideal nozzle",
    holds_for="A closed volume that stays so: piston blocked (1 bar pushes it with 44 N), temperature settled, leak to the air.",
    caution="Never stand in line with piston or plug, and keep below 6 bar. One kelvin at 3 bar is 10 mbar. A static test cannot "
    "see a ring that seals or flips only in motion.",
)


def gauge_leak(
    *,
    times: Sequence[float],
    overpressures: Sequence[float],
    volume: float,
    temperature: float = 293.15,
    temperature_at_end: float | None = None,
    ambient_pressure: float = STANDARD_ATMOSPHERE,
    reading_uncertainty: float = 1000.0,
    volume_uncertainty: float = 0.05,
) -> tuple[LeakReading, ...]:
    """Effective leak area from a log of gauge pressures; at two pressures, if the log falls far enough.

    Parameters
    ----------
    times
        Times of the readings in s, rising.
    overpressures
        Gauge pressures, over the air outside, in Pa.
    volume
        Volume under test in m3, hose and gauge included.
    temperature
        Of the air inside at the start, in K.
    temperature_at_end
        At the end, in K; None if it did not change.
    ambient_pressure
        Air pressure outside in Pa.
    reading_uncertainty
        Standard uncertainty of one gauge reading in Pa.
    volume_uncertainty
        Standard uncertainty of the volume, a relative one.

    Returns
    -------
    tuple of LeakReading
        One, or two from the upper and the lower half of the fall, in m2.

    Raises
    ------
    OutOfRange
        For fewer than two readings, times that do not rise, an impossible value, or a pressure that did not fall.

    Notes
    -----
    Only first, middle and last reading of the log decide; those between show whether it falls evenly.

    References
    ----------
    leak_testing_pages, pressure-decay equations.
    """
    check_value("volume", volume, VOLUME)
    check_value("ambient_pressure", ambient_pressure, AMBIENT)
    check_value("reading_uncertainty", reading_uncertainty, GAUGE_UNCERTAINTY)
    check_value("volume_uncertainty", volume_uncertainty, VOLUME_UNCERTAINTY)
    last_temperature = temperature if temperature_at_end is None else temperature_at_end
    check_value("temperature", temperature, TEMPERATURE)
    check_value("temperature_at_end", last_temperature, TEMPERATURE)
    _check_log(times, overpressures)

    def reading(first: int, last: int) -> LeakReading:
        return _reading(
            (times[first], times[last]),
            (overpressures[first], overpressures[last]),
            volume=volume,
            temperatures=(
                _between(times, temperature, last_temperature, first),
                _between(times, temperature, last_temperature, last),
            ),
            ambient=ambient_pressure,
            doubt=reading_uncertainty,
            volume_doubt=volume_uncertainty,
        )

    end = len(times) - 1
    middle = _middle(overpressures)
    return (reading(0, end),) if middle is None else (reading(0, middle), reading(middle, end))


def _check_log(times: Sequence[float], overpressures: Sequence[float]) -> None:
    if len(times) != len(overpressures) or len(times) < 2:
        raise OutOfRange(
            f"The log has {len(times)} times and {len(overpressures)} pressures.",
            field="times",
            hint="It needs two readings at least, each with time and pressure.",
        )
    for number, (time, pressure) in enumerate(zip(times, overpressures, strict=True), start=1):
        check_value(f"times, reading {number}", time, TIME)
        check_value(f"overpressures, reading {number}", pressure, OVERPRESSURE)
        if number > 1 and time <= times[number - 2]:
            raise OutOfRange(
                f"Reading {number} at {time:g} s is not later than the one before, at {times[number - 2]:g} s.",
                field="times",
                value=time,
                unit="s",
                hint="Give the readings in the order in which they were made.",
            )
    if overpressures[-1] > overpressures[0]:
        raise OutOfRange(
            f"The pressure rose from {overpressures[0] / 1e5:g} to {overpressures[-1] / 1e5:g} bar: that is no leak to the air.",
            field="overpressures",
            value=overpressures[-1],
            unit="Pa",
            limits=(None, overpressures[0]),
            hint="Wait until the temperature has settled after pumping, and look at the valve.",
        )


def _middle(overpressures: Sequence[float]) -> int | None:
    """Reading nearest to the middle of the fall, if there are two falls worth telling apart."""
    first, last = overpressures[0], overpressures[-1]
    if len(overpressures) < 3 or last > _SPLIT_BELOW * first:
        return None
    aim = math.sqrt(first * last)
    return min(range(1, len(overpressures) - 1), key=lambda index: abs(math.log(overpressures[index] / aim)))


def _between(times: Sequence[float], first: float, last: float, index: int) -> float:
    return first + (last - first) * (times[index] - times[0]) / (times[-1] - times[0])


def _reading(
    times: tuple[float, float],
    overpressures: tuple[float, float],
    *,
    volume: float,
    temperatures: tuple[float, float],
    ambient: float,
    doubt: float,
    volume_doubt: float,
) -> LeakReading:
    leak = pressure_decay_leak(
        volume=volume,
        pressure_start=ambient + overpressures[0],
        pressure_end=ambient + overpressures[1],
        temperature_start=temperatures[0],
        temperature_end=temperatures[1],
        duration=times[1] - times[0],
        ambient_pressure=ambient,
    )
    # What one gauge reading adds: the area that a fall as large as its uncertainty would need, at both ends.
    steps = [
        pressure_decay_leak(
            volume=volume,
            pressure_start=ambient + pressure,
            pressure_end=ambient + max(pressure - doubt, 0.5 * pressure),
            temperature_start=temperatures[0],
            temperature_end=temperatures[0],
            duration=times[1] - times[0],
            ambient_pressure=ambient,
        ).leak_area
        for pressure in overpressures
    ]
    own = math.hypot(*steps) if doubt > 0.0 else 0.0
    small = leak.leak_area < 2.0 * own
    return LeakReading(
        how="gauge test",
        leak_area=max(leak.leak_area, 0.0),
        standard_uncertainty=own,
        shared_relative_uncertainty=volume_doubt,
        pressure=ambient + math.sqrt(overpressures[0] * overpressures[1]),
        ambient_pressure=ambient,
        temperature=0.5 * (temperatures[0] + temperatures[1]),
        notes=("The fall is hardly more than the gauge can show: wait longer.",) * small,
        basis=BASIS,
    )
