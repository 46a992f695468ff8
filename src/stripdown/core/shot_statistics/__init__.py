"""Chronograph strings: what they say of a gun, what changed between two of them, and whether it keeps to a limit.

Everything here is pure and in SI. Readings come as any sequence of finite numbers; whether they are plausible is judged
where they are read in, not here.
"""

from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ, Chronograph, two_screen_uncertainty
from stripdown.core.shot_statistics.chronograph_offset import ChronographOffset, chronograph_offset
from stripdown.core.shot_statistics.comparison import Difference, StringComparison, compare_strings
from stripdown.core.shot_statistics.conditions import (
    FireMode,
    HopState,
    Occasion,
    StringConditions,
    comparison_cautions,
    comparison_obstacles,
)
from stripdown.core.shot_statistics.conformity import guard_band, probability_of_conformity
from stripdown.core.shot_statistics.drift import DriftTest
from stripdown.core.shot_statistics.energy import EnergyOfString
from stripdown.core.shot_statistics.fast_tail import FastTailTest
from stripdown.core.shot_statistics.first_shot import FirstShotTest
from stripdown.core.shot_statistics.forecast import LimitForecast, PredictedState, limit_forecast
from stripdown.core.shot_statistics.intervals import Interval
from stripdown.core.shot_statistics.limits import EnergyLimit, LimitScope, limit_from_speed
from stripdown.core.shot_statistics.next_shot import NextShot
from stripdown.core.shot_statistics.outliers import End, GrubbsTest, Outlier, grubbs
from stripdown.core.shot_statistics.reading import (
    SpeedAtPoint,
    energy_limit_at,
    move_speeds,
    muzzle_from_reading,
    reading_from_muzzle,
)
from stripdown.core.shot_statistics.reference_gun import DayFactor, day_factor
from stripdown.core.shot_statistics.set_aside import SetAside
from stripdown.core.shot_statistics.signs import StringSigns, Unsteady
from stripdown.core.shot_statistics.strings import StringStatistics, analyse_string
from stripdown.core.shot_statistics.tolerance import tolerance_factor
from stripdown.core.shot_statistics.two_heaps import TwoHeapsTest
from stripdown.core.shot_statistics.verdict import USUAL_RULE, DecisionRule, FireNext, LimitVerdict, MeasuredState, limit_verdict

__all__ = [
    "CHRONOGRAPH_AS_READ",
    "USUAL_RULE",
    "Chronograph",
    "ChronographOffset",
    "DayFactor",
    "DecisionRule",
    "Difference",
    "DriftTest",
    "End",
    "EnergyLimit",
    "EnergyOfString",
    "FastTailTest",
    "FireMode",
    "FireNext",
    "FirstShotTest",
    "GrubbsTest",
    "HopState",
    "Interval",
    "LimitForecast",
    "LimitScope",
    "LimitVerdict",
    "MeasuredState",
    "NextShot",
    "Occasion",
    "Outlier",
    "PredictedState",
    "SetAside",
    "SpeedAtPoint",
    "StringComparison",
    "StringConditions",
    "StringSigns",
    "StringStatistics",
    "TwoHeapsTest",
    "Unsteady",
    "analyse_string",
    "chronograph_offset",
    "compare_strings",
    "comparison_cautions",
    "comparison_obstacles",
    "day_factor",
    "energy_limit_at",
    "grubbs",
    "guard_band",
    "limit_forecast",
    "limit_from_speed",
    "limit_verdict",
    "move_speeds",
    "muzzle_from_reading",
    "probability_of_conformity",
    "reading_from_muzzle",
    "tolerance_factor",
    "two_screen_uncertainty",
]
