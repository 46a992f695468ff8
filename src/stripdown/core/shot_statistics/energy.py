"""Energy of a string: not the energy of its mean speed."""

from __future__ import annotations

import math
from dataclasses import dataclass

from stripdown.core.shot_statistics.intervals import Interval, mean_interval
from stripdown.core.shot_statistics.moments import Centred, centre


@dataclass(frozen=True, slots=True, kw_only=True)
class EnergyOfString:
    """Energy of the shots of a string.

    Parameters
    ----------
    mean
        Mean energy in J.
    standard_deviation
        From shot to shot, in J; None for a single shot.
    standard_uncertainty
        Of the mean, in J: scatter, instrument and ball mass; None for a single shot.
    interval
        Confidence interval of the mean in J; None for a single shot.
    """

    mean: float
    standard_deviation: float | None
    standard_uncertainty: float | None
    interval: Interval | None


def energy_of_string(
    sample: Centred, *, ball_mass: float, ball_mass_uncertainty: float, common_uncertainty: float, confidence: float
) -> EnergyOfString:
    """Energy of the shots of a string.

    Parameters
    ----------
    sample
        Speeds in m/s, bias taken off.
    ball_mass
        In kg.
    ball_mass_uncertainty
        Standard uncertainty of the mass in kg.
    common_uncertainty
        Standard uncertainty that shifts all speeds alike, in m/s.
    confidence
        Of the interval: a share, between 0 and 1.

    Returns
    -------
    EnergyOfString

    Notes
    -----
    Mean energy ``m/2·(mean² + s²·(n - 1)/n)``, which is the mean of ``m·v²/2``. Its uncertainty has three parts: scatter
    of the shots over sqrt(n), and, alike for all shots, ``E·u(m)/m`` and ``2·E·u(v)/v``. The scatter of the balls'
    masses is taken for scatter of speed alone; since a heavier ball is slower, that overstates the scatter of energy.

    References
    ----------
    jcgm_100, section 5.1.2.
    """
    # squares of speeds over the power of two: no overflow, no digit lost
    squares = centre(tuple((value / sample.scale) ** 2 for value in sample.values))
    unit = 0.5 * ball_mass * sample.scale * sample.scale
    speed_part = 2.0 * abs(sample.mean / sample.scale) * (common_uncertainty / sample.scale)
    common = math.hypot(squares.mean * ball_mass_uncertainty / ball_mass, speed_part)
    deviation = squares.standard_deviation
    interval = mean_interval(squares, confidence=confidence, common_uncertainty=common)
    return EnergyOfString(
        mean=unit * squares.mean,
        standard_deviation=None if deviation is None else unit * deviation,
        standard_uncertainty=None if deviation is None else unit * math.hypot(deviation / math.sqrt(sample.count), common),
        interval=None if interval is None else Interval(unit * interval.low, unit * interval.high),
    )
