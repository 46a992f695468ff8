"""The Python interface: what is named here is public, and nothing else is.

Everything is in SI units and keyword-only except the one or two obvious arguments; results are frozen.
"""

from __future__ import annotations

from stripdown.bench.calculators import CALCULATORS, Asked, Calculator, Touching
from stripdown.bench.gun import Gun
from stripdown.bench.shims import ShimSheet
from stripdown.bench.strings import ChronographSession, LeftOut, ReadingString
from stripdown.bench.visit import Visit
from stripdown.catalogue.compatibility import Compatibility
from stripdown.catalogue.engagement import CatalogueEngagement, load_engagement
from stripdown.catalogue.entries import CatalogueEntry
from stripdown.catalogue.faults import Fault, load_faults
from stripdown.catalogue.fluids import Fluid, load_fluids
from stripdown.catalogue.index import catalogue_entries
from stripdown.catalogue.injuries import CatalogueInjury, load_injuries
from stripdown.catalogue.limits import CatalogueLimit, load_limits, own_site_rule
from stripdown.catalogue.materials import load_materials
from stripdown.catalogue.part_materials import PartMaterials, load_part_materials
from stripdown.catalogue.protection import CatalogueProtection, ImpactTest, load_protection
from stripdown.charts.pictures import Look as PictureLook
from stripdown.charts.pictures import pictures_of
from stripdown.charts.render import to_html, to_png, to_svg
from stripdown.core.air import air_density
from stripdown.core.drive_cycle import (
    OperatingPoint,
    battery_open_circuit_voltage,
    motor_operating_point,
    winding_temperature,
    wire_resistance,
)
from stripdown.core.exterior_ballistics import (
    DragLaw,
    Flight,
    FlightAir,
    FlightFan,
    FlightLaws,
    FlightParameters,
    FlightState,
    Launch,
    LiftLaw,
    Passings,
    Sphere,
    SpinDecayLaw,
    Wind,
    air_state,
    drag_coefficient,
    flight_laws,
    integrate_fan,
    integrate_flight,
    lift_coefficient,
    simulate_flight,
)
from stripdown.core.interior_ballistics.closed_forms import ClosedCylinderCompression, closed_cylinder_compression
from stripdown.core.interior_ballistics.reservoir import simulate_reservoir_launch
from stripdown.core.interior_ballistics.result import EnergyLedger, Event, EventKind, Outcome, Shot, ShotSummary, SolverCounts
from stripdown.core.interior_ballistics.simulate import ShotBatch
from stripdown.core.mechanics.ball_drag import BallFlight
from stripdown.core.mechanics.gear_contact import (
    GearContact,
    contact_ratio,
    least_pressure_angle_without_interference,
)
from stripdown.core.mechanics.gear_teeth import hertz_pressure, lewis_form_factor, lewis_stress
from stripdown.core.mechanics.orifices import mass_flow_rate, mass_flow_rate_iso6358
from stripdown.core.mechanics.pressure_decay import pressure_decay_leak
from stripdown.core.mechanics.spring_force import spring_rate
from stripdown.core.mechanics.spring_stress import wahl_factor
from stripdown.core.part_condition.band import AgainstBand, Band, BandPlace
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.compression_set import RingSet, compression_set, judge_compression_set
from stripdown.core.part_condition.corners import (
    CornerGain,
    CornerShape,
    StressConcentration,
    corner_radius_gain,
    stress_concentration,
)
from stripdown.core.part_condition.engagement import EngagementPad, engagement_pad
from stripdown.core.part_condition.gauge_leak import gauge_leak
from stripdown.core.part_condition.hardness import HardnessChange, HardnessComparison, compare_hardness
from stripdown.core.part_condition.leak_found import LeakFound, LeakNature, find_leak
from stripdown.core.part_condition.leak_reading import LeakReading
from stripdown.core.part_condition.lubricants import (
    ConsistencyGrade,
    SiliconeViscosity,
    ViscosityGrade,
    consistency_grade,
    penetration_grade,
    read_lubricant_grade,
    viscosity_grade,
)
from stripdown.core.part_condition.o_ring_gland import OringGland, o_ring_gland
from stripdown.core.part_condition.parameters import (
    HardnessScale,
    InnerCorner,
    LeakTests,
    LoadedTooth,
    Loading,
    PistonDrag,
    PressedRing,
    RingInGland,
    RingInGroove,
    RingsOnATester,
    ScrewInBoss,
    WitnessMark,
)
from stripdown.core.part_condition.piston_ring import FloatingRing, floating_ring
from stripdown.core.part_condition.screws import torque_by_nut_factor
from stripdown.core.part_condition.teeth import ToothLoad, tooth_load
from stripdown.core.part_condition.timed_leak import timed_leak
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shim_selection import (
    BearingEndPlay,
    GearClearance,
    GearFace,
    GearSeat,
    GearShims,
    LostPlace,
    NearestMiss,
    OldShim,
    ShimChoice,
    ShimMap,
    ShimmedGear,
    ShimPack,
    ShimSplit,
    Unclosable,
    bearing_end_play,
    choose_shims,
    choose_split,
    class_clearance,
    lost_places,
    shim_map,
)
from stripdown.core.shim_selection.parameters import BearingClass, PlayOfGear
from stripdown.core.shot_statistics import (
    Chronograph,
    ChronographOffset,
    DayFactor,
    DecisionRule,
    EnergyLimit,
    FireMode,
    FireNext,
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
    Unsteady,
    analyse_string,
    chronograph_offset,
    compare_strings,
    day_factor,
    energy_limit_at,
    grubbs,
    limit_verdict,
    muzzle_from_reading,
    probability_of_conformity,
    reading_from_muzzle,
    tolerance_factor,
)
from stripdown.errors import InputError, NumericalFailure, OutOfRange, OutsideValidity, StripdownError, UnitError
from stripdown.files.chronograph_session import SetAsideLine, load_session
from stripdown.files.gun import GunCheck, check_gun, load_gun
from stripdown.files.gun_template import gun_template
from stripdown.files.readings import Readings, load_readings
from stripdown.files.shim_sheet import load_shim_sheet
from stripdown.files.visit import load_case, load_job, load_visit
from stripdown.files.visit_log import append_to_log
from stripdown.files.visit_template import visit_template
from stripdown.procedures.bodies import Body, load_bodies
from stripdown.procedures.cautions import Caution, Harm
from stripdown.procedures.complaint_trees import Complaint, Finding, Question, request_for
from stripdown.procedures.complaints import find_complaint, load_complaints
from stripdown.procedures.damage import Damage, DamagePattern, load_damage
from stripdown.procedures.description import Procedures
from stripdown.procedures.energy import Arrival, Energy, Spring
from stripdown.procedures.events import Event as LogEvent
from stripdown.procedures.events import FluidOn
from stripdown.procedures.grading import GradeRecord, StandingGrade, open_rejects
from stripdown.procedures.inspection import Inspection, InspectionSheet, add_own_limits, load_inspection
from stripdown.procedures.jobs import NamedJob
from stripdown.procedures.loading import add_own_steps, load_procedures
from stripdown.procedures.looks import Grade, Look, grade_value
from stripdown.procedures.plan import Plan, PlannedStep, plan
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request, TooLate
from stripdown.procedures.standing import CheckStanding, Standing, standing
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.touches import Touch
from stripdown.procedures.troubles import Trouble
from stripdown.procedures.variations import Variation
from stripdown.procedures.why import Why, why_before
from stripdown.reports.sheets import build_service_sheet, build_sheet
from stripdown.studies.ball_choice import BallChoice, BallOfChoice, study_balls
from stripdown.studies.calculators import Answered, Fired, calculate, end_plays
from stripdown.studies.drag_cost import DragCost, drag_cost
from stripdown.studies.effective_range import Group, HitsAt, RangeStudy, Target, study_range
from stripdown.studies.explain_loss import explain_loss
from stripdown.studies.flight import Band as FlightBand
from stripdown.studies.flight import EnergyLevel, FlightStudy, study_flight
from stripdown.studies.forbidden_touches import TouchFinding, TouchLevel, forbidden_touches
from stripdown.studies.hop_setting import HopSetting, flattest_hop, furthest_hop
from stripdown.studies.impact import Impact, ImpactAt, LensClass, study_impact
from stripdown.studies.joule_creep import JouleCreep, sweep_ball_masses
from stripdown.studies.leak_cost import LeakCost, LeakingShot, found_leak_cost, leak_cost
from stripdown.studies.lift import FittedLift, Sighting, SightingKind, fit_lift, flat_to
from stripdown.studies.looks import ComplaintTrees, InspectedParts, complaint_trees, inspect_parts
from stripdown.studies.loss_causes import Cause, LossExplanation, Plausibility
from stripdown.studies.match_chronograph import ChronographMatch, SpeedPrediction, match_chronograph, predict_speeds
from stripdown.studies.muzzle import MuzzleState, Stance, muzzle_state
from stripdown.studies.observation import Observation, observe
from stripdown.studies.pad_cost import PadCost, pad_cost
from stripdown.studies.prices import priced
from stripdown.studies.rating_survey import RatingSurvey, survey_ratings
from stripdown.studies.ratings import Rating, RatingGround, rating
from stripdown.studies.screw_tightening import (
    LimitedBy,
    ScrewTightening,
    screw_tightening,
    screw_torque,
    thread_stripping_force,
)
from stripdown.studies.sensitivity import Sensitivity, speed_sensitivity
from stripdown.studies.service_case import CaseStudy, ComparisonOfCase, StringOfCase, Unsaid, UnsaidKind
from stripdown.studies.service_job import (
    Block,
    BlockKind,
    FindingKind,
    JobStudy,
    LogFinding,
    Release,
    named_jobs,
    names_for_jobs,
    study_job,
    why_in_order,
)
from stripdown.studies.service_log import Entered, log_done, log_failed, log_graded, log_note, log_touched, log_undo
from stripdown.studies.session_answers import (
    SessionComparison,
    SessionExplanation,
    SessionMatch,
    SessionStrings,
    SessionVerdict,
    study_comparison,
    study_loss,
    study_match,
    study_strings,
    study_verdict,
)
from stripdown.studies.shooting import FiredAlike, Shooting, shoot
from stripdown.studies.site_chronograph import GunOnBoth, SiteChronograph, study_site_chronograph
from stripdown.studies.study_case import study_case
from stripdown.studies.variants import FiredVariant
from stripdown.studies.verdict import BallVerdict, FiredString, GunVerdict, gun_verdict
from stripdown.studies.whole_gun import simulate_shot, simulate_shots

