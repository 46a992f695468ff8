"""Limits, and guns held against them, as plain values for ``--json``."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from stripdown.plain.causes import gun_fields, match_fields, second_ball_fields
from stripdown.plain.chronographs import site_chronograph_fields
from stripdown.plain.si import assumed_fields, plain, si_record
from stripdown.plain.strings import session_rest, string_fields

if TYPE_CHECKING:
    from stripdown.catalogue.limits import CatalogueLimit
    from stripdown.core.shot_statistics import EnergyLimit
    from stripdown.studies.session_answers import SessionVerdict
    from stripdown.studies.verdict import BallVerdict, GunVerdict

_LIMIT = {"energy": "J", "energy_per_area": "J/m2", "measuring_distance": "m"}


def limit_fields(limit: EnergyLimit) -> dict[str, Any]:
    """Turn a limit into plain values."""
    return si_record(limit, units=_LIMIT)


def catalogue_fields(limits: Mapping[str, CatalogueLimit]) -> dict[str, Any]:
    """Turn the limits of the catalogue into plain values."""
    return {
        "limits": {
            key: {
                **limit_fields(one.limit),
                "footing": one.provenance.footing.value,
                "source_key": one.provenance.source,
                "where": one.provenance.where,
            }
            for key, one in limits.items()
        }
    }


def session_verdict_fields(study: SessionVerdict) -> dict[str, Any]:
    """Turn a session's strings held against a limit into plain values."""
    return {
        **gun_fields(study.gun),
        **verdict_fields(study.verdict),
        "is_before_the_work": study.is_before_the_work,
        "site_chronograph": None if study.site is None else site_chronograph_fields(study.site),
        "readings": [string_fields(string) for string in study.strings],
        "assumed": [assumed_fields(entry) for entry in study.assumed],
        **session_rest(study.session),
    }


def verdict_fields(verdict: GunVerdict) -> dict[str, Any]:
    """Turn a gun held against a limit into plain values."""
    return {
        "limit": limit_fields(verdict.limit),
        "state": plain(verdict.state),
        "balls": [_ball(ball) for ball in verdict.balls],
        "worth_firing_kg": list(verdict.worth_firing),
        "match": None if verdict.match is None else match_fields(verdict.match),
        "second_ball": second_ball_fields(verdict.second),
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
