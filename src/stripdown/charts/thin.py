"""Fewer points for a picture, without losing a peak."""

from __future__ import annotations

import itertools

import numpy as np
from numpy.typing import NDArray


def thin(*traces: NDArray[np.float64], points: int = 400) -> NDArray[np.intp]:
    """Choose the samples of traces on one base that a picture needs.

    The base is cut into equal blocks of samples; each block keeps the lowest and the highest sample of every trace,
    so a spike of one sample survives. First and last samples are always kept.

    Parameters
    ----------
    traces
        One or more arrays of equal length n, any unit.
    points
        Most samples to keep, at least 2 + 2 per trace.

    Returns
    -------
    numpy.ndarray
        Increasing indices of the samples to keep, at most ``points`` of them; all n when n is no more than that.

    Raises
    ------
    ValueError
        If no trace is given, the lengths differ, or ``points`` cannot hold the extremes.
    """
    lengths = {len(trace) for trace in traces}
    if len(lengths) != 1:
        message = f"traces of one equal length are needed, got lengths {sorted(lengths)}"
        raise ValueError(message)
    blocks = (points - 2) // (2 * len(traces))
    if blocks < 1:
        message = f"{points} points cannot hold the extremes of {len(traces)} traces"
        raise ValueError(message)
    count = lengths.pop()
    if count <= points:
        return np.arange(count, dtype=np.intp)
    edges = np.linspace(0, count, blocks + 1).astype(np.intp)
    kept = [0, count - 1]
    for first, last in itertools.pairwise(edges):
        for trace in traces:
            block = trace[first:last]
            kept += [first + int(np.argmin(block)), first + int(np.argmax(block))]
    return np.unique(np.array(kept, dtype=np.intp))
