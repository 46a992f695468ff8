"""Torques of small screws against handbook tables, which differ among themselves by a tenth."""

from __future__ import annotations

import pytest

from stripdown.studies.screw_tightening import screw_torque
from tests.published import Published


@pytest.mark.source(
    "iso_898_1",
    "torques by class, as two pocket tables have them",
    rtol=0.07,
    because="printed to two figures; friction not said",
)
@pytest.mark.parametrize(
    ("thread", "class_8_8", "class_4_8"), [("M2", 0.35, 0.17), ("M2.5", 0.70, 0.35), ("M3", 1.20, 0.61), ("M4", 2.90, 1.40)]
)
def test_iso_898_1_small_screws(published: Published, thread: str, class_8_8: float, class_4_8: float) -> None:
    """At the usual friction of 0.12 the screws of a gearbox have the torque of the tables."""
    for name, expected in (("8.8", class_8_8), ("4.8", class_4_8)):
        published(
            f"{thread}, class {name}", found=screw_torque(thread=thread, property_class=name), expected=expected, unit="N m"
        )


@pytest.mark.source(
    "torque_tool_tables", "friction 0.14, 90 % of yield, class 8.8", rtol=0.1, because="size of the head not said"
)
@pytest.mark.parametrize(("thread", "expected"), [("M2", 0.373), ("M2.5", 0.863), ("M3", 1.344), ("M4", 3.040)])
def test_torque_tool_tables_small_screws(published: Published, thread: str, expected: float) -> None:
    """At the friction of that table too."""
    published(f"{thread}, class 8.8", found=screw_torque(thread=thread, friction=0.14), expected=expected, unit="N m")
