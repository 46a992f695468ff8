from __future__ import annotations

import dataclasses
from collections import Counter
from collections.abc import Mapping

import pytest

from stripdown.core.shim_selection import GearClearance, GearSeat, GearShims, ShimmedGear, choose_split
from stripdown.core.shim_selection.split import MOST_NODES
from stripdown.core.shim_selection.stacks import SHOP_THICKNESSES
from stripdown.errors import OutOfRange

SECTOR, SPUR, BEVEL = ShimmedGear.SECTOR, ShimmedGear.SPUR, ShimmedGear.BEVEL
TRAY: Mapping[float, int] = dict.fromkeys(SHOP_THICKNESSES, 6)


def _seat(gear: ShimmedGear, gap: float, height: float | None = None, tolerance: float | None = None) -> GearSeat:
    """Lengths in mm; float 0.05 to 0.15, play known to 0.005."""
    return GearSeat(
        gear=gear,
        gap=gap * 1e-3,
        gap_uncertainty=0.005e-3,
        float_band=(0.05e-3, 0.15e-3),
        height=None if height is None else height * 1e-3,
        height_tolerance=None if tolerance is None else tolerance * 1e-3,
    )


def _facing(left: ShimmedGear, right: ShimmedGear, measured: float, least: float = 0.1) -> GearClearance:
    return GearClearance(left=left, right=right, measured=measured * 1e-3, uncertainty=0.01e-3, least=least * 1e-3)


BOX = (_seat(SECTOR, 0.80, 0.45, 0.15), _seat(SPUR, 0.75), _seat(BEVEL, 0.60, 0.25, 0.15))
FACING = (_facing(SPUR, SECTOR, 0.10), _facing(BEVEL, SPUR, 0.30))


def _by_gear(gears: tuple[GearShims, ...]) -> dict[ShimmedGear, GearShims]:
    return {shims.gear: shims for shims in gears}


def test_a_box_is_shimmed_so_that_every_gear_stands_where_it_must() -> None:
    """Each demand held by hand, at the worst end of float and measurement."""
    found = choose_split(seats=BOX, clearances=FACING, stock=TRAY)
    assert found.is_proved
    assert found.rejected is None
    assert found.unclosable is None
    gears = _by_gear(found.gears)
    assert set(gears) == {SECTOR, SPUR, BEVEL}
    for seat in BOX:
        shims = gears[seat.gear]
        left, right = sum(shims.left), sum(shims.right)
        assert 0.055e-3 - 1e-12 <= seat.gap - left - right <= 0.145e-3 + 1e-12
        assert shims.float_left == pytest.approx(seat.gap - left - right, abs=1e-12)
        assert shims.middle == pytest.approx((left + seat.gap - right) / 2, abs=1e-12)
        assert len(shims.left) + len(shims.right) <= 4
    assert sum(gears[SECTOR].left) >= 0.30e-3 - 1e-12
    assert 0.80e-3 - sum(gears[SECTOR].right) + 0.005e-3 <= 0.60e-3 + 1e-12
    spur_right_side = 0.75e-3 - sum(gears[SPUR].right) + 0.005e-3
    assert 0.10e-3 - 0.01e-3 + sum(gears[SECTOR].left) - spur_right_side >= 0.10e-3 - 1e-12


def test_no_shim_is_used_twice() -> None:
    """Three gears that each want 0.30: with one at hand two of them take something else."""
    seats = (_seat(SECTOR, 0.40), _seat(SPUR, 0.40), _seat(BEVEL, 0.40))
    stock = {0.30e-3: 1, 0.15e-3: 2, 0.10e-3: 3}
    found = choose_split(seats=seats, stock=stock)
    used = Counter(thickness for shims in found.gears for thickness in (*shims.left, *shims.right))
    assert len(found.gears) == 3
    assert all(count <= stock[thickness] for thickness, count in used.items())
    assert used[0.30e-3] == 1
    assert sum(used.values()) == 6


def test_fewest_shims_in_all_come_first() -> None:
    """0.30 for one gear and 0.15 twice for the other, not 0.15 twice and 0.10 three times."""
    seats = (_seat(SECTOR, 0.40), _seat(BEVEL, 0.40))
    found = choose_split(seats=seats, stock={0.30e-3: 1, 0.15e-3: 2, 0.10e-3: 6})
    assert sorted(len(shims.left) + len(shims.right) for shims in found.gears) == [1, 2]


def test_the_split_places_the_gear_and_keeps_its_float() -> None:
    """The same play and float, wanted left or right: the same shims on other faces."""
    left = choose_split(seats=[_seat(SECTOR, 0.80, 0.25, 0.12)], stock=TRAY).gears[0]
    right = choose_split(seats=[_seat(SECTOR, 0.80, 0.55, 0.12)], stock=TRAY).gears[0]
    assert left.middle == pytest.approx(0.25e-3, abs=0.06e-3)
    assert right.middle == pytest.approx(0.55e-3, abs=0.06e-3)
    assert sum(left.left) < sum(left.right)
    assert sum(right.left) > sum(right.right)


