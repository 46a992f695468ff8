"""One strict table of units: read what was typed, print in the units of the workshop.

Numbers inside are SI floats; only here do they meet text. Each SI unit has its own short list of units that may be
typed for it; anything else is refused with what would be right. A decimal comma is understood, a thousands comma
never: whatever could be read in two ways is refused.
"""

from __future__ import annotations

from stripdown.units.shown import Scale, display_unit, show, show_number, show_range
from stripdown.units.table import Unit, from_si, to_si, unit_named, units_for
from stripdown.units.typed import Understood, parse, typed_unit, understand

__all__ = [
    "Scale",
    "Understood",
    "Unit",
    "display_unit",
    "from_si",
    "parse",
    "show",
    "show_number",
    "show_range",
    "to_si",
    "typed_unit",
    "understand",
    "unit_named",
    "units_for",
]
