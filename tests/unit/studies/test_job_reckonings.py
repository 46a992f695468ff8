"""The calculators' answers to a job: the same as from the calculators, and what becomes of a mark that says nothing."""

from __future__ import annotations

import dataclasses
import math
from pathlib import Path

from stripdown.core.part_condition.engagement import engagement_pad
from stripdown.core.part_condition.o_ring_gland import o_ring_gland
from stripdown.core.shim_selection import GearFace, OldShim, ShimmedGear, choose_split, shim_map
from stripdown.files.job_reckonings import RingInGland, ToReckon, WitnessMark
from stripdown.files.shim_sheet import load_shim_sheet
from stripdown.studies.job_reckonings import Reckoned, reckon

_BOX = Path(__file__).parents[3] / "examples" / "brackenmoor-12" / "shims.toml"
_MARK = WitnessMark(
    witness_height=0.4e-3,
    pressure_angle=math.radians(20.0),
    module=1e-3,
    sector_teeth=None,
    is_edge_contact=False,
    assumed=(),
)
_RING = RingInGland(name="cylinder head", cross_section=2.4e-3, gland_depth=2e-3, gland_width=3.2e-3)


def test_nothing_asked_is_nothing_answered() -> None:
    """No calculator is named either."""
    assert reckon(ToReckon()) == Reckoned()
    assert Reckoned().calculators == frozenset()


def test_the_answers_are_those_of_the_calculators() -> None:
    """For box, mark and ring, from the same figures."""
    sheet = load_shim_sheet(_BOX)
    found = reckon(ToReckon(shims=sheet, mark=_MARK, rings=(_RING,)))
    assert found.shims is not None
    assert found.shims.split == choose_split(seats=sheet.seats, clearances=sheet.clearances, stock=sheet.stock, most=sheet.most)
    assert found.pad is not None
    assert found.pad.pad == engagement_pad(witness_height=0.4e-3, pressure_angle=math.radians(20.0), module=1e-3)
    [ring] = found.rings
    assert ring.gland == o_ring_gland(cross_section=2.4e-3, gland_depth=2e-3, gland_width=3.2e-3)
    assert found.calculators == {"shims", "pad", "seal gland"}


def test_a_mark_that_says_nothing_is_answered_with_measure_again() -> None:
    """An edge that was seen as one, and a mark beyond the reach of so few teeth: 0.5 * 1 mm * 6 * sin(20°)² is 0.35 mm."""
    for mark in (dataclasses.replace(_MARK, is_edge_contact=True), dataclasses.replace(_MARK, sector_teeth=6.0)):
        pad = reckon(ToReckon(mark=mark)).pad
        assert pad is not None
        assert pad.pad is None
        assert "measure again" in pad.refused


def test_shims_that_lost_their_place_are_told() -> None:
    """One old shim on the other face; while nothing is fitted, nothing is lost."""
    sheet = load_shim_sheet(_BOX)
    old = shim_map([OldShim(label="1", gear=ShimmedGear.BEVEL, face=GearFace.LEFT)])
    fitted = shim_map([OldShim(label="1", gear=ShimmedGear.BEVEL, face=GearFace.RIGHT)])
    moved = reckon(ToReckon(shims=dataclasses.replace(sheet, old_shims=old, fitted_shims=fitted))).shims
    unfitted = reckon(ToReckon(shims=sheet)).shims
    assert moved is not None
    assert unfitted is not None
    assert [place.label for place in moved.lost] == ["1"]
    assert unfitted.lost == ()
