"""Shots, sweeps over ball mass and sensitivities as plain values: SI, the unit in each key."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stripdown.plain.si import assumed_fields, ledger_fields, plain, si_fields, si_key

if TYPE_CHECKING:
    from stripdown.bench.gun import Gun
    from stripdown.studies.joule_creep import JouleCreep
    from stripdown.studies.sensitivity import Sensitivity, SensitivityRow
    from stripdown.studies.shooting import FiredAlike, Shooting

_CREEP = {
    "ball_mass": "kg",
    "muzzle_speed": "m/s",
    "muzzle_energy": "J",
    "backspin": "rad/s",
    "spin_ratio": "1",
    "slam_speed": "m/s",
    "time_to_muzzle": "s",
    "time_to_slam": "s",
    "outcome": "",
}


def fired_fields(fired: FiredAlike) -> dict[str, Any]:
    """Turn one shot into plain values; several into a list of such."""
    shots = [shot_fields(shooting) for shooting in fired.shootings]
    return shots[0] if len(shots) == 1 else {"shots": shots}


def shot_fields(shooting: Shooting) -> dict[str, Any]:
    """Turn a shot into plain values."""
    result = shooting.shot
    return {
        **_gun_fields(shooting.gun),
        **{f"ball_{key}": value for key, value in si_fields(result.parameters.ball).items()},
        **si_fields(result.figures),
        **ledger_fields(result.ledger),
        "events": [{"kind": plain(event.kind), "time_s": event.time} for event in result.events],
        "conditions": si_fields(result.parameters.ambient),
        "assumed": [assumed_fields(entry) for entry in shooting.complete.assumed],
        "notes": list(dict.fromkeys((*shooting.complete.notes, *result.notes))),
        "predicted": True,
        "tolerance": shooting.tolerance,
        "input_digest": shooting.input_digest,
    }


def sweep_fields(creep: JouleCreep) -> dict[str, Any]:
    """Turn a sweep into plain values, a row for each ball."""
    columns = {si_key(name, unit): getattr(creep, name) for name, unit in _CREEP.items()}
    return {
        **_gun_fields(creep.gun),
        "shots": [dict(zip(columns, map(plain, row), strict=True)) for row in zip(*columns.values(), strict=True)],
        "conditions": si_fields(creep.complete.parameters.ambient),
        "assumed": [assumed_fields(entry) for entry in creep.complete.assumed],
        "notes": list(creep.complete.notes),
        "predicted": True,
    }


def sensitivity_fields(sensitivity: Sensitivity) -> dict[str, Any]:
    """Turn a sensitivity into plain values, a row for each dimension."""
    return {
        **_gun_fields(sensitivity.gun),
        "ball_mass_kg": sensitivity.ball_mass,
        "muzzle_speed_m_per_s": sensitivity.muzzle_speed,
        "solver_noise_m_per_s": sensitivity.solver_noise,
        "rows": [_row_fields(row) for row in sensitivity.rows],
        "without_effect": list(sensitivity.without_effect),
        "predicted": True,
    }


def _gun_fields(gun: Gun) -> dict[str, Any]:
    return {"gun": gun.name, "file": gun.origin, "invented": gun.invented}


def _row_fields(row: SensitivityRow) -> dict[str, Any]:
    return {
        "field": row.path,
        "label": row.label,
        "value": row.value,
        "step": row.step,
        "unit": row.quantity.unit,
        "speed_change_up_m_per_s": row.speed_change_up,
        "speed_change_down_m_per_s": row.speed_change_down,
        "derivative_m_per_s_per_unit": row.derivative,
        "relative": row.relative,
        "is_assumed": row.is_assumed,
    }
