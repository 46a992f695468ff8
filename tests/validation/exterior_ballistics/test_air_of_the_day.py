"""The air that a ball flies through: the standard atmosphere by height."""

from __future__ import annotations

import pytest

from stripdown.core.exterior_ballistics import air_state
from tests.published import Published

atmosphere = pytest.importorskip("fluids.atmosphere")


@pytest.mark.source(
    "us_standard_atmosphere_1976", "tables by height, by fluids", rtol=1e-4, because="constants rounded differently"
)
@pytest.mark.parametrize("height", [0.0, 500.0, 1000.0, 2000.0, 4000.0])
def test_standard_atmosphere(published: Published, height: float) -> None:
    """Density, viscosity and sound of a height alone are the standard's."""
    expected, found = atmosphere.ATMOSPHERE_1976(height), air_state(altitude=height)
    published(f"density at {height:g} m", found=found.density, expected=expected.rho, unit="kg/m3")
    published(f"viscosity at {height:g} m", found=found.viscosity, expected=expected.mu, unit="Pa s")
    published(f"speed of sound at {height:g} m", found=found.speed_of_sound, expected=expected.v_sonic, unit="m/s")
