"""A spring against the worked example of Wentzell."""

from __future__ import annotations

import pytest

from stripdown.core.mechanics.spring_force import spring_rate
from tests.published import Published

INCH = 0.0254
POUND_FORCE = 4.4482216152605
POUND_PER_SQUARE_INCH = POUND_FORCE / INCH**2


@pytest.mark.source("wentzell", "example 8.2, page 163", rtol=0.001, because="coils printed to four figures")
def test_wentzell_example_8_2(published: Published) -> None:
    """Wire, coil and the printed number of active coils give the printed rate."""
    rate = spring_rate(
        wire_diameter=0.105 * INCH, mean_diameter=0.620 * INCH, active_coils=10.79, shear_modulus=11.85e6 * POUND_PER_SQUARE_INCH
    )
    published("spring rate", found=rate, expected=70.0 * POUND_FORCE / INCH, unit="N/m")
    published("deflection under 35 lbf", found=35 * POUND_FORCE / rate, expected=0.5 * INCH, unit="m")
