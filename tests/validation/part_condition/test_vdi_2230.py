"""Preload and torque of a screw against the guideline's table."""

from __future__ import annotations

import pytest

from stripdown.core.part_condition.screws import torque_per_clamp_force, yield_clamp_force
from stripdown.studies.screw_tightening import screw_torque
from tests.published import Published


@pytest.mark.source(
    "vdi_2230", "table for M8x1, class 8.8, head 11.6 mm, hole 9 mm", rtol=0.003, because="printed to three figures"
)
@pytest.mark.parametrize(("friction", "preload", "torque"), [(0.10, 20.7e3, 22.8), (0.12, 20.2e3, 26.1), (0.14, 19.7e3, 29.2)])
def test_vdi_2230_m8x1(published: Published, friction: float, preload: float, torque: float) -> None:
    """Assembly preload at 90 % of 640 MPa, and the torque that gives it, from the numbers and from the names."""
    size = {"diameter": 8e-3, "pitch": 1e-3, "friction": friction}
    force = yield_clamp_force(**size, yield_strength=640e6)
    published(f"preload, friction {friction:g}", found=force, expected=preload, unit="N")
    per_force = torque_per_clamp_force(**size, bearing_diameter=0.5 * (11.6e-3 + 9e-3))
    published(f"torque, friction {friction:g}", found=force * per_force, expected=torque, unit="N m")
    published(
        f"torque by name, friction {friction:g}",
        found=screw_torque(thread="M8x1", friction=friction),
        expected=torque,
        unit="N m",
    )
