"""Air of the U.S. Standard Atmosphere 1976, as fluids 1.3 computes its tables."""

from __future__ import annotations

import pytest

from stripdown.core.air import air_density, speed_of_sound
from stripdown.core.constants import AIR_GAS_CONSTANT, AIR_HEAT_CAPACITY_RATIO, STANDARD_ATMOSPHERE
from stripdown.core.mechanics.gas_properties import sutherland_viscosity, thermal_conductivity
from tests.published import Published

atmosphere = pytest.importorskip("fluids.atmosphere")

HEIGHTS = [0.0, 500.0, 1000.0, 2000.0]


@pytest.mark.source(
    "us_standard_atmosphere_1976", "table of properties, viscosity", rtol=1e-5, because="the same formula and constants"
)
@pytest.mark.parametrize("height", HEIGHTS)
def test_us_standard_atmosphere_viscosity(published: Published, height: float) -> None:
    """Viscosity by height is that of the standard."""
    air = atmosphere.ATMOSPHERE_1976(height)
    published(f"viscosity at {height:g} m", found=sutherland_viscosity(air.T), expected=air.mu, unit="Pa s")


@pytest.mark.source(
    "us_standard_atmosphere_1976", "table of properties, density", rtol=5e-4, because="the standard's air is an ideal gas"
)
@pytest.mark.parametrize("height", HEIGHTS)
def test_us_standard_atmosphere_density(published: Published, height: float) -> None:
    """Density by height is that of the standard, but for the deviation of real air from an ideal gas."""
    air = atmosphere.ATMOSPHERE_1976(height)
    found = air_density(temperature=air.T, pressure=air.P, relative_humidity=0.0)
    published(f"density at {height:g} m", found=found, expected=air.rho, unit="kg/m3")


@pytest.mark.source(
    "us_standard_atmosphere_1976", "table of properties, sound", rtol=5e-4, because="the standard's air is an ideal gas"
)
@pytest.mark.parametrize("height", HEIGHTS)
def test_us_standard_atmosphere_speed_of_sound(published: Published, height: float) -> None:
    """Speed of sound by height is that of the standard."""
    air = atmosphere.ATMOSPHERE_1976(height)
    found = speed_of_sound(temperature=air.T, pressure=air.P, relative_humidity=0.0)
    published(f"speed of sound at {height:g} m", found=found, expected=air.v_sonic, unit="m/s")


@pytest.mark.source(
    "us_standard_atmosphere_1976", "table of properties, conductivity", rtol=0.01, because="ours is fitted to newer measurements"
)
@pytest.mark.parametrize("height", HEIGHTS)
def test_us_standard_atmosphere_conductivity(published: Published, height: float) -> None:
    """Conductivity by height is that of the standard within the distance of two generations of measurements."""
    air = atmosphere.ATMOSPHERE_1976(height)
    published(f"conductivity at {height:g} m", found=thermal_conductivity(air.T), expected=air.k, unit="W/(m K)")


@pytest.mark.source(
    "us_standard_atmosphere_1976", "sea-level values", rtol=2e-5, because="defined values, gas constant rounded to five digits"
)
def test_us_standard_atmosphere_constants(published: Published) -> None:
    """Standard pressure, gas constant and ratio of heat capacities are the standard's."""
    air = atmosphere.ATMOSPHERE_1976(0.0)
    published("pressure", found=STANDARD_ATMOSPHERE, expected=air.P, unit="Pa")
    published("gas constant", found=AIR_GAS_CONSTANT, expected=air.P / (air.rho * air.T), unit="J/(kg K)")
    ratio = air.v_sonic**2 * air.rho / air.P
    published("ratio of heat capacities", found=AIR_HEAT_CAPACITY_RATIO, expected=ratio, unit="1")
