"""Print SI values in the units of the workshop."""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from stripdown.quantities import Q
from stripdown.units.table import Unit, from_si, unit_named, with_unit

Scale = Literal["metric", "imperial"]

# A gun's parts are metric all over the world, balls are sold in grams, limits are set in joules, and spring scales in
# workshops read newtons: the imperial scale changes only what is read off the chronograph and out of doors.
_IMPERIAL: Mapping[str, str] = MappingProxyType({"m/s": "ft/s", "m": "ft", "degC": "degF", "K": "degF", "bar": "psi"})


_OF_A_RANGE = 4  # figures that the ends of a range are told with: in another unit than their own they would have six


def display_unit(quantity: Q | str, scale: Scale = "metric") -> Unit:
    """Unit in which a quantity is printed."""
    name = quantity.workshop_unit if isinstance(quantity, Q) else quantity
    return unit_named(_IMPERIAL.get(name, name) if scale == "imperial" else name)


def show(value: float, quantity: Q | str, scale: Scale = "metric", digits: int | None = None, *, difference: bool = False) -> str:
    """Print an SI value in the units of the workshop."""
    unit = display_unit(quantity, scale)
    return with_unit(show_number(from_si(value, unit.name, difference=difference), digits), unit.shown)


def show_range(low: float, high: float, quantity: Q | str, scale: Scale = "metric") -> str:
    """Print two SI values with their unit once."""
    unit = display_unit(quantity, scale)
    first, last = (show_number(float(f"{from_si(end, unit.name):.{_OF_A_RANGE}g}")) for end in (low, high))
    return f"{first} to {with_unit(last, unit.shown)}"


def show_number(number: float, digits: int | None = None) -> str:
    """Print a number without an exponent as long as that stays readable."""
    if not math.isfinite(number):
        return str(number)
    wanted = 6 if digits is None else digits
    rounded = float(f"{number:.{wanted - 1}e}")
    if rounded == 0:
        return "0" if digits is None else f"{0:.{wanted - 1}f}"
    exponent = math.floor(math.log10(abs(rounded)))
    if not -5 <= exponent <= 8:  # beyond these, zeros can no longer be counted at a glance
        return f"{rounded:.{wanted - 1}e}" if digits is not None else f"{rounded:.6g}"
    text = f"{rounded:.{max(wanted - 1 - exponent, 0)}f}"
    return text.rstrip("0").rstrip(".") if digits is None and "." in text else text
