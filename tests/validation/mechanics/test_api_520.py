"""Isentropic flow against the two gas examples of API 520, another gas and another arrangement of the same physics."""

from __future__ import annotations

import pytest

from stripdown.core.mechanics.orifice_flow import isentropic_mass_flow
from stripdown.core.mechanics.orifices import mass_flow_rate
from tests.published import Published

safety_valve = pytest.importorskip("fluids.safety_valve")


@pytest.mark.source(
    "api_520_1", "example 1, critical flow of a gas", rtol=0.002, because="its constants are rounded to three figures"
)
def test_api_520_example_1(published: Published) -> None:
    """The orifice that the standard sizes for critical flow passes the flow that it was sized for."""
    gas_constant = 0.90 * 8.314462618 / 0.051
    found = isentropic_mass_flow(670e3, 348.0, 101325.0, 0.975 * 3699.05e-6, gas_constant, 1.11)
    published("mass flow", found=found, expected=24270 / 3600, unit="kg/s")


@pytest.mark.source(
    "api_520_1", "example 2, subcritical flow of a gas", rtol=0.002, because="its constants are rounded to three figures"
)
def test_api_520_example_2(published: Published) -> None:
    """The orifice that the standard sizes for subcritical flow passes the flow that it was sized for."""
    gas_constant = 0.90 * 8.314462618 / 0.051
    found = isentropic_mass_flow(670e3, 348.0, 532e3, 0.975 * 4248.36e-6, gas_constant, 1.11)
    published("mass flow", found=found, expected=24270 / 3600, unit="kg/s")


@pytest.mark.source("fluids", "safety_valve.API520_A_g with air", rtol=0.002, because="the standard's constants are rounded")
@pytest.mark.parametrize("back_pressure", [0.0, 101325.0, 250e3, 300e3, 400e3, 480e3])
def test_fluids_api_520_with_air(published: Published, back_pressure: float) -> None:
    """Air flows through a hole as the standard's formula has it, choked and not."""
    flow = mass_flow_rate(upstream_pressure=500e3, upstream_temperature=300.0, downstream_pressure=back_pressure, flow_area=1e-6)
    area = safety_valve.API520_A_g(m=flow, T=300.0, Z=1.0, MW=28.965, k=1.4, P1=500e3, P2=back_pressure, Kd=1.0)
    published(f"area for our flow, back pressure {back_pressure / 1e5:.3g} bar", found=area, expected=1e-6, unit="m2")
