"""Read what was typed: a number with its unit, or one clear refusal."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from stripdown.errors import UnitError
from stripdown.quantities import Q
from stripdown.units.table import (
    ALL_UNITS,
    KINDS,
    Unit,
    from_si,
    nearest_spelling,
    plain_spelling,
    unit_named,
    units_for,
    with_unit,
)

_LONGEST = 60  # characters; nothing that a person types for one value is longer
_TYPED = re.compile(
    r"(?P<sign>[+\-\u2212]?)(?P<whole>[0-9]*)(?:(?P<mark>[.,])(?P<part>[0-9]*))?(?P<power>[eE][+-]?[0-9]{1,2})?(?P<unit>[^0-9.,].*)?"
)
_LEAST_READ, _MOST_READ = 1e-4, 1e6
"""Between these an end of a range is read at a glance."""
_GROUP = 3  # digits parted by a comma for thousands


@dataclass(frozen=True, slots=True)
class Understood:
    """A typed value as it was understood."""

    value: float
    text: str
    reworded: bool


def parse(
    typed: str, quantity: Q | str, *, bare_unit: str | None = None, difference: bool = False, field: str | None = None
) -> float:
    """Read a number with its unit into SI."""
    return understand(typed, quantity, bare_unit=bare_unit, difference=difference, field=field).value


def understand(
    typed: str, quantity: Q | str, *, bare_unit: str | None = None, difference: bool = False, field: str | None = None
) -> Understood:
    """Read a number with its unit, and say how it was understood."""
    allowed = units_for(quantity)
    refusal = _Refusal(typed, allowed[0].si, field)
    found = _TYPED.fullmatch(typed.strip()) if len(typed) <= _LONGEST else None
    if found is None or not (found["whole"] or found["part"]):
        raise refusal.because("is not a number with a unit.")
    sign, whole, part, power = (
        ("-" if found["sign"] in ("-", "\u2212") else ""),
        found["whole"],
        found["part"],
        found["power"] or "",
    )
    if found["mark"] == "," and len(part) == _GROUP and whole.strip("0"):
        either = f'Write "{whole}.{part}" if the comma is a decimal sign, "{whole}{part}" if it parts thousands.'
        raise refusal.because("can be read in two ways.", either)
    unit = _unit_typed(plain_spelling(found["unit"] or ""), allowed, bare_unit, refusal)
    number = f"{sign}{whole or '0'}{'.' + part if part else ''}{power}"
    value = float((Fraction(number) + (0 if difference else unit.offset)) * unit.factor)
    return Understood(value, with_unit(number, unit.name), reworded=found["mark"] == ",")


def typed_unit(typed: str, quantity: Q) -> Q | str:
    """The unit in which somebody typed a value, to be told its limits in it; the quantity itself where they read badly in it."""
    found = _TYPED.fullmatch(typed.strip()) if len(typed) <= _LONGEST else None
    unit = ALL_UNITS.get(plain_spelling(found["unit"] or "")) if found is not None else None
    if unit is None or not unit.name or unit not in units_for(quantity):
        return quantity
    ends = [abs(from_si(end, unit.name)) for end in (quantity.low, quantity.high, *(quantity.usual or ())) if end]
    return unit.name if all(_LEAST_READ <= end < _MOST_READ for end in ends) else quantity


def _unit_typed(typed: str, allowed: tuple[Unit, ...], bare_unit: str | None, refusal: _Refusal) -> Unit:
    found = ALL_UNITS.get(typed)
    if not typed and bare_unit is not None:
        return unit_named(bare_unit)
    if found in allowed:
        return found
    if not typed:
        raise refusal.because("has no unit.")
    if found is not None:
        raise refusal.because(f"is {KINDS[found.si][0]}, not {KINDS[refusal.si_unit][0]}.")
    near = nearest_spelling(typed, allowed)
    raise refusal.because(f'has "{typed}" where the unit belongs.', f"{near} {refusal.right()}".strip())


@dataclass(frozen=True, slots=True)
class _Refusal:
    """What every refusal of one typed value says."""

    typed: str
    si_unit: str
    field: str | None

    def right(self) -> str:
        noun, example = KINDS[self.si_unit]
        names = ", ".join(unit.name for unit in units_for(self.si_unit) if unit.name)
        return f'Write {noun}, for example "{example}" (units: {names}).'

    def because(self, reason: str, hint: str | None = None) -> UnitError:
        place = f"{self.field}: " if self.field else ""
        shown = self.typed if len(self.typed) <= _LONGEST else f"{self.typed[:_LONGEST]}…"
        return UnitError(
            f'{place}"{shown}" {reason}', field=self.field, value=self.typed, unit=self.si_unit, hint=hint or self.right()
        )
