from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from stripdown.catalogue.faults import load_faults
from stripdown.core.parts.cylinder import PortSlot
from stripdown.quantities import replace_at, value_at
from stripdown.studies.faulty_gun import fault_columns, fault_of, with_fault
from tests.fired_strings import HEAVY, LIGHT, muzzle_speeds, sound_parameters

FAULTS = load_faults()


@pytest.mark.parametrize("key", FAULTS)
def test_nothing_of_a_fault_changes_no_speed(key: str) -> None:
    """An amount of zero is the sound gun, for whatever the fault moves."""
    ill = with_fault(sound_parameters(), FAULTS[key], 0.0)
    assert muzzle_speeds(ill, [LIGHT]) == pytest.approx(muzzle_speeds(sound_parameters(), [LIGHT]), rel=1e-9)


@pytest.mark.parametrize("key", [key for key in FAULTS if key != "wrong_port"])
def test_an_ordinary_fault_costs_speed_with_any_ball(key: str) -> None:
    """Every fault of the catalogue makes the gun slower; a port may make one faster, which depends on the barrel."""
    ill = with_fault(sound_parameters(), FAULTS[key], FAULTS[key].ordinary)
    assert np.all(muzzle_speeds(ill, [LIGHT, HEAVY]) < muzzle_speeds(sound_parameters(), [LIGHT, HEAVY]))


def test_a_port_in_a_closed_cylinder_ends_where_its_amount_says() -> None:
    """The length that an absent slot has in the catalogue is without effect and does not count."""
    ill = with_fault(sound_parameters(), FAULTS["wrong_port"], 0.020)
    slot = ill.cylinder.port_3
    assert (slot.start, slot.count) == (0.0, 2)
    assert slot.length == pytest.approx(0.020)


def test_a_ported_cylinder_closes_later_by_the_amount() -> None:
    """The seal closes the port later than that of the right cylinder."""
    ported = replace_at(sound_parameters(), "cylinder.port_1", PortSlot(start=0.002, length=0.008, width=0.004, count=2))
    ill = with_fault(ported, FAULTS["wrong_port"], 0.005)
    assert ill.cylinder.port_3.length == pytest.approx(0.002 + 0.008 + 0.005)
    assert ill.cylinder.port_1 == ported.cylinder.port_1


def test_a_port_that_is_there_uses_up_what_is_ordinary() -> None:
    """Ordinary and largest are how far forward a port ends, not how much further; beside no port nothing changes."""
    fault = FAULTS["wrong_port"]
    assert fault_of(sound_parameters(), fault) is fault
    ported = replace_at(sound_parameters(), "cylinder.port_1", PortSlot(start=0.002, length=0.018, width=0.004, count=2))
    left = fault_of(ported, fault)
    assert (left.ordinary, left.largest) == pytest.approx((fault.ordinary - 0.020, fault.largest - 0.020))
    assert left.amount.high == left.largest
    assert fault_of(ported, FAULTS["seal_drag"]) is FAULTS["seal_drag"]


def test_a_short_stroke_moves_the_port_with_it() -> None:
    """The piston starts nearer to the head, so every slot lies nearer to the start; what lies behind it is cut off."""
    ported = replace_at(sound_parameters(), "cylinder.port_1", PortSlot(start=0.002, length=0.008, width=0.004, count=2))
    ill = with_fault(ported, FAULTS["short_stroke"], 0.005)
    assert ill.cylinder.stroke == pytest.approx(ported.cylinder.stroke - 0.005)
    assert ill.cylinder.port_1.start == 0.0
    assert ill.cylinder.port_1.start + ill.cylinder.port_1.length == pytest.approx(0.002 + 0.008 - 0.005)


@pytest.mark.parametrize("key", FAULTS)
def test_no_fault_leaves_what_is_possible(key: str) -> None:
    """Up to the largest amount every parameter stays within its declared limits, and the record can be checked."""
    fault = FAULTS[key]
    columns = fault_columns(sound_parameters(), fault, np.linspace(0.0, fault.largest, 5))
    quantities = {change.path for change in fault.changes}
    assert quantities <= set(columns)
    ill = with_fault(sound_parameters(), fault, fault.largest)
    changed = {
        field.name for field in dataclasses.fields(ill) if getattr(ill, field.name) != getattr(sound_parameters(), field.name)
    }
    assert changed == {change.path.partition(".")[0] for change in fault.changes}
    for path, column in columns.items():
        assert float(column[-1]) == pytest.approx(float(value_at(ill, path)))


def test_no_port_reaches_the_cylinder_head() -> None:
    """A port that ends far forward in a short cylinder is cut off at nine tenths of the stroke."""
    short = replace_at(sound_parameters(), "cylinder.stroke", 0.025)
    ill = with_fault(short, FAULTS["wrong_port"], FAULTS["wrong_port"].largest)
    assert ill.cylinder.port_3.length == pytest.approx(0.9 * 0.025)
