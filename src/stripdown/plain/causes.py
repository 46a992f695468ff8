"""A fitted model and an explained loss as plain values for ``--json``."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from stripdown.plain.si import assumed_fields, ledger_fields, plain, si_key
from stripdown.plain.strings import comparison_fields, observation_fields, session_rest, string_fields

if TYPE_CHECKING:
    from stripdown.bench.gun import Gun
    from stripdown.studies.loss_causes import AsFoundReading, Cause, JointChange, LossExplanation, Signature
    from stripdown.studies.match_chronograph import ChronographMatch, SecondBall, SpeedPrediction
    from stripdown.studies.session_answers import SessionExplanation, SessionMatch


def match_fields(match: ChronographMatch) -> dict[str, Any]:
    """Turn a fitted model into plain values."""
    return {
        "fitted": [
            {
                "field": number.path,
                "name": number.name,
                "unit": number.quantity.unit,
                "start": number.start,
                "value": number.value,
                "low": number.low,
                "high": number.high,
                "learnt": number.learnt,
            }
            for number in match.fitted
        ],
        "correlation": match.correlation.tolist(),
        "strings": [
            {**observation_fields(string), "predicted_m_per_s": float(speed)}
            for string, speed in zip(match.strings, match.predicted, strict=True)
        ],
        "misfit": match.misfit,
        "notes": list(match.notes),
    }


def session_match_fields(study: SessionMatch) -> dict[str, Any]:
    """Turn a gun's model fitted to a session into plain values."""
    return {
        **gun_fields(study.gun),
        **match_fields(study.match),
        "predictions": prediction_fields(study.expected),
        "second_ball": second_ball_fields(study.expected.second),
        "predicted_with_hop_up": None if study.hop is None else study.hop.value,
        "readings": [string_fields(string) for string in study.strings],
        "assumed": [assumed_fields(entry) for entry in study.assumed],
        **session_rest(study.session),
    }


def session_explanation_fields(study: SessionExplanation) -> dict[str, Any]:
    """Turn what explains a session's strings into plain values."""
    return {
        **gun_fields(study.gun),
        **explanation_fields(study.explanation),
        "comparisons": [comparison_fields(pair) for pair in study.pairs],
        "assumed": [assumed_fields(entry) for entry in study.assumed],
        **session_rest(study.session),
    }


def gun_fields(gun: Gun) -> dict[str, Any]:
    """Turn what a gun is called into plain values."""
    return {"gun": gun.name, "file": gun.origin, "invented": gun.invented}


def prediction_fields(expected: SpeedPrediction) -> list[dict[str, Any]]:
    """Turn predicted speeds into plain values."""
    columns = (expected.ball_mass, expected.muzzle_speed, expected.standard_uncertainty)
    return [
        {
            "ball_mass_kg": float(mass),
            "muzzle_speed_m_per_s": float(speed),
            "standard_uncertainty_m_per_s": float(uncertainty),
            "muzzle_energy_J": 0.5 * float(mass) * float(speed) ** 2,
            "predicted": True,
        }
        for mass, speed, uncertainty in zip(*columns, strict=True)
    ]


def second_ball_fields(second: SecondBall | None) -> dict[str, Any] | None:
    """Turn the ball that would halve what is open into plain values."""
    if second is None:
        return None
    return {
        "ball_mass_kg": second.ball_mass,
        "standard_uncertainty_now": second.open_now,
        "standard_uncertainty_then": second.open_then,
    }


def explanation_fields(explanation: LossExplanation) -> dict[str, Any]:
    """Turn an explained loss into plain values."""
    return {
        "was_gained": explanation.was_gained,
        "is_certain": explanation.is_certain,
        "change": _change(explanation.change),
        "loss": [{"ball_mass_kg": mass, "share_of_speed": share} for mass, share in explanation.loss],
        "causes": [_cause(cause) for cause in explanation.causes],
        "sound_gun": {"signature": _signature(explanation.sound_signature), **ledger_fields(explanation.sound_ledger)},
        "as_found": [_as_found(read) for read in explanation.held],
        "tests": [
            {
                "ball_masses_kg": list(test.ball_masses),
                "sound_recording": not test.ball_masses,
                "separated": [list(pair) for pair in test.separated],
                "undecided": [list(pair) for pair in test.undecided],
            }
            for test in explanation.tests
        ],
        "notes": list(explanation.notes),
        "predicted": True,
    }


def _change(change: JointChange) -> dict[str, Any]:
    freedom = change.degrees_of_freedom
    return {
        "share_of_speed": change.share,
        "low": change.low,
        "high": change.high,
        "confidence": 0.95,
        "chance_without_change": change.chance,
        "degrees_of_freedom": freedom if math.isfinite(freedom) else None,
        "between_days": change.between_days,
    }


def _as_found(read: AsFoundReading) -> dict[str, Any]:
    unit = read.quantity.unit
    return {
        "key": read.key,
        "field": read.path,
        si_key("sound", unit): read.sound,
        si_key("found", unit): read.found,
        "share_of_loss": read.share,
        "needed": [{"key": need.fault.key, si_key("needed", unit): need.needed, "agrees": need.agrees} for need in read.needs],
    }


def _cause(cause: Cause) -> dict[str, Any]:
    fault = cause.fault
    unit = fault.amount.unit
    amounts = {"amount": cause.amount, "low": cause.low, "high": cause.high, "ordinary": fault.ordinary, "largest": fault.largest}
    return {
        "key": fault.key,
        "name": fault.name,
        "heap": fault.heap,
        "plausibility": plain(cause.plausibility),
        "stands": cause.stands,
        **{si_key(name, unit): value for name, value in amounts.items()},
        "share_explained": cause.share_explained,
        "fit": cause.fit,
        "repair_returns_J": cause.returned,
        "carried_off_J": cause.carried_off,
        "signature": _signature(cause.signature),
        "opens_box": fault.opens_box,
        "check": fault.check,
        **ledger_fields(cause.ledger),
    }


def _signature(signature: Signature) -> dict[str, Any]:
    return {
        "light_loss": signature.light_loss,
        "heavy_loss": signature.heavy_loss,
        "loss_ratio": signature.loss_ratio,
        "piston_home_shift_s": signature.piston_home_shift,
        "muzzle_to_slam_s": signature.muzzle_to_slam,
    }
