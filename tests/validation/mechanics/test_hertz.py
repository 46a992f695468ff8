"""Pressure along a line of contact: against the integral equation that it must solve, and the workshop's short form."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import quad

from stripdown.core.mechanics.gear_teeth import flank_radius, hertz_pressure, tooth_normal_force
from tests.published import Published

STEEL = 200e9


@pytest.mark.source(
    "derived", "gears of 10 and 50 teeth, module 2, force of gearpy's example 3", rtol=0.001, because="worked to three figures"
)
def test_derived_small_steel_gears(published: Published) -> None:
    """Radii of the flanks 3.42 and 17.1 mm, force 0.489 N on each millimetre: 77.5 MPa, where one program says 48.7."""
    normal = tooth_normal_force(tangential_force=4.596864)
    radii = [flank_radius(module=2e-3, tooth_count=count) for count in (10, 50)]
    published("radius of the pinion's flank", found=radii[0], expected=3.4202e-3, unit="m")
    found = hertz_pressure(
        normal_force=normal,
        contact_length=10e-3,
        first_radius=radii[0],
        second_radius=radii[1],
        first_youngs_modulus=STEEL,
        second_youngs_modulus=STEEL,
    )
    published("pressure", found=found, expected=77.48e6, unit="Pa")


@pytest.mark.source(
    "derived", "short form for steel on steel: 0.418 sqrt(F E / (L r))", rtol=0.001, because="0.418 has three figures"
)
@pytest.mark.parametrize(("first", "second"), [(3e-3, 12e-3), (8e-3, math.inf)])
def test_derived_short_form_for_steel(published: Published, first: float, second: float) -> None:
    """Two flanks, and a flank on a rack."""
    found = hertz_pressure(
        normal_force=117.0,
        contact_length=5e-3,
        first_radius=first,
        second_radius=second,
        first_youngs_modulus=STEEL,
        second_youngs_modulus=STEEL,
    )
    together = 1.0 / (1.0 / first + 1.0 / second)
    published("pressure", found=found, expected=0.418 * math.sqrt(117.0 * STEEL / (5e-3 * together)), unit="Pa")


@pytest.mark.source(
    "derived",
    "surfaces under a half-ellipse of pressure tilt by 2/(pi E*) times the principal value of p(s)/(x - s), and must meet: x/R",
    rtol=1e-6,
    because="accuracy of the quadrature",
)
@pytest.mark.parametrize("place", [0.2, 0.5, 0.8])
def test_derived_hertz_integral_equation(published: Published, place: float) -> None:
    """The pressure found makes two unlike cylinders fit each other everywhere in the band, and carries the force."""
    first, second, force, length = 4e-3, 15e-3, 90.0, 5e-3
    peak = hertz_pressure(
        normal_force=force,
        contact_length=length,
        first_radius=first,
        second_radius=second,
        first_youngs_modulus=205e9,
        second_youngs_modulus=3e9,
        second_poisson_ratio=0.38,
    )
    half = 2.0 * force / (length * math.pi * peak)  # a half-ellipse of this width carries the force
    stiffness = 1.0 / ((1.0 - 0.3**2) / 205e9 + (1.0 - 0.38**2) / 3e9)

    def pressure(share: float) -> float:
        return peak * math.sqrt(max(0.0, 1.0 - share**2))

    carried, _ = quad(lambda share: pressure(share) * half * length, -1.0, 1.0)
    published("force carried", found=carried, expected=force, unit="N")
    principal, _ = quad(lambda share: -pressure(share), -1.0, 1.0, weight="cauchy", wvar=place)
    tilt = 2.0 / (math.pi * stiffness) * principal
    published(f"tilt at {place:g} of the half width", found=tilt, expected=place * half * (1.0 / first + 1.0 / second), unit="1")
