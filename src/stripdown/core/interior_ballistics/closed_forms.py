"""What no shot can beat: closed cylinder and ideal launches in closed form, without leak, heat, friction of air or inertia.

They bound the simulation from above and are the ground on which it is tested.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.core.constants import AIR_HEAT_CAPACITY_RATIO, STANDARD_ATMOSPHERE
from stripdown.quantities import Q, check, check_value, parameters

_VOLUME = Q("m3", low=1e-15, high=1e6, label="volume", shown="cm3")
_PRESSURE = Q("Pa", low=1e-3, high=1e12, label="absolute pressure", shown="bar")
_TEMPERATURE = Q("K", low=1, high=1e5, label="temperature", shown="degC")
_WORK = Q("J", low=0, high=1e12, label="net work of the spring")
_DIAMETER = Q("m", low=1e-6, high=10, label="bore", shown="mm")
_TRAVEL = Q("m", low=0, high=1e4, label="travel of the ball", shown="mm")
_DENSITY = Q("kg/m3", low=1e-9, high=1e5, label="density of the air outside")
_MASS = Q("kg", low=1e-12, high=1e6, label="mass of the ball", shown="g")

# Above this the constant ratio of heat capacities errs by more than 1 %; lemmon_2000, isentropic compression run in CoolProp.
_IDEAL_GAS_PRESSURE: Final = 1e6  # Pa
_SERIES_BELOW: Final = 0.1
_SERIES_TERMS: Final = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosedCylinderCompression:
    """Air in a closed cylinder at the piston's turning point."""

    volume_ratio: Annotated[float, Q("1", label="volume before over volume after")]
    pressure: Annotated[float, Q("Pa", label="highest pressure", shown="bar")]
    temperature: Annotated[float, Q("K", label="highest temperature", shown="degC")]
    notes: tuple[str, ...]


@parameters
class IdealLaunch:
    """A ball driven from a closed reservoir along a bore, nothing lost on the way."""

    reservoir_pressure: Annotated[float, Q("Pa", low=1e-3, high=1e12, label="absolute pressure of the reservoir", shown="bar")]
    reservoir_volume: Annotated[float, Q("m3", low=1e-15, high=1e6, label="volume behind the ball at the start", shown="cm3")]
    bore_diameter: Annotated[float, Q("m", low=1e-6, high=10, label="bore", shown="mm")]
    travel: Annotated[float, Q("m", low=0, high=1e4, label="travel of the ball", shown="mm")]
    ball_mass: Annotated[float, Q("kg", low=1e-12, high=1e6, label="mass of the ball", shown="g")]
    pressure_ahead: Annotated[float, Q("Pa", low=0, high=1e12, label="absolute pressure ahead of the ball", shown="bar")] = (
        STANDARD_ATMOSPHERE
    )
    friction_force: Annotated[float, Q("N", low=0, high=1e9, label="constant friction")] = 0.0

    @property
    def swept_volume(self) -> float:
        """Volume that the ball sweeps, in m3."""
        return 0.25 * math.pi * self.bore_diameter**2 * self.travel

    @property
    def log_expansion(self) -> float:
        """Logarithm of the last volume over the first."""
        return math.log1p(self.swept_volume / self.reservoir_volume)

    def speed(self, work_number: float) -> float:
        """Speed at the end of the travel.

        Parameters
        ----------
        work_number
            Work of the gas over the reservoir's pressure times volume.

        Returns
        -------
        float
            In m/s; 0 when the ball stops before.
        """
        work = work_number * self.reservoir_pressure * self.reservoir_volume
        energy = work - self.pressure_ahead * self.swept_volume - self.friction_force * self.travel
        # The energy is concave in the travel: positive at the end means positive all the way.
        return math.sqrt(2.0 * energy / self.ball_mass) if energy > 0.0 else 0.0


def closed_cylinder_compression(*, volume: float, pressure: float, temperature: float, work: float) -> ClosedCylinderCompression:
    """Highest pressure and temperature when a spring presses the air of a closed cylinder and nothing is lost.

    Parameters
    ----------
    volume
        Air volume at the start in m3.
    pressure
        Pressure at the start in Pa, inside and on the piston's back.
    temperature
        Temperature at the start in K.
    work
        Net work of the spring in J. The atmosphere on the piston's back helps and is not counted in it.

    Returns
    -------
    ClosedCylinderCompression
        ``volume_ratio``, ``pressure`` in Pa, ``temperature`` in K, and ``notes`` on validity.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``work = p0 V0 / (g - 1) (r^(g-1) - 1) - p0 V0 (1 - 1/r)``, ``p = p0 r^g``, ``T = T0 r^(g-1)`` with g = 1.4. Within 1 % of the
    reference equation of state up to 10 bar; returned with a note above: there the true pressure and temperature are lower, by
    1.5 % and 2.5 % at 25 bar, by 4 % and 8 % at 115 bar.

    References
    ----------
    lemmon_2000, isentropic compression from 101325 Pa and 293.15 K.
    """
    check_value("volume", volume, _VOLUME)
    check_value("pressure", pressure, _PRESSURE)
    check_value("temperature", temperature, _TEMPERATURE)
    check_value("work", work, _WORK)
    logarithm = _log_volume_ratio(work / (pressure * volume))
    peak = pressure * math.exp(AIR_HEAT_CAPACITY_RATIO * logarithm)
    note = (
        f"The peak of {peak / 1e5:.3g} bar is above 10 bar, where a constant ratio of heat capacities errs by more than 1 %: "
        "the true pressure and temperature are lower."
    )
    return ClosedCylinderCompression(
        volume_ratio=math.exp(logarithm),
        pressure=peak,
        temperature=temperature * math.exp((AIR_HEAT_CAPACITY_RATIO - 1.0) * logarithm),
        notes=(note,) if peak > _IDEAL_GAS_PRESSURE else (),
    )


