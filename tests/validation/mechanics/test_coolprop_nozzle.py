"""The ideal-gas nozzle against the isentropic expansion of real air in CoolProp 8."""

from __future__ import annotations

import math

import pytest

from stripdown.core.mechanics.orifices import mass_flow_rate
from tests.published import Published

coolprop = pytest.importorskip("CoolProp.CoolProp")


def _real_mass_flux(pressure: float, temperature: float, back_pressure: float) -> float:
    """Density times speed after an isentropic expansion from rest, in kg/(m2 s)."""
    entropy = coolprop.PropsSI("S", "P", pressure, "T", temperature, "Air")
    start = coolprop.PropsSI("H", "P", pressure, "T", temperature, "Air")
    end = coolprop.PropsSI("H", "P", back_pressure, "S", entropy, "Air")
    density = coolprop.PropsSI("D", "P", back_pressure, "S", entropy, "Air")
    return float(density * math.sqrt(2.0 * (start - end)))


@pytest.mark.source("lemmon_2000", "isentropic expansion, largest mass flux", rtol=0.005, because="the model is an ideal gas")
@pytest.mark.parametrize(("bar", "temperature"), [(2.0, 293.15), (5.0, 450.0), (10.0, 293.15), (10.0, 550.0)])
def test_lemmon_choked_flow(published: Published, bar: float, temperature: float) -> None:
    """Choked flow is that of real air, cold or hot, up to 10 bar."""
    pressure = bar * 1e5
    expected = max(_real_mass_flux(pressure, temperature, pressure * (0.50 + 0.0005 * step)) for step in range(120))
    found = mass_flow_rate(upstream_pressure=pressure, upstream_temperature=temperature, downstream_pressure=0.0, flow_area=1.0)
    published(f"choked flow at {bar:g} bar, {temperature:g} K", found=found, expected=expected, unit="kg/(m2 s)")


@pytest.mark.source("lemmon_2000", "isentropic expansion to the back pressure", rtol=0.005, because="the model is an ideal gas")
@pytest.mark.parametrize("ratio", [0.6, 0.8, 0.95, 0.99])
def test_lemmon_subsonic_flow(published: Published, ratio: float) -> None:
    """Subsonic flow is that of real air, almost to equal pressures."""
    found = mass_flow_rate(upstream_pressure=3e5, upstream_temperature=350.0, downstream_pressure=ratio * 3e5, flow_area=1.0)
    expected = _real_mass_flux(3e5, 350.0, ratio * 3e5)
    published(f"flow at a pressure ratio of {ratio:g}", found=found, expected=expected, unit="kg/(m2 s)")
