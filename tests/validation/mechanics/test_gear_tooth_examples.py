"""Teeth in bending against worked examples and a second table of form factors."""

from __future__ import annotations

import pytest

from stripdown.core.mechanics.gear_teeth import barth_factor, lewis_form_factor, lewis_stress
from tests.published import Published

INCH = 0.0254
POUND_FORCE = 4.4482216152605
POUND_PER_SQUARE_INCH = POUND_FORCE / INCH**2
FOOT_PER_MINUTE = 12 * INCH / 60


@pytest.mark.source("gearpy", "worked example 3", rtol=0.001, because="printed to five figures")
def test_gearpy_example_3(published: Published) -> None:
    """Ten teeth of module 2, 10 mm wide."""
    factor = lewis_form_factor(10)
    found = lewis_stress(tangential_force=4.596864, face_width=10e-3, module=2e-3, form_factor=factor)
    published("form factor of ten teeth", found=factor, expected=0.201, unit="1")
    published("bending stress", found=found, expected=1.1435e6, unit="Pa")


@pytest.mark.source("gearpy", "table of Lewis factors", rtol=0.015, because="published tables differ by 1.2 %")
@pytest.mark.parametrize(
    ("teeth", "expected"),
    [
        (12, 0.245),
        (13, 0.264),
        (14, 0.276),
        (15, 0.289),
        (16, 0.295),
        (17, 0.302),
        (18, 0.308),
        (20, 0.320),
        (22, 0.330),
        (26, 0.344),
        (30, 0.358),
        (40, 0.389),
        (45, 0.399),
        (60, 0.421),
        (70, 0.429),
    ],
)
def test_gearpy_lewis_factors(published: Published, teeth: int, expected: float) -> None:
    """Our table, and what lies between its entries, agree with the other."""
    published(f"{teeth} teeth", found=lewis_form_factor(teeth), expected=expected, unit="1")


@pytest.mark.source("wentzell", "examples 12.3 and 12.4", rtol=0.001, because="printed to four figures")
def test_wentzell_examples_12_3_and_12_4(published: Published) -> None:
    """The printed loads put half the tensile strength into pinion and gear; speed adds what the rule says."""
    tooth = {"face_width": INCH, "module": INCH / 8}
    pinion = lewis_stress(tangential_force=1900 * POUND_FORCE, form_factor=0.320, **tooth)
    published("stress in the pinion", found=pinion, expected=0.5 * 95_000 * POUND_PER_SQUARE_INCH, unit="Pa")
    gear = lewis_stress(tangential_force=2315.5 * POUND_FORCE, form_factor=0.421, **tooth)
    published("stress in the gear", found=gear, expected=0.5 * 88_000 * POUND_PER_SQUARE_INCH, unit="Pa")
    dynamic = 146 * POUND_FORCE * barth_factor(pitch_line_speed=1129 * FOOT_PER_MINUTE)
    published("dynamic load", found=dynamic, expected=420.7 * POUND_FORCE, unit="N")
