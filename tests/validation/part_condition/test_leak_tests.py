"""Timed and gauge tests against closed forms of the leak-testing literature, and the creeping law against its own integral."""

from __future__ import annotations

import math

import pytest

from stripdown.core.part_condition.gauge_leak import gauge_leak
from stripdown.core.part_condition.leak_found import find_leak
from stripdown.core.part_condition.leak_reading import creeping_over_orifice, orifice_flux
from stripdown.core.part_condition.timed_leak import timed_leak
from tests.published import Published

_AIR = 287.05
_AMBIENT = 101325.0


@pytest.mark.source(
    "leak_testing_pages",
    "pressure decay: 30 cm3 from 3.0 to 2.9 bar in 10 s",
    rtol=0.005,
    because="figures are rounded to three digits",
)
def test_a_hole_of_a_fortieth_of_a_millimetre(published: Published) -> None:
    """5.12e-4 mm2 of effective area."""
    [reading] = gauge_leak(times=[0.0, 10.0], overpressures=[3.0e5 - _AMBIENT, 2.9e5 - _AMBIENT], volume=30e-6)
    published("effective leak area", found=reading.leak_area * 1e6, expected=5.12e-4, unit="mm2")


@pytest.mark.source(
    "leak_testing_pages",
    "choked isothermal decay, p = p1 exp(-t/tau), tau = V / (0.0404 R CdA sqrt(T))",
    rtol=0.002,
    because="0.0404 is a rounded constant",
)
@pytest.mark.parametrize("area", [2e-10, 1e-8, 3e-7])
def test_choked_isothermal_decay_is_exponential(area: float, published: Published) -> None:
    """A log made from the closed form gives its area back, at both pressures, and is told to be a hole."""
    tau = 30e-6 / (0.0404 * _AIR * area * math.sqrt(293.15))
    times = [tau * part for part in (0.0, 0.3, 0.6, 0.9, 1.2)]
    overpressures = [8e5 * math.exp(-time / tau) - _AMBIENT for time in times]
    readings = gauge_leak(times=times, overpressures=overpressures, volume=30e-6, reading_uncertainty=200.0)
    for name, reading in zip(("upper", "lower"), readings, strict=True):
        published(f"{name} half of the fall", found=reading.leak_area, expected=area, unit="m2")
    found = find_leak(readings=readings)
    published("leak in the shot", found=found.leak_area, expected=area, unit="m2", rtol=0.01)


@pytest.mark.source(
    "leak_testing_pages",
    "choked flow 0.0404 CdA p / sqrt(T), swept by the piston",
    rtol=0.002,
    because="0.0404 is a rounded constant",
)
def test_a_choked_timed_test_does_not_depend_on_its_load(published: Published) -> None:
    """Mass swept, p A s/(R T), over choked flow: the pressure cancels."""
    bore, way, time = 0.0238, 0.03, 2.0
    expected = 0.25 * math.pi * bore**2 * way / (time * 0.0404 * _AIR * math.sqrt(293.15))
    for load in (60.0, 120.0, 240.0):
        reading = timed_leak(load=load, distance=way, duration=time, bore=bore, drag=0.0)
        published(f"leak area under {load:g} N", found=reading.leak_area, expected=expected, unit="m2")


@pytest.mark.source(
    "derived", "Poiseuille's law for a slot, integrated along it step by step", rtol=1e-3, because="one digit less than mu's"
)
@pytest.mark.parametrize("pressure", [1.1e5, 1.5e5, 3e5, 6e5])
def test_creeping_flow_through_a_slot(pressure: float, published: Published) -> None:
    """Mass flow through a slot of width w: rho c3 dp/dx /(12 mu) is the same at every place; isothermal, so rho goes as p."""
    height, length, temperature = 5e-6, 2e-3, 293.15
    viscosity = 1.813e-5  # of air at 20 degC and 1 atm, handbooks
    steps = 2000
    # m' = c^3/(12 mu R T) p dp/dx: integrate p dp from outside to inside by the midpoint rule, divide by the length.
    rise = (pressure - _AMBIENT) / steps
    integral = sum((_AMBIENT + (step + 0.5) * rise) * rise for step in range(steps))
    flow = height**3 / (12.0 * viscosity * _AIR * temperature) * integral / length  # per width
    ideal = orifice_flux(pressure=pressure, temperature=temperature, ambient_pressure=_AMBIENT) * height
    law = creeping_over_orifice(pressure=pressure, temperature=temperature, ambient_pressure=_AMBIENT) * height**2 / length
    published(f"creeping over ideal flow at {pressure / 1e5:g} bar", found=law, expected=flow / ideal, unit="1")
