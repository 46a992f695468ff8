"""Grades against the limits of published maintenance manuals: standard value, service limit, and what is exactly at a limit."""

from __future__ import annotations

import pytest

from stripdown.procedures.looks import Grade, GradeLimits
from stripdown.references.provenance import Footing, Provenance
from tests.published import Published

_MANUAL = Provenance(footing=Footing.PUBLISHED, source="tm_10_3930_653", where="span over four teeth; bore")
_SPAN = GradeLimits(label="span over four teeth", unit="mm", watch_below=32.429, reject_below=32.279, provenance=_MANUAL)
_BORE = GradeLimits(label="bore", unit="mm", watch_above=37.025, reject_above=37.050, provenance=_MANUAL)
_GRADES = tuple(Grade)  # sound, watch, reject


def _edge(limits: GradeLimits, inside: float, beyond: float, grade: Grade) -> float:
    """Where a grade begins on the way from one value to another, by halving."""
    for _ in range(60):
        middle = (inside + beyond) / 2
        inside, beyond = (inside, middle) if limits.grade(middle) is grade else (middle, beyond)
    return beyond


@pytest.mark.source(
    "tm_10_3930_653",
    "span over four teeth 32.429 to 32.526 mm when new, limit 32.279 mm; bore 37.009 to 37.025 mm, limit 37.050 mm",
    atol=1e-6,
    because="a limit that was typed in another unit counts as the same limit",
)
def test_tm_10_3930_653_service_limits(published: Published) -> None:
    """A new part is sound, one past its service limit is rejected, and in between it is watched."""
    assert {_SPAN.grade(span) for span in (32.429, 32.526)} == {Grade.SOUND}
    assert {_BORE.grade(bore) for bore in (37.009, 37.025)} == {Grade.SOUND}
    published("span: reject begins", found=_edge(_SPAN, 32.4, 32.0, Grade.REJECT), expected=32.279, unit="mm")
    published("span: watch begins", found=_edge(_SPAN, 32.5, 32.3, Grade.WATCH), expected=32.429, unit="mm")
    published("bore: reject begins", found=_edge(_BORE, 37.03, 37.1, Grade.REJECT), expected=37.050, unit="mm")
    published("bore: watch begins", found=_edge(_BORE, 37.01, 37.04, Grade.WATCH), expected=37.025, unit="mm")


@pytest.mark.source(
    "car_maker_service_limits",
    "exactly at the limit a part may be refitted if in satisfactory condition, outside it is rejected",
    rtol=1e-12,
    because="a rule, counted in grades: 0 sound, 1 watch, 2 reject",
)
def test_car_maker_service_limits_at_the_limit(published: Published) -> None:
    """Exactly at the limit it is not rejected, a hundredth beyond it is."""
    published("span at its limit", found=_GRADES.index(_SPAN.grade(32.279)), expected=1, unit="1")
    published("bore at its limit", found=_GRADES.index(_BORE.grade(37.050)), expected=1, unit="1")
    published("span beyond", found=_GRADES.index(_SPAN.grade(32.269)), expected=2, unit="1")
    published("bore beyond", found=_GRADES.index(_BORE.grade(37.060)), expected=2, unit="1")
