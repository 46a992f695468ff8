"""When a boss strips: the standard's area for an M3 in die-cast zinc, and what that means for the screw."""

from __future__ import annotations

import math

import pytest

from stripdown.core.part_condition.screws import stripping_area
from stripdown.studies.screw_tightening import screw_tightening, thread_stripping_force
from tests.published import Published

SCREW = 2.874e-3
HOLE = 2.775e-3
PITCH = 0.5e-3


@pytest.mark.source(
    "derived",
    "fed_std_h28: ridges of the hole, half a pitch thick at its pitch diameter, cut through on the screw's cylinder; M3 6g in 6H",
    rtol=0.001,
    because="worked to four figures",
)
@pytest.mark.parametrize(("engagement", "area"), [(3.0, 16.64), (4.5, 24.96), (6.0, 33.28)])
def test_derived_area_of_m3(published: Published, engagement: float, area: float) -> None:
    """Turns times circumference times the thickness of a ridge where the screw's crest runs."""
    turns = engagement * 1e-3 / PITCH
    ridge = 0.5 * PITCH + 2.0 * 0.5 * (SCREW - HOLE) * math.tan(math.radians(30.0))  # both flanks widen towards the root
    found = stripping_area(pitch=PITCH, engagement=engagement * 1e-3, least_major_diameter=SCREW, greatest_pitch_diameter=HOLE)
    published(f"{engagement:g} mm, from the ridge", found=found, expected=turns * math.pi * SCREW * ridge, unit="m2")
    published(f"{engagement:g} mm, worked out", found=found, expected=area * 1e-6, unit="m2")


@pytest.mark.source(
    "zinc_alloy_tables", "shear strength of Zamak 3, 214 MPa, on the area of an M3", rtol=0.01, because="worked to three figures"
)
@pytest.mark.parametrize(("engagement", "force"), [(3.0, 3.56e3), (4.5, 5.34e3), (6.0, 7.12e3)])
def test_zinc_alloy_tables_m3_in_zamak_3(published: Published, engagement: float, force: float) -> None:
    """Pull that strips a fresh boss."""
    found = thread_stripping_force(thread="M3", engagement=engagement * 1e-3, material="zamak_3")
    published(f"{engagement:g} mm of thread", found=found, expected=force, unit="N")


@pytest.mark.source(
    "derived", "M3 of class 8.8 breaks at 800 MPa on 5.03 mm2; Zamak 3 as above", rtol=0.01, because="worked to three figures"
)
@pytest.mark.parametrize(("engagement", "strips"), [(3.0, True), (4.5, False)])
def test_derived_one_diameter_strips(published: Published, engagement: float, strips: bool) -> None:  # noqa: FBT001  the table's
    """One diameter in Zamak 3 strips before an 8.8 screw breaks, one and a half do not."""
    found = screw_tightening(thread="M3", property_class="8.8", material="zamak_3", engagement=engagement * 1e-3)
    published("pull that breaks the screw", found=found.breaking_force, expected=4.02e3, unit="N")
    assert found.strips_first is strips
