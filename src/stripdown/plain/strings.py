"""Strings and their differences as plain values for ``--json``."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from stripdown.plain.chronographs import day_factor_fields
from stripdown.plain.si import si_record

if TYPE_CHECKING:
    from stripdown.bench.strings import ChronographSession, LeftOut
    from stripdown.core.shot_statistics import Difference
    from stripdown.studies.observation import Observation
    from stripdown.studies.service_case import ComparisonOfCase, StringOfCase
    from stripdown.studies.session_answers import SessionComparison, SessionStrings

_SPEED = "m/s"
_INTERVALS = dict.fromkeys(("mean_interval", "standard_deviation_interval", "next_shot_interval", "tolerance_interval"), _SPEED)
_ENERGY = dict.fromkeys(("mean", "standard_deviation", "standard_uncertainty", "interval"), "J")
_OBSERVATION = {
    "ball_mass": "kg",
    "muzzle_speed": _SPEED,
    "standard_error": _SPEED,
    "scatter": _SPEED,
    "common_uncertainty": _SPEED,
}


def string_fields(string: StringOfCase) -> dict[str, Any]:
    """Turn a string into plain values."""
    reading, found = string.reading, string.statistics
    signs = found.signs
    energy = None if found.energy is None else si_record(found.energy, units=_ENERGY)
    return {
        "name": reading.words,
        "file": string.file,
        "conditions": si_record(reading.conditions),
        "lines": list(reading.lines),
        "asked": left_out_fields(reading.asked),
        "doubt": reading.doubt,
        "resolution_m_per_s": reading.resolution,
        **si_record(found, units=_INTERVALS, leave_out=("signs", "energy", "set_aside", "ball_mass", "readings", "notes")),
        "readings_m_per_s": list(found.readings),
        "energy": energy,
        "outliers": [outlier.index for outlier in found.outliers],
        "has_drift": found.has_drift,
        "has_two_heaps": found.has_two_heaps,
        "has_low_first_shot": found.has_low_first_shot,
        "drift": _sign(signs.drift, {"slope": _SPEED, "change": _SPEED}),
        "two_heaps": _sign(signs.two_heaps, {"slow_mean": _SPEED, "fast_mean": _SPEED}),
        "fast_tail": _sign(signs.fast_tail, {}),
        "unsteady": [sign.name.lower() for sign in signs.unsteady],
        "first_shot": _sign(signs.first_shot, {"shortfall": _SPEED}),
        "set_aside": [{"index": shot.index, "speed_m_per_s": shot.value, "reason": shot.reason} for shot in found.set_aside],
        "notes": list(found.notes),
    }


def comparison_fields(pair: ComparisonOfCase) -> dict[str, Any]:
    """Turn a pair of strings into plain values."""
    found = pair.comparison
    means = {f"mean_{when}_m_per_s": found.mean for when, found in zip(("before", "after"), pair.statistics, strict=True)}
    fields: dict[str, Any] = {
        "before": pair.before.reading.words,
        "after": pair.after.reading.words,
        "is_moved": pair.moved is not None,
        "reference_gun": day_factor_fields(pair.reference),
        "between_days": pair.between_days,
        **means,
    }
    if found is not None:
        fields |= {
            "speed": _difference(found.speed, _SPEED),
            "energy": None if found.energy is None else _difference(found.energy, "J"),
            "confidence": found.confidence,
            "count_before": found.count_before,
            "count_after": found.count_after,
            "notes": list(found.notes),
        }
    return {**fields, "obstacles": list(pair.obstacles), "cautions": list(pair.cautions)}


def session_fields(study: SessionStrings) -> dict[str, Any]:
    """Turn the strings of a session, and what it left out and noted, into plain values."""
    return {"strings": [string_fields(each) for each in study.strings], **session_rest(study.session)}


def session_comparison_fields(study: SessionComparison) -> dict[str, Any]:
    """Turn a session's strings before and after into plain values."""
    return {"comparisons": [comparison_fields(pair) for pair in study.pairs], **session_fields(study)}


def session_rest(session: ChronographSession) -> dict[str, Any]:
    """Turn what a session left out and noted into plain values."""
    return {"left_out": left_out_fields(session.left_out), "readings_notes": list(session.notes)}


def observation_fields(observation: Observation) -> dict[str, Any]:
    """Turn a string that was brought to the muzzle into plain values."""
    return si_record(observation, units=_OBSERVATION)


def left_out_fields(left_out: Sequence[LeftOut]) -> list[dict[str, Any]]:
    """Turn lines that gave no reading into plain values."""
    return [
        {"file": one.file, "line": one.line, "text": one.text, "reason": one.reason, "is_no_shot": one.is_no_shot}
        for one in left_out
    ]


def _difference(found: Difference, unit: str) -> dict[str, Any]:
    units = {"difference": unit, "interval": unit, "standard_uncertainty": unit, "statistic": "1"}
    # With a stated uncertainty alone the degrees of freedom are infinite, which JSON does not know.
    fields = si_record(found, units={**units, "p_value": "1", "share": "1"}, leave_out=("degrees_of_freedom",))
    freedom = found.degrees_of_freedom
    return {**fields, "degrees_of_freedom": None if freedom is None or freedom == float("inf") else freedom}


def _sign(test: object, units: dict[str, str]) -> dict[str, Any] | None:
    pure = ("chance", "level", "slope_chance", "wander_chance", "separation", "inflation", "skewness")
    return None if test is None else si_record(test, units={**dict.fromkeys(pure, "1"), **units})
