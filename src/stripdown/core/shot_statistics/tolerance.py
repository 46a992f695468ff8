"""Tolerance factors: how many standard deviations from the mean most shots lie, as far as so few shots can tell."""

from __future__ import annotations

import functools
import math
from typing import Final

import numpy as np

from stripdown.core.shot_statistics.distributions import (
    Array,
    chi_square_above_each,
    noncentral_t_quantile,
    normal_below_each,
    normal_quantile,
)
from stripdown.core.shot_statistics.levels import check_share, check_sides
from stripdown.core.shot_statistics.roots import rising_root
from stripdown.errors import OutOfRange

_NODES: Final = 96  # Gauss-Legendre nodes over the mean's error; 48 already agree to 1e-12
_FARTHEST: Final = 8.5  # standard errors of the mean beyond which nothing is left to add
_HALVINGS: Final = 80


@functools.lru_cache(maxsize=256)
def tolerance_factor(n: int, *, content: float, confidence: float, sides: int) -> float:
    """Factor k such that mean ± k·s bounds a share of all shots, with a stated confidence.

    Parameters
    ----------
    n
        Number of shots from which mean and standard deviation were taken, two or more.
    content
        Share of all shots that the bound must cover, between 0 and 1.
    confidence
        How often a bound made in this way covers it, between 0 and 1.
    sides
        1 for a single bound (``mean + k·s``), 2 for a pair.

    Returns
    -------
    float
        The factor, a pure number.

    Raises
    ------
    OutOfRange
        If an argument is outside its range.

    Notes
    -----
    Normal scatter, independent shots. One side: ``k = t'(confidence; n - 1, z_content·sqrt(n)) / sqrt(n)`` with
    noncentral t. Two sides: k solves ``confidence = E[P(chi² > (n - 1)·r(Z)²/k²)]``, Z normal with variance 1/n, where
    the interval of half-width r about Z holds `content` of a standard normal; integrated numerically, not by the
    usual approximation.

    References
    ----------
    nist_handbook, section 7.2.6.3; berthouex_brown, table 21.1.
    """
    _check(n, content, confidence, sides)
    if sides == 1:
        return noncentral_t_quantile(confidence, n - 1, normal_quantile(content) * math.sqrt(n)) / math.sqrt(n)
    nodes, weights = np.polynomial.legendre.leggauss(_NODES)
    z = 0.5 * _FARTHEST * (nodes + 1.0)
    weights = weights * 0.5 * _FARTHEST * 2.0 * np.exp(-0.5 * z**2) / math.sqrt(2.0 * math.pi)
    reach = _half_width(z / math.sqrt(n), content)

    def surplus(log_factor: float) -> float:
        covered = chi_square_above_each((n - 1) * (reach / math.exp(log_factor)) ** 2, n - 1)
        return float(np.dot(weights, covered)) - confidence

    high = math.log(float(reach[0])) + 1.0
    while surplus(high) < 0.0:
        high += 2.0
    return math.exp(rising_root(surplus, math.log(float(reach[0])) - 30.0, high))


def _half_width(centre: Array, content: float) -> Array:
    """Half-width of the interval about each centre that holds `content` of a standard normal."""
    low, high = np.zeros_like(centre), centre + normal_quantile(0.5 * (1.0 + content)) + 1.0
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        short = normal_below_each(centre + middle) - normal_below_each(centre - middle) < content
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return np.asarray(0.5 * (low + high), dtype=np.float64)


def _check(n: int, content: float, confidence: float, sides: int) -> None:
    if n < 2:
        raise OutOfRange(
            f"A tolerance factor from {n} shots cannot be had.", field="n", value=n, limits=(2, None), hint="Fire at least two."
        )
    check_share("content", content)
    check_share("confidence", confidence)
    check_sides(sides)
