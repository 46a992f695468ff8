"""Leaks that are known, tested with instruments that err: what is told of them must be right as often as it says."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from stripdown.core.part_condition.gauge_leak import BASIS
from stripdown.core.part_condition.leak_found import LeakNature, find_leak
from stripdown.core.part_condition.leak_reading import LeakReading, creeping_over_orifice

_AIR = {"temperature": 293.15, "ambient_pressure": 101325.0}
_SHOT = 4e5
_TRIALS = 400
# A share of a number of trials errs by this much, three standard errors of 95 %.
_SLACK = 3.0 * (0.95 * 0.05 / _TRIALS) ** 0.5


def _tested(area: float, share: float, pressure: float, doubt: float) -> LeakReading:
    """What a test of a leak shows, without its error."""
    there, here = (creeping_over_orifice(pressure=at, **_AIR) for at in (_SHOT, pressure))
    seen = area / (1.0 - share + share * there / here)
    return LeakReading(
        how="made up",
        leak_area=seen,
        standard_uncertainty=doubt * seen,
        shared_relative_uncertainty=0.0,
        pressure=pressure,
        notes=(),
        basis=BASIS,
        **_AIR,
    )


def _erring(reading: LeakReading, rng: np.random.Generator) -> LeakReading:
    return dataclasses.replace(reading, leak_area=max(reading.leak_area + reading.standard_uncertainty * rng.normal(), 0.0))


@pytest.mark.parametrize("pressures", [(1.25e5, 3.0e5), (2.0e5,)])
def test_the_interval_holds_the_leak_nineteen_times_in_twenty(pressures: tuple[float, ...]) -> None:
    """Whatever its nature and size; with one pressure the interval is wider, and right more often."""
    rng = np.random.default_rng(20261125)
    held = 0
    for _ in range(_TRIALS):
        area, share = 10.0 ** rng.uniform(-8.5, -6.0), rng.uniform()
        found = find_leak(readings=[_erring(_tested(area, share, at, 0.05), rng) for at in pressures], shot_pressure=_SHOT)
        held += found.least_area <= area <= found.greatest_area
    assert held / _TRIALS >= 0.95 - _SLACK


@pytest.mark.parametrize("share", [0.0, 1.0])
def test_a_leak_is_hardly_ever_called_what_it_is_not(share: float) -> None:
    """A hole is not called creeping, nor a gap a hole, more often than one time in twenty."""
    rng = np.random.default_rng(7)
    wrong = LeakNature.CREEPING if share == 0.0 else LeakNature.HOLE
    called = [
        find_leak(readings=[_erring(_tested(1e-7, share, at, 0.05), rng) for at in (1.25e5, 3.0e5)]).nature
        for _ in range(_TRIALS)
    ]
    assert called.count(wrong) / _TRIALS <= 0.05 + _SLACK


def test_the_calibration_can_fail() -> None:
    """Instruments that err three times as much as they say are found out."""
    rng = np.random.default_rng(11)
    held = 0
    for _ in range(_TRIALS):
        area, share = 10.0 ** rng.uniform(-8.5, -6.0), rng.uniform()
        honest = [_erring(_tested(area, share, at, 0.15), rng) for at in (1.25e5, 3.0e5)]
        boasting = [dataclasses.replace(reading, standard_uncertainty=reading.standard_uncertainty / 3.0) for reading in honest]
        found = find_leak(readings=boasting, shot_pressure=_SHOT)
        held += found.least_area <= area <= found.greatest_area
    assert held / _TRIALS < 0.95 - _SLACK
