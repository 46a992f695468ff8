from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.part_condition.gauge_leak import BASIS
from stripdown.core.part_condition.leak_found import LeakNature, find_leak
from stripdown.core.part_condition.leak_reading import LeakReading, creeping_over_orifice, orifice_flux
from stripdown.errors import OutOfRange

_AIR = {"temperature": 293.15, "ambient_pressure": 101325.0}
_SHOT = 4e5


def _reading(area: float, pressure: float, doubt: float = 0.02, shared: float = 0.0) -> LeakReading:
    return LeakReading(
        how="made up",
        leak_area=area,
        standard_uncertainty=doubt * max(area, 1e-9),
        shared_relative_uncertainty=shared,
        pressure=pressure,
        notes=(),
        basis=BASIS,
        **_AIR,
    )


def _seen(area: float, share: float, pressure: float) -> float:
    """What a leak of this area at the shot's pressure shows at another."""
    there, here = (creeping_over_orifice(pressure=at, **_AIR) for at in (_SHOT, pressure))
    return area / (1.0 - share + share * there / here)


@given(area=st.floats(1e-8, 2e-6), share=st.floats(0.0, 1.0), low=st.floats(1.05e5, 1.6e5), high=st.floats(2.0e5, 5e5))
def test_two_exact_readings_give_the_leak_back(area: float, share: float, low: float, high: float) -> None:
    """Whatever part of it creeps, the interval holds the truth at the pressure of the shot."""
    found = find_leak(readings=[_reading(_seen(area, share, at), at, 0.005) for at in (low, high)], shot_pressure=_SHOT)
    assert found.least_area <= area * (1 + 1e-6)
    assert found.greatest_area >= area * (1 - 1e-6)
    assert found.leak_area == pytest.approx(area, rel=0.05)


@pytest.mark.parametrize(("share", "nature"), [(0.0, LeakNature.HOLE), (0.6, LeakNature.CREEPING), (1.0, LeakNature.CREEPING)])
def test_two_pressures_tell_a_hole_from_a_creeping_gap(share: float, nature: LeakNature) -> None:
    """At 0.2 and 2 bar over the air outside."""
    found = find_leak(readings=[_reading(_seen(1e-7, share, at), at) for at in (1.2e5, 3e5)])
    assert found.nature is nature


def test_one_pressure_cannot_tell_and_says_how_wide_it_is() -> None:
    """From the area that was read to what it would be if all of it crept."""
    found = find_leak(readings=[_reading(1e-7, 1.3e5, doubt=1e-4)])
    assert found.nature is LeakNature.CANNOT_TELL
    ratio = creeping_over_orifice(pressure=_SHOT, **_AIR) / creeping_over_orifice(pressure=1.3e5, **_AIR)
    assert found.least_area == pytest.approx(1e-7, rel=0.01)
    assert found.greatest_area == pytest.approx(1e-7 * ratio, rel=0.01)
    assert found.leak_area == pytest.approx(1e-7 * ratio**0.5, rel=0.01)


def test_two_pressures_close_together_tell_nothing() -> None:
    """The lever is too short for the readings' doubt."""
    assert find_leak(readings=[_reading(1e-7, at, 0.1) for at in (1.8e5, 2.0e5)]).nature is LeakNature.CANNOT_TELL


def test_a_leak_that_tightens_is_called_so() -> None:
    """Neither law lets the area fall as pressure rises: in the shot it may be nothing."""
    found = find_leak(readings=[_reading(3e-7, 1.2e5), _reading(1e-7, 3e5)])
    assert found.nature is LeakNature.TIGHTENS
    assert found.least_area == 0.0
    assert found.leak_area == 1e-7
    assert any("contradict" in note for note in found.notes)


def test_a_leak_that_grows_faster_than_any_stiff_gap_is_doubted() -> None:
    """A gap that opens, or a slip of reading: it creeps, and the readings are said to contradict one another."""
    found = find_leak(readings=[_reading(1e-8, 1.2e5), _reading(3e-7, 3e5)])
    assert found.nature is LeakNature.CREEPING
    assert any("contradict" in note for note in found.notes)


def test_readings_that_agree_are_not_doubted() -> None:
    """Three of one hole."""
    assert find_leak(readings=[_reading(1e-7, at) for at in (1.2e5, 2e5, 3e5)]).notes == ()


def test_a_shared_doubt_widens_the_interval() -> None:
    """A volume wrong by 10 % shifts all readings alike; two readings do not average it out."""
    sure, doubtful = (find_leak(readings=[_reading(1e-7, at, 0.01, shared) for at in (1.2e5, 3e5)]) for shared in (0.0, 0.1))
    assert doubtful.greatest_area - doubtful.leak_area >= 0.196 * 1e-7 * 0.99
    assert doubtful.greatest_area > sure.greatest_area
    assert doubtful.least_area < sure.least_area


def test_a_tight_cylinder_has_an_upper_end_only() -> None:
    """Nothing was read, and what the gauge cannot show stays possible."""
    found = find_leak(readings=[_reading(0.0, 2e5)])
    assert found.least_area == 0.0
    assert found.leak_area == 0.0
    assert found.greatest_area > 0.0


def test_without_a_reading_there_is_no_leak_to_find() -> None:
    """One message that says what to do."""
    with pytest.raises(OutOfRange, match="no reading"):
        find_leak(readings=[])
    with pytest.raises(OutOfRange, match="shot_pressure"):
        find_leak(readings=[_reading(1e-7, 2e5)], shot_pressure=1.0)


def test_no_pressure_drives_no_leak() -> None:
    """The laws refuse it."""
    with pytest.raises(OutOfRange, match="nothing drives a leak"):
        orifice_flux(pressure=101325.0, **_AIR)
