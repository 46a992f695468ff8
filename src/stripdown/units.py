"""One strict table of units: read what was typed, print in the units of the workshop.

Numbers inside are SI floats; only here do they meet text. Each SI unit has its own short list of units that may be
typed for it; anything else is refused with what would be right. A decimal comma is understood, a thousands comma
never: whatever could be read in two ways is refused.
"""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

from stripdown.errors import UnitError
from stripdown.quantities import Q

Scale = Literal["metric", "imperial"]


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit that may be typed or printed; SI value = (number + offset) x factor.

    Parameters
    ----------
    si
        SI unit of its kind.
    name
        Plain spelling, as in the gun file and in declarations (``"mm2"``); empty for a pure number.
    factor
        SI units in one of it, exact.
    symbol
        Spelling for people (``"mm²"``); the name when empty.
    also
        Other spellings that are read.
    offset
        What is added before multiplying; zero except for temperatures.
    """

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
    _u("m/s", "m/s", "1"),
    _u("m/s", "km/h", "5/18"),
    _u("m/s", "ft/s", 12 * _INCH, also=("fps",)),
    _u("m/s", "mph", "0.44704"),
    _u("rad/s", "rad/s", "1"),
    _u("rad/s", "rpm", _TURN / 60, also=("1/min",)),
    _u("rad/s", "rev/s", _TURN),
    _u("rad/s", "deg/s", _TURN / 360, "°/s"),
    _u("rad", "rad", "1"),
    _u("rad", "deg", _TURN / 360, "°"),
    _u("rad", "rev", _TURN),
    _u("J/(kg K)", "J/(kg K)", "1"),
    _u("J/(kg K)", "kJ/(kg K)", "1000"),
    _u("1", "", "1"),
    _u("1", "%", "0.01"),
)

# What each kind is called, and what one would type for it.
_KINDS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "m": ("a length", "23.8 mm"),
        "kg": ("a mass", "0.20 g"),
        "s": ("a time", "12 ms"),
        "N": ("a force", "4 N"),
        "N/m": ("a force per length", "520 N/m"),
        "m2": ("an area", "1.2 mm2"),
        "m3": ("a volume", "0.5 cm3"),
        "K": ("a temperature", "20 degC"),
        "Pa": ("a pressure", "1013 hPa"),
        "J": ("an energy", "1.0 J"),
        "m/s": ("a speed", "98 m/s"),
        "rad/s": ("a speed of rotation", "28000 rpm"),
        "rad": ("an angle", "30 deg"),
        "J/(kg K)": ("a heat per mass and temperature", "287 J/(kg K)"),
        "1": ("a pure number", "0.8"),
    }
)
_ALL: Mapping[str, Unit] = MappingProxyType({spelling: unit for unit in _TABLE for spelling in unit.spellings})
_BY_KIND: Mapping[str, tuple[Unit, ...]] = MappingProxyType(
    {si: tuple(unit for unit in _TABLE if unit.si == si) for si in _KINDS}
)

# A gun's parts are metric all over the world, balls are sold in grams and limits are set in joules: the imperial
# scale changes only what is read off instruments and out of doors.
_IMPERIAL: Mapping[str, str] = MappingProxyType(
    {"m/s": "ft/s", "m": "ft", "degC": "degF", "K": "degF", "bar": "psi", "N": "lbf", "N/m": "lbf/in"}
)

_LONGEST = 60  # characters; nothing that a person types for one value is longer
_TYPED = re.compile(
    r"(?P<sign>[+\-\u2212]?)(?P<whole>[0-9]*)(?:(?P<mark>[.,])(?P<part>[0-9]*))?(?P<power>[eE][+-]?[0-9]{1,2})?(?P<unit>[^0-9.,].*)?"
)
_GROUP = 3  # digits parted by a comma for thousands


@dataclass(frozen=True, slots=True)
class Understood:
    """A typed value as it was understood.

    Parameters
    ----------
    value
        The number in SI.
    text
        The same in plain spelling and in the unit that was typed (``"1.2 mm"``).
    reworded
        Whether the spelling could have meant something else to another reader: a decimal comma was typed.
    """

    value: float
    text: str
    reworded: bool


def parse(
    typed: str, quantity: Q | str, *, bare_unit: str | None = None, difference: bool = False, field: str | None = None
) -> float:
    """Read a number with its unit into SI.

    Parameters
    ----------
    typed
        What was typed: ``"23.8 mm"``, ``"23,8mm"``, ``"20 °C"``.
    quantity
        Declaration, or SI unit, of what is wanted.
    bare_unit
        Unit that a number without one takes; None refuses such a number (unless a pure number is wanted).
    difference
        True for a tolerance or an uncertainty: a degree then counts as a step, without its zero.
    field
        Name of the field, for the message.

    Returns
    -------
    float
        Value in the SI unit of `quantity`.

    Raises
    ------
    UnitError
        With what would be right.
    """
    return understand(typed, quantity, bare_unit=bare_unit, difference=difference, field=field).value


def understand(
    typed: str, quantity: Q | str, *, bare_unit: str | None = None, difference: bool = False, field: str | None = None
) -> Understood:
    """Read a number with its unit, and say how it was understood.

    Parameters
    ----------
    typed
        What was typed.
    quantity, bare_unit, difference, field
        As for `parse`.

    Returns
    -------
    Understood
        Value in SI, and the plain spelling of what was typed.

    Raises
    ------
    UnitError
        With what would be right.
    """
    si_unit = _si_unit(quantity)
    allowed = _units_of_kind(si_unit)
    complain = _Complaint(typed, si_unit, field)
    found = _TYPED.fullmatch(typed.strip()) if len(typed) <= _LONGEST else None
    if found is None or not (found["whole"] or found["part"]):
        raise complain.because("is not a number with a unit.")
    sign, whole, part, power = (
        ("-" if found["sign"] in ("-", "\u2212") else ""),
        found["whole"],
        found["part"],
        found["power"] or "",
    )
    if found["mark"] == "," and len(part) == _GROUP and whole.strip("0"):
        either = f'Write "{whole}.{part}" if the comma is a decimal sign, "{whole}{part}" if it parts thousands.'
        raise complain.because("can be read in two ways.", either)
    unit = _unit_typed(_plain(found["unit"] or ""), allowed, bare_unit, complain)
    number = f"{sign}{whole or '0'}{'.' + part if part else ''}{power}"
    value = float((Fraction(number) + (0 if difference else unit.offset)) * unit.factor)
    return Understood(value, f"{number}{_gap(unit.name)}{unit.name}", reworded=found["mark"] == ",")


def from_si(value: float, unit: str, *, difference: bool = False) -> float:
    """Turn an SI value into a number of some unit.

    Parameters
    ----------
    value
        In the SI unit of the same kind.
    unit
        Plain name of the unit, ``"1"`` for a pure number.
    difference
        True for a step of temperature.

    Returns
    -------
    float

    Raises
    ------
    UnitError
        If there is no such unit in the table.
    """
    found = unit_named(unit)
    return value / float(found.factor) - (0.0 if difference else float(found.offset))


def to_si(number: float, unit: str, *, difference: bool = False) -> float:
    """Turn a number of some unit into SI.

    Parameters
    ----------
    number
        In `unit`.
    unit
        Plain name of the unit, ``"1"`` for a pure number.
    difference
        True for a step of temperature.

    Returns
    -------
    float

    Raises
    ------
    UnitError
        If there is no such unit in the table.
    """
    found = unit_named(unit)
    return (number + (0.0 if difference else float(found.offset))) * float(found.factor)


def unit_named(name: str) -> Unit:
    """Find a unit by any spelling that is read.

    Parameters
    ----------
    name
        Spelling, ``"1"`` or empty for a pure number.

    Returns
    -------
    Unit

    Raises
    ------
    UnitError
        If there is no such unit in the table.
    """
    wanted = "" if name == "1" else _plain(name)
    found = _ALL.get(wanted)
    if found is None:
        raise UnitError(f'"{name}" is not a unit that is read here.', value=name, hint=_nearest(wanted, _ALL))
    return found


def units_for(quantity: Q | str) -> tuple[str, ...]:
    """Names of all units that may be typed for a quantity, the SI unit first.

    Parameters
    ----------
    quantity
        Declaration or SI unit.

    Returns
    -------
    tuple of str
    """
    return tuple(unit.name for unit in _units_of_kind(_si_unit(quantity)))


def display_unit(quantity: Q | str, scale: Scale = "metric") -> Unit:
    """Unit in which a quantity is printed.

    Parameters
    ----------
    quantity
        Declaration, or the unit in which the workshop writes it.
    scale
        ``"metric"`` or ``"imperial"``.

    Returns
    -------
    Unit
    """
    name = quantity.workshop_unit if isinstance(quantity, Q) else quantity
    return unit_named(_IMPERIAL.get(name, name) if scale == "imperial" else name)


def show(value: float, quantity: Q | str, scale: Scale = "metric", digits: int | None = None, *, difference: bool = False) -> str:
    """Print an SI value in the units of the workshop.

    Parameters
    ----------
    value
        SI.
    quantity
        Declaration, or the unit in which the workshop writes it.
    scale
        ``"metric"`` or ``"imperial"``.
    digits
        Significant digits, zeros kept; None prints up to six without trailing zeros.
    difference
        True for a tolerance, an uncertainty or a step of temperature.

    Returns
    -------
    str
        Such as ``"23.8 mm"``.
    """
    unit = display_unit(quantity, scale)
    return f"{show_number(from_si(value, unit.name, difference=difference), digits)}{_gap(unit.shown)}{unit.shown}"


def show_number(number: float, digits: int | None = None) -> str:
    """Print a number without an exponent as long as that stays readable.

    Parameters
    ----------
    number
        Any number.
    digits
        Significant digits, zeros kept; None prints up to six without trailing zeros.

    Returns
    -------
    str
    """
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


_SPELLINGS = str.maketrans({"²": "2", "³": "3", "^": "", "\u00b5": "u", "\u03bc": "u", "·": " ", "⋅": " ", "*": " ", "°": "deg"})


def _plain(unit: str) -> str:
    """Bring the spellings of one unit together: superscripts, micro signs, products, degrees."""
    return " ".join(unit.translate(_SPELLINGS).split())


def _si_unit(quantity: Q | str) -> str:
    return quantity.unit if isinstance(quantity, Q) else quantity


def _units_of_kind(si_unit: str) -> tuple[Unit, ...]:
    try:
        return _BY_KIND[si_unit]
    except KeyError:
        message = f"no units are listed for the SI unit {si_unit!r}"
        raise LookupError(message) from None  # a declaration of ours is wrong, not what a person typed


def _gap(spelling: str) -> str:
    return "" if spelling in ("", "°") else " "


def _unit_typed(typed: str, allowed: tuple[Unit, ...], bare_unit: str | None, complain: _Complaint) -> Unit:
    found = _ALL.get(typed)
    if not typed and bare_unit is not None:
        return unit_named(bare_unit)
    if found in allowed:
        return found
    if not typed:
        raise complain.because("has no unit.")
    if found is not None:
        raise complain.because(f"is {_KINDS[found.si][0]}, not {_KINDS[complain.si_unit][0]}.")
    near = _nearest(typed, [spelling for unit in allowed for spelling in unit.spellings])
    raise complain.because(f'has "{typed}" where the unit belongs.', f"{near} {complain.right()}".strip())


def _nearest(typed: str, spellings: Iterable[str]) -> str:
    """Offer the spelling that was probably meant, or nothing."""
    names = [name for name in spellings if name]
    same_letters = [name for name in names if name.lower() in (typed.lower(), f"deg{typed.lower()}")]
    near = same_letters or difflib.get_close_matches(typed, names, n=1)
    return f'Did you mean "{near[0]}"?' if near else ""


@dataclass(frozen=True, slots=True)
class _Complaint:
    """What every complaint about one typed value says."""

    typed: str
    si_unit: str
    field: str | None

    def right(self) -> str:
        noun, example = _KINDS[self.si_unit]
        names = ", ".join(unit.name for unit in _BY_KIND[self.si_unit] if unit.name)
        return f'Write {noun}, for example "{example}" (units: {names}).'

    def because(self, reason: str, hint: str | None = None) -> UnitError:
        place = f"{self.field}: " if self.field else ""
        shown = self.typed if len(self.typed) <= _LONGEST else f"{self.typed[:_LONGEST]}…"
        return UnitError(
            f'{place}"{shown}" {reason}', field=self.field, value=self.typed, unit=self.si_unit, hint=hint or self.right()
        )
