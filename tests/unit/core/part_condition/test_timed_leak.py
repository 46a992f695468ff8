from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.part_condition.leak_reading import LeakReading
from stripdown.core.part_condition.timed_leak import timed_leak
from stripdown.errors import OutOfRange

_TEST = {"load": 30.0, "distance": 0.03, "duration": 1.2, "bore": 0.0238, "drag": 4.0}


def _reading(**changed: float) -> LeakReading:
    return timed_leak(**(_TEST | changed))


def test_the_pressure_is_load_less_drag_over_the_bore() -> None:
    """26 N over 445 mm² stand on the air."""
    over = 26.0 / (0.25 * math.pi * 0.0238**2)
    assert _reading().pressure - 101325.0 == pytest.approx(over)


@given(factor=st.floats(0.5, 20.0))
def test_twice_the_time_is_half_the_leak(factor: float) -> None:
    """In inverse proportion, and in proportion to the way."""
    assert _reading(duration=1.2 * factor).leak_area == pytest.approx(_reading().leak_area / factor, rel=1e-9)
    way = 0.03 / factor if factor > 1.0 else 0.03 * factor
    assert _reading(distance=way).leak_area == pytest.approx(_reading().leak_area * way / 0.03, rel=1e-9)


def test_a_spring_that_does_not_relax_is_a_weight() -> None:
    """The general path and the short one agree, however much air was trapped."""
    spring = _reading(load_at_end=30.0, trapped_length=0.05)
    assert spring.leak_area == pytest.approx(_reading().leak_area, rel=1e-9)


def test_a_relaxing_spring_empties_the_trapped_air_too() -> None:
    """By hand: what left is (p V) at the start less that at the end, and more air trapped is more leaked."""
    short = _reading(load_at_end=20.0, trapped_length=0.031)
    long = _reading(load_at_end=20.0, trapped_length=0.06)
    assert long.leak_area > short.leak_area
    choked = {"load": 110.0, "load_at_end": 80.0, "trapped_length": 0.05, "drag": 0.0}
    area = 0.25 * math.pi * 0.0238**2
    first, last = 101325.0 + 110.0 / area, 101325.0 + 80.0 / area
    lost = area * (first * 0.05 - last * 0.02) / (287.05 * 293.15)
    # Choked flow is in proportion to pressure; its mean over the way weighted by what leaves lies between both ends.
    flux = [0.040418 * pressure / math.sqrt(293.15) for pressure in (first, last)]
    found = _reading(**choked).leak_area
    assert lost / (1.2 * flux[0]) < found < lost / (1.2 * flux[1])


def test_doubt_grows_as_the_watch_gets_worse_and_the_load_smaller() -> None:
    """A hand-held watch on a short time, and a load near the drag."""

    def relative(reading: LeakReading) -> float:
        return reading.standard_uncertainty / reading.leak_area

    assert relative(_reading(duration_uncertainty=0.4)) > relative(_reading())
    assert relative(_reading(load=12.0)) > relative(_reading(load=60.0))
    assert _reading(duration_uncertainty=0.0, drag_uncertainty=0.0).standard_uncertainty == 0.0


def test_a_load_under_three_times_the_drag_is_doubted() -> None:
    """A sticky ring holds it by itself."""
    assert any("sticky ring" in note for note in _reading(load=11.0).notes)
    assert _reading(load=12.0).notes == ()


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"load": 4.0}, "load"),
        ({"load": -1.0}, "load"),
        ({"duration": 0.0}, "duration"),
        ({"bore": 0.0}, "bore"),
        ({"drag": -2.0}, "drag"),
        ({"load_at_end": 40.0, "trapped_length": 0.05}, "load_at_end"),
        ({"load_at_end": 20.0}, "trapped_length"),
        ({"load_at_end": 20.0, "trapped_length": 0.02}, "distance"),
        ({"load_at_end": 3.0, "trapped_length": 0.05}, "load"),
    ],
)
def test_what_cannot_be_is_refused_by_name(changed: dict[str, float], field: str) -> None:
    """Drag that holds the load, a spring that grows stronger, a piston through its head."""
    with pytest.raises(OutOfRange) as refused:
        _reading(**changed)
    assert refused.value.field == field
    assert refused.value.hint
