"""Timed test: how long does a known load take to push the piston a known way against its leak?"""

from __future__ import annotations

import math
from typing import Final

from stripdown.core.constants import AIR_GAS_CONSTANT, STANDARD_ATMOSPHERE
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.leak_reading import LeakReading, orifice_flux
from stripdown.core.part_condition.parameters import (
    AIR_LEFT,
    AMBIENT,
    BORE,
    DISTANCE,
    DRAG,
    DRAG_UNCERTAINTY,
    DURATION,
    LOAD,
    TEMPERATURE,
    TIME_UNCERTAINTY,
)
from stripdown.errors import OutOfRange
from stripdown.quantities import check_value

LOAD_OVER_DRAG: Final = 3.0  # common practice, no source: a sticky ring holds a small load by its drag alone
_PANELS: Final = 200
BASIS: Final = Basis(
    footing="derived",
    place="air leaves at the rate at which the piston sweeps it, through an ideal hole under load less drag over bore area",
    holds_for="Slow, even travel, so that the air stays at room temperature; timed after the load has settled on the air.",
    caution="It can lie both ways: a vented head bleeds by design when pushed slowly, and a sticky ring holds under its own "
    "drag. Eyes and fingers clear of the piston; no battery connected.",
)


def timed_leak(
    *,
    load: float,
    distance: float,
    duration: float,
    bore: float,
    drag: float,
    load_at_end: float | None = None,
    trapped_length: float | None = None,
    drag_uncertainty: float = 1.0,
    duration_uncertainty: float = 0.2,
    ambient_pressure: float = STANDARD_ATMOSPHERE,
    temperature: float = 293.15,
) -> LeakReading:
    """Effective leak area from a piston that a load pushes slowly against trapped air.

    Parameters
    ----------
    load
        Force on the piston at the start of the timed way in N: a weight's, or the spring's.
    distance
        Way of the piston that was timed, in m.
    duration
        Time for it in s.
    bore
        Of the cylinder in m.
    drag
        Force that moves the piston with the outlet open, in N.
    load_at_end
        Force of a spring at the end of the way in N; None for a weight, which stays the same.
    trapped_length
        Length of the air between ring and head at the start in m; needed with a spring only.
    drag_uncertainty
        Standard uncertainty of the drag in N.
    duration_uncertainty
        Standard uncertainty of the time in s.
    ambient_pressure
        Air pressure outside in Pa.
    temperature
        Of air and gun in K.

    Returns
    -------
    LeakReading
        Area in m2 of the ideal hole that would do it, at the mean pressure of the test.

    Raises
    ------
    OutOfRange
        For an impossible value, a load that the drag alone holds, or a way longer than the trapped air.

    Notes
    -----
    ``area t = ∫ dm / flux(p)`` with ``dm = d(p V) / (R T)`` and ``p = pa + (load - drag) / A``: for a weight
    ``area = p A s / (R T t flux(p))``. Drag acts against the load as the piston sinks. Isothermal. Derived here.
    """
    for name, value, quantity in (
        ("load", load, LOAD),
        ("distance", distance, DISTANCE),
        ("duration", duration, DURATION),
        ("bore", bore, BORE),
        ("drag", drag, DRAG),
        ("drag_uncertainty", drag_uncertainty, DRAG_UNCERTAINTY),
        ("duration_uncertainty", duration_uncertainty, TIME_UNCERTAINTY),
        ("ambient_pressure", ambient_pressure, AMBIENT),
        ("temperature", temperature, TEMPERATURE),
    ):
        check_value(name, value, quantity)
    last = _load_at_end(load, load_at_end)
    left = _trapped(distance, trapped_length, spring=load_at_end is not None)
    smaller = min(load, last)
    if smaller <= drag:
        raise OutOfRange(
            f"load = {smaller:g} N does not exceed the drag of {drag:g} N: the ring holds it without any seal.",
            field="load",
            value=smaller,
            unit="N",
            limits=(drag, None),
            hint=f"Take at least {LOAD_OVER_DRAG:g} times the drag.",
        )
    pressing = 0.25 * math.pi * bore**2

    def area(held_back: float) -> float:
        ends = (ambient_pressure + (load - held_back) / pressing, ambient_pressure + (last - held_back) / pressing)
        lost = _area_times_time(ends, distance, left, temperature, ambient_pressure)
        return lost * pressing / duration

    found = area(drag)
    step = min(drag_uncertainty, 0.5 * (smaller - drag))
    by_drag = abs(area(drag + step) - area(drag - step)) / 2.0 * (drag_uncertainty / step) if step > 0.0 else 0.0
    by_time = found * duration_uncertainty / duration
    return LeakReading(
        how="timed test",
        leak_area=found,
        standard_uncertainty=math.hypot(by_drag, by_time),
        shared_relative_uncertainty=0.0,
        pressure=ambient_pressure + (0.5 * (load + last) - drag) / pressing,
        ambient_pressure=ambient_pressure,
        temperature=temperature,
        notes=_notes(smaller, drag),
        basis=BASIS,
    )


def _load_at_end(load: float, load_at_end: float | None) -> float:
    if load_at_end is None:
        return load
    check_value("load_at_end", load_at_end, LOAD)
    if load_at_end > load:
        raise OutOfRange(
            f"load_at_end = {load_at_end:g} N is above load = {load:g} N: a spring pushes less as it relaxes.",
            field="load_at_end",
            value=load_at_end,
            unit="N",
            limits=(0.0, load),
            hint="Give the larger force first.",
        )
    return load_at_end


def _trapped(distance: float, trapped_length: float | None, *, spring: bool) -> float:
    """Length of air at the start; a weight keeps the pressure, so that any length does."""
    if trapped_length is None and spring:
        raise OutOfRange(
            "trapped_length is missing: with a spring the pressure falls, and what the trapped air gives off counts too.",
            field="trapped_length",
            hint="Give the length between ring and cylinder head at the start of the timed way.",
        )
    if trapped_length is None:
        return distance
    check_value("trapped_length", trapped_length, AIR_LEFT)
    if distance > trapped_length:
        raise OutOfRange(
            f"distance = {distance * 1e3:g} mm is longer than the trapped air, {trapped_length * 1e3:g} mm.",
            field="distance",
            value=distance,
            unit="m",
            limits=(0.0, trapped_length),
            hint="The piston cannot pass the cylinder head.",
        )
    return trapped_length


def _area_times_time(
    ends: tuple[float, float], distance: float, left: float, temperature: float, ambient_pressure: float
) -> float:
    """Leak area times time over bore area, in s: what left the trapped air over what an ideal hole passes, along the way."""
    first, last = ends
    total = 0.0
    for panel in range(_PANELS):  # midpoints: both pressure and length are straight lines of the way
        part = (panel + 0.5) / _PANELS
        pressure = first + (last - first) * part
        lost = pressure * distance + (first - last) * (left - distance * part)
        flux = orifice_flux(pressure=pressure, temperature=temperature, ambient_pressure=ambient_pressure)
        total += lost / flux
    return total / (_PANELS * AIR_GAS_CONSTANT * temperature)


def _notes(load: float, drag: float) -> tuple[str, ...]:
    if load >= LOAD_OVER_DRAG * drag:
        return ()
    return (f"The load is less than {LOAD_OVER_DRAG:g} times the drag: a sticky ring holds it by itself. Use a larger one.",)
