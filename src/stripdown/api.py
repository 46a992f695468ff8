"""The Python interface: what is named here is public, and nothing else is.

Everything is in SI units and keyword-only except the one or two obvious arguments; results are frozen.
"""

from __future__ import annotations

from stripdown.catalogue.faults import Fault, load_faults
from stripdown.catalogue.limits import CatalogueLimit, load_limits, own_site_rule
from stripdown.core.air import air_density
from stripdown.core.interior_ballistics.closed_forms import ClosedCylinderCompression, closed_cylinder_compression
from stripdown.core.interior_ballistics.reservoir import simulate_reservoir_launch
from stripdown.core.interior_ballistics.result import EnergyLedger, Event, EventKind, Outcome, Shot, ShotSummary, SolverCounts
from stripdown.core.interior_ballistics.simulate import ShotBatch
from stripdown.core.mechanics.orifices import mass_flow_rate, mass_flow_rate_iso6358
from stripdown.core.mechanics.pressure_decay import pressure_decay_leak
from stripdown.core.mechanics.spring_force import spring_rate
from stripdown.core.mechanics.spring_stress import wahl_factor
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import (
    BallFlight,
    Chronograph,
    DecisionRule,
    EnergyLimit,
    FireMode,
    GrubbsTest,
    HopState,
    Interval,
    LimitForecast,
    LimitVerdict,
    MeasuredState,
    Occasion,
    PredictedState,
    SpeedAtPoint,
    StringComparison,
    StringConditions,
    StringStatistics,
    analyse_string,
    compare_strings,
    grubbs,
    limit_verdict,
    muzzle_from_reading,
    probability_of_conformity,
    reading_from_muzzle,
    tolerance_factor,
)
from stripdown.errors import InputError, NumericalFailure, OutOfRange, OutsideValidity, StripdownError, UnitError
from stripdown.files.case import Case, load_case
from stripdown.files.gun import Gun, load_gun
from stripdown.files.readings import LeftOut, Readings, ReadingString, load_readings
from stripdown.studies.explain_loss import explain_loss
from stripdown.studies.joule_creep import JouleCreep, sweep_ball_masses
from stripdown.studies.loss_causes import Cause, LossExplanation, Plausibility
from stripdown.studies.match_chronograph import ChronographMatch, SpeedPrediction, match_chronograph, predict_speeds
from stripdown.studies.observation import Observation, observe
from stripdown.studies.sensitivity import Sensitivity, speed_sensitivity
from stripdown.studies.service_case import CaseStudy, ComparisonOfCase, StringOfCase
from stripdown.studies.study_case import study_case
from stripdown.studies.verdict import BallVerdict, FiredString, GunVerdict, gun_verdict
from stripdown.studies.whole_gun import simulate_shot, simulate_shots

__all__ = [
    "BallFlight",
    "BallVerdict",
    "Case",
    "CaseStudy",
    "CatalogueLimit",
    "Cause",
    "Chronograph",
    "ChronographMatch",
    "ClosedCylinderCompression",
    "ComparisonOfCase",
    "Conditions",
    "DecisionRule",
    "EnergyLedger",
    "EnergyLimit",
    "Event",
    "EventKind",
    "Fault",
    "FireMode",
    "FiredString",
    "GrubbsTest",
    "Gun",
    "GunVerdict",
    "HopState",
    "InputError",
    "Interval",
    "JouleCreep",
    "LeftOut",
    "LimitForecast",
    "LimitVerdict",
    "LossExplanation",
    "MeasuredState",
    "NumericalFailure",
    "Observation",
    "Occasion",
    "OutOfRange",
    "Outcome",
    "OutsideValidity",
    "Plausibility",
    "PredictedState",
    "ReadingString",
    "Readings",
    "Sensitivity",
    "Shot",
    "ShotBatch",
    "ShotSummary",
    "SolverCounts",
    "SpeedAtPoint",
    "SpeedPrediction",
    "StringComparison",
    "StringConditions",
    "StringOfCase",
    "StringStatistics",
    "StripdownError",
    "UnitError",
    "air_density",
    "analyse_string",
    "closed_cylinder_compression",
    "compare_strings",
    "explain_loss",
    "grubbs",
    "gun_verdict",
    "limit_verdict",
    "load_case",
    "load_faults",
    "load_gun",
    "load_limits",
    "load_readings",
    "mass_flow_rate",
    "mass_flow_rate_iso6358",
    "match_chronograph",
    "muzzle_from_reading",
    "observe",
    "own_site_rule",
    "predict_speeds",
    "pressure_decay_leak",
    "probability_of_conformity",
    "reading_from_muzzle",
    "simulate_reservoir_launch",
    "simulate_shot",
    "simulate_shots",
    "speed_sensitivity",
    "spring_rate",
    "study_case",
    "sweep_ball_masses",
    "tolerance_factor",
    "wahl_factor",
]
