"""Answers of the calculators as plain values: one SI shape each, the same on its own command and in a job's plan."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from stripdown.plain.si import plain, si_record

if TYPE_CHECKING:
    from stripdown.core.part_condition.band import AgainstBand
    from stripdown.studies.calculators import Answered, ShimsFound
    from stripdown.studies.drag_cost import DragCost
    from stripdown.studies.leak_cost import LeakCost
    from stripdown.studies.pad_cost import PadCost

_OF_RINGS: Final = dict.fromkeys(("value", "low", "high", "standard_strain"), "1")
_LENGTHS = "thicknesses float_left buy float_band too_tight too_loose left right middle short_by thickness"
_UNITS: Final[Mapping[str, Mapping[str, str]]] = MappingProxyType(
    {
        "shims": dict.fromkeys(_LENGTHS.split(), "m"),
        "corner": {"notch_ratio": "1"},
        "tooth": {"tooth_count": "1", "mate_tooth_count": "1"},
        **dict.fromkeys(("gland", "ring", "compression_set", "hardness", "leak"), _OF_RINGS),
    }
)
"""Units of numbers that declare none, by calculator."""


def calculator_fields(answered: Answered) -> dict[str, Any]:
    """Turn what a calculator answered into plain values; what it costs a gun stands beside it."""
    if answered.gun is None:
        return _found(answered)
    head = {"gun": answered.gun.name}
    cost = {**_COSTS[answered.key](answered.cost), "predicted": True}
    return {**head, **cost} if answered.key == "drag" else {**_found(answered), **head, "cost": cost}


def answered_fields(answered: Answered) -> dict[str, Any]:
    """Turn one answer of a job into plain values: which calculator, of what, and its answer, or why there is none."""
    return {
        "calculator": answered.key,
        "name": answered.asked.name,
        "refused": answered.refused or None,
        "answer": None if answered.found is None else calculator_fields(answered),
    }


def _found(answered: Answered) -> dict[str, Any]:
    found, units = answered.found, _UNITS.get(answered.key, {})
    if answered.key == "shims":
        return _shims(found, units)
    fields = si_record(found, units=units, leave_out=("verdicts",))
    if any(field.name == "verdicts" for field in dataclasses.fields(found)):
        fields["verdicts"] = [_verdict(verdict) for verdict in found.verdicts]
    if answered.key == "pad":
        fields["share_of_pitch"] = found.share_of_pitch
    return fields


def _shims(shims: ShimsFound, units: Mapping[str, str]) -> dict[str, Any]:
    sheet, lost = shims.sheet, shims.lost
    fields: dict[str, Any] = {}
    if sheet is not None:
        fields = {
            "box": sheet.name,
            "file": sheet.origin,
            "invented": sheet.invented,
            "old_shims": [si_record(shim, units=units) for shim in sheet.old_shims.shims],
            "fitted_shims": [si_record(shim, units=units) for shim in sheet.fitted_shims.shims],
            "lost_places": None if lost is None else [si_record(place) for place in lost],
        }
    fields |= si_record(shims.found, units=units)
    if shims.end_plays is not None:
        low, high = shims.end_plays
        fields["bearing_end_play_m"] = {"low": low.end_play, "high": high.end_play}
    return fields


def _verdict(verdict: AgainstBand) -> dict[str, Any]:
    return {**si_record(verdict, units=_OF_RINGS), "place": plain(verdict.place)}


def _pad_cost(cost: PadCost) -> dict[str, Any]:
    lost = {"speed_lost": cost.speed_lost, "stroke_lost": cost.stroke_lost, "spring_energy_lost": cost.stored_lost}
    return {**si_record(cost), **lost}


def _leak_cost(cost: LeakCost) -> dict[str, Any]:
    cases = {name: getattr(cost, name) for name in ("tight", "as_described", "measured", "at_least", "at_most")}
    shots = {name: {**si_record(case), "speed_lost": cost.speed_lost(case)} for name, case in cases.items()}
    return {**si_record(cost, leave_out=tuple(cases)), **shots}


def _drag_cost(cost: DragCost) -> dict[str, Any]:
    return {**si_record(cost), "speed_lost": cost.speed_lost}


_COSTS: Final[Mapping[str, Callable[[Any], dict[str, Any]]]] = MappingProxyType(
    {"pad": _pad_cost, "leak": _leak_cost, "drag": _drag_cost}
)
PRICED: Final = frozenset(_COSTS)
"""Keys of the calculators whose answers cost a gun something."""
