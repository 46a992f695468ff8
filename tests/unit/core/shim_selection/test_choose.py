from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from stripdown.core.shim_selection import ShimChoice, choose_shims
from stripdown.core.shim_selection.choose import MOST_PACKS
from stripdown.core.shim_selection.stacks import SHOP_THICKNESSES
from stripdown.errors import OutOfRange

TRAY: Mapping[float, int] = dict.fromkeys(SHOP_THICKNESSES, 4)


def _choose(
    gap: float,
    *,
    uncertainty: float = 0.0,
    band: tuple[float, float] = (0.05, 0.15),
    stock: Mapping[float, int] = TRAY,
    most: int = 4,
) -> ShimChoice:
    """Lengths of the question in mm, as one reads them; the tray in m."""
    return choose_shims(
        gap=gap * 1e-3,
        gap_uncertainty=uncertainty * 1e-3,
        float_band=(band[0] * 1e-3, band[1] * 1e-3),
        stock=stock,
        most=most,
    )


def _packs(choice: ShimChoice) -> list[tuple[float, ...]]:
    return [tuple(round(thickness * 1e3, 4) for thickness in pack.thicknesses) for pack in choice.packs]


def test_two_shims_of_a_usual_tray_fit_a_truck_gearbox() -> None:
    """Play 0.47, float 0.06 to 0.11: 0.40 of two shims in two ways, the thickest first; sums by hand."""
    choice = _choose(0.47, band=(0.06, 0.11))
    assert _packs(choice)[:2] == [(0.3, 0.1), (0.2, 0.2)]
    assert choice.packs[0].float_left == pytest.approx(0.07e-3, abs=1e-12)
    assert choice.nearest_miss is None
    assert choice.buy == ()
    assert choice.rejected is None


def test_the_most_centred_of_the_fewest_comes_first() -> None:
    """One shim of 0.30 leaves 0.12, one of 0.35 leaves 0.07; the middle is 0.10, so 0.30 leads, and both come before any two."""
    choice = _choose(0.42, stock={0.30e-3: 1, 0.35e-3: 1, 0.16e-3: 2})
    assert _packs(choice) == [(0.3,), (0.35,), (0.16, 0.16)]


def test_of_two_equally_centred_packs_the_looser_comes_first() -> None:
    """0.30 leaves 0.11 and 0.32 leaves 0.09, both 0.01 from the middle."""
    assert _packs(_choose(0.41, stock={0.30e-3: 1, 0.32e-3: 1})) == [(0.3,), (0.32,)]


def test_a_doubtful_measurement_leaves_only_packs_that_are_sure() -> None:
    """Play 0.42 ± 0.03: 0.30 leaves 0.09 to 0.15 and is sure, 0.35 may leave 0.04 and is not."""
    choice = _choose(0.42, uncertainty=0.03, stock={0.30e-3: 1, 0.35e-3: 1})
    assert _packs(choice) == [(0.3,)]
    assert [pack.thicknesses for pack in choice.only_nominal] == [(0.35e-3,)]


def test_a_measurement_worse_than_the_band_is_told() -> None:
    """± 0.06 cannot be sure of a band 0.10 wide: no pack, nothing to buy, measure again; the nominal packs are shown apart."""
    choice = _choose(0.42, uncertainty=0.06)
    assert choice.packs == ()
    assert choice.buy == ()
    assert choice.rejected is None
    assert choice.only_nominal[0].thicknesses == (0.3e-3,)
    assert any("Measure again" in note for note in choice.notes)


@pytest.mark.parametrize(("gap", "band"), [(0.0, (0.0, 0.1)), (0.1, (0.05, 0.15)), (0.05, (0.05, 0.15)), (0.15, (0.05, 0.15))])
def test_no_shims_is_the_first_pack_when_the_play_is_right_already(gap: float, band: tuple[float, float]) -> None:
    """Also a play of nothing, where nothing is allowed; both ends of the band belong to it."""
    choice = _choose(gap, band=band)
    assert choice.packs[0].thicknesses == ()
    assert choice.packs[0].float_left == pytest.approx(gap * 1e-3, abs=1e-12)


def test_the_nearest_miss_says_by_how_much() -> None:
    """Two of 0.15 leave 0.17, 0.06 too loose; three leave 0.02, 0.07 too tight; one of 0.37 would be centred."""
    choice = _choose(0.47, band=(0.09, 0.11), stock={0.15e-3: 3, 0.5e-3: 1})
    assert choice.packs == ()
    miss = choice.nearest_miss
    assert miss is not None
    assert miss.pack.thicknesses == (0.15e-3, 0.15e-3)
    assert miss.too_loose == pytest.approx(0.06e-3, abs=1e-12)
    assert miss.too_tight == 0.0
    assert miss.by == miss.too_loose
    assert choice.buy == (0.37e-3,)
    assert any("have that one ground" in note for note in choice.notes)


def test_what_to_buy_is_the_fewest_shop_shims_beside_those_at_hand() -> None:
    """Play 0.62, two of 0.15 at hand: one more of 0.20 leaves 0.12 of three, one of 0.50 alone leaves 0.12 of one."""
    choice = _choose(0.62, stock={0.15e-3: 2})
    assert choice.buy == (0.5e-3,)
    pack = choice.pack_after_buying
    assert pack is not None
    assert pack.thicknesses == (0.5e-3,)
    assert pack.float_left == pytest.approx(0.12e-3, abs=1e-12)
    assert _choose(0.87, stock={0.25e-3: 1}).buy == (0.5e-3,)


