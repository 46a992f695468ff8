"""How the answers about strings are written: ranges, changes with their interval, chances, amounts of a fault."""

from __future__ import annotations

from collections.abc import Iterable

from stripdown.charts.wording import grams, joules, minus, speed_decimals
from stripdown.core.shot_statistics import Interval, StringConditions
from stripdown.quantities import Q
from stripdown.units import Scale, display_unit, from_si, show, show_number, unit_named

_LEAST_CHANCE = 0.001


def speed_unit(scale: Scale) -> str:
    """Unit in which speeds are written."""
    return display_unit("m/s", scale).name


def change_of_speed(change: float, interval: Interval, unit: str) -> tuple[str, str]:
    """Write a change of speed, and its interval."""
    shown, decimals = unit_named(unit).shown, speed_decimals(unit)
    ends = [_signed(from_si(value, unit), decimals) for value in (change, *interval)]
    return f"{ends[0]} {shown}", f"{ends[1]} to {ends[2]}"


def change_of_energy(change: float, interval: Interval) -> tuple[str, str]:
    """Write a change of energy, and its interval."""
    return f"{_signed(change, 2)} J", f"{_signed(interval.low, 2)} to {_signed(interval.high, 2)}"


def speed_range(interval: Interval, unit: str, *, with_unit: bool = True) -> str:
    """Write an interval of speeds."""
    low, high = (minus(f"{from_si(value, unit):.{speed_decimals(unit)}f}") for value in interval)
    return f"{low} to {high} {unit_named(unit).shown}" if with_unit else f"{low} to {high}"


def share_changed(share: float) -> str:
    """Write a change as a share of what was there before."""
    return f"{_signed(share * 100, 0)} %"


def chance(probability: float) -> str:
    """Write a chance, never as none and never as certain."""
    if probability < _LEAST_CHANCE:
        return "<0.1 %"
    if probability > 1.0 - _LEAST_CHANCE:
        return ">99.9 %"
    return f"{probability * 100:.{1 if probability < 0.1 or probability > 0.99 else 0}f} %"


def amount_of_fault(amount: float, quantity: Q, scale: Scale) -> str:
    """Write how much of a fault there is, to two figures."""
    return show(amount, quantity, scale, digits=2)


def range_of_fault(low: float, high: float, quantity: Q, scale: Scale) -> str:
    """Write between which amounts a fault lies, to two figures, the unit once."""
    first = show_number(from_si(low, display_unit(quantity, scale).name), 2)
    return f"{first} to {show(high, quantity, scale, digits=2)}"


def joules_with_reach(energy: float, standard_uncertainty: float) -> str:
    """Write an energy with twice its standard uncertainty."""
    return f"{energy:.2f} ± {max(2 * standard_uncertainty, 0.005):.2f} J"


def balls(masses: Iterable[float]) -> str:
    """Write masses of balls, the unit once."""
    return f"{', '.join(grams(mass).removesuffix(' g') for mass in masses)} g"


def fired_with(conditions: StringConditions) -> str:
    """Say with which ball and how a string was fired, as far as it was said."""
    parts = (
        "" if conditions.ball_mass is None else grams(conditions.ball_mass),
        "" if conditions.hop is None else f"hop-up {conditions.hop.value}",
        "" if conditions.fire_mode is None else conditions.fire_mode.value,
    )
    return ", ".join(part for part in parts if part)


def energy_or_dash(energy: float | None) -> str:
    """Write an energy, or that there is none to write."""
    return "–" if energy is None else joules(energy)


def _signed(number: float, decimals: int) -> str:
    text = f"{number:+.{decimals}f}"
    return minus(text) if float(text) else text[1:]
