"""Discharge coefficients: Perry's relation against its ends, and against what Weisbach measured with air."""

from __future__ import annotations

import math

import pytest

from stripdown.core.mechanics.orifices import discharge_coefficient_perry
from stripdown.core.parts.nozzle import Nozzle
from stripdown.quantities import leaves
from tests.published import Published


@pytest.mark.source("britannica_hydraulics", "Weisbach's coefficients for air, circular orifices", because="a measured range")
@pytest.mark.parametrize("overpressure", [0.23, 0.5, 0.8, 1.1])
def test_weisbach_sharp_orifice(published: Published, overpressure: float) -> None:
    """A sharp hole passes what Weisbach measured between 0.23 and 1.1 atmospheres of overpressure."""
    found = discharge_coefficient_perry(1.0 / (1.0 + overpressure))
    published.within(f"discharge coefficient at {overpressure:g} atm", found=found, low=0.563, high=0.788, unit="1")


@pytest.mark.source("perry_orifice", "polynomial in the pressure ratio", rtol=0.005, because="its ends, which fix the lost signs")
def test_perry_ends(published: Published) -> None:
    """The polynomial ends at the free jet into vacuum and at the plain liquid-like orifice."""
    published("discharge coefficient into vacuum", found=discharge_coefficient_perry(0.0), expected=0.84, unit="1")
    published("discharge coefficient at equal pressures", found=discharge_coefficient_perry(1.0), expected=0.60, unit="1")


@pytest.mark.source(
    "derived", "free-streamline theory: pi / (pi + 2), plane jet", rtol=0.02, because="a slot in theory, a round hole here"
)
def test_kirchhoff_incompressible_jet(published: Published) -> None:
    """Near equal pressures the coefficient is that of Kirchhoff's contracted jet."""
    published("discharge coefficient", found=discharge_coefficient_perry(1.0), expected=math.pi / (math.pi + 2.0), unit="1")


@pytest.mark.source(
    "britannica_hydraulics", "Weisbach's coefficients for air, short cylindrical mouthpiece", because="a measured range"
)
def test_weisbach_short_mouthpiece(published: Published) -> None:
    """What counts as usual for a nozzle's discharge coefficient spans Weisbach's short tubes, sharp and rounded."""
    (usual,) = [
        leaf.quantity.usual
        for leaf in leaves(Nozzle)
        if leaf.path == "discharge_coefficient" and leaf.quantity is not None and leaf.quantity.usual is not None
    ]
    for what, measured in (
        ("sharp short tube, least", 0.81),
        ("sharp short tube, most", 0.84),
        ("rounded short tube, most", 0.93),
    ):
        published.within(what, found=measured, low=usual[0], high=usual[1], unit="1")