__all__ = [
    "CALCULATORS",
    "AgainstBand",
    "Answered",
    "Arrival",
    "Asked",
    "BallChoice",
    "BallFlight",
    "BallOfChoice",
    "BallVerdict",
    "Band",
    "BandPlace",
    "Basis",
    "BearingClass",
    "BearingEndPlay",
    "Block",
    "BlockKind",
    "Body",
    "Calculator",
    "CaseStudy",
    "CatalogueEngagement",
    "CatalogueEntry",
    "CatalogueInjury",
    "CatalogueLimit",
    "CatalogueProtection",
    "Cause",
    "Caution",
    "CheckStanding",
    "Chronograph",
    "ChronographMatch",
    "ChronographOffset",
    "ChronographSession",
    "ClosedCylinderCompression",
    "ComparisonOfCase",
    "Compatibility",
    "Complaint",
    "ComplaintTrees",
    "Conditions",
    "ConsistencyGrade",
    "CornerGain",
    "CornerShape",
    "Damage",
    "DamagePattern",
    "DayFactor",
    "DecisionRule",
    "DragCost",
    "DragLaw",
    "Energy",
    "EnergyLedger",
    "EnergyLevel",
    "EnergyLimit",
    "EngagementPad",
    "Entered",
    "Event",
    "EventKind",
    "Fault",
    "Finding",
    "FindingKind",
    "FireMode",
    "FireNext",
    "Fired",
    "FiredAlike",
    "FiredString",
    "FiredVariant",
    "FittedLift",
    "Flight",
    "FlightAir",
    "FlightBand",
    "FlightFan",
    "FlightLaws",
    "FlightParameters",
    "FlightState",
    "FlightStudy",
    "FloatingRing",
    "Fluid",
    "FluidOn",
    "GearClearance",
    "GearContact",
    "GearFace",
    "GearSeat",
    "GearShims",
    "Grade",
    "GradeRecord",
    "Group",
    "GrubbsTest",
    "Gun",
    "GunCheck",
    "GunOnBoth",
    "GunVerdict",
    "HardnessChange",
    "HardnessComparison",
    "HardnessScale",
    "Harm",
    "HitsAt",
    "HopSetting",
    "HopState",
    "Impact",
    "ImpactAt",
    "ImpactTest",
    "InnerCorner",
    "InputError",
    "InspectedParts",
    "Inspection",
    "InspectionSheet",
    "Interval",
    "JobStudy",
    "JouleCreep",
    "Launch",
    "LeakCost",
    "LeakFound",
    "LeakNature",
    "LeakReading",
    "LeakTests",
    "LeakingShot",
    "LeftOut",
    "LensClass",
    "LiftLaw",
    "LimitForecast",
    "LimitVerdict",
    "LimitedBy",
    "LoadedTooth",
    "Loading",
    "LogEvent",
    "LogFinding",
    "Look",
    "LossExplanation",
    "LostPlace",
    "MeasuredState",
    "MuzzleState",
    "NamedJob",
    "NearestMiss",
    "NumericalFailure",
    "Observation",
    "Occasion",
    "OldShim",
    "OperatingPoint",
    "OringGland",
    "OutOfRange",
    "Outcome",
    "OutsideValidity",
    "PadCost",
    "PartMaterials",
    "Passings",
    "PictureLook",
    "PistonDrag",
    "Plan",
    "PlannedStep",
    "Plausibility",
    "PlayOfGear",
    "PredictedState",
    "PressedRing",
    "Procedure",
    "Procedures",
    "Question",
    "RangeStudy",
    "Rating",
    "RatingGround",
    "RatingSurvey",
    "ReadingString",
    "Readings",
    "Release",
    "Request",
    "RingInGland",
    "RingInGroove",
    "RingSet",
    "RingsOnATester",
    "ScrewInBoss",
    "ScrewTightening",
    "Sensitivity",
    "SessionComparison",
    "SessionExplanation",
    "SessionMatch",
    "SessionStrings",
    "SessionVerdict",
    "SetAsideLine",
    "ShimChoice",
    "ShimMap",
    "ShimPack",
    "ShimSheet",
    "ShimSplit",
    "ShimmedGear",
    "Shooting",
    "Shot",
    "ShotBatch",
    "ShotSummary",
    "Sighting",
    "SightingKind",
    "SiliconeViscosity",
    "SiteChronograph",
    "SolverCounts",
    "SpeedAtPoint",
    "SpeedPrediction",
    "Sphere",
    "SpinDecayLaw",
    "Spring",
    "Stance",
    "Standing",
    "StandingGrade",
    "Step",
    "StepKind",
    "StressConcentration",
    "StringComparison",
    "StringConditions",
    "StringOfCase",
    "StringStatistics",
    "StripdownError",
    "Target",
    "TooLate",
    "ToothLoad",
    "Touch",
    "TouchFinding",
    "TouchLevel",
    "Touching",
    "Trouble",
    "Unclosable",
    "UnitError",
    "Unsaid",
    "UnsaidKind",
    "Unsteady",
    "Variation",
    "ViscosityGrade",
    "Visit",
    "Why",
    "Wind",
    "WitnessMark",
    "add_own_limits",
    "add_own_steps",
    "air_density",
    "air_state",
    "analyse_string",
    "append_to_log",
    "battery_open_circuit_voltage",
    "bearing_end_play",
    "build_service_sheet",
    "build_sheet",
    "calculate",
    "catalogue_entries",
    "check_gun",
    "choose_shims",
    "choose_split",
    "chronograph_offset",
    "class_clearance",
    "closed_cylinder_compression",
    "compare_hardness",
    "compare_strings",
    "complaint_trees",
    "compression_set",
    "consistency_grade",
    "contact_ratio",
    "corner_radius_gain",
    "day_factor",
    "drag_coefficient",
    "drag_cost",
    "end_plays",
    "energy_limit_at",
    "engagement_pad",
    "explain_loss",
    "find_complaint",
    "find_leak",
    "fit_lift",
    "flat_to",
    "flattest_hop",
    "flight_laws",
    "floating_ring",
    "forbidden_touches",
    "found_leak_cost",
    "furthest_hop",
    "gauge_leak",
    "grade_value",
    "grubbs",
    "gun_template",
    "gun_verdict",
    "hertz_pressure",
    "inspect_parts",
    "integrate_fan",
    "integrate_flight",
    "judge_compression_set",
    "leak_cost",
    "least_pressure_angle_without_interference",
    "lewis_form_factor",
    "lewis_stress",
    "lift_coefficient",
    "limit_verdict",
    "load_bodies",
    "load_case",
    "load_complaints",
    "load_damage",
    "load_engagement",
    "load_faults",
    "load_fluids",
    "load_gun",
    "load_injuries",
    "load_inspection",
    "load_job",
    "load_limits",
    "load_materials",
    "load_part_materials",
    "load_procedures",
    "load_protection",
    "load_readings",
    "load_session",
    "load_shim_sheet",
    "load_visit",
    "log_done",
    "log_failed",
    "log_graded",
    "log_note",
    "log_touched",
    "log_undo",
    "lost_places",
    "mass_flow_rate",
    "mass_flow_rate_iso6358",
    "match_chronograph",
    "motor_operating_point",
    "muzzle_from_reading",
    "muzzle_state",
    "named_jobs",
    "names_for_jobs",
    "o_ring_gland",
    "observe",
    "open_rejects",
    "own_site_rule",
    "pad_cost",
    "penetration_grade",
    "pictures_of",
    "plan",
    "predict_speeds",
    "pressure_decay_leak",
    "priced",
    "probability_of_conformity",
    "rating",
    "read_lubricant_grade",
    "reading_from_muzzle",
    "request_for",
    "screw_tightening",
    "screw_torque",
    "shim_map",
    "shoot",
    "simulate_flight",
    "simulate_reservoir_launch",
    "simulate_shot",
    "simulate_shots",
    "speed_sensitivity",
    "spring_rate",
    "standing",
    "stress_concentration",
    "study_balls",
    "study_case",
    "study_comparison",
    "study_flight",
    "study_impact",
    "study_job",
    "study_loss",
    "study_match",
    "study_range",
    "study_site_chronograph",
    "study_strings",
    "study_verdict",
    "survey_ratings",
    "sweep_ball_masses",
    "thread_stripping_force",
    "timed_leak",
    "to_html",
    "to_png",
    "to_svg",
    "tolerance_factor",
    "tooth_load",
    "torque_by_nut_factor",
    "viscosity_grade",
    "visit_template",
    "wahl_factor",
    "why_before",
    "why_in_order",
    "winding_temperature",
    "wire_resistance",
]
