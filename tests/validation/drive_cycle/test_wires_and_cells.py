"""Leads and cells against tables."""

from __future__ import annotations

import pytest

from stripdown.core.drive_cycle import battery_open_circuit_voltage, wire_resistance
from tests.published import Published

FOOT = 0.3048


@pytest.mark.source("cirris_wire_table", "ohms per foot, solid", rtol=0.002, because="four figures")
@pytest.mark.parametrize(("gauge", "milliohms"), [(14, 2.525), (16, 4.016), (18, 6.385), (20, 10.15)])
def test_solid_wire(published: Published, gauge: int, milliohms: float) -> None:
    """A foot of each gauge."""
    published(f"gauge {gauge}, solid", found=wire_resistance(gauge=gauge, length=FOOT), expected=milliohms * 1e-3, unit="ohm")


@pytest.mark.source("awg_strand_table", "ohms per foot, seven strands", rtol=0.005, because="strands differ by maker")
@pytest.mark.parametrize(("gauge", "milliohms"), [(14, 2.624), (16, 4.172), (18, 6.636), (20, 10.54)])
def test_stranded_wire(published: Published, gauge: int, milliohms: float) -> None:
    """A foot of each gauge, seven strands."""
    found = wire_resistance(gauge=gauge, length=FOOT, stranded=True)
    published(f"gauge {gauge}, stranded", found=found, expected=milliohms * 1e-3, unit="ohm")


@pytest.mark.source("lipo_rest_table", "entries of the table", rtol=1e-9, because="they are the table")
@pytest.mark.parametrize(("charge", "volts"), [(1.0, 4.20), (0.8, 4.02), (0.5, 3.84), (0.2, 3.73), (0.05, 3.61), (0.0, 3.27)])
def test_cell_at_rest(published: Published, charge: float, volts: float) -> None:
    """One cell, and three in a row."""
    published(f"a cell at {charge:.0%}", found=battery_open_circuit_voltage(charge, cells=1), expected=volts, unit="V")
    published(f"three cells at {charge:.0%}", found=battery_open_circuit_voltage(charge, cells=3), expected=3 * volts, unit="V")


@pytest.mark.source("derived", "three cells, 6 mohm each, 0.30 m of stranded gauge 16, 20 A", rtol=0.001, because="four figures")
def test_sag_of_a_pack(published: Published) -> None:
    """What is left at the motor's end: 11.52 V less 0.44 V."""
    resistance = 3 * 6e-3 + wire_resistance(gauge=16, length=0.30, stranded=True)
    found = battery_open_circuit_voltage(0.5, cells=3) - 20.0 * resistance
    published("voltage under load", found=found, expected=11.08, unit="V")
