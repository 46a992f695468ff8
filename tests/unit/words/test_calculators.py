"""What is said of the calculators' answers: every answer, also that there is none."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from stripdown.bench.calculators import Asked
from stripdown.bench.shims import ShimSheet
from stripdown.charts.pictures import Look, pictures_of
from stripdown.core.part_condition.parameters import RingInGland, WitnessMark
from stripdown.core.shim_selection import GearSeat, ShimmedGear
from stripdown.files.shim_sheet import load_shim_sheet
from stripdown.studies.calculators import calculate_all
from stripdown.words.answer import Answer
from stripdown.words.calculators import calculator_answer

_BOX = load_shim_sheet(Path(__file__).parents[3] / "examples" / "brackenmoor-12" / "shims.toml")
_MARK = WitnessMark(witness_height=0.4e-3)
_RING = RingInGland(
    cross_section=2.4e-3,
    gland_depth=2e-3,
    gland_width=3.2e-3,
    inner_diameter=19.4e-3,
    gland_inner_diameter=19.8e-3,
)


def _asked(record: ShimSheet | WitnessMark | RingInGland, name: str = "") -> Asked:
    keys = {ShimSheet: "shims", WitnessMark: "pad", RingInGland: "gland"}
    return Asked(key=keys[type(record)], record=record, name=name)


def _said(record: ShimSheet | WitnessMark | RingInGland) -> Answer:
    [one] = calculate_all([_asked(record)])
    said = calculator_answer(one)
    assert set(said.pictures) <= set(pictures_of(one, Look()))
    return said


def _ground() -> ShimSheet:
    """One gear that wants 0.083 mm of shims, to a ten-thousandth: no sum of what shops sell."""
    seat = GearSeat(gear=ShimmedGear.SPUR, gap=0.183e-3, gap_uncertainty=0.0, float_band=(0.0999e-3, 0.1001e-3))
    return dataclasses.replace(_BOX, seats=(seat,), clearances=(), stock={0.3e-3: 2})


def _with_gap(gap: float) -> ShimSheet:
    return dataclasses.replace(_BOX, seats=(dataclasses.replace(_BOX.seats[0], gap=gap), *_BOX.seats[1:]))


def test_every_answer_says_footing_range_source_and_caution() -> None:
    """Shims, pad and ring, each with the answer in a line, and a picture."""
    asked = (_asked(_BOX, "Brackenmoor 12 (invented)"), _asked(_MARK), _asked(_RING, "cylinder head"))
    answers = [calculator_answer(one) for one in calculate_all(asked)]
    assert [one.title for one in answers] == [
        "Shims, Brackenmoor 12 (invented)",
        "Pad for the angle of engagement",
        "Ring in its gland, cylinder head",
    ]
    for one in answers:
        assert {"footing", "source", "holds_for"} <= {rest.key for rest in one.rests_on}
        assert all((one.lead[0].full, one.cautions, one.pictures)), one.key


def test_shims_are_told_gear_by_gear() -> None:
    """0.80 mm less 0.203, 0.203 and 0.305 is 0.089 mm."""
    shims = _said(_BOX)
    assert shims.lead[0].full == "Shims at hand leave every gear its float (0.05 to 0.12 mm)."
    lines = {line.name: line.text for line in shims.named}
    assert lines["sector"] == "left 0.203 + 0.203 mm, right 0.305 mm: float 0.089 mm, middle 0.451 mm from the left stop"
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
    shims = _said(box)
    assert shims.lead[0].full.startswith(answer)
    assert (bool(shims.named), bool(shims.pictures)) == (has_shims, has_shims)


def test_a_pad_is_told_with_its_reading() -> None:
    """2 * 0.40 mm / sin 40° is 1.24 mm, 40 % of a pitch of pi mm."""
    assert [sentence.full for sentence in _said(_MARK).lead] == [
        "Pad 1.24 mm as pressed, on top of what is there.",
        "Mark 0.40 mm above the pitch line, pressure angle 20.0°, module 1.0 mm: 40 % of a pitch.",
    ]


def test_what_a_job_leaves_out_is_said_to_be_as_usual() -> None:
    """With its figures; what was written is not."""
    [one] = calculate_all([dataclasses.replace(_asked(_MARK), assumed=("pressure_angle", "module"))])
    note = calculator_answer(one).notes[0].full
    assert note == "Assumed as usual (common practice, no source): a pressure angle of 20° and a module of 1 mm."


def test_a_pad_that_is_suspect_says_so_beside_the_figure() -> None:
    """More than nine tenths of a pitch: the wrong tooth."""
    assert "SUSPECT: the wrong tooth?" in _said(dataclasses.replace(_MARK, witness_height=0.95e-3)).lead[0].full


def test_a_mark_that_says_nothing_has_words_and_no_picture() -> None:
    """Measure again; range, footing and caution stay."""
    edge = _said(dataclasses.replace(_MARK, is_edge_contact=True))
    assert edge.lead[0].full.startswith("Not computable: measure again.")
    assert edge.pictures == ()
    assert edge.cautions


def test_a_ring_outside_a_band_says_which() -> None:
    """Each figure with its band, and whose band that is."""
    inside = _said(_RING)
    assert inside.lead[0].full == "A ring of 2.40 mm suits its gland."
    squeeze = [cell.text for cell in inside.tables[0].rows[0]]
    assert squeeze[:4] == ["squeeze", "16.7 %", "10 to 30 %", "inside"]
    assert squeeze[4].startswith("published: page 290")
    flat = _said(dataclasses.replace(_RING, gland_depth=2.3e-3))
    assert flat.lead[0].full == "A ring of 2.40 mm does not suit its gland: squeeze below the band."


def test_old_shims_that_lost_their_place_undo_the_choice() -> None:
    """Said with the reason for each."""
    [moved, *others] = _BOX.old_shims.shims
    face = next(shim.face for shim in others if shim.face is not moved.face)
    fitted = dataclasses.replace(_BOX.old_shims, shims=(dataclasses.replace(moved, face=face), *others))
    old = _said(dataclasses.replace(_BOX, fitted_shims=fitted)).part("old_shims")
    assert old is not None
    notes = [note.full for note in old.notes]
    assert any("no longer holds" in note for note in notes)
    assert any(note.startswith("S1 was on the sector gear's left face") for note in notes)
