"""Three scales of lubricants that share no numbers."""

from __future__ import annotations

import math
from typing import Any

import pytest

from stripdown.core.part_condition.lubricants import (
    ConsistencyGrade,
    SiliconeViscosity,
    ViscosityGrade,
    consistency_grade,
    penetration_grade,
    read_lubricant_grade,
    viscosity_grade,
)
from stripdown.errors import InputError, OutOfRange


@pytest.mark.parametrize(
    ("text", "kind", "shown"),
    [
        ("NLGI 2", ConsistencyGrade, "NLGI 2"),
        ("nlgi no. 00", ConsistencyGrade, "NLGI 00"),
        ("ISO VG 32", ViscosityGrade, "ISO VG 32"),
        ("vg46", ViscosityGrade, "ISO VG 46"),
        ("silicone oil 350 cSt", SiliconeViscosity, "silicone oil 350 cSt at 25 °C"),
        ("1000 cst  Silicone", SiliconeViscosity, "silicone oil 1000 cSt at 25 °C"),
        ("silicone 12,5 mm2/s", SiliconeViscosity, "silicone oil 12.5 cSt at 25 °C"),
    ],
)
def test_a_grade_is_read_with_its_scale(text: str, kind: type, shown: str) -> None:
    """What stands on the tin says which of the three it is."""
    grade = read_lubricant_grade(text)
    assert isinstance(grade, kind)
    assert str(grade) == shown


@pytest.mark.parametrize("text", ["32", "2", "350 cSt", "oil", "", "NLGI", "VG", "silicone 350"])
def test_a_number_without_its_scale_is_refused(text: str) -> None:
    """32 of what? The message shows all three spellings."""
    with pytest.raises(InputError, match=r"NLGI 2.*ISO VG 32.*silicone oil 350 cSt"):
        read_lubricant_grade(text)


@pytest.mark.parametrize("text", ["NLGI 7", "NLGI 32", "ISO VG 350", "VG 2000000"])
def test_a_grade_that_does_not_exist_is_refused(text: str) -> None:
    """350 is a usual silicone oil and no ISO VG grade; 32 is an ISO VG grade and no NLGI number."""
    with pytest.raises(InputError, match="does not exist"):
        read_lubricant_grade(text)


@pytest.mark.parametrize("other", ["ISO VG 32", "silicone oil 350 cSt", "NLGI 2"])
def test_a_figure_of_another_scale_is_refused(other: str) -> None:
    """Neither a class of grease nor a grade of oil is found from another scale's figure."""
    given: Any = read_lubricant_grade(other)
    with pytest.raises(InputError, match="another scale"):
        penetration_grade(given)
    with pytest.raises(InputError, match="another scale"):
        viscosity_grade(given, temperature=313.15)


@pytest.mark.parametrize("value", [0.0265, 26.5, 0.0, -280.0, 5000.0, math.nan, math.inf])
def test_a_penetration_in_another_unit_is_refused(value: float) -> None:
    """Metres and millimetres are too small to be tenths of a millimetre, and the message says so."""
    with pytest.raises(OutOfRange, match="tenths of a millimetre"):
        penetration_grade(value)


@pytest.mark.parametrize("value", ["265", None, True])
def test_no_number_is_refused(value: Any) -> None:
    """A text, nothing, a switch."""
    with pytest.raises(InputError, match="not a number"):
        penetration_grade(value)


def test_an_oil_is_graded_at_forty_degrees_only() -> None:
    """The viscosity of a silicone oil at 25 °C would give a grade that is not one."""
    with pytest.raises(OutOfRange, match="40 °C") as caught:
        viscosity_grade(320e-6, temperature=298.15)
    assert "Silicone oil" in str(caught.value)


def test_oils_between_grades_have_none() -> None:
    """27 cSt lies above 110 % of 22 and below 90 % of 32."""
    assert viscosity_grade(27e-6, temperature=313.15) is None
    assert viscosity_grade(1e-2, temperature=313.15) is None


def test_a_viscosity_in_centistokes_is_refused() -> None:
    """32 is no viscosity in m2/s."""
    with pytest.raises(OutOfRange):
        viscosity_grade(32.0, temperature=313.15)


def test_a_softer_grease_has_a_lower_number() -> None:
    """From 000 to 6 the cone sinks in less and less."""
    numbers = ["000", "00", "0", "1", "2", "3", "4", "5", "6"]
    depths = [consistency_grade(number).penetration for number in numbers]
    assert depths == sorted(depths, reverse=True)
    with pytest.raises(InputError, match="does not exist"):
        consistency_grade("0000")
