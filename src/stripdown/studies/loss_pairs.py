"""What was lost between strings before and after, one pair of strings at a time, and how well that is known."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stripdown.core.numerics.read_only import keeps_arrays
from stripdown.errors import InputError
from stripdown.studies.loss_causes import BALL_DISCREPANCY, GROWTH_DISCREPANCY
from stripdown.studies.observation import Observation

Array = NDArray[np.float64]

_SAME_MASS = 0.01
# How far the model's own word on a loss may be off in its size, share of the loss (estimate).
_SIZE_DISCREPANCY = 0.03


@keeps_arrays
@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class LossPairs:
    """Logarithmic losses of the pairs, shape (n,); positive where the second occasion is the faster."""

    strings: tuple[Observation, ...]
    values: Array
    readings: Array
    model: Array

    def turned(self) -> LossPairs:
        """The same with the occasions exchanged."""
        return dataclasses.replace(self, values=-self.values)


def pair_losses(before: Sequence[Observation], after: Sequence[Observation]) -> LossPairs:
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
    # Each occasion's instrument error is common to its strings and does not cancel between two days.
    shares = [
        np.array([one.common_uncertainty / one.muzzle_speed for one, _ in pairs]),
        np.array([two.common_uncertainty / two.muzzle_speed for _, two in pairs]),
    ]
    size = _SIZE_DISCREPANCY * values
    growth = GROWTH_DISCREPANCY * values * np.log([one.ball_mass / pairs[0][0].ball_mass for one, _ in pairs])
    return LossPairs(
        strings=tuple(two for _, two in pairs),
        values=values,
        readings=np.diag(own + 1e-8) + sum(np.outer(share, share) for share in shares),
        model=np.outer(size, size) + np.outer(growth, growth) + np.diag((BALL_DISCREPANCY * values) ** 2),
    )


def _alike(one: Observation, two: Observation) -> bool:
    """Whether two strings were fired alike; what one of them does not say is taken to be alike."""
    return (
        abs(one.ball_mass / two.ball_mass - 1.0) <= _SAME_MASS
        and (one.hop is two.hop or None in (one.hop, two.hop))
        and (one.fire_mode is two.fire_mode or None in (one.fire_mode, two.fire_mode))
    )
