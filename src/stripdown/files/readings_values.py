"""Cells of a readings file: speeds, masses, distances, temperatures and words, each plausible or refused with a reason."""

from __future__ import annotations

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
SLOWEST: Final = 15.0  # m/s
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


class NotTaken(Exception):
    """A cell from which nothing can be taken; its text is the reason. It ends where the line is left out."""


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
        raise NotTaken(f"the cell says {typed}, its column {unit}.")
    meant = typed or unit or bare_unit
    value = to_si(float(number), meant)
    _check_speed(value, number, meant, is_bare=typed is None and unit is None)
    last_digit = Decimal(number).as_tuple().exponent
    return Speed(value, to_si(10.0 ** int(last_digit), meant), typed is None and unit is None)


def _check_speed(value: float, number: str, unit: str, *, is_bare: bool) -> None:
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
    if is_bare and SLOWEST <= as_other <= FASTEST:
        hint = f" In {other} it would be {as_other:.1f} m/s: write the unit behind it, or in the head of the column."
    low, high = (show_number(from_si(bound, unit), 3) for bound in (SLOWEST, FASTEST))
    raise NotTaken(f"{number} {unit} is {way} what such a gun can do ({low} to {high} {unit}).{hint}")


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
    typed = re.sub(r"\s*°?\s*([CF])$", r" deg\1", cell.strip(), flags=re.IGNORECASE)
    typed = typed.replace("degc", "degC").replace("degf", "degF")
    value = _parsed(typed, "K", "degC")
    if _COLDEST <= value <= _HOTTEST:
        return value
    raise NotTaken(f"{show_number(value - 273.15)} °C is no temperature to shoot at (-30 to 60 °C).")


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