def adiabatic_launch_speed(launch: IdealLaunch) -> float:
    """Speed of a ball driven by a closed reservoir whose air expands without heat.

    Parameters
    ----------
    launch
        Reservoir, bore, travel and ball.

    Returns
    -------
    float
        Speed at the end of the travel in m/s; 0 when the ball stops before.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``m v^2 / 2 = p0 V0 / (g - 1) [1 - (V0 / (V0 + A x))^(g-1)] - p_a A x - f x`` with g = 1.4. Inertia of the air and the flow
    through a passage are left out: an upper bound for a real launcher, good when the air is light beside the ball.

    References
    ----------
    mungan_2009, page 453; rohrbach_2012, equation 2.
    """
    check(launch)
    excess = AIR_HEAT_CAPACITY_RATIO - 1.0
    return launch.speed(-math.expm1(-excess * launch.log_expansion) / excess)


def isothermal_launch_speed(launch: IdealLaunch) -> float:
    """Speed of a ball driven by a closed reservoir whose air keeps its temperature.

    Parameters
    ----------
    launch
        Reservoir, bore, travel and ball.

    Returns
    -------
    float
        Speed at the end of the travel in m/s; 0 when the ball stops before.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``m v^2 / 2 = p0 V0 ln(1 + A x / V0) - p_a A x - f x``. The limit of strong heat from the walls, above
    `adiabatic_launch_speed`.

    References
    ----------
    rohrbach_2012, equation 3.
    """
    check(launch)
    return launch.speed(launch.log_expansion)


def open_reservoir_launch_speed(
    *, pressure: float, density: float, bore_diameter: float, travel: float, ball_mass: float
) -> float:
    """Speed of a ball that the open air drives into an evacuated tube, the air behind it moving along.

    Parameters
    ----------
    pressure
        Absolute pressure of the air outside in Pa.
    density
        Density of that air in kg/m3.
    bore_diameter
        Bore in m.
    travel
        Travel of the ball in m.
    ball_mass
        Mass of the ball in kg.

    Returns
    -------
    float
        Speed at the end of the travel in m/s.

    Raises
    ------
    OutOfRange
        For an impossible value.

    Notes
    -----
    ``v = sqrt(2 p A (m x + rho A x^2 / 2)) / (m + rho A x)``: momentum of ball and air, pressure and density as outside. Its
    limit for a long tube is ``sqrt(p / rho)``, whatever bore and mass. A bound: the air that follows is thinner in truth.

    References
    ----------
    ayars_buchholtz_2004, first page: the limit and its independence of bore and mass.
    """
    check_value("pressure", pressure, _PRESSURE)
    check_value("density", density, _DENSITY)
    check_value("bore_diameter", bore_diameter, _DIAMETER)
    check_value("travel", travel, _TRAVEL)
    check_value("ball_mass", ball_mass, _MASS)
    area = 0.25 * math.pi * bore_diameter**2
    air_mass = density * area * travel
    return math.sqrt(2.0 * pressure * area * travel * (ball_mass + 0.5 * air_mass)) / (ball_mass + air_mass)


def _log_volume_ratio(work_number: float) -> float:
    """Logarithm of the volume ratio from the work over ``p0 V0``.

    The work is convex in the logarithm, so Newton's method from a bound above comes down without ever passing the root.
    """
    excess = AIR_HEAT_CAPACITY_RATIO - 1.0
    x = math.log1p(excess * (work_number + 1.0)) / excess
    while True:
        slope = math.expm1(excess * x) - math.expm1(-x)
        lower = x - (_work_number(x) - work_number) / slope if slope > 0.0 else x
        if not lower < x:
            return x
        x = max(lower, 0.0)


def _work_number(x: float) -> float:
    excess = AIR_HEAT_CAPACITY_RATIO - 1.0
    if x > _SERIES_BELOW:
        return math.expm1(excess * x) / excess + math.expm1(-x)
    # The two terms cancel to second order: their series, summed term by term, does not.
    return sum((excess ** (k - 1) + (-1.0) ** k) * x**k / math.factorial(k) for k in range(2, _SERIES_TERMS))
