"""Limits, and guns held against them, as plain values for ``--json``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stripdown.plain.causes import match_fields
from stripdown.plain.si import plain, si_record

if TYPE_CHECKING:
    from stripdown.core.shot_statistics import EnergyLimit
    from stripdown.studies.verdict import BallVerdict, GunVerdict

_LIMIT = {"energy": "J", "energy_per_area": "J/m2", "measuring_distance": "m"}


def limit_fields(limit: EnergyLimit) -> dict[str, Any]:
    """Turn a limit into plain values."""
    return si_record(limit, units=_LIMIT)


def verdict_fields(verdict: GunVerdict) -> dict[str, Any]:
    """Turn a gun held against a limit into plain values."""
    return {
        "limit": limit_fields(verdict.limit),
        "state": plain(verdict.state),
        "balls": [_ball(ball) for ball in verdict.balls],
        "worth_firing_kg": list(verdict.worth_firing),
        "match": None if verdict.match is None else match_fields(verdict.match),
        "notes": list(verdict.notes),
    }


def _ball(ball: BallVerdict) -> dict[str, Any]:
    record = ball.measured if ball.measured is not None else ball.predicted
    assert record is not None  # noqa: S101  narrows: exactly one of the two is there
    return {
        "ball_mass_kg": ball.ball_mass,
        "fire_mode": None if ball.fire_mode is None else plain(ball.fire_mode),
        "predicted": ball.predicted is not None,
        **si_record(record, leave_out=("limit", "ball_mass", "fire_mode")),
    }