def test_no_shim_makes_room() -> None:
    """A play smaller than the least float: nothing to buy, and the seats are named."""
    choice = _choose(0.02)
    assert choice.packs == ()
    assert choice.nearest_miss is not None
    assert choice.nearest_miss.pack.thicknesses == ()
    assert choice.nearest_miss.too_tight == pytest.approx(0.03e-3, abs=1e-12)
    assert choice.buy == ()
    assert any("seats of the bearings" in note for note in choice.notes)


@pytest.mark.parametrize(("gap", "words"), [(6.0, "more than any stack"), (470.0, "unit")])
def test_a_measurement_that_cannot_be_true_is_rejected(gap: float, words: str) -> None:
    """No gear has so much; a play in metres that was read in millimetres is such a one."""
    choice = _choose(gap, uncertainty=0.02)
    assert choice.rejected is not None
    assert words in choice.rejected
    assert "reject the measurement" in choice.rejected
    assert (choice.packs, choice.only_nominal, choice.buy) == ((), (), ())
    assert choice.nearest_miss is None


def test_a_negative_play_is_refused() -> None:
    """A gear that turns has some: the message says what may have gone wrong at the bench."""
    with pytest.raises(OutOfRange, match=r"a play of -0\.05 mm is negative beyond its uncertainty .* were shims left in"):
        _choose(-0.05, uncertainty=0.02)


def test_a_play_that_is_negative_within_its_uncertainty_can_be_true() -> None:
    """-0.01 ± 0.02 may be a play of 0.01: nothing fits, and nothing is rejected."""
    choice = _choose(-0.01, uncertainty=0.02)
    assert choice.rejected is None
    assert choice.packs == ()


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"gap_uncertainty": -1e-6}, "gap_uncertainty"),
        ({"gap": float("nan")}, "gap"),
        ({"gap": float("inf")}, "gap"),
        ({"float_band": (0.15e-3, 0.05e-3)}, "float_band"),
        ({"float_band": (-0.05e-3, 0.05e-3)}, "float_band"),
        ({"float_band": (0.05e-3,)}, "float_band"),
        ({"float_band": (0.05e-3, float("nan"))}, "float_band"),
        ({"stock": {}}, "stock"),
        ({"stock": {0.1e-3: 0}}, "stock"),
        ({"stock": {0.0: 3}}, "stock"),
        ({"stock": {-0.1e-3: 3}}, "stock"),
        ({"stock": {0.15: 3}}, "stock"),
        ({"stock": {0.1e-3: -1}}, "stock"),
        ({"stock": {0.1e-3: 1.5}}, "stock"),
        ({"stock": {k * 1e-6: 1 for k in range(10, 300)}}, "stock"),
        ({"most": 0}, "most"),
        ({"most": -1}, "most"),
        ({"most": 2.5}, "most"),
        ({"most": 1000}, "most"),
    ],
)
def test_what_is_no_question_is_refused(change: dict[str, Any], field: str) -> None:
    """One message that names the field, and says what would be right."""
    question: dict[str, Any] = {"gap": 0.4e-3, "gap_uncertainty": 0.0, "float_band": (0.05e-3, 0.15e-3), "stock": TRAY, "most": 4}
    with pytest.raises(OutOfRange) as caught:
        choose_shims(**(question | change))
    assert caught.value.field == field
    assert caught.value.hint


def test_one_thickness_written_in_two_ways_is_one_kind() -> None:
    """0.15e-3 and 0.15 * 0.001 differ as floats and not as shims; what comes back is what was given."""
    twice = {0.15e-3: 1, 0.15 * 0.001 * (1 + 1e-15): 1}
    assert len(twice) == 2
    choice = _choose(0.40, stock=twice)
    assert len(choice.packs) == 1
    assert set(choice.packs[0].thicknesses) == set(twice)


def test_thousandths_of_an_inch_are_rounded_and_the_rounding_is_kept_clear_of_the_band() -> None:
    """0.0134 in is 0.34036 mm, rounded 0.340: of 0.45 it leaves 0.1096, and 0.1104 for all that the rounded figure knows."""
    shim = 0.0134 * 25.4e-3
    assert _choose(0.45, band=(0.05, 0.111), stock={shim: 1}).packs[0].thicknesses == (shim,)
    assert _choose(0.45, band=(0.05, 0.111), stock={shim: 1}).packs[0].float_left == pytest.approx(0.10964e-3, abs=1e-9)
    assert _choose(0.45, band=(0.05, 0.110), stock={shim: 1}).packs == ()
    assert any("rounded" in note for note in _choose(0.45, stock={shim: 1}).notes)


def test_the_work_of_an_ordinary_tray_is_small_and_that_of_any_tray_is_bounded() -> None:
    """Steps of the search: 5 thicknesses, then 200 of them and packs of 20, cut at a thousand packs of each sort."""
    assert _choose(0.47).nodes < 500
    every = _choose(3.0, uncertainty=0.001, stock={(50 + k) * 1e-6: 20 for k in range(200)}, most=20)
    assert every.is_cut
    assert len(every.packs) == MOST_PACKS
    assert any("the best 1000" in note for note in every.notes)
    table = 200 * 21 * 21
    walk = 2 * (MOST_PACKS + 1) * 201
    assert every.nodes < table + walk


def test_the_answer_says_what_it_rests_on() -> None:
    """The usual float is common practice; another is whoever's asked; source, range and caution stand beside it."""
    assert _choose(0.4).footing == "common practice, no source"
    assert _choose(0.4, band=(0.06, 0.11)).footing == "as asked for"
    assert "micrometer" in _choose(0.4).caution
    assert "no source" in _choose(0.4).source
    assert _choose(0.4).holds_for
