from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.part_condition.hardness import HardnessChange, compare_hardness
from stripdown.core.part_condition.parameters import HardnessScale
from stripdown.errors import InputError, OutOfRange

_SCALE = HardnessScale.SHORE_M
_readings = st.lists(st.floats(40.0, 95.0), min_size=1, max_size=6)


@pytest.mark.parametrize(
    ("used", "finding"),
    [
        ([70.0], HardnessChange.AS_NEW),
        ([75.0], HardnessChange.AS_NEW),
        ([65.0], HardnessChange.AS_NEW),
        ([78.0], HardnessChange.WATCH),
        ([62.0], HardnessChange.WATCH),
        ([81.0], HardnessChange.REJECT),
        ([58.0], HardnessChange.REJECT_SOFT),
    ],
)
def test_the_change_decides(used: list[float], finding: HardnessChange) -> None:
    """Five points the test cannot show, ten is the limit, in both directions; ends included."""
    assert compare_hardness(new=[70.0], used=used, scale=_SCALE).finding is finding


@given(new=_readings, used=_readings)
def test_swapping_the_rings_turns_the_sign(new: list[float], used: list[float]) -> None:
    """The same change, seen from the other ring."""
    forth, back = compare_hardness(new=new, used=used, scale=_SCALE), compare_hardness(new=used, used=new, scale=_SCALE)
    assert forth.change == pytest.approx(-back.change)
    assert forth.standard_uncertainty == pytest.approx(back.standard_uncertainty)


def test_scatter_needs_three_readings() -> None:
    """Variance of both means: (1 + 1 + 0)/2/3 twice; with fewer readings nothing is claimed."""
    many = compare_hardness(new=[69.0, 70.0, 71.0], used=[79.0, 80.0, 81.0], scale=_SCALE)
    assert many.standard_uncertainty == pytest.approx((2.0 / 3.0) ** 0.5)
    few = compare_hardness(new=[70.0], used=[79.0, 80.0, 81.0], scale=_SCALE)
    assert few.standard_uncertainty is None
    assert any("three readings" in note for note in few.notes)


def test_two_scales_are_not_compared() -> None:
    """There is no conversion on a small ring."""
    with pytest.raises(InputError, match="no conversion"):
        compare_hardness(new=[70.0], used=[80.0], scale=_SCALE, used_scale=HardnessScale.SHORE_A)


def test_a_scale_for_flat_pieces_says_so() -> None:
    """Shore A on a round ring is good for comparison only."""
    assert any("comparison only" in note for note in compare_hardness(new=[70], used=[80], scale=HardnessScale.SHORE_A).notes)


def test_own_limits_hold() -> None:
    """Both are parameters, since no standard fixes them."""
    strict = compare_hardness(new=[70.0], used=[78.0], scale=_SCALE, test_tolerance=3.0, greatest_change=7.0)
    assert strict.finding is HardnessChange.REJECT


@pytest.mark.parametrize(
    ("settings", "field"),
    [
        ({"new": [], "used": [70.0]}, "new"),
        ({"new": [70.0], "used": [120.0]}, "used"),
        ({"new": [70.0], "used": [-1.0]}, "used"),
        ({"new": [70.0], "used": [70.0], "greatest_change": 3.0}, "greatest_change"),
    ],
)
def test_what_cannot_be_is_refused_by_name(settings: dict[str, list[float]], field: str) -> None:
    """No reading, a reading off the scale, limits in the wrong order."""
    with pytest.raises(OutOfRange) as refused:
        compare_hardness(scale=_SCALE, **settings)  # type: ignore[arg-type]
    assert refused.value.field == field
