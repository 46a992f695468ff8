"""Cells of a readings file: speeds, masses, distances, temperatures and words, each plausible or refused with a reason."""

from __future__ import annotations

import datetime
import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType
from typing import Final, TypeVar

from stripdown.core.shot_statistics.conditions import FireMode, HopState, Occasion
from stripdown.errors import InputError, UnitError
from stripdown.units import from_si, parse, show_number, to_si

_T = TypeVar("_T")

# Common practice, no source: what a ball of 0.12 to 0.48 g from a spring gun can have, with room to spare.
SLOWEST: Final = 15.0  # m/s: a column of readings has more, a column of shot numbers or of decimals less
FASTEST: Final = 220.0  # m/s
_LIGHTEST: Final = 0.1e-3  # kg
_HEAVIEST: Final = 0.6e-3  # kg
_FARTHEST: Final = 50.0  # m
_COLDEST: Final = 243.15  # K
_HOTTEST: Final = 333.15  # K

_SPEED_SPELLINGS: Final = MappingProxyType(
    {"mps": "m/s", "fps": "ft/s", "kph": "km/h", "kmh": "km/h", "feet/s": "ft/s", "ft/sec": "ft/s"}
)
_SPEED_UNITS: Final = ("m/s", "ft/s", "km/h", "mph")
_NUMBER_AND_REST: Final = re.compile(r"([+\-\u2212]?\d{0,12}[.,]?\d{1,12}(?:[eE][+-]?\d{1,3})?)\s*(.*)", re.DOTALL)

DEGREES: Final = re.compile(r"\s*(?:[°º˚]|deg(?:rees?)?)?\s*([CF])\b", re.IGNORECASE)
"""How the unit of a temperature is spelt behind its number."""
_ISO_DAY: Final = re.compile(r"(?<!\d)(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?!\d)")
_LOCAL_DAY: Final = re.compile(r"(?<!\d)(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})(?!\d)")

OCCASIONS: Final[Mapping[str, Occasion]] = MappingProxyType(
    {
        "before": Occasion.BEFORE,
        "as found": Occasion.BEFORE,
        "found": Occasion.BEFORE,
        "after": Occasion.AFTER,
        "as left": Occasion.AFTER,
    }
)
HOPS: Final[Mapping[str, HopState]] = MappingProxyType(
    {"off": HopState.OFF, "hop off": HopState.OFF, "hop-up off": HopState.OFF, "none": HopState.OFF, "0": HopState.OFF}
    | {"set": HopState.SET, "on": HopState.SET, "hop set": HopState.SET, "hop-up set": HopState.SET, "hop on": HopState.SET}
    | {"hop-up on": HopState.SET}
)
FIRE_MODES: Final[Mapping[str, FireMode]] = MappingProxyType(
    {"semi": FireMode.SEMI, "single": FireMode.SEMI, "single shot": FireMode.SEMI, "semi-automatic": FireMode.SEMI}
    | {"auto": FireMode.AUTOMATIC, "automatic": FireMode.AUTOMATIC, "full": FireMode.AUTOMATIC, "full auto": FireMode.AUTOMATIC}
    | {"burst": FireMode.AUTOMATIC}
)


@dataclass(frozen=True, slots=True)
class Speed:
    """One reading as it was written."""

    value: float
    step: float
    is_bare: bool
    written: Decimal
    unit: str


class NotTaken(Exception):
    """A cell from which nothing can be taken; its text is the reason. It ends where the line is left out."""

    def __init__(self, reason: str, *, speed: Speed | None = None, is_other_unit: bool = False) -> None:
        """Keep the number that is no speed of such a gun, and whether it would be one in another unit."""
        super().__init__(reason)
        self.speed = speed
        self.is_other_unit = is_other_unit


def speed_unit(text: str) -> str | None:
    """Unit of speed that a text spells."""
    word = text.strip(" .()[]").lower().replace(" ", "")
    word = _SPEED_SPELLINGS.get(word, word)
    return word if word in _SPEED_UNITS else None


def is_number(cell: str) -> bool:
    """Whether a cell is a number, alone or with a unit of speed."""
    found = _NUMBER_AND_REST.fullmatch(cell.strip())
    return found is not None and (not found[2] or speed_unit(found[2]) is not None)


