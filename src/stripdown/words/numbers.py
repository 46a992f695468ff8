"""How numbers are written, wherever they stand: joules, shares, masses, speeds, intervals, chances, shims, bands."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import TYPE_CHECKING

from stripdown.quantities import Q
from stripdown.units import Scale, display_unit, from_si, show, show_number, unit_named

if TYPE_CHECKING:
    from stripdown.core.part_condition.band import Band
    from stripdown.core.shot_statistics import Interval, StringConditions

_HALF_A_HUNDREDTH = 0.005
_LEAST_CHANCE = 0.001
_SPEED_DECIMALS = {"m/s": 1, "ft/s": 0}


def joules(energy: float) -> str:
    """Write an energy to hundredths of a joule, never as a misleading zero."""
    if 0 < abs(energy) < _HALF_A_HUNDREDTH:
        return "<0.01 J"
    return f"{minus(f'{energy:.2f}')} J"


def joules_gained(energy: float) -> str:
    """Write a difference of energies with its sign."""
    return "0" if abs(energy) < _HALF_A_HUNDREDTH else f"{minus(f'{energy:+.2f}')} J"


def per_cent(share: float | None) -> str:
    """Write a share, empty if there is none."""
    if share is None:
        return ""
    return "<1 %" if 0 < abs(share) < _HALF_A_HUNDREDTH else f"{minus(f'{share * 100:.0f}')} %"


def grams(mass: float) -> str:
    """Write the mass of a ball as it stands on its bag: two decimals, a third only if it has one."""
    text = f"{mass * 1e3:.3f}"
    return f"{text.removesuffix('0')} g"


def speed(value: float, unit: str) -> str:
    """Write a speed to what a chronograph shows."""
    return f"{minus(f'{from_si(value, unit):.{speed_decimals(unit)}f}')} {unit_named(unit).shown}"


def slow(value: float, unit: str) -> str:
    """Write the speed of a piston, which is a few metres per second, to a tenth."""
    return f"{minus(f'{from_si(value, unit):.1f}')} {unit_named(unit).shown}"


def speed_decimals(unit: str) -> int:
    """How many decimals of a speed mean something to a reader."""
    return _SPEED_DECIMALS.get(unit, 1)


def toleranced(value: float, step: float, quantity: Q) -> str:
    """Write a value with its tolerance in one workshop unit."""
    unit = display_unit(quantity)
    middle = show_number(float(f"{from_si(value, unit.name):.4g}"))
    width = show_number(float(f"{from_si(step, unit.name, difference=True):.2g}"))
    return f"{middle} ± {width} {unit.shown}".rstrip()


def dimension_name(path: str, label: str) -> str:
    """Name a dimension so that those of several ports stay apart."""
    ring = re.search(r"\bport_(\d)\b", path)
    return f"{label} (port {ring[1]})" if ring else label


def minus(number: str) -> str:
    """Give a number the sign that is as wide as a plus."""
    return number.replace("-", "−")


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


def share_changed_to_a_tenth(share: float) -> str:
    """Write a small change as a share of what was there before, to a tenth."""
    return f"{minus(f'{share * 100:+.1f}')} %"


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


def micrometred(length: float) -> str:
    """Write a length as a micrometer reads it."""
    return f"{bare_millimetres(length)} mm"


def bare_millimetres(length: float) -> str:
    """Write a length in mm without its unit, to a micrometre, and to a hundredth if that is all."""
    return minus(f"{length * 1e3:.3f}".removesuffix("0"))


def shims_listed(thicknesses: Iterable[float]) -> str:
    """Write down the shims of one face."""
    found = list(thicknesses)
    return f"{' + '.join(map(bare_millimetres, found))} mm" if found else "no shim"


def share(value: float) -> str:
    """Write a fraction in per cent, to a tenth."""
    return minus(f"{value * 100:.1f}".removesuffix(".0")) + " %"


def ends(band: Band) -> str:
    """Write from where to where a figure is good."""
    if band.low is None:
        return f"up to {share(band.high or 0.0)}"
    return f"{band.low * 100:.0f} to {share(band.high or 0.0)}"
