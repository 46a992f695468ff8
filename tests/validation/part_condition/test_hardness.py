"""Hardness of rings: what a test can show, and why scales do not convert."""

from __future__ import annotations

import pytest

from stripdown.core.part_condition.hardness import HardnessChange, compare_hardness
from stripdown.core.part_condition.parameters import HardnessScale
from stripdown.errors import InputError
from tests.published import Published


@pytest.mark.source("lubricant_compatibility", "tolerance of the hardness test", atol=1e-12, because="taken over as it is")
def test_five_points_are_the_tolerance_of_the_test(published: Published) -> None:
    """A change of 5 Shore A is none that the test can show; a hair more is."""
    at = compare_hardness(new=[70.0], used=[75.0], scale=HardnessScale.SHORE_A)
    published("tolerance of the test in points", found=at.test_tolerance, expected=5.0, unit="1")
    assert at.finding is HardnessChange.AS_NEW
    assert compare_hardness(new=[70.0], used=[75.1], scale=HardnessScale.SHORE_A).finding is HardnessChange.WATCH


@pytest.mark.source("ewing_o_ring_hardness", "Shore M beside Shore A", because="a statement: scales can differ by 20 points")
def test_the_difference_of_two_scales_would_look_like_a_reject(published: Published) -> None:
    """20 points between scales are more than the limit, so readings on two scales are refused."""
    same = compare_hardness(new=[70.0], used=[90.0], scale=HardnessScale.SHORE_M)
    assert same.finding is HardnessChange.REJECT
    published.within("limit in points", found=same.greatest_change, low=5.0, high=20.0, unit="1")
    with pytest.raises(InputError):
        compare_hardness(new=[70.0], used=[90.0], scale=HardnessScale.SHORE_A, used_scale=HardnessScale.SHORE_M)
