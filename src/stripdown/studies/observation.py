"""What a chronograph string tells a model: mean speed at the muzzle, how sure, with which ball, how the hop-up stood."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from stripdown.core.mechanics.ball_drag import AIR_AT_20_CELSIUS, BallFlight
from stripdown.core.shot_statistics import (
    Chronograph,
    FireMode,
    HopState,
    analyse_string,
    muzzle_from_reading,
)
from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ
from stripdown.errors import InputError

# Standard deviation assumed for a lone shot: a healthy gun keeps within 1 % of the mean (common practice, no source).
_SCATTER_OF_ONE = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Observation:
    """One string, brought to the muzzle.

    Parameters
    ----------
    ball_mass
        In kg.
    muzzle_speed
        Mean, in m/s.
    standard_error
        Of the mean, from scatter alone, in m/s.
    scatter
        Standard deviation from shot to shot, in m/s.
    common_uncertainty
        Standard uncertainty that all strings of one day share (instrument, its distance), in m/s.
    count
        Shots counted.
    hop
        Whether the hop-up pressed; None if not said.
    fire_mode
        Selector position; None if not said.
    """

    ball_mass: float
    muzzle_speed: float
    standard_error: float
    scatter: float
    common_uncertainty: float
    count: int
    hop: HopState | None = None
    fire_mode: FireMode | None = None

    @property
    def relative_error(self) -> float:
        """Standard error of the mean over the mean."""
        return self.standard_error / self.muzzle_speed


def instrument_for(chronograph: Chronograph, resolution: float) -> Chronograph:
    """The instrument as it read one string: where nobody said its steps, the last digit of the readings is one."""
    return chronograph if chronograph.resolution > 0.0 else dataclasses.replace(chronograph, resolution=resolution)


def observe(
    speeds: Iterable[float],
    *,
    ball_mass: float,
    distance: float = 0.0,
    chronograph: Chronograph = CHRONOGRAPH_AS_READ,
    flight: BallFlight = AIR_AT_20_CELSIUS,
    hop: HopState | None = None,
    fire_mode: FireMode | None = None,
    set_aside: Mapping[int, str] | None = None,
) -> Observation:
    """Bring a string to the muzzle.

    Parameters
    ----------
    speeds
        Readings in m/s.
    ball_mass
        In kg.
    distance
        From the muzzle to the middle between the screens, in m.
    chronograph
        Bias and uncertainty of the instrument.
    flight
        Diameter of the ball, and the air.
    hop
        Whether the hop-up pressed; None if not said.
    fire_mode
        Selector position; None if not said.
    set_aside
        Reason by place (from 0) for shots that are not to be counted.

    Returns
    -------
    Observation

    Raises
    ------
    OutOfRange
        For impossible readings, mass or distance.
    """
    string = analyse_string(speeds, ball_mass=ball_mass, chronograph=chronograph, set_aside=set_aside)
    # The statistics have taken the bias off already, so that the way to the muzzle must not take it off again.
    unbiased = dataclasses.replace(chronograph, bias=0.0)
    at_muzzle = muzzle_from_reading(string.mean, ball_mass=ball_mass, distance=distance, chronograph=unbiased, flight=flight)
    scatter = string.standard_deviation
    if scatter is None:
        scatter = _SCATTER_OF_ONE * string.mean
    return Observation(
        ball_mass=ball_mass,
        muzzle_speed=at_muzzle.speed,
        standard_error=scatter * at_muzzle.ratio / math.sqrt(string.count),
        scatter=scatter * at_muzzle.ratio,
        common_uncertainty=at_muzzle.standard_uncertainty,
        count=string.count,
        hop=hop,
        fire_mode=fire_mode,
    )


def as_observations(
    given: Iterable[float | Observation], *, ball_mass: float | None, distance: float, what: str
) -> tuple[Observation, ...]:
    """Take strings as observations, or one bare string of speeds."""
    items = list(given)
    if not items:
        message = f"There is no string {what}."
        raise InputError(message, field=what, hint="Fire at least two shots, better ten.")
    observations = tuple(item for item in items if isinstance(item, Observation))
    speeds = [item for item in items if not isinstance(item, Observation)]
    if not speeds:
        return observations
    if ball_mass is None:
        message = f"The string {what} does not say which ball it was fired with."
        raise InputError(message, field="ball_mass", hint="Give the mass of the ball, such as 0.20 g.")
    return (observe(speeds, ball_mass=ball_mass, distance=distance),)
