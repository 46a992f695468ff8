"""What the sheet and the terminal say of the calculators' answers: every answer, also that there is none."""

from __future__ import annotations

import dataclasses
import math
from pathlib import Path

import pytest

from stripdown.bench.shims import ShimSheet
from stripdown.core.shim_selection import GearSeat, ShimmedGear
from stripdown.files.job_reckonings import RingInGland, ToReckon, WitnessMark
from stripdown.files.shim_sheet import load_shim_sheet
from stripdown.studies.job_reckonings import reckon
from stripdown.words.answer import Answer
from stripdown.words.reckoned import reckoned_answers

_BOX = load_shim_sheet(Path(__file__).parents[3] / "examples" / "brackenmoor-12" / "shims.toml")
_MARK = WitnessMark(
    witness_height=0.4e-3,
    pressure_angle=math.radians(20.0),
    module=1e-3,
    sector_teeth=None,
    is_edge_contact=False,
    assumed=(),
)
_RING = RingInGland(
    name="cylinder head",
    cross_section=2.4e-3,
    gland_depth=2e-3,
    gland_width=3.2e-3,
    inner_diameter=19.4e-3,
    gland_inner_diameter=19.8e-3,
)
_ALL = ToReckon(shims=_BOX, mark=_MARK, rings=(_RING,))


def _said(asked: ToReckon) -> Answer:
    [one] = reckoned_answers(reckon(asked))
    return one


def _answer(one: Answer) -> str:
    return one.lead[0].full


def _ground() -> ShimSheet:
    """One gear that wants 0.083 mm of shims, to a ten-thousandth: no sum of what shops sell."""
    seat = GearSeat(gear=ShimmedGear.SPUR, gap=0.183e-3, gap_uncertainty=0.0, float_band=(0.0999e-3, 0.1001e-3))
    return dataclasses.replace(_BOX, seats=(seat,), clearances=(), stock={0.3e-3: 2})


def _with_gap(gap: float) -> ShimSheet:
    return dataclasses.replace(_BOX, seats=(dataclasses.replace(_BOX.seats[0], gap=gap), *_BOX.seats[1:]))


def test_every_answer_says_standing_range_source_and_caution() -> None:
    """Shims, pad and ring, in this order, each with the key of its picture."""
    said = reckoned_answers(reckon(_ALL))
    assert [(one.key, one.title) for one in said] == [
        ("shims", "Shims, Brackenmoor 12 (invented)"),
        ("pad", "Pad for the angle of engagement"),
        ("seal_gland_1", "Ring, cylinder head"),
    ]
    for one in said:
        assert {line.name for line in one.rests_on if line.text} == {"Holds for", "Standing", "Source"}
        assert _answer(one)
        assert one.cautions[0].full
        assert one.pictures == (one.key,)


def test_shims_are_told_gear_by_gear() -> None:
    """0.80 mm less 0.203, 0.203 and 0.305 is 0.089 mm."""
    shims = _said(ToReckon(shims=_BOX))
    assert _answer(shims) == "Shims at hand leave every gear its float (0.05 to 0.12 mm)."
    lines = {line.name: line.text for line in shims.named}
    assert lines["sector"] == "left 0.203 + 0.203 mm, right 0.305 mm: float 0.089 mm"
    assert set(lines) == {"sector", "spur", "bevel"}


@pytest.mark.parametrize(
    ("box", "answer", "has_shims"),
    [
        (_with_gap(8e-3), "Measurement rejected. Sector gear: ", False),
        (
            dataclasses.replace(_BOX, clearances=(_BOX.clearances[0], dataclasses.replace(_BOX.clearances[1], measured=-0.3e-3))),
            "The chain cannot be closed. ",
            False,
        ),
        (
            dataclasses.replace(_BOX, stock={0.3e-3: 2}),
            "Shims at hand do not do for all gears at once (0.05 to 0.12 mm). Buy ",
            True,
        ),
        (_ground(), "Shims at hand do not do for all gears at once (0.10 to 0.10 mm), nor do any that shops sell.", False),
    ],
)
def test_a_box_without_an_answer_says_why(box: ShimSheet, answer: str, *, has_shims: bool) -> None:
    """Rejected, not to be closed, or not with what is at hand; a picture only where there are shims to draw."""
    shims = _said(ToReckon(shims=box))
    assert _answer(shims).startswith(answer)
    assert bool(shims.named) is has_shims
    assert bool(shims.pictures) is has_shims


def test_a_pad_is_told_with_its_reading() -> None:
    """2 * 0.40 mm / sin 40° is 1.24 mm, 40 % of a pitch of pi mm."""
    pad = _said(ToReckon(mark=_MARK))
    assert _answer(pad) == "Pad 1.24 mm as pressed, on top of what is there."
    details = {line.name: line.text for line in pad.named}
    assert details == {
        "mark": "0.40 mm above the pitch line",
        "rack": "pressure angle 20.0°, module 1.0 mm",
        "pad": "40 % of a pitch",
    }


def test_a_pad_that_is_suspect_says_so_beside_the_figure() -> None:
    """More than nine tenths of a pitch: the wrong tooth."""
    assert "Suspect: the wrong tooth?" in _answer(_said(ToReckon(mark=dataclasses.replace(_MARK, witness_height=0.95e-3))))


def test_a_mark_that_says_nothing_has_words_and_no_picture() -> None:
    """Measure again; range, standing and caution stay."""
    edge = _said(ToReckon(mark=dataclasses.replace(_MARK, is_edge_contact=True)))
    assert _answer(edge).startswith("Not computable: measure again.")
    assert not edge.pictures
    assert edge.cautions


def test_a_ring_outside_a_band_says_which() -> None:
    """Each figure with its band, and whose band that is."""
    inside = _said(ToReckon(rings=(_RING,)))
    assert _answer(inside) == "A ring of 2.40 mm suits its gland."
    squeeze = next(line.text for line in inside.named if line.name == "squeeze")
    assert squeeze.startswith("16.7 %, inside the band (10 to 30 %); band published: page 290")
    flat = _said(ToReckon(rings=(dataclasses.replace(_RING, gland_depth=2.3e-3),)))
    assert _answer(flat) == "A ring of 2.40 mm does not suit its gland: squeeze below the band."


def test_old_shims_that_lost_their_place_undo_the_choice() -> None:
    """Said with the reason for each."""
    [moved, *others] = _BOX.old_shims.shims
    face = next(shim.face for shim in others if shim.face is not moved.face)
    fitted = dataclasses.replace(_BOX.old_shims, shims=(dataclasses.replace(moved, face=face), *others))
    shims = _said(ToReckon(shims=dataclasses.replace(_BOX, fitted_shims=fitted)))
    assert any("no longer holds" in note.full for note in shims.notes)
    assert any(note.full.startswith("S1 was on the sector gear's left face") for note in shims.notes)
