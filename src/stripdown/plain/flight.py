"""Flights, hits on a target and balls of choice as plain values: SI, the unit in each key."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from stripdown.plain.limits import limit_fields, verdict_fields
from stripdown.plain.si import assumed_fields, plain, si_fields, si_record

if TYPE_CHECKING:
    from stripdown.core.exterior_ballistics import FlightState
    from stripdown.studies.ball_choice import BallChoice, BallOfChoice
    from stripdown.studies.effective_range import RangeStudy
    from stripdown.studies.flight import FlightStudy
    from stripdown.studies.hop_setting import HopSetting
    from stripdown.studies.impact import Impact
    from stripdown.studies.lift import FittedLift
    from stripdown.studies.muzzle import MuzzleState

_FIT = {"factor_uncertainty": "1", "distance": "m", "misses": "m", "energy": "J", "furthest": "m"}


def flight_fields(study: FlightStudy) -> dict[str, Any]:
    """Turn a flight into plain values, a row for each distance; null where the ball is down before."""
    ball, band, passings = study.muzzle.ball, study.band, study.passings
    line = study.sight_line
    rows = []
    for index, place in enumerate(passings.distance):
        height = float(passings.position[index, 2]) - study.stance.muzzle_height
        fast = float(passings.speed[index])
        lowest, highest, slowest, fastest = band.at(float(place))
        row = {
            "distance_m": float(place),
            "height_over_muzzle_m": height,
            "lowest_m": lowest,
            "highest_m": highest,
            "over_sights_m": math.nan if line is None else height - line[0] - line[1] * float(place),
            "drift_to_left_m": float(passings.position[index, 1]),
            "speed_m_per_s": fast,
            "slowest_m_per_s": slowest,
            "fastest_m_per_s": fastest,
            "energy_J": 0.5 * ball.mass * fast**2,
            "energy_per_area_J_per_m2": 0.5 * ball.mass * fast**2 / (0.25 * math.pi * ball.diameter**2),
            "time_s": float(passings.time[index]),
            "spin_left": float(passings.spin_left[index]),
        }
        rows.append({key: None if math.isnan(value) else value for key, value in row.items()})
    return {
        **muzzle_fields(study.muzzle),
        "stance": si_fields(study.stance),
        "wind": si_fields(study.path.parameters.wind),
        "laws": si_fields(study.path.parameters.laws),
        "lift": lift_fields(study.lift),
        "distances": rows,
        "apex": _state(study.path.apex),
        "ground": None if study.path.ground is None else _state(study.path.ground),
        "climb_m": study.climb,
        "band": {
            "laws": [
                {"drag": plain(drag), "lift": plain(lift), "lift_factor": float(factor)}
                for (drag, lift), factor in zip(band.laws, band.factors, strict=True)
            ],
            "left_out": [{"drag": plain(drag), "lift": plain(lift)} for drag, lift in band.left_out],
        },
        "energies": [si_record(one, units=_FIT) for one in study.levels],
        "chronographs": [
            {"distance_m": one.distance, "reading_m_per_s": one.speed, "energy_J": one.energy, "reading_over_muzzle": one.ratio}
            for one in study.readings
        ],
        "hop": None if study.hop is None else hop_fields(study.hop),
        "impact": impact_fields(study.impact),
        "questions": list(study.questions),
        "remarks": list(study.path.remarks),
        "predicted": True,
    }


def range_fields(study: RangeStudy) -> dict[str, Any]:
    """Turn hits on a target into plain values, a row for each distance."""
    return {
        **muzzle_fields(study.muzzle),
        "stance": si_fields(study.stance),
        "lift": lift_fields(study.lift),
        "hop": None if study.hop is None else hop_fields(study.hop),
        "target": si_fields(study.target),
        "group": None if study.group is None else si_fields(study.group),
        "scatter_m_per_s": study.scatter,
        "spread_across_rad": study.spread_across,
        "spread_up_rad": study.spread_up,
        "is_all_speed": study.is_all_speed,
        "wanted": study.wanted,
        "hits": [si_record(one) for one in study.hits],
        "range_on_sight_m": study.on_sight,
        "range_held_over_m": study.held_over,
        "predicted": True,
    }


def balls_fields(study: BallChoice) -> dict[str, Any]:
    """Turn balls of choice into plain values, a row for each."""
    return {
        "gun": study.gun.name,
        "file": study.gun.origin,
        "invented": study.gun.invented,
        "window_m": study.window,
        "looked_at_m": study.looked_at,
        "cross_wind_m_per_s": study.wind,
        "limit": None if study.limit is None else limit_fields(study.limit),
        "balls": [_ball(ball) for ball in study.balls],
        "verdict": None if study.verdict is None else verdict_fields(study.verdict.verdict),
        "assumed": [assumed_fields(entry) for entry in study.assumed],
        "predicted": True,
    }


def muzzle_fields(muzzle: MuzzleState) -> dict[str, Any]:
    """Turn how a ball leaves into plain values."""
    return {
        "gun": muzzle.gun.name,
        "file": muzzle.gun.origin,
        "invented": muzzle.gun.invented,
        "ball_mass_kg": muzzle.ball.mass,
        "ball_diameter_m": muzzle.ball.diameter,
        "muzzle_speed_m_per_s": muzzle.speed,
        "muzzle_energy_J": muzzle.energy,
        "predicted_speed_m_per_s": muzzle.predicted_speed,
        "reading_m_per_s": muzzle.reading,
        "read_at_m": muzzle.read_at,
        "backspin_rad_per_s": muzzle.backspin,
        "spin_ratio": muzzle.spin_ratio,
        "air": si_fields(muzzle.air),
        "assumed": [assumed_fields(entry) for entry in muzzle.complete.assumed],
    }


def lift_fields(lift: FittedLift) -> dict[str, Any]:
    """Turn a lift into plain values."""
    return {**si_record(lift, units=_FIT), "is_fitted": bool(lift.sightings)}


def hop_fields(hop: HopSetting) -> dict[str, Any]:
    """Turn a hop setting into plain values."""
    return si_record(hop, leave_out=("parameters",))


def impact_fields(impact: Impact) -> dict[str, Any]:
    """Turn what a ball can hurt into plain values; a lens has no distance."""
    return {
        "hottest_ball_kg": impact.ball_mass,
        "hottest_energy_J": impact.energy,
        "hottest_energy_per_area_J_per_m2": impact.energy_per_area,
        "is_measured": impact.is_measured,
        "lens_energy_J": impact.lens_energy,
        "lenses": [
            {
                "key": one.protection.key,
                "standard": one.protection.standard,
                "mark": one.protection.mark,
                "worn_as": one.protection.worn_as,
                "date": one.protection.date,
                "source": one.protection.provenance.source,
                "test_energy_J": one.protection.energy,
                "test_energy_per_area_J_per_m2": one.protection.energy_per_area,
                "is_enough": one.is_enough,
            }
            for one in impact.lenses
        ],
        "places": [{**si_record(one, leave_out=("reached",)), "reached": list(one.reached)} for one in impact.places],
        "injuries": {
            key: {
                "name": one.name,
                "energy_J": one.energy,
                "energy_per_area_J_per_m2": one.energy_per_area,
                "chance": one.chance,
                "source": one.provenance.source,
                "where": one.provenance.where,
            }
            for key, one in impact.injuries.items()
        },
        "engagement": None
        if impact.engagement is None
        else {
            "key": impact.engagement.key,
            "distance_m": impact.engagement.distance,
            "usual_to_m": impact.engagement.usual_to,
            "footing": impact.engagement.provenance.footing.value,
            "date": impact.engagement.date,
        },
    }


def _ball(ball: BallOfChoice) -> dict[str, Any]:
    return {
        "ball_mass_kg": ball.ball_mass,
        "muzzle_speed_m_per_s": ball.speed,
        "muzzle_energy_J": ball.energy,
        "is_measured": ball.is_measured,
        "speed_uncertainty_m_per_s": ball.speed_uncertainty,
        "hop": None if ball.hop is None else hop_fields(ball.hop),
        "energy_there_J": ball.energy_there,
        "time_there_s": ball.time_there,
        "drift_there_m": ball.drift_there,
        "limit_at_muzzle_J": ball.limit_at_muzzle,
        "against_limit": [
            {
                "fire_mode": None if one.fire_mode is None else plain(one.fire_mode),
                "is_fired": one.measured is not None,
                "state": plain((one.measured or one.predicted).state),  # type: ignore[union-attr]
            }
            for one in ball.verdicts
        ],
    }


def _state(state: FlightState) -> dict[str, Any]:
    return {
        "position_m": list(state.position),
        "velocity_m_per_s": list(state.velocity),
        "time_s": state.time,
        "spin_rad_per_s": list(state.spin),
    }
