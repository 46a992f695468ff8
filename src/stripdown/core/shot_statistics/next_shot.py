"""Where the next shot will lie: Student's prediction, widened by what the instrument adds to all shots alike."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from stripdown.core.shot_statistics.distributions import (
    Array,
    chi_square_quantile,
    chi_square_upper_quantile,
    normal_below_each,
    normal_quantile,
    t_above,
    t_quantile,
)
from stripdown.core.shot_statistics.roots import rising_root

_STEPS: Final = 801  # of the trapezoidal rule over ln(chi²); it converges faster than any power
_NEGLECTED: Final = 1e-15  # share of chi² left out at each end


@dataclass(frozen=True, slots=True, kw_only=True)
class NextShot:
    """Predictive distribution of the next shot of the same gun, fired and read in the same way.

    Parameters
    ----------
    mean
        Mean of the string, any unit: a number.
    standard_deviation
        Sample standard deviation of the string, same unit, zero or more.
    count
        Number of shots, two or more.
    common_uncertainty
        Standard uncertainty of what shifts all shots alike (calibration, distance, ball mass), same unit.

    Notes
    -----
    The shot is ``mean + s·sqrt(1 + 1/n)·T + u·Z``: T is Student's t with n - 1 degrees of freedom, Z a standard normal
    number. Without u it is the usual prediction interval.
    """

    mean: float
    standard_deviation: float
    count: int
    common_uncertainty: float = 0.0

    @property
    def spread(self) -> float:
        """Scale of the t part, same unit as the shots."""
        return self.standard_deviation * math.sqrt(1.0 + 1.0 / self.count)

    def chance_above(self, threshold: float) -> float:
        """Chance that the next shot lies above a threshold.

        Parameters
        ----------
        threshold
            Same unit as the shots.

        Returns
        -------
        float
            Probability, 0 to 1; with no scatter and no uncertainty at all it is 0 or 1, and 0.5 on the threshold.
        """
        return _chance_above(threshold - self.mean, self.spread, self.count - 1, self.common_uncertainty)

    def offset(self, chance_above: float) -> float:
        """How far above the mean a threshold must lie to be exceeded with a stated chance.

        Parameters
        ----------
        chance_above
            Probability, between 0 and 1.

        Returns
        -------
        float
            Same unit as the shots; negative for a chance above one half.
        """
        if chance_above > 0.5:
            return -self.offset(1.0 - chance_above)
        if chance_above == 0.5:
            return 0.0
        # the sum's quantile is below the sum of the parts' quantiles
        t_part = self.spread * -t_quantile(chance_above, self.count - 1)
        if self.common_uncertainty == 0.0:
            return t_part
        normal_part = self.common_uncertainty * -normal_quantile(chance_above)
        if self.spread == 0.0:
            return normal_part

        def surplus(distance: float) -> float:
            return chance_above - _chance_above(distance, self.spread, self.count - 1, self.common_uncertainty)

        return rising_root(surplus, 0.0, 2.0 * (t_part + normal_part))


def _chance_above(distance: float, spread: float, degrees_of_freedom: int, uncertainty: float) -> float:
    """Chance that ``spread·T + uncertainty·Z`` exceeds `distance`."""
    if uncertainty == 0.0:
        if spread == 0.0:
            return 0.5 if distance == 0.0 else float(distance < 0.0)
        return t_above(distance / spread, degrees_of_freedom)
    # given chi², the t part is normal: one smooth integral for any ratio of the two parts
    chi_square, weights = _chi_square_rule(degrees_of_freedom)
    scale = np.sqrt(spread**2 * degrees_of_freedom / chi_square + uncertainty**2)
    return float(np.dot(weights, normal_below_each(-distance / scale)))


@functools.lru_cache(maxsize=64)
def _chi_square_rule(degrees_of_freedom: int) -> tuple[Array, Array]:
    """Nodes and weights for the mean over a chi-square number."""
    low = math.log(chi_square_quantile(_NEGLECTED, degrees_of_freedom))
    high = math.log(chi_square_upper_quantile(_NEGLECTED, degrees_of_freedom))
    log_nodes = np.linspace(low, high, _STEPS)
    exponent = 0.5 * degrees_of_freedom * log_nodes - 0.5 * np.exp(log_nodes)
    weights = np.exp(exponent - exponent.max())
    return np.exp(log_nodes), weights / weights.sum()
