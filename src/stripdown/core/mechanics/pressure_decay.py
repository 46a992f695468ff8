"""How large a leak is, from the fall of pressure in a closed volume.

Pressures are absolute. **Signs**: out of the volume is positive, into it is negative, for both rates and for the area.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated, Final

from numpy.polynomial.legendre import leggauss

from stripdown.core.constants import AIR_GAS_CONSTANT, AIR_HEAT_CAPACITY_RATIO, MOLAR_GAS_CONSTANT, STANDARD_ATMOSPHERE
from stripdown.core.mechanics.orifice_flow import critical_pressure_ratio, isentropic_mass_flow
from stripdown.errors import OutOfRange
from stripdown.quantities import Q, check_value

_VOLUME = Q("m3", low=1e-12, high=1e6, label="volume under test", shown="cm3")
_PRESSURE = Q("Pa", low=1e-3, high=1e9, label="absolute pressure", shown="bar")
_AMBIENT = Q("Pa", low=0, high=1e9, label="air pressure outside", shown="hPa")
_TEMPERATURE = Q("K", low=1, high=1e4, label="temperature", shown="degC")
_DURATION = Q("s", low=1e-9, high=1e9, label="duration")

_NODES, _WEIGHTS = leggauss(24)

AGAINST_THE_PRESSURE: Final = (
    "The gas went against the pressure: no leak between this volume and the outside explains it. "
    "Look at the temperature, the gauge and the supply."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PressureDecayLeak:
    """A leak as a pressure-decay test shows it; out of the volume is positive, into it is negative."""

    molar_rate: Annotated[float, Q("mol/s", label="leak rate")]
    mass_rate: Annotated[float, Q("kg/s", label="leak rate as mass")]
    leak_area: Annotated[float, Q("m2", label="effective leak area", shown="mm2")]
    notes: tuple[str, ...]


def pressure_decay_leak(
    *,
    volume: float,
    pressure_start: float,
    pressure_end: float,
    temperature_start: float,
    temperature_end: float,
    duration: float,
    ambient_pressure: float = STANDARD_ATMOSPHERE,
) -> PressureDecayLeak:
    """Leak rate and effective leak area from pressure and temperature at the start and end of a wait.

    Parameters
    ----------
    volume
        Volume under test in m3, hose and gauge included.
    pressure_start, pressure_end
        Absolute pressure in Pa: gauge reading plus air pressure.
    temperature_start, temperature_end
        Temperature of the air inside in K.
    duration
        Time between the two readings in s.
    ambient_pressure
        Air pressure outside in Pa.

    Returns
    -------
    PressureDecayLeak
        ``molar_rate`` in mol/s and ``mass_rate`` in kg/s, means over the wait; ``leak_area`` in m2: discharge coefficient times
        area of the one hole that would do it. A fall gives positive numbers, a rise (a leak inwards) negative ones; the size of
        the area is the same thing in both directions.

    Raises
    ------
    OutOfRange
        For an impossible value, or when gas came or went although no pressure stood across the leak.

    Notes
    -----
    ``n = p V / (R T)`` at both ends. The area solves ``dm/dt = -area f(p, p_ambient, T)`` with the exact law of the ideal nozzle,
    integrated along a straight line from the first reading to the second, so a large fall needs no small-fall approximation. Air
    outside is taken to be as warm as that inside. One kelvin at 3 bar is 10 mbar: wait until the temperature has settled.
    A thin gap at a small overpressure flows like a pipe, not like a hole, and then shows only a part of this area.

    References
    ----------
    leak_testing_pages, pressure-decay equations; fox_mcdonald, example 12.2 for the orifice.
    """
    check_value("volume", volume, _VOLUME)
    check_value("duration", duration, _DURATION)
    check_value("ambient_pressure", ambient_pressure, _AMBIENT)
    for name, value in (("pressure_start", pressure_start), ("pressure_end", pressure_end)):
        check_value(name, value, _PRESSURE)
    for name, value in (("temperature_start", temperature_start), ("temperature_end", temperature_end)):
        check_value(name, value, _TEMPERATURE)
    lost = volume * (pressure_start / temperature_start - pressure_end / temperature_end)  # times R: J/K
    path = _Path(pressure_start, pressure_end, temperature_start, temperature_end)
    lowest, highest = min(pressure_start, pressure_end), max(pressure_start, pressure_end)
    against = lowest < ambient_pressure if lost > 0.0 else lost < 0.0 and highest > ambient_pressure
    return PressureDecayLeak(
        molar_rate=lost / MOLAR_GAS_CONSTANT / duration,
        mass_rate=lost / AIR_GAS_CONSTANT / duration,
        leak_area=math.copysign(volume / duration * _area_per_volume(path, ambient_pressure), lost) if lost != 0.0 else 0.0,
        notes=(AGAINST_THE_PRESSURE,) if against else (),
    )


@dataclass(frozen=True, slots=True)
class _Path:
    """Straight line from the first reading to the second in pressure and temperature."""

    pressure_start: float
    pressure_end: float
    temperature_start: float
    temperature_end: float

    def temperature(self, pressure: float) -> float:
        """Temperature at a pressure on the way."""
        part = (pressure - self.pressure_start) / (self.pressure_end - self.pressure_start)
        return self.temperature_start + part * (self.temperature_end - self.temperature_start)

    def density_slope(self, pressure: float) -> float:
        """Change of density with pressure along the way, in kg/(m3 Pa)."""
        slope = (self.temperature_end - self.temperature_start) / (self.pressure_end - self.pressure_start)
        temperature = self.temperature(pressure)
        return (temperature - pressure * slope) / (AIR_GAS_CONSTANT * temperature**2)


def _area_per_volume(path: _Path, ambient: float) -> float:
    """Integral of the change of density over the flow per area along the path, in s/m."""
    if path.pressure_start == path.pressure_end:
        return _at_constant_pressure(path, ambient)
    lowest, highest = sorted((path.pressure_start, path.pressure_end))
    critical = critical_pressure_ratio(AIR_HEAT_CAPACITY_RATIO)
    corners = (ambient * critical, ambient, ambient / critical)
    edges = [lowest, *(corner for corner in corners if lowest < corner < highest), highest]
    return sum(_segment(path, ambient, low, high, choked=low >= corners[2]) for low, high in pairwise(edges))


def _segment(path: _Path, ambient: float, low: float, high: float, *, choked: bool) -> float:
    # Choked outflow grows as the pressure does, so its logarithm makes the integrand flat. Elsewhere the flow starts as the root
    # of the pressure difference, and that root takes the singularity away.
    side = 1.0 if low >= ambient else -1.0
    ends = (math.log(low), math.log(high)) if choked else (math.sqrt(abs(low - ambient)), math.sqrt(abs(high - ambient)))
    middle, half = 0.5 * (ends[0] + ends[1]), 0.5 * abs(ends[1] - ends[0])
    total = 0.0
    for node, weight in zip(_NODES, _WEIGHTS, strict=True):
        variable = float(middle + half * node)
        pressure = math.exp(variable) if choked else ambient + side * variable**2
        stretch = pressure if choked else 2.0 * variable
        total += (
            float(weight)
            * half
            * stretch
            * abs(path.density_slope(pressure))
            / _flux(pressure, path.temperature(pressure), ambient)
        )
    return total


def _at_constant_pressure(path: _Path, ambient: float) -> float:
    pressure = path.pressure_start
    if pressure == ambient:
        raise OutOfRange(
            f"pressure_start and pressure_end both equal ambient_pressure = {ambient:g} Pa: no pressure stood across the leak.",
            field="pressure_start",
            value=pressure,
            unit="Pa",
            hint="Give absolute pressures (gauge reading plus air pressure) of a volume under pressure.",
        )
    # Flow per area goes as one over the root of the temperature: the integral of T^-1.5 in closed form.
    roots = abs(1.0 / math.sqrt(path.temperature_end) - 1.0 / math.sqrt(path.temperature_start))
    return 2.0 * roots * pressure / (AIR_GAS_CONSTANT * _flux(pressure, 1.0, ambient))


def _flux(pressure: float, temperature: float, ambient: float) -> float:
    upstream, downstream = max(pressure, ambient), min(pressure, ambient)
    return float(isentropic_mass_flow(upstream, temperature, downstream, 1.0, AIR_GAS_CONSTANT, AIR_HEAT_CAPACITY_RATIO))
