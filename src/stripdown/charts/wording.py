"""How numbers are written on pictures and in the terminal: joules, per cent, ball masses, speeds."""

from __future__ import annotations

import re

from stripdown.quantities import Q
from stripdown.units import display_unit, from_si, show_number, unit_named

_HALF_A_HUNDREDTH = 0.005
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


def part(path: str, label: str) -> str:
    """Name a dimension so that those of several ports stay apart."""
    ring = re.search(r"\bport_(\d)\b", path)
    return f"{label} (port {ring[1]})" if ring else label


def minus(number: str) -> str:
    """Give a number the sign that is as wide as a plus."""
    return number.replace("-", "−")
