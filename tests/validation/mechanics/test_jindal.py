"""Springs and spring wire against the worked examples of Jindal."""

from __future__ import annotations

import pytest

from stripdown.core.mechanics.spring_force import spring_rate
from stripdown.core.mechanics.spring_stress import bergstraesser_factor, wahl_factor, wire_tensile_strength
from tests.published import Published


@pytest.mark.source("jindal", "example 8-3", rtol=5e-4, because="printed to five figures")
def test_jindal_example_8_3(published: Published) -> None:
    """Music wire of 1.626 mm has the printed tensile strength."""
    found = wire_tensile_strength(wire_diameter=1.626e-3, strength_at_one_millimetre=2211e6, exponent=0.145)
    published("tensile strength", found=found, expected=2060.5e6, unit="Pa")


@pytest.mark.source(
    "derived",
    "given quantities of jindal, example 8-1; its printed results suffer from integer division",
    rtol=0.001,
    because="worked to four figures",
)
def test_derived_jindal_example_8_1(published: Published) -> None:
    """Wire of 5 mm coiled to 30 mm gives the factor, rate and deflection that the example's own numbers lead to."""
    rate = spring_rate(wire_diameter=5e-3, mean_diameter=30e-3, active_coils=15, shear_modulus=84e9)
    published("Wahl's factor, index 6", found=wahl_factor(6.0), expected=23 / 20 + 0.615 / 6, unit="1")
    published("spring rate", found=rate, expected=84e9 * 625e-12 / (8 * 27e-6 * 15), unit="N/m")
    published("deflection under 300 N", found=300.0 / rate, expected=18.51e-3, unit="m")


@pytest.mark.source("derived", "Wahl's factor, which Bergsträsser's approximates", rtol=0.015, because="how near the two come")
@pytest.mark.parametrize("spring_index", [4.0, 6.0, 8.0, 12.0, 20.0])
def test_derived_bergstraesser_is_near_wahl(published: Published, spring_index: float) -> None:
    """The two usual factors agree over the usual indices."""
    found = bergstraesser_factor(spring_index)
    published(f"factor for an index of {spring_index:g}", found=found, expected=wahl_factor(spring_index), unit="1")