def test_a_chain_that_cannot_be_closed_names_the_seats() -> None:
    """The spur gear would have to lie right of the sector gear by more than its play: 0.195 too much, by hand.

    Pushed right the sector gear may stand no less than 0.055 right of its lowest place 0.30, as measured; the spur gear must then
    stand 0.355 + 0.005 + 0.1 + 0.01 - 0.1 = 0.37 or more from the left, with 0.055 of float below its play of 0.23.
    """
    seats = (_seat(SECTOR, 0.80, 0.45, 0.15), _seat(SPUR, 0.23))
    found = choose_split(seats=seats, clearances=[_facing(SECTOR, SPUR, 0.10)], stock=TRAY)
    assert found.gears == ()
    assert found.unclosable is not None
    assert found.unclosable.short_by == pytest.approx((0.37 + 0.055 - 0.23) * 1e-3, abs=1e-12)
    assert not found.unclosable.closes_as_measured
    assert "bearing seats are wrong" in found.unclosable.sentence
    assert "Do not split the difference at the teeth" in found.unclosable.sentence
    assert "clearance between sector and spur gear" in found.unclosable.facts
    assert "height of the sector gear" in found.unclosable.facts


def test_a_chain_that_only_doubt_keeps_open_asks_for_a_measurement() -> None:
    """A height of ± 0.055 holds a float of 0.11 if all is exact, and not with a play that is known to 0.03 only."""
    seat = dataclasses.replace(_seat(SECTOR, 0.80, 0.40, 0.04), gap_uncertainty=0.03e-3)
    found = choose_split(seats=[seat], stock=TRAY)
    assert found.unclosable is not None
    assert found.unclosable.closes_as_measured
    assert "Measure again" in found.unclosable.sentence


def test_a_play_too_small_for_its_float_blames_no_teeth() -> None:
    """One gear alone: seats and axle ends, not the mesh."""
    found = choose_split(seats=[_seat(SPUR, 0.02)], stock=TRAY)
    assert found.unclosable is not None
    assert "teeth" not in found.unclosable.sentence
    assert "axle's ends" in found.unclosable.sentence


def test_what_to_buy_completes_the_box() -> None:
    """With the bought shims in the tray the box can be shimmed; nothing is bought that is there."""
    stock = {0.50e-3: 1, 0.10e-3: 2}
    found = choose_split(seats=BOX, clearances=FACING, stock=stock)
    assert found.gears == ()
    assert found.buy
    assert len(found.gears_after_buying) == 3
    more = Counter(stock)
    more.update(found.buy)
    assert choose_split(seats=BOX, clearances=FACING, stock=more).gears


def test_shims_that_no_shop_sells_are_told_as_totals() -> None:
    """A height hardly wider than the float: 0.3575 to 0.3625 on the left could do, and shop shims make multiples of 0.05."""
    seat = dataclasses.replace(_seat(SECTOR, 0.79, 0.395, 0.0375), gap_uncertainty=0.0, float_band=(0.07e-3, 0.08e-3))
    found = choose_split(seats=[seat], stock={0.5e-3: 1}, most=4)
    assert found.gears == ()
    assert found.gears_after_buying == ()
    assert any("ground ones would" in note for note in found.notes)
    assert any("0.3575 mm to 0.3625 mm on the left face" in note for note in found.notes)


def test_a_measurement_that_cannot_be_true_is_named_with_its_gear() -> None:
    """More than any stack is meant for: rejected, nothing searched."""
    found = choose_split(seats=[_seat(SECTOR, 0.4), _seat(SPUR, 7.0)], stock=TRAY)
    assert found.rejected is not None
    assert found.rejected.startswith("Spur gear: ")
    assert found.gears == ()


@pytest.mark.parametrize(
    ("seats", "clearances", "field"),
    [
        ([], [], "seats"),
        ([_seat(SPUR, 0.4), _seat(SPUR, 0.5)], [], "seats"),
        ([_seat(SPUR, 0.4, 0.2)], [], "spur.height_tolerance"),
        ([_seat(SPUR, 0.4, None, 0.2)], [], "spur.height_tolerance"),
        ([_seat(SPUR, 0.4, 0.2, -0.1)], [], "spur.height_tolerance"),
        ([_seat(SPUR, 0.4)], [_facing(SPUR, SPUR, 0.1)], "clearances"),
        ([_seat(SPUR, 0.4)], [_facing(SPUR, BEVEL, 0.1)], "clearances"),
        (
            [_seat(SPUR, 0.4), _seat(BEVEL, 0.4)],
            [_facing(SPUR, BEVEL, 0.1, -0.1)],
            "clearance between spur and bevel gear, least",
        ),
    ],
)
def test_what_is_no_gear_train_is_refused(seats: list[GearSeat], clearances: list[GearClearance], field: str) -> None:
    """No gear, a gear twice, half a height, a clearance of one gear, a negative least clearance."""
    with pytest.raises(OutOfRange) as caught:
        choose_split(seats=seats, clearances=clearances, stock=TRAY)
    assert caught.value.field == field
    assert caught.value.hint or caught.value.limits


def test_the_work_is_small_for_a_usual_box_and_bounded_for_any() -> None:
    """Steps of the search; a tray of forty thicknesses and wide bands is broken off, and the answer says so."""
    assert choose_split(seats=BOX, clearances=FACING, stock=TRAY).nodes < MOST_NODES / 20
    wide = [dataclasses.replace(seat, float_band=(0.0, 0.5e-3), height=None, height_tolerance=None) for seat in BOX]
    found = choose_split(seats=wide, clearances=FACING, stock={(50 + 7 * k) * 1e-6: 3 for k in range(40)}, most=6)
    assert found.nodes < 2.5 * MOST_NODES
    assert not found.is_proved
    assert any("broken off" in note for note in found.notes)
