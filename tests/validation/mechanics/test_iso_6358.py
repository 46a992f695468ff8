"""Sonic conductance and the ellipse of ISO 6358, against the exact nozzle."""

from __future__ import annotations

import math

import pytest

from stripdown.core.mechanics.orifices import mass_flow_rate, mass_flow_rate_iso6358, sonic_conductance_of
from tests.published import Published

CONDUCTANCE = 1e-8  # 1 dm3/(s bar)


@pytest.mark.source("iso_6358_1", "mass flow, choked: p1 C rho0 sqrt(T0/T1)", rtol=1e-12, because="the definition itself")
def test_iso_6358_choked(published: Published) -> None:
    """One dm3/(s bar) at 6 bar and reference temperature passes six litres of reference air a second."""
    found = mass_flow_rate_iso6358(
        upstream_pressure=6e5,
        upstream_temperature=293.15,
        downstream_pressure=1e5,
        sonic_conductance=CONDUCTANCE,
        critical_ratio=0.3,
    )
    published("mass flow", found=found, expected=6e-3 * 1.185, unit="kg/s")


@pytest.mark.source("iso_6358_1", "mass flow, subsonic: quarter ellipse", rtol=1e-12, because="the definition itself")
@pytest.mark.parametrize("ratio", [0.35, 0.6, 0.9])
def test_iso_6358_subsonic(published: Published, ratio: float) -> None:
    """Between critical and equal pressures the flow follows the quarter ellipse, falling with the root of the temperature."""
    found = mass_flow_rate_iso6358(
        upstream_pressure=6e5,
        upstream_temperature=373.15,
        downstream_pressure=ratio * 6e5,
        sonic_conductance=CONDUCTANCE,
        critical_ratio=0.3,
    )
    ellipse = math.sqrt(1.0 - ((ratio - 0.3) / (1.0 - 0.3)) ** 2)
    expected = 6e5 * CONDUCTANCE * 1.185 * math.sqrt(293.15 / 373.15) * ellipse
    published(f"mass flow at a pressure ratio of {ratio:g}", found=found, expected=expected, unit="kg/s")


@pytest.mark.source(
    "derived", "0.0404 A p / sqrt(T) over 1.185 sqrt(293.15) p: C of an ideal hole", rtol=0.003, because="rounded factor"
)
def test_derived_sonic_conductance(published: Published) -> None:
    """An ideal hole of one square millimetre has a sonic conductance of 0.199 dm3/(s bar)."""
    expected = 0.0404 * 1e-6 / (1.185 * math.sqrt(293.15))
    published("sonic conductance", found=sonic_conductance_of(effective_area=1e-6), expected=expected, unit="m3/(s Pa)")


@pytest.mark.source(
    "derived", "ellipse with b = 0.528 against the isentropic nozzle", rtol=0.004, because="how near the ellipse comes"
)
@pytest.mark.parametrize("ratio", [0.55, 0.65, 0.75, 0.85, 0.95, 0.99])
def test_derived_ellipse_is_near_isentropic(published: Published, ratio: float) -> None:
    """With the ideal critical ratio the ellipse stays within half a per cent of the exact nozzle."""
    sides = {"upstream_pressure": 4e5, "upstream_temperature": 400.0, "downstream_pressure": ratio * 4e5}
    found = mass_flow_rate_iso6358(**sides, sonic_conductance=sonic_conductance_of(effective_area=2e-6), critical_ratio=0.5282818)
    published(
        f"flow at a pressure ratio of {ratio:g}", found=found, expected=mass_flow_rate(**sides, flow_area=2e-6), unit="kg/s"
    )
