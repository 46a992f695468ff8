"""What was lost between strings before and after, one pair of strings at a time, and how well that is known."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stripdown.bench.strings import USUAL_BETWEEN_DAYS
from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.core.shot_statistics.distributions import t_above, t_quantile
from stripdown.errors import InputError
from stripdown.studies.loss_causes import BALL_DISCREPANCY, GROWTH_DISCREPANCY, JointChange
from stripdown.studies.observation import Observation

Array = NDArray[np.float64]

_SAME_MASS = 0.01
# How far the model's own word on a loss may be off in its size, share of the loss (estimate).
_SIZE_DISCREPANCY = 0.03


@keeps_arrays
@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class LossPairs:
    """Logarithmic losses of the pairs, shape (n,), positive where the second occasion is the faster; and whether there is one."""

    strings: tuple[Observation, ...]
    values: Array
    readings: Array
    model: Array
    change: JointChange

    def turned(self) -> LossPairs:
        """The same with the occasions exchanged."""
        return dataclasses.replace(self, values=-self.values)


def pair_losses(
    before: Sequence[Observation], after: Sequence[Observation], *, between_days: float = USUAL_BETWEEN_DAYS
) -> LossPairs:
    """Pair strings with the same ball, hop-up and selector; no string counts twice."""
    pairs: list[tuple[Observation, Observation]] = []
    for one in before:
        taken = [two for _, two in pairs]
        partner = next((two for two in after if not any(two is other for other in taken) and _alike(one, two)), None)
        if partner is not None:
            pairs.append((one, partner))
    if not pairs:
        message = "No ball mass was fired both before and after, so nothing can be compared."
        raise InputError(message, field="ball_mass", hint="Fire the same weighed balls before and after, hop-up alike.")
    values = np.array([math.log(two.muzzle_speed / one.muzzle_speed) for one, two in pairs])
    own = np.array([one.relative_error**2 + two.relative_error**2 for one, two in pairs])
    # Each occasion's instrument error, and what its day does to the gun, is common to its strings and does not cancel.
    shares = [
        np.array([one.common_uncertainty / one.muzzle_speed for one, _ in pairs]),
        np.array([two.common_uncertainty / two.muzzle_speed for _, two in pairs]),
    ]
    common = np.outer(shares[0], shares[0]) + np.outer(shares[1], shares[1]) + 2.0 * between_days**2
    size = _SIZE_DISCREPANCY * values
    growth = GROWTH_DISCREPANCY * values * np.log([one.ball_mass / pairs[0][0].ball_mass for one, _ in pairs])
    return LossPairs(
        strings=tuple(two for _, two in pairs),
        values=values,
        readings=np.diag(own + 1e-8) + common,
        model=np.outer(size, size) + np.outer(growth, growth) + np.diag((BALL_DISCREPANCY * values) ** 2),
        change=_joint_change(pairs, values, common, between_days),
    )


def _joint_change(
    pairs: Sequence[tuple[Observation, Observation]], values: Array, common: Array, between_days: float
) -> JointChange:
    """One test over all strings: their mean change, each weighted by its shots, against Student's t after Welch.

    What a day does to all its strings is a known share with no end of degrees of freedom; the scatter of each string has its own.
    """
    weights = np.array([1.0 / (1.0 / one.count + 1.0 / two.count) for one, two in pairs])
    weights /= weights.sum()
    scatters = [
        (weight**2 * string.relative_error**2, string.count - 1)
        for weight, pair in zip(weights, pairs, strict=True)
        for string in pair
    ]
    variance = sum(square for square, _ in scatters) + float(weights @ common @ weights)
    # The scatter of a lone shot is assumed, not found.
    found = sum(square**2 / freedom for square, freedom in scatters if freedom)
    freedom = float(variance**2 / found) if found else math.inf
    middle, error = float(weights @ values), math.sqrt(variance)
    reach = t_quantile(0.975, freedom) * error
    return JointChange(
        share=math.expm1(middle),
        low=math.expm1(middle - reach),
        high=math.expm1(middle + reach),
        chance=2.0 * t_above(abs(middle) / error, freedom) if error else float(middle == 0.0),
        degrees_of_freedom=freedom,
        between_days=between_days,
    )


def _alike(one: Observation, two: Observation) -> bool:
    """Whether two strings were fired alike; what one of them does not say is taken to be alike."""
    return (
        abs(one.ball_mass / two.ball_mass - 1.0) <= _SAME_MASS
        and (one.hop is two.hop or None in (one.hop, two.hop))
        and (one.fire_mode is two.fire_mode or None in (one.fire_mode, two.fire_mode))
    )
