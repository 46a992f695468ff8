"""An explicit step of order five with an error estimate of order four, for motion that is not stiff.

The caller works out the rates of each stage: stage after stage it asks `stage_state` where to look, and fills a row of
``rates``; then `error_of` says how far the two orders differ. The last stage is the first of the next step.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from stripdown.core.numerics.compiled import compiled
from stripdown.core.numerics.rows import Vector

STAGES: Final = 7
"""Rows that ``rates`` must have; of each step after the first the rates of row 0 are known."""
_NODES: Final = np.array(
    [
        [0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
        [1 / 5, 0.0, 0.0, 0.0, 0.0, 0.0],
        [3 / 40, 9 / 40, 0.0, 0.0, 0.0, 0.0],
        [44 / 45, -56 / 15, 32 / 9, 0.0, 0.0, 0.0],
        [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729, 0.0, 0.0],
        [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656, 0.0],
        [35 / 384, 0.0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
    ]
)
_ERROR: Final = np.array([71 / 57600, 0.0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40])
_SAFETY: Final = 0.9
_LEAST_FACTOR: Final = 0.2
_GREATEST_FACTOR: Final = 5.0


@compiled
def stage_state(state: Vector, rates: Vector, step: float, stage: int, out: Vector) -> None:
    """Where to work out the rates of a stage; of the last stage it is the state at the end of the step.

    Parameters
    ----------
    state
        State at the beginning of the step, shape (n,), in SI.
    rates
        Rates of the stages before, shape (7, n), in SI per second.
    step
        Length of the step in s.
    stage
        Number of the stage, 1 to 6.
    out
        Filled with the state, shape (n,), in SI.

    References
    ----------
    dormand_prince_1980, table 2.
    """
    for i in range(state.shape[0]):
        moved = 0.0
        for earlier in range(stage):
            moved += _NODES[stage, earlier] * rates[earlier, i]
        out[i] = state[i] + step * moved


@compiled
def error_of(rates: Vector, step: float, i: int) -> float:
    """How far the solutions of order five and four differ in one component.

    Parameters
    ----------
    rates
        Rates of all stages, shape (7, n), in SI per second.
    step
        Length of the step in s.
    i
        Index of the component.

    Returns
    -------
    float
        In SI, with its sign.

    References
    ----------
    dormand_prince_1980, table 2.
    """
    found = 0.0
    for stage in range(STAGES):
        found += _ERROR[stage] * rates[stage, i]
    return step * found


@compiled
def next_step(step: float, error: float) -> float:
    """Length of the next step, or of the same step once more.

    Parameters
    ----------
    step
        Length of the step in s.
    error
        Its error as a share of what is allowed.

    Returns
    -------
    float
        Length in s.
    """
    factor = _GREATEST_FACTOR if error <= 0.0 else _SAFETY * error**-0.2
    return step * min(_GREATEST_FACTOR, max(_LEAST_FACTOR, factor))


@compiled
def aim(low: float, off_low: float, high: float, off_high: float, tries: int) -> float:
    """Length of a step that ends where something passes zero, between one that falls short and one that goes too far.

    Parameters
    ----------
    low
        Length in s that falls short.
    off_low
        By how much, below zero, in SI.
    high
        Length in s that goes too far.
    off_high
        By how much, above zero, in SI.
    tries
        How often it was tried: every third halves, so that it ends.

    Returns
    -------
    float
        Length in s.
    """
    if tries % 3 == 0 or off_high <= off_low:
        return 0.5 * (low + high)
    return low + (high - low) * (-off_low) / (off_high - off_low)
