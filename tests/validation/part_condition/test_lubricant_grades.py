"""Grades of grease and oil against the standards that define them."""

from __future__ import annotations

import pytest

from stripdown.core.part_condition.lubricants import (
    ViscosityGrade,
    consistency_grade,
    penetration_grade,
    read_lubricant_grade,
    viscosity_grade,
)
from tests.published import Published

CLASSES = {
    "000": (445, 475),
    "00": (400, 430),
    "0": (355, 385),
    "1": (310, 340),
    "2": (265, 295),
    "3": (220, 250),
    "4": (175, 205),
    "5": (130, 160),
    "6": (85, 115),
}


@pytest.mark.source("astm_d217", "classes of consistency by worked penetration", atol=0, because="whole tenths of a millimetre")
@pytest.mark.parametrize("number", CLASSES)
def test_astm_d217_class(published: Published, number: str) -> None:
    """A class begins and ends where the standard says, and a tenth of a millimetre beyond is no class or another."""
    low, high = CLASSES[number]
    grade = consistency_grade(number)
    published(f"NLGI {number}, least", found=grade.penetration[0], expected=low, unit="0.1 mm")
    published(f"NLGI {number}, most", found=grade.penetration[1], expected=high, unit="0.1 mm")
    assert {penetration_grade(value) for value in range(low, high + 1)} == {number}
    assert penetration_grade(low - 1) is None
    assert penetration_grade(high + 1) is None


@pytest.mark.source("astm_d217", "gaps between the classes", atol=0, because="the standard leaves fifteen tenths between classes")
def test_astm_d217_gaps(published: Published) -> None:
    """Between 85 and 475 there are 279 whole figures with a class and 112 without: a grease at 300 has none."""
    figures = [penetration_grade(value) for value in range(85, 476)]
    published("figures with a class", found=sum(one is not None for one in figures), expected=9 * 31, unit="1")
    published("figures in gaps", found=sum(one is None for one in figures), expected=8 * 14, unit="1")
    assert penetration_grade(300) is None


@pytest.mark.source("iso_3448", "each grade within 10 % of its number", rtol=1e-12, because="a rule without rounding")
@pytest.mark.parametrize("number", [10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000])
def test_iso_3448_grade(published: Published, number: int) -> None:
    """The number is the viscosity at 40 °C in cSt, and nine to eleven tenths of it have the grade."""
    grade = read_lubricant_grade(f"ISO VG {number}")
    assert isinstance(grade, ViscosityGrade)
    published(f"VG {number}, least", found=grade.viscosity[0], expected=0.9e-6 * number, unit="m2/s")
    published(f"VG {number}, most", found=grade.viscosity[1], expected=1.1e-6 * number, unit="m2/s")
    assert viscosity_grade(number * 1e-6, temperature=313.15) == grade
