"""The workshop's short rule for torque against worked examples."""

from __future__ import annotations

import math

import pytest

from stripdown.core.part_condition.screws import HAND_SCATTER, SETTLING, stress_area, torque_by_nut_factor
from tests.published import Published

INCH = 0.0254
POUND_FORCE = 4.4482216152605
POUND_INCH = POUND_FORCE * INCH


@pytest.mark.source("wentzell", "example 6.1", rtol=0.001, because="printed to five figures")
def test_wentzell_example_6_1(published: Published) -> None:
    """A screw of 3/4 inch drawn to 85 % of its proof load."""
    force = 0.85 * 85_000 * 0.334 * POUND_FORCE
    found = torque_by_nut_factor(clamp_force=force, diameter=0.75 * INCH, nut_factor=0.2)
    published("torque", found=found, expected=3619.7 * POUND_INCH, unit="N m")


@pytest.mark.source(
    "wentzell", "example 6.1", rtol=0.015, because="inch tables take 0.9743 of a pitch off the diameter, metric ones 0.9382"
)
def test_wentzell_example_6_1_stress_area(published: Published) -> None:
    """The thread of that screw has about the printed area: both are 60 degree threads."""
    published("stress area", found=stress_area(diameter=0.75 * INCH, pitch=0.1 * INCH), expected=0.334 * INCH**2, unit="m2")


@pytest.mark.source("jindal", "examples 9-5 and 9-6", rtol=0.001, because="printed to five figures")
def test_jindal_examples_9_5_and_9_6(published: Published) -> None:
    """M14 drawn to three quarters of 650 MPa, dry; M20 at 120 kN, oiled."""
    dry = torque_by_nut_factor(clamp_force=0.75 * 650e6 * 115e-6, diameter=14e-3, nut_factor=0.2)
    published("torque of the M14", found=dry, expected=156.98, unit="N m")
    oiled = torque_by_nut_factor(clamp_force=120e3, diameter=20e-3, nut_factor=0.18)
    published("torque of the M20", found=oiled, expected=432.0, unit="N m")


@pytest.mark.source(
    "derived",
    "inputs of sandia_2008_0371, appendix C: 1800 lbf in on 5/8 inch, K 0.2, 35 % either way, 5 % lost",
    rtol=1e-3,
    because="worked to four figures",
)
def test_derived_sandia_appendix_c(published: Published) -> None:
    """14 400 lbf by the rule, 9 360 to 19 440 by hand, 8 892 at the least after settling."""
    nominal = 14_400 * POUND_FORCE
    torque = torque_by_nut_factor(clamp_force=nominal, diameter=0.625 * INCH, nut_factor=0.2)
    published("torque", found=torque, expected=1800 * POUND_INCH, unit="N m")
    published("most", found=(1.0 + HAND_SCATTER) * nominal, expected=19_440 * POUND_FORCE, unit="N")
    published(
        "least after settling", found=(1.0 - HAND_SCATTER) * (1.0 - SETTLING) * nominal, expected=8892 * POUND_FORCE, unit="N"
    )
    assert math.isclose((1.0 - HAND_SCATTER) * 14_400, 9360.0)
