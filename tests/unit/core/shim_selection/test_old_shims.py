from __future__ import annotations

import dataclasses

import pytest

from stripdown.core.shim_selection import GearFace, OldShim, ShimmedGear, lost_places, shim_map
from stripdown.errors import OutOfRange

ONE = OldShim(label="1", gear=ShimmedGear.SECTOR, face=GearFace.LEFT, thickness=0.3e-3)
TWO = OldShim(label="2", gear=ShimmedGear.SECTOR, face=GearFace.RIGHT, thickness=0.1e-3)
THREE = OldShim(label="3", gear=ShimmedGear.BEVEL, face=GearFace.LEFT, thickness=0.3e-3)
FOUR = OldShim(label="4", gear=ShimmedGear.SPUR, face=GearFace.RIGHT)


def test_a_map_knows_what_lies_on_a_face() -> None:
    """And what a tray of the measured ones would hold; equal thicknesses are different shims."""
    found = shim_map([ONE, TWO, THREE, FOUR])
    assert found.at(ShimmedGear.SECTOR, GearFace.LEFT) == (ONE,)
    assert found.at(ShimmedGear.SPUR, GearFace.LEFT) == ()
    assert found.stock() == {0.3e-3: 2, 0.1e-3: 1}


@pytest.mark.parametrize(
    ("other", "words"),
    [
        (dataclasses.replace(THREE, label="1"), "on the sector gear's left face and on the bevel gear's left face"),
        (dataclasses.replace(ONE), "twice on the sector gear's left face"),
    ],
)
def test_the_same_shim_in_two_places_is_refused(other: OldShim, words: str) -> None:
    """One message that names the shim and both places."""
    with pytest.raises(OutOfRange, match=words) as caught:
        shim_map([ONE, TWO, other])
    assert caught.value.value == "1"


@pytest.mark.parametrize(
    ("wrong", "field"), [(dataclasses.replace(ONE, label=" "), "label"), (dataclasses.replace(ONE, thickness=0.0), "thickness")]
)
def test_a_shim_without_label_or_thickness_is_refused(wrong: OldShim, field: str) -> None:
    """It could be taken for another, or is none."""
    with pytest.raises(OutOfRange) as caught:
        shim_map([wrong])
    assert caught.value.field == field


def test_every_shim_back_in_its_place_loses_nothing() -> None:
    """In whatever order they are written down: the pack that was chosen still holds."""
    assert lost_places(shim_map([ONE, TWO, THREE]), shim_map([THREE, ONE, TWO])) == ()


def test_a_shim_that_lost_its_place_is_named_with_both() -> None:
    """Moved to another face, left out, and one that was not there: three reasons."""
    moved = dataclasses.replace(TWO, face=GearFace.LEFT)
    lost = lost_places(shim_map([ONE, TWO, THREE]), shim_map([ONE, moved, FOUR]))
    assert [place.label for place in lost] == ["2", "3", "4"]
    assert lost[0].reason == "2 was on the sector gear's right face and is on the sector gear's left face."
    assert "is not in the box" in lost[1].reason
    assert "was not in the box" in lost[2].reason
