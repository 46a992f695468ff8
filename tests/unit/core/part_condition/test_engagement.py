from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.part_condition.engagement import EngagementPad, engagement_pad
from stripdown.errors import OutOfRange, OutsideValidity

_ANGLE = math.radians(20.0)


def _pad(height: float, **settings: float | bool) -> EngagementPad:
    given_: dict[str, float | bool] = {"pressure_angle": _ANGLE, "module": 1e-3, **settings}
    return engagement_pad(witness_height=height, **given_)  # type: ignore[arg-type]


def test_no_pad_where_first_contact_is_right() -> None:
    """A mark at the pitch line asks for nothing, and that is said."""
    pad = _pad(0.0)
    assert pad.thickness == 0.0
    assert any("no pad" in note for note in pad.notes)
    assert not pad.is_suspect


@given(height=st.floats(1e-6, 0.9e-3), factor=st.floats(1.001, 1.1))
def test_the_pad_grows_with_the_mark(height: float, factor: float) -> None:
    """In proportion: the contact runs along a straight line."""
    assert _pad(height * factor).thickness == pytest.approx(factor * _pad(height).thickness, rel=1e-9)


@given(height=st.floats(0.0, 1e-3), angle=st.floats(math.radians(14.5), math.radians(25.0)))
def test_suspect_means_more_than_nine_tenths_of_a_pitch(height: float, angle: float) -> None:
    """Whatever the pressure angle, and only then the wrong tooth is asked for."""
    pad = _pad(height, pressure_angle=angle)
    assert pad.is_suspect == (pad.thickness > 0.9 * math.pi * 1e-3)
    assert any("wrong tooth" in note for note in pad.notes) == pad.is_suspect


def test_a_mark_at_the_tip_is_suspect_and_still_computed() -> None:
    """0.99 of a pitch at 20 degrees: computable, and not to be glued."""
    pad = _pad(1e-3)
    assert pad.share_of_pitch == pytest.approx(0.990, abs=5e-4)
    assert pad.is_suspect


def test_a_sector_of_sixteen_teeth_does_not_reach_the_tip_with_its_flank() -> None:
    """Its line of action meets the base circle 0.936 mm above the pitch line: 8 sin² 20°; a mark beyond is an edge's."""
    assert _pad(0.93e-3, sector_teeth=16).thickness > 0.0
    with pytest.raises(OutsideValidity, match=r"measure again.*reaches 0\.94 mm"):
        _pad(0.94e-3, sector_teeth=16)
    assert _pad(1e-3, sector_teeth=18).is_suspect


def test_an_edge_is_not_computable() -> None:
    """Its height says nothing of the angle."""
    with pytest.raises(OutsideValidity, match="Not computable: measure again"):
        _pad(0.5e-3, is_edge_contact=True)


@pytest.mark.parametrize(
    ("wrong", "field"),
    [
        ({"witness_height": -1e-4}, "witness_height"),
        ({"witness_height": math.nan}, "witness_height"),
        ({"witness_height": 1.01e-3}, "witness_height"),
        ({"pressure_angle": 20.0}, "pressure_angle"),
        ({"pressure_angle": 0.0}, "pressure_angle"),
        ({"module": 0.0}, "module"),
        ({"sector_teeth": 0}, "sector_teeth"),
    ],
)
def test_what_cannot_be_is_refused_by_name(wrong: dict[str, float], field: str) -> None:
    """A negative height, degrees for radians, no module: one message with the field."""
    settings = {"witness_height": 0.5e-3, "pressure_angle": _ANGLE, "module": 1e-3} | wrong
    with pytest.raises(OutOfRange) as refused:
        engagement_pad(**settings)  # type: ignore[arg-type]
    assert refused.value.field == field
    assert refused.value.hint


def test_the_answer_says_what_it_rests_on() -> None:
    """Footing, range, caution."""
    basis = _pad(0.5e-3).basis
    assert basis.footing == "derived"
    assert basis.holds_for
    assert "second rack tooth" in basis.caution.lower()
