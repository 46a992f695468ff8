from __future__ import annotations

import numpy as np
import pytest

from stripdown.charts.thin import thin


def test_ends_and_extremes_survive() -> None:
    """A spike of one sample, a dip of one sample, and both ends are still there after thinning."""
    trace = np.sin(np.linspace(0.0, 20.0, 20_000))
    trace[7_777], trace[13_131] = 5.0, -5.0
    kept = thin(trace, points=300)
    assert len(kept) <= 300
    assert {0, 7_777, 13_131, 19_999} <= set(kept.tolist())


def test_every_trace_on_the_base_keeps_its_own_extremes() -> None:
    """Two traces share the kept samples, and neither loses its peak to the other."""
    first, second = np.zeros(5_000), np.zeros(5_000)
    first[1_234], second[4_321] = 1.0, -1.0
    assert {1_234, 4_321} <= set(thin(first, second, points=100).tolist())


def test_samples_stay_in_order_and_single() -> None:
    """A curve is drawn through the samples in the order of time, each once."""
    kept = thin(np.random.default_rng(1).normal(size=3_000), points=200)
    assert np.all(np.diff(kept) > 0)


@pytest.mark.parametrize("count", [1, 2, 400])
def test_a_short_trace_is_left_alone(count: int) -> None:
    """There is nothing to thin where there are no more samples than points."""
    assert thin(np.arange(count, dtype=np.float64)).tolist() == list(range(count))


@pytest.mark.parametrize(
    ("traces", "points"), [((), 400), ((np.zeros(10), np.zeros(11)), 400), ((np.zeros(10), np.zeros(10)), 5)], ids=str
)
def test_what_cannot_be_thinned_is_refused(traces: tuple[np.ndarray, ...], points: int) -> None:
    """No trace, traces of different lengths, or too few points for the extremes."""
    with pytest.raises(ValueError, match=r"traces"):
        thin(*traces, points=points)
