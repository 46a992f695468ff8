"""Contact of gear teeth against textbook examples."""

from __future__ import annotations

import math

import pytest

from stripdown.core.mechanics.gear_contact import contact_ratio, least_pressure_angle_without_interference
from tests.published import Published

DEGREE = math.pi / 180
TWENTY = 20 * DEGREE


@pytest.mark.source("khurmi_gupta", "example 12.3, page 398", rtol=0.003, because="three figures")
def test_khurmi_example_12_3(published: Published) -> None:
    """Gears of 30 and 80 teeth, module 12 mm, addendum 10 mm."""
    found = contact_ratio(teeth_1=30, teeth_2=80, module=12e-3, pressure_angle=TWENTY, addendum_1=10e-3, addendum_2=10e-3)
    published("path of contact", found=found.path, expected=52.3e-3, unit="m")
    published("arc of contact", found=found.arc, expected=55.6e-3, unit="m")
    published("contact ratio", found=found.ratio, expected=1.475, unit="1")


@pytest.mark.source("khurmi_gupta", "example 12.6", rtol=0.005, because="four figures of a slide rule")
def test_khurmi_example_12_6(published: Published) -> None:
    """Gears of 17 and 49 teeth, module 6 mm."""
    published(
        "contact ratio",
        found=contact_ratio(teeth_1=17, teeth_2=49, module=6e-3, pressure_angle=TWENTY).ratio,
        expected=1.633,
        unit="1",
    )


@pytest.mark.source("khurmi_gupta", "example 12.14, with its slip put right", rtol=1e-4, because="five figures")
def test_khurmi_example_12_14(published: Published) -> None:
    """A pinion of 125 mm on a rack of 6.25 mm addendum."""
    found = least_pressure_angle_without_interference(pitch_diameter=0.125, addendum=6.25e-3, teeth=20)
    published("least pressure angle in degrees", found=found / DEGREE, expected=18.435, unit="1")


@pytest.mark.source("bevan", "chapter 10, example 6, page 338", rtol=0.002, because="four figures")
@pytest.mark.parametrize(("degrees", "pitches", "path"), [(14.5, 2.007, 6.103), (20.0, 1.687, 4.980)])
def test_bevan_example_6(published: Published, degrees: float, pitches: float, path: float) -> None:
    """Gears of 28 and 45 teeth at two pressure angles, lengths in modules."""
    found = contact_ratio(teeth_1=28, teeth_2=45, module=1e-3, pressure_angle=degrees * DEGREE)
    published(f"arc in pitches at {degrees:g}°", found=found.ratio, expected=pitches, unit="1")
    published(f"path at {degrees:g}°", found=found.path, expected=path * 1e-3, unit="m")


@pytest.mark.source("bevan", "chapter 10, example 4, page 334", rtol=0.005, because="a count of teeth, here not rounded up")
def test_bevan_least_teeth(published: Published) -> None:
    """With a rack at 20°, 17.1 teeth: at that count the least pressure angle is 20°."""
    found = least_pressure_angle_without_interference(pitch_diameter=17.10e-3, addendum=1e-3)
    published("least pressure angle in degrees", found=found / DEGREE, expected=20.0, unit="1")


@pytest.mark.source(
    "derived", "involute geometry of a full-count sector on a rack", rtol=0.001, because="four figures worked out apart"
)
@pytest.mark.parametrize(("teeth", "ratio"), [(16, 1.676), (18, 1.755), (24, 1.791), (32, 1.824)])
def test_sector_on_a_rack(published: Published, teeth: int, ratio: float) -> None:
    """Approach limited by the base circle below 18 teeth."""
    radius, sine, cosine = teeth / 2, math.sin(TWENTY), math.cos(TWENTY)
    by_hand = min(1 / sine, radius * sine) + math.sqrt((radius + 1) ** 2 - (radius * cosine) ** 2) - radius * sine
    assert by_hand / (math.pi * cosine) == pytest.approx(ratio, rel=1e-3)
    found = contact_ratio(teeth_1=teeth, teeth_2=None, module=1e-3, pressure_angle=TWENTY)
    published(f"contact ratio of {teeth} teeth", found=found.ratio, expected=by_hand / (math.pi * cosine), unit="1")
