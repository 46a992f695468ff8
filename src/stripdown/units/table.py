"""The table: each SI unit with the short list of units that may be typed or printed for it."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from stripdown.errors import UnitError
from stripdown.quantities import Q


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit that may be typed or printed; SI value = (number + offset) x factor."""

    si: str
    name: str
    factor: Fraction
    symbol: str = ""
    also: tuple[str, ...] = ()
    offset: Fraction = Fraction(0)

    @property
    def shown(self) -> str:
        """Spelling for people."""
        return self.symbol or self.name

    @property
    def spellings(self) -> tuple[str, ...]:
        """All spellings that are read."""
        return (self.name, *self.also)


def _u(si: str, name: str, factor: str | Fraction, symbol: str = "", also: tuple[str, ...] = ()) -> Unit:
    return Unit(si, name, Fraction(factor), symbol, also)


_INCH = Fraction("0.0254")  # exact: international yard and pound agreement of 1959
_POUND_FORCE = Fraction("4.4482216152605")  # exact: 0.45359237 kg under standard gravity, 9.80665 m/s2
_TURN = Fraction(2 * math.pi)

# One row per unit, the SI unit first. The grain is left out on purpose: "gr" is also written for the gram.
_TABLE = (
    _u("m", "m", "1"),
    _u("m", "cm", "0.01"),
    _u("m", "mm", "0.001"),
    _u("m", "um", "0.000001", "µm"),
    _u("m", "in", _INCH, also=("inch",)),
    _u("m", "thou", _INCH / 1000),
    _u("m", "ft", 12 * _INCH),
    _u("m", "yd", 36 * _INCH),
    _u("kg", "kg", "1"),
    _u("kg", "g", "0.001"),
    _u("kg", "mg", "0.000001"),
    _u("kg", "oz", "0.028349523125"),
    _u("s", "s", "1"),
    _u("s", "ms", "0.001"),
    _u("s", "us", "0.000001", "µs"),
    _u("s", "min", "60"),
    _u("s", "h", "3600"),
    _u("N", "N", "1"),
    _u("N", "lbf", _POUND_FORCE),
    _u("N", "kgf", "9.80665"),
    _u("N", "gf", "0.00980665"),
    _u("N m", "N m", "1", also=("Nm",)),
    _u("N m", "N cm", "0.01", also=("Ncm",)),
    _u("N m", "mN m", "0.001", also=("mNm",)),
    _u("N m", "kgf cm", "0.0980665"),
    _u("N m", "lbf in", _INCH * _POUND_FORCE, also=("in lbf",)),
    _u("N/m", "N/m", "1"),
    _u("N/m", "N/cm", "100"),
    _u("N/m", "N/mm", "1000"),
    _u("N/m", "lbf/in", _POUND_FORCE / _INCH),
    _u("N/m", "kgf/mm", "9806.65"),
    _u("m2", "m2", "1", "m²"),
    _u("m2", "cm2", "0.0001", "cm²"),
    _u("m2", "mm2", "0.000001", "mm²"),
    _u("m2", "in2", _INCH**2, "in²"),
    _u("m3", "m3", "1", "m³"),
    _u("m3", "cm3", "0.000001", "cm³", ("ml", "mL", "cc")),
    _u("m3", "mm3", "0.000000001", "mm³"),
    _u("m3", "l", "0.001", also=("L",)),
    _u("m3", "in3", _INCH**3, "in³"),
    _u("K", "K", "1"),
    Unit("K", "degC", Fraction(1), "°C", offset=Fraction("273.15")),
    Unit("K", "degF", Fraction("5/9"), "°F", offset=Fraction("459.67")),
    _u("Pa", "Pa", "1"),
    _u("Pa", "hPa", "100"),
    _u("Pa", "kPa", "1000"),
    _u("Pa", "MPa", "1000000"),
    _u("Pa", "GPa", "1000000000"),
    _u("Pa", "N/mm2", "1000000", "N/mm²"),
    _u("Pa", "mbar", "100"),
    _u("Pa", "bar", "100000"),
    _u("Pa", "atm", "101325"),
    _u("Pa", "psi", _POUND_FORCE / _INCH**2, also=("lbf/in2",)),
    _u("J", "J", "1"),
    _u("J", "mJ", "0.001"),
    _u("J", "ft lbf", 12 * _INCH * _POUND_FORCE, also=("lbf ft",)),
    _u("J/m2", "J/m2", "1", "J/m²"),
    _u("J/m2", "J/cm2", "10000", "J/cm²"),
    _u("J/m2", "J/mm2", "1000000", "J/mm²"),
    _u("m/s", "m/s", "1"),
    _u("m/s", "km/h", "5/18"),
    _u("m/s", "ft/s", 12 * _INCH, also=("fps",)),
    _u("m/s", "mph", "0.44704"),
    _u("rad/s", "rad/s", "1"),
    _u("rad/s", "rpm", _TURN / 60, also=("1/min",)),
    _u("rad/s", "rev/s", _TURN, also=("rps",)),
    _u("rad/s", "deg/s", _TURN / 360, "°/s"),
    _u("rad", "rad", "1"),
    _u("rad", "mrad", "0.001"),
    _u("rad", "deg", _TURN / 360, "°"),
    _u("rad", "rev", _TURN),
    _u("J/(kg K)", "J/(kg K)", "1"),
    _u("J/(kg K)", "kJ/(kg K)", "1000"),
    _u("1", "", "1"),
    _u("1", "%", "0.01"),
)

