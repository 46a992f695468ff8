"""The calculators' answers to a job: the same as from their laws, and what becomes of a mark that says nothing."""

from __future__ import annotations

import dataclasses
import math
from pathlib import Path

from stripdown.bench.calculators import Asked
from stripdown.core.part_condition.engagement import engagement_pad
from stripdown.core.part_condition.o_ring_gland import o_ring_gland
from stripdown.core.part_condition.parameters import RingInGland, WitnessMark
from stripdown.core.shim_selection import GearFace, OldShim, ShimmedGear, choose_split, shim_map
from stripdown.files.shim_sheet import load_shim_sheet
from stripdown.studies.calculators import calculate, calculate_all

_BOX = Path(__file__).parents[3] / "examples" / "brackenmoor-12" / "shims.toml"
_MARK = WitnessMark(witness_height=0.4e-3)
_RING = RingInGland(cross_section=2.4e-3, gland_depth=2e-3, gland_width=3.2e-3)


def test_nothing_asked_is_nothing_answered() -> None:
    """No calculator is named either."""
    assert calculate_all(()) == ()


def test_the_answers_are_those_of_the_laws() -> None:
    """For box, mark and ring, from the same figures."""
    sheet = load_shim_sheet(_BOX)
    asked = [Asked(key=key, record=record) for key, record in (("shims", sheet), ("pad", _MARK), ("gland", _RING))]
    shims, pad, ring = (one.found for one in calculate_all(asked))
    assert shims.found == choose_split(seats=sheet.seats, clearances=sheet.clearances, stock=sheet.stock, most=sheet.most)
    assert pad == engagement_pad(witness_height=0.4e-3, pressure_angle=math.radians(20.0), module=1e-3)
    assert ring == o_ring_gland(cross_section=2.4e-3, gland_depth=2e-3, gland_width=3.2e-3)


def test_a_mark_that_says_nothing_is_answered_with_measure_again() -> None:
    """An edge that was seen as one, and a mark beyond the reach of so few teeth: 0.5 * 1 mm * 6 * sin(20°)² is 0.35 mm."""
    marks = (dataclasses.replace(_MARK, is_edge_contact=True), dataclasses.replace(_MARK, sector_teeth=6.0))
    for pad in calculate_all(Asked(key="pad", record=mark) for mark in marks):
        assert pad.found is None
        assert "measure again" in pad.refused


def test_shims_that_lost_their_place_are_told() -> None:
    """One old shim on the other face; while nothing is fitted, nobody can say."""
    sheet = load_shim_sheet(_BOX)
    old = shim_map([OldShim(label="1", gear=ShimmedGear.BEVEL, face=GearFace.LEFT)])
    fitted = shim_map([OldShim(label="1", gear=ShimmedGear.BEVEL, face=GearFace.RIGHT)])
    moved = dataclasses.replace(sheet, old_shims=old, fitted_shims=fitted)
    assert [place.label for place in calculate(Asked(key="shims", record=moved)).found.lost] == ["1"]
    assert calculate(Asked(key="shims", record=sheet)).found.lost is None