def read_speed(cell: str, unit: str | None, bare_unit: str) -> Speed:
    """Read one reading."""
    found = _NUMBER_AND_REST.fullmatch(cell.strip())
    if found is None or found[2].startswith((".", ",")) or any(sign.isdigit() for sign in found[2]):
        raise NotTaken("there is no number in it." if not any(sign.isdigit() for sign in cell) else "this is no single number.")
    number = found[1].replace(",", ".").replace("\u2212", "-")
    typed = speed_unit(found[2]) if found[2] else None
    if found[2] and typed is None:
        raise NotTaken(f'"{found[2]}" is no unit of speed; {", ".join(_SPEED_UNITS)} are.')
    if typed is not None and unit is not None and typed != unit:
        raise NotTaken(f"the cell says {typed}, its column {unit}.", is_other_unit=True)
    meant = typed or unit or bare_unit
    written = Decimal(number)
    step = to_si(float(f"1e{written.as_tuple().exponent}"), meant)  # endless or nothing where a float has no room
    speed = Speed(to_si(float(number), meant), step, typed is None and unit is None, written, meant)
    _check_speed(speed, number)
    return speed


def _check_speed(speed: Speed, number: str) -> None:
    value, unit = speed.value, speed.unit
    if value == 0.0:
        raise NotTaken("zero is a missed reading, not a shot.")
    if value < 0.0:
        raise NotTaken("a speed below zero is impossible.")
    if SLOWEST <= value <= FASTEST:
        return
    other = "ft/s" if unit == "m/s" else "m/s"
    as_other = to_si(float(number), other)
    way = "above" if value > FASTEST else "below"
    hint = ""
    if speed.is_bare and SLOWEST <= as_other <= FASTEST:
        hint = f" In {other} it would be {as_other:.1f} m/s: write the unit behind it, or in the head of the column."
    low, high = (show_number(from_si(bound, unit), 3) for bound in (SLOWEST, FASTEST))
    reason = f"{number} {unit} is {way} what such a gun can do ({low} to {high} {unit}).{hint}"
    raise NotTaken(reason, speed=speed, is_other_unit=bool(hint))


def read_mass(cell: str) -> float:
    """Read the mass of a ball; a bare number is in g."""
    value = _parsed(cell, "kg", "g")
    if _LIGHTEST <= value <= _HEAVIEST:
        return value
    near = next((factor for factor in (10.0, 0.1, 1000.0, 0.001) if _LIGHTEST <= value * factor <= _HEAVIEST), None)
    hint = f" Is {value * near * 1000:.2f} g meant?" if near else ""
    raise NotTaken(f"a ball of {show_number(value * 1000)} g is no ball for such a gun (0.12 to 0.48 g are usual).{hint}")


def read_distance(cell: str) -> float:
    """Read the distance of a chronograph; a bare number is in m."""
    if cell.strip().lower() in ("muzzle", "at the muzzle"):
        return 0.0
    value = _parsed(cell, "m", "m")
    if 0.0 <= value <= _FARTHEST:
        return value
    raise NotTaken(f"{show_number(value)} m is no distance of a chronograph (0 to {_FARTHEST:g} m from the muzzle).")


def read_temperature(cell: str) -> float:
    """Read an air temperature; a bare number is in °C."""
    typed = DEGREES.sub(lambda found: f" deg{found[1].upper()}", cell.strip().replace("\u2103", "°C"))
    value = _parsed(typed, "K", "degC")
    if _COLDEST <= value <= _HOTTEST:
        return value
    raise NotTaken(f"{show_number(value - 273.15)} °C is no temperature to shoot at (-30 to 60 °C).")


def read_day(cell: str) -> str | None:
    """Read the day in a date, ISO 8601; as it was written if it can be read in two ways; None if there is none."""
    if found := _ISO_DAY.search(cell):
        return _day(int(found[1]), int(found[2]), int(found[3])) or found[0]
    found = _LOCAL_DAY.search(cell)
    if found is None:
        return None
    one, two, year = int(found[1]), int(found[3]), int(found[4]) + (2000 if len(found[4]) == len("26") else 0)
    read = {day for day in (_day(year, two, one), _day(year, one, two) if found[2] != "." else None) if day}
    return read.pop() if len(read) == 1 else found[0]


def _day(year: int, month: int, day: int) -> str | None:
    try:
        return datetime.date(year, month, day).isoformat()
    except ValueError:
        return None


def read_word(cell: str, words: Mapping[str, _T]) -> _T:
    """Read one of a few words."""
    word = " ".join(cell.lower().replace("_", " ").split())
    if word in words:
        return words[word]
    raise NotTaken(f'"{cell}" is not understood here; write one of: {", ".join(words)}.')


def _parsed(cell: str, si_unit: str, bare_unit: str) -> float:
    try:
        return parse(cell, si_unit, bare_unit=bare_unit)
    except UnitError as reason:
        raise NotTaken(f"{reason.message} {reason.hint or ''}".strip()) from reason
    except InputError as reason:
        raise NotTaken(str(reason)) from reason
