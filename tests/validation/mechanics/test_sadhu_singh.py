"""A valve-like spring against the worked example of Sadhu Singh."""

from __future__ import annotations

import math

import pytest

from stripdown.core.mechanics.spring_force import SpringEnds, natural_frequency, solid_length, spring_rate
from stripdown.core.mechanics.spring_stress import shear_stress, wahl_factor
from tests.published import Published

WIRE = 4.25e-3
MEAN = 34e-3
COILS = 14.0
SHEAR_MODULUS = 84e9


@pytest.mark.source("sadhu_singh", "example 8.1, page 227", rtol=0.003, because="printed to three or four figures")
def test_sadhu_singh_example_8_1_stress(published: Published) -> None:
    """Wahl's factor for an index of 8, and the wire that bears 300 N at 420 MPa, are as printed."""
    published("Wahl's factor", found=wahl_factor(8.0), expected=1.184, unit="1")
    # With D = 8 d the stress is K 64 F / (pi d^2); at 4.15 mm it must be the allowed 420 MPa.
    found = shear_stress(force=300.0, wire_diameter=4.15e-3, mean_diameter=8 * 4.15e-3, correction=wahl_factor(8.0))
    published("stress at the printed wire", found=found, expected=420e6, unit="Pa")


@pytest.mark.source("sadhu_singh", "example 8.1, page 227", rtol=0.01, because="the example rounds the coils to a whole number")
def test_sadhu_singh_example_8_1_rate(published: Published) -> None:
    """Fourteen coils of the rounded wire give 50 N over 8 mm."""
    rate = spring_rate(wire_diameter=WIRE, mean_diameter=MEAN, active_coils=COILS, shear_modulus=SHEAR_MODULUS)
    published("spring rate", found=rate, expected=50.0 / 8e-3, unit="N/m")


@pytest.mark.source("sadhu_singh", "example 8.1, page 227", rtol=0.003, because="printed in whole millimetres")
def test_sadhu_singh_example_8_1_length(published: Published) -> None:
    """Solid length, deflection under 300 N and fifteen per cent of clearance make the printed free length."""
    solid = solid_length(wire_diameter=WIRE, total_coils=COILS + 2, ends=SpringEnds.CLOSED_AND_GROUND)
    published("free length", found=solid + 1.15 * 300.0 / (50.0 / 8e-3), expected=0.123, unit="m")


@pytest.mark.source(
    "derived",
    "standing wave on a rod of stiffness R and mass m: f = sqrt(R/m)/2, spring of the example",
    rtol=0.005,
    because="printed to three figures",
)
def test_derived_natural_frequency(published: Published) -> None:
    """The example's spring rings at 97.4 Hz: the printed 3.079 is low by the root of a thousand, a slip of units."""
    found = natural_frequency(
        wire_diameter=WIRE, mean_diameter=MEAN, active_coils=COILS, shear_modulus=SHEAR_MODULUS, density=7800.0
    )
    expected = WIRE / (2 * math.pi * COILS * MEAN**2) * math.sqrt(SHEAR_MODULUS / (2 * 7800.0))
    published("natural frequency", found=found, expected=expected, unit="Hz")
    published("printed figure times the root of a thousand", found=found, expected=3.079 * math.sqrt(1000.0), unit="Hz")
