"""Sound strings as a display with coarse steps shows them: what looks like heaps or outliers there may be the steps alone."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from stripdown.core.shot_statistics.distributions import Array
from stripdown.core.shot_statistics.moments import Centred

_FINE: Final = 2.5  # steps of scatter above which rounding no longer shows in any look
_SCATTERS: Final = tuple(0.1 * 1.3**power for power in range(14))  # in steps, 0.1 to 3.0
_DOUBT: Final = 1.7  # factor by which the scatter behind a coarsely read string may be more or less than it shows
_STRINGS: Final = 8000  # simulated sound strings per length
_NUMBERS: Final = 1_000_000  # drawn per length at most, so that a string of 10 000 shots is judged within a second
_SEED: Final = 19690821  # fixed, so that the same string gets the same answer every day

NOT_ROUNDED: Final = (math.inf,)
"""Scatter in steps of a string whose rounding does not show."""


def scatters_behind(sample: Centred, resolution: float) -> tuple[float, ...]:
    """Scatters, in steps of the display, that may lie behind a string.

    Parameters
    ----------
    sample
        The readings.
    resolution
        Smallest step of the readings, in their unit; 0 if not known.

    Returns
    -------
    tuple of float
        Ratios of scatter to step; infinity alone where rounding does not show.

    Notes
    -----
    The squared scatter less a twelfth of a squared step (Sheppard), and all within a factor of 1.7 of that: a string that shows
    two values tells little of its own scatter, so the look must hold its false alarms at each.
    """
    deviation = sample.standard_deviation or 0.0
    if resolution <= 0.0 or deviation > _FINE * resolution:
        return NOT_ROUNDED
    likely = max(math.sqrt(max((deviation / resolution) ** 2 - 1.0 / 12.0, 0.0)), _SCATTERS[0])
    near = tuple(scatter for scatter in _SCATTERS if likely / _DOUBT <= scatter <= likely * _DOUBT)
    return near or (min(_SCATTERS, key=lambda scatter: abs(math.log(scatter / likely))),)


def sound_strings(count: int, scatter: float) -> Array:
    """Simulated strings of one normal heap, as a display shows them.

    Parameters
    ----------
    count
        Shots of each.
    scatter
        Standard deviation in steps of the display, a pure number; infinity for a display that does not round.

    Returns
    -------
    numpy.ndarray
        Shape (many, count), in standard deviations, or in steps; strings whose readings are all equal are left out.
    """
    many = max(200, min(_STRINGS, _NUMBERS // count))
    generator = np.random.default_rng((_SEED, count))
    strings = generator.standard_normal((many, count))
    if math.isinf(scatter):
        return strings
    strings = np.round(scatter * strings + generator.uniform(size=(many, 1)))
    return np.asarray(strings[strings.min(axis=1) < strings.max(axis=1)], dtype=np.float64)