KINDS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "m": ("a length", "23.8 mm"),
        "kg": ("a mass", "0.20 g"),
        "s": ("a time", "12 ms"),
        "N": ("a force", "4 N"),
        "N m": ("a torque", "0.6 N m"),
        "N/m": ("a force per length", "520 N/m"),
        "m2": ("an area", "1.2 mm2"),
        "m3": ("a volume", "0.5 cm3"),
        "K": ("a temperature", "20 degC"),
        "Pa": ("a pressure", "1013 hPa"),
        "J": ("an energy", "1.0 J"),
        "J/m2": ("an energy per area", "3.5 J/cm2"),
        "m/s": ("a speed", "98 m/s"),
        "rad/s": ("a speed of rotation", "28000 rpm"),
        "rad": ("an angle", "30 deg"),
        "J/(kg K)": ("a heat per mass and temperature", "287 J/(kg K)"),
        "1": ("a pure number", "0.8"),
    }
)
"""By SI unit: what the kind is called, and what one would type for it."""

ALL_UNITS: Mapping[str, Unit] = MappingProxyType({spelling: unit for unit in _TABLE for spelling in unit.spellings})
"""Units by every spelling that is read."""

_BY_KIND: Mapping[str, tuple[Unit, ...]] = MappingProxyType({si: tuple(unit for unit in _TABLE if unit.si == si) for si in KINDS})
_SPELLINGS = str.maketrans({"²": "2", "³": "3", "^": "", "\u00b5": "u", "\u03bc": "u", "·": " ", "⋅": " ", "*": " ", "°": "deg"})


def unit_named(name: str) -> Unit:
    """Find a unit by any spelling that is read."""
    wanted = "" if name == "1" else plain_spelling(name)
    found = ALL_UNITS.get(wanted)
    if found is None:
        raise UnitError(f'"{name}" is not a unit that is read here.', value=name, hint=nearest_spelling(wanted, _TABLE))
    return found


def units_for(quantity: Q | str) -> tuple[Unit, ...]:
    """All units that may be typed for a quantity, the SI unit first."""
    si_unit = quantity.unit if isinstance(quantity, Q) else quantity
    try:
        return _BY_KIND[si_unit]
    except KeyError:
        message = f"no units are listed for the SI unit {si_unit!r}"
        raise LookupError(message) from None


def from_si(value: float, unit: str, *, difference: bool = False) -> float:
    """Turn an SI value into a number of some unit."""
    found = unit_named(unit)
    return value / float(found.factor) - (0.0 if difference else float(found.offset))


def to_si(number: float, unit: str, *, difference: bool = False) -> float:
    """Turn a number of some unit into SI."""
    found = unit_named(unit)
    return (number + (0.0 if difference else float(found.offset))) * float(found.factor)


def plain_spelling(unit: str) -> str:
    """Bring the spellings of one unit together: superscripts, micro signs, products, degrees."""
    return " ".join(unit.translate(_SPELLINGS).split())


def nearest_spelling(typed: str, units: Iterable[Unit]) -> str:
    """Offer the unit that was probably meant."""
    names = [spelling for unit in units for spelling in unit.spellings if spelling]
    same_letters = [name for name in names if name.lower() in (typed.lower(), f"deg{typed.lower()}")]
    near = same_letters or difflib.get_close_matches(typed, names)
    as_like = [name for name in near if name[:1] == typed[:1]] or near  # of several as like, the one that begins alike
    return f'Did you mean "{as_like[0]}"?' if near else ""


def with_unit(number: str, spelling: str) -> str:
    """Join a number and its unit."""
    return number + ("" if spelling in ("", "°") else " ") + spelling
