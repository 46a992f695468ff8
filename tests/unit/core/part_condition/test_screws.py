"""Screws as numbers: proportions that must hold, and what impossible threads are told."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.part_condition.screws import (
    stress_area,
    stripping_area,
    stripping_force,
    torque_by_nut_factor,
    torque_per_clamp_force,
    yield_clamp_force,
)
from stripdown.errors import OutOfRange, OutsideValidity

_M3 = {"diameter": 3e-3, "pitch": 0.5e-3}
_HOLE = {"pitch": 0.5e-3, "least_major_diameter": 2.874e-3, "greatest_pitch_diameter": 2.775e-3}


@given(friction=st.floats(0.05, 0.3), more=st.floats(0.01, 0.2))
def test_friction_costs_clamp_force_and_wants_torque(friction: float, more: float) -> None:
    """A drier screw bears less clamp force and takes more torque for each newton of it."""
    assert yield_clamp_force(**_M3, yield_strength=640e6, friction=friction + more) < yield_clamp_force(
        **_M3, yield_strength=640e6, friction=friction
    )
    assert torque_per_clamp_force(**_M3, friction=friction + more) > torque_per_clamp_force(**_M3, friction=friction)


@given(scale=st.floats(0.6, 10.0))
def test_a_screw_twice_as_thick_takes_eight_times_the_torque(scale: float) -> None:
    """Force goes with the square of the size, torque with the cube."""
    thick = {"diameter": scale * 3e-3, "pitch": scale * 0.5e-3}
    thin_torque, thick_torque = (
        torque_per_clamp_force(**size, friction=0.12) * yield_clamp_force(**size, yield_strength=640e6, friction=0.12)
        for size in (_M3, thick)
    )
    assert thick_torque == pytest.approx(scale**3 * thin_torque, rel=1e-9)


def test_without_torsion_the_clamp_force_is_stress_times_area() -> None:
    """At the least friction hardly any torsion is left, and never is there more force than that."""
    most = 0.9 * 640e6 * stress_area(**_M3)
    found = yield_clamp_force(**_M3, yield_strength=640e6, friction=0.03)
    assert 0.9 * most < found < most


def test_the_parts_of_the_torque_add_up() -> None:
    """Slope of the thread, friction in it, friction under the head: nut factor by hand for an M3."""
    pitch_diameter = 3e-3 - 0.64952 * 0.5e-3
    slope = 0.5e-3 / (2 * math.pi)
    thread = 0.12 * 0.5 * pitch_diameter / math.cos(math.radians(30))
    head = 0.12 * 0.5 * 4e-3
    found = torque_per_clamp_force(**_M3, friction=0.12, bearing_diameter=4e-3)
    assert found == pytest.approx(slope + thread + head, rel=0.006)  # 0.16 stands for 1/(2 pi), 0.58 for 0.577


@given(engagement=st.floats(0.5e-3, 3.5e-3), strength=st.floats(20e6, 300e6))
def test_stripping_goes_with_engagement_and_strength(engagement: float, strength: float) -> None:
    """Twice the thread, or twice the strength, holds twice the pull."""
    force = stripping_force(**_HOLE, engagement=engagement, shear_strength=strength)
    assert stripping_force(**_HOLE, engagement=2 * engagement, shear_strength=strength) == pytest.approx(2 * force)
    assert stripping_force(**_HOLE, engagement=engagement, shear_strength=2 * strength) == pytest.approx(2 * force)
    assert force == pytest.approx(strength * stripping_area(**_HOLE, engagement=engagement))


def test_a_wider_hole_holds_less() -> None:
    """Flanks that barely reach the screw shear on less area."""
    wide = {**_HOLE, "greatest_pitch_diameter": 2.9e-3}
    assert stripping_area(**wide, engagement=3e-3) < stripping_area(**_HOLE, engagement=3e-3)


@pytest.mark.parametrize(
    ("ask", "complaint"),
    [
        (lambda: stress_area(diameter=3e-3, pitch=2e-3), "does not exist"),
        (lambda: stress_area(diameter=0.0, pitch=0.5e-3), "diameter"),
        (lambda: stress_area(diameter=3e-3, pitch=math.nan), "pitch"),
        (lambda: torque_by_nut_factor(clamp_force=-5.0, diameter=3e-3), "clamp_force .* impossible"),
        (lambda: torque_by_nut_factor(clamp_force=5.0, diameter=3e-3, nut_factor=0.0), "nut_factor"),
        (lambda: yield_clamp_force(**_M3, yield_strength=640.0, friction=0.12), "yield_strength"),
        (lambda: yield_clamp_force(**_M3, yield_strength=640e6, friction=0.12, share=1.5), "share"),
        (lambda: torque_per_clamp_force(**_M3, friction=1.2), "friction"),
        (lambda: stripping_force(**_HOLE, engagement=-1e-3, shear_strength=214e6), "engagement"),
        (lambda: stripping_force(**_HOLE, engagement=3e-3, shear_strength=214.0), "shear_strength"),
        (lambda: stripping_area(**{**_HOLE, "greatest_pitch_diameter": 3.4e-3}, engagement=3e-3), "does not reach the thread"),
    ],
)
def test_what_cannot_be_is_refused(ask: Callable[[], float], complaint: str) -> None:
    """One message each: the field, its value, what would be right."""
    with pytest.raises(OutOfRange, match=complaint):
        ask()


def test_turns_beyond_two_and_a_half_diameters_are_not_counted() -> None:
    """Seven and a half millimetres of an M3 are, eight are not."""
    assert stripping_area(**_HOLE, engagement=7.5e-3) > 0.0
    with pytest.raises(OutsideValidity, match=r"No more than 2.5 diameters"):
        stripping_area(**_HOLE, engagement=8e-3)
