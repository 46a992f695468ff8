"""Orifice flow against the worked examples of Fox and McDonald."""

from __future__ import annotations

import math

import pytest

from stripdown.core.mechanics.orifices import mass_flow_rate
from tests.published import Published


@pytest.mark.source("fox_mcdonald", "example 12.2, page 634", rtol=0.003, because="printed to three figures")
def test_fox_mcdonald_example_12_2(published: Published) -> None:
    """A tank at 1 MPa passes the printed mass flow through an unchoked throat, at the printed Mach number."""
    found = mass_flow_rate(upstream_pressure=1000e3, upstream_temperature=333.0, downstream_pressure=591e3, flow_area=0.001)
    published("mass flow", found=found, expected=2.20, unit="kg/s")
    # Mach number of an isentropic throat from our mass flow: continuity with the static state at the back pressure.
    density = 1000e3 / (287.05 * 333.0) * 0.591 ** (1 / 1.4)
    sound = math.sqrt(1.4 * 287.05 * 333.0 * 0.591 ** (0.4 / 1.4))
    published("Mach number", found=found / (density * 0.001 * sound), expected=0.90, unit="1", rtol=0.006)


@pytest.mark.source("fox_mcdonald", "example 4.3, page 111", rtol=0.003, because="printed to three figures, from rounded inputs")
def test_fox_mcdonald_example_4_3(published: Published) -> None:
    """The density of a tank that blows off through a choked valve falls at the printed rate."""
    flow = mass_flow_rate(upstream_pressure=800e3, upstream_temperature=288.15, downstream_pressure=101e3, flow_area=65e-6)
    published("rate of change of density", found=-flow / 0.05, expected=-2.48, unit="kg/(m3 s)")
