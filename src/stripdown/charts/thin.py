"""Fewer points for a picture, without losing a peak."""

from __future__ import annotations

import itertools

import numpy as np
from numpy.typing import NDArray


def thin(*traces: NDArray[np.float64], points: int = 400) -> NDArray[np.intp]:
    """Choose the samples of traces on one base that a picture needs."""
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
