from __future__ import annotations

import pytest

from stripdown.core.part_condition.piston_ring import FloatingRing, floating_ring
from stripdown.errors import OutOfRange

_HEAD = {
    "cross_section": 2.4e-3,
    "inner_diameter": 18.8e-3,
    "groove_diameter": 18.4e-3,
    "groove_width": 2.8e-3,
    "bore": 23.8e-3,
}


def _ring(**changed: float) -> FloatingRing:
    return floating_ring(**(_HEAD | changed))


def test_room_and_overlap() -> None:
    """(23.8 - 18.4)/2 - 2.4 across, 2.8 - 2.4 along, 18.8 + 4.8 - 23.8 beyond the bore."""
    ring = _ring()
    assert ring.radial_room == pytest.approx(0.3e-3)
    assert ring.axial_room == pytest.approx(0.4e-3)
    assert ring.overlap == pytest.approx(-0.2e-3)
    assert ring.floats
    assert any("air must press it out" in note for note in ring.notes)


def test_a_fat_ring_does_not_float() -> None:
    """It is squeezed between groove and bore, and drags always."""
    ring = _ring(cross_section=2.75e-3)
    assert not ring.floats
    assert any("drags" in note for note in ring.notes)


def test_no_squeeze_table_is_claimed() -> None:
    """The answer itself says that none is for this ring."""
    assert "No squeeze table" in _ring().basis.holds_for


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"groove_diameter": 23.8e-3}, "groove_diameter"),
        ({"groove_width": 2.3e-3}, "groove_width"),
        ({"bore": -1.0}, "bore"),
        ({"inner_diameter": 0.0}, "inner_diameter"),
    ],
)
def test_what_cannot_be_is_refused_by_name(changed: dict[str, float], field: str) -> None:
    """No groove, a ring larger than it, negative sizes."""
    with pytest.raises(OutOfRange) as refused:
        _ring(**changed)
    assert refused.value.field == field
    assert refused.value.hint
