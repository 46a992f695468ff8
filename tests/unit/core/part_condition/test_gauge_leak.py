from __future__ import annotations

import math
from typing import Any

import pytest

from stripdown.core.part_condition.gauge_leak import gauge_leak
from stripdown.errors import OutOfRange

_LOG: dict[str, Any] = {"times": [0.0, 5.0, 12.0], "overpressures": [2.0e5, 1.2e5, 0.5e5], "volume": 30e-6}


def test_a_log_that_falls_far_gives_two_pressures() -> None:
    """Upper and lower half of the fall."""
    upper, lower = gauge_leak(**_LOG)
    assert upper.pressure == pytest.approx(101325.0 + math.sqrt(2.0e5 * 1.2e5))
    assert lower.pressure == pytest.approx(101325.0 + math.sqrt(1.2e5 * 0.5e5))


@pytest.mark.parametrize(
    "changed",
    [
        {"times": [0.0, 12.0], "overpressures": [2.0e5, 0.5e5]},
        {"overpressures": [2.0e5, 1.9e5, 1.8e5]},
    ],
)
def test_two_readings_or_a_small_fall_give_one(changed: dict[str, Any]) -> None:
    """Nothing to tell apart."""
    assert len(gauge_leak(**(_LOG | changed))) == 1


def test_a_larger_volume_is_a_larger_leak() -> None:
    """In proportion; its uncertainty is shared by both readings."""
    one, two = gauge_leak(**_LOG)[0], gauge_leak(**(_LOG | {"volume": 60e-6}))[0]
    assert two.leak_area == pytest.approx(2.0 * one.leak_area, rel=1e-9)
    assert one.shared_relative_uncertainty == 0.05


def test_the_gauge_s_step_is_the_doubt() -> None:
    """Two readings, each uncertain by u, near one pressure: the area for a fall of u, times the root of two."""
    log: dict[str, Any] = {"times": [0.0, 10.0], "overpressures": [2.0e5, 1.99e5], "volume": 30e-6}
    [fine] = gauge_leak(**log, reading_uncertainty=100.0)
    assert fine.standard_uncertainty / fine.leak_area == pytest.approx(math.sqrt(2.0) * 0.1, rel=0.01)


def test_a_fall_that_the_gauge_cannot_show_is_told() -> None:
    """Wait longer; no leak at all is an answer too."""
    for end in (1.99e5, 2.0e5):
        [reading] = gauge_leak(times=[0.0, 10.0], overpressures=[2.0e5, end], volume=30e-6, reading_uncertainty=2000.0)
        assert any("wait longer" in note for note in reading.notes)
        assert reading.standard_uncertainty > 0.0


def test_cooling_air_is_no_leak() -> None:
    """Pressure that falls as temperature does leaves all the air inside."""
    fall = (2.0e5 + 101325.0) * 288.15 / 293.15 - 101325.0
    [reading] = gauge_leak(times=[0.0, 60.0], overpressures=[2.0e5, fall], volume=30e-6, temperature_at_end=288.15)
    assert reading.leak_area == pytest.approx(0.0, abs=1e-15)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"times": [0.0]}, "times"),
        ({"times": [0.0, 5.0, 5.0]}, "times"),
        ({"overpressures": [1.0e5, 1.2e5, 1.3e5]}, "overpressures"),
        ({"overpressures": [2.0e5, -1.0, 0.5e5]}, "overpressures, reading 2"),
        ({"volume": 0.0}, "volume"),
        ({"volume_uncertainty": -0.1}, "volume_uncertainty"),
    ],
)
def test_what_cannot_be_is_refused_by_name(changed: dict[str, Any], field: str) -> None:
    """Too short a log, times out of order, a rise, a vacuum."""
    with pytest.raises(OutOfRange) as refused:
        gauge_leak(**(_LOG | changed))
    assert refused.value.field == field
    assert refused.value.hint
