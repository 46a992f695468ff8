"""The pictures of an answer: for each kind of study what there is to draw, by the key that its words name."""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from stripdown.bench.calculators import CALCULATORS
from stripdown.charts.ball_choice import balls_side_by_side
from stripdown.charts.flight import drop_and_speed, side_view
from stripdown.charts.gland import gland_section
from stripdown.charts.joule_creep import joule_creep
from stripdown.charts.ledger import ledger_at_a_glance
from stripdown.charts.limit import creep_against_limit
from stripdown.charts.loss import causes_of_loss
from stripdown.charts.on_target import fan_on_target
from stripdown.charts.render import AnyChart
from stripdown.charts.repair import ledger_beside_repair
from stripdown.charts.sensitivity import speed_sensitivity
from stripdown.charts.shim_stack import shim_stack
from stripdown.charts.shot import pressure_travel, speed_travel
from stripdown.charts.standing_graph import standing_graph
from stripdown.charts.string_pairs import before_and_after
from stripdown.charts.strings import string_in_order
from stripdown.charts.themes import SCREEN, Theme
from stripdown.charts.witness_mark import witness_mark_and_pad
from stripdown.studies.ball_choice import BallChoice
from stripdown.studies.calculators import Answered
from stripdown.studies.case_strings import verdict_on
from stripdown.studies.effective_range import RangeStudy
from stripdown.studies.flight import FlightStudy
from stripdown.studies.joule_creep import JouleCreep
from stripdown.studies.sensitivity import Sensitivity
from stripdown.studies.service_case import CaseStudy
from stripdown.studies.service_job import JobStudy
from stripdown.studies.session_answers import SessionComparison, SessionExplanation, SessionStrings, SessionVerdict
from stripdown.studies.shooting import FiredAlike
from stripdown.units import Scale
from stripdown.words.numbers import speed_unit
from stripdown.words.strings import picture_keys

if TYPE_CHECKING:
    from stripdown.studies.service_case import StringOfCase
    from stripdown.studies.verdict import GunVerdict


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How pictures are drawn.

    Parameters
    ----------
    theme
        Colours and sizes, of a screen or of paper.
    scale
        In which figures are written: "metric" or "imperial".
    """

    theme: Theme = SCREEN
    scale: Scale = "metric"


@functools.singledispatch
def pictures_of(study: object, look: Look) -> Mapping[str, AnyChart]:  # noqa: ARG001  each kind of study registers its own
    """Draw what there is to draw of a study.

    Parameters
    ----------
    study
        What any function named ``study_...``, or one that answers a calculator, has returned.
    look
        Theme and scale.

    Returns
    -------
    mapping of str to chart
        By the key that the words of the answer name; empty if there is nothing to draw.
    """
    return {}


@pictures_of.register(FiredAlike)
def _of_shots(study: FiredAlike, look: Look) -> Mapping[str, AnyChart]:
    shots = [shooting.shot for shooting in study.shootings]
    names = [shooting.name for shooting in study.shootings]
    unit = speed_unit(look.scale)
    return {
        "ledger": ledger_at_a_glance(shots, names=names, speed_unit=unit, theme=look.theme),
        "pressure": pressure_travel(shots, names=names, theme=look.theme),
        "speed": speed_travel(shots, names=names, speed_unit=unit, theme=look.theme),
    }


@pictures_of.register(JouleCreep)
def _of_a_sweep(study: JouleCreep, look: Look) -> Mapping[str, AnyChart]:
    return {"ball-masses": joule_creep(study, speed_unit=speed_unit(look.scale), theme=look.theme)}


@pictures_of.register(Sensitivity)
def _of_tolerances(study: Sensitivity, look: Look) -> Mapping[str, AnyChart]:
    return {"tolerances": speed_sensitivity(study, speed_unit=speed_unit(look.scale), theme=look.theme)}


@pictures_of.register(FlightStudy)
def _of_a_flight(study: FlightStudy, look: Look) -> Mapping[str, AnyChart]:
    return {
        "side-view": side_view(study, scale=look.scale, theme=look.theme),
        "by-distance": drop_and_speed(study, scale=look.scale, theme=look.theme),
    }


@pictures_of.register(RangeStudy)
def _on_a_target(study: RangeStudy, look: Look) -> Mapping[str, AnyChart]:
    return {"on-target": fan_on_target(study, scale=look.scale, theme=look.theme)}


@pictures_of.register(BallChoice)
def _of_balls(study: BallChoice, look: Look) -> Mapping[str, AnyChart]:
    return {"choice": balls_side_by_side(study, theme=look.theme)}


@pictures_of.register(JobStudy)
def _of_a_job(study: JobStudy, look: Look) -> Mapping[str, AnyChart]:
    return {"standing": standing_graph(study.job.procedure, study.job.known, theme=look.theme)}


@pictures_of.register(Answered)
def _of_a_calculator(study: Answered, look: Look) -> Mapping[str, AnyChart]:
    """What a calculator draws; an answer that says that there is none has no picture."""
    key = CALCULATORS[study.key].picture
    return {key: DRAWN[study.key](study.found, look.theme)} if key and study.found is not None else {}


@pictures_of.register(SessionStrings)
def _of_strings(study: SessionStrings, look: Look) -> Mapping[str, AnyChart]:
    return _strings(study.strings, None, look)


@pictures_of.register(SessionComparison)
def _of_a_comparison(study: SessionComparison, look: Look) -> Mapping[str, AnyChart]:
    return {"before-and-after": before_and_after(study.pairs, scale=look.scale, theme=look.theme)}


@pictures_of.register(SessionExplanation)
def _of_an_explanation(study: SessionExplanation, look: Look) -> Mapping[str, AnyChart]:
    if not study.explanation.is_certain:
        return {}
    return {"causes": causes_of_loss(study.explanation, scale=look.scale, theme=look.theme)}


@pictures_of.register(SessionVerdict)
def _of_a_verdict(study: SessionVerdict, look: Look) -> Mapping[str, AnyChart]:
    return {"limit": creep_against_limit(study.verdict, theme=look.theme)}


@pictures_of.register(CaseStudy)
def _of_a_case(study: CaseStudy, look: Look) -> Mapping[str, AnyChart]:
    charts = dict(_strings((*study.before, *study.after), study.verdict, look))
    if study.comparisons:
        charts["before-and-after"] = before_and_after(study.comparisons, scale=look.scale, theme=look.theme)
    if study.verdict is not None:
        charts["limit"] = creep_against_limit(study.verdict, theme=look.theme)
    if study.explanation is not None and study.explanation.is_certain:
        charts["causes"] = causes_of_loss(study.explanation, scale=look.scale, theme=look.theme)
        if study.shot_before is not None and study.shot_after is not None:
            pair = study.shot_before, study.shot_after
            charts["where-it-went"] = ledger_beside_repair(*pair, study.explanation, theme=look.theme)
    return charts


def _strings(strings: Sequence[StringOfCase], verdict: GunVerdict | None, look: Look) -> Mapping[str, AnyChart]:
    return {
        key: string_in_order(
            string.statistics,
            verdict=verdict_on(string, verdict),
            name=string.reading.words,
            scale=look.scale,
            theme=look.theme,
        )
        for string, key in zip(strings, picture_keys(strings), strict=True)
    }


DRAWN: Final[Mapping[str, Callable[[Any, Theme], AnyChart]]] = MappingProxyType(
    {
        "shims": lambda found, theme: shim_stack(found.found, theme=theme),
        "pad": lambda found, theme: witness_mark_and_pad(found, theme=theme),
        "gland": lambda found, theme: gland_section(found, theme=theme),
    }
)
"""How the calculators that have a picture draw it, by key of the calculator."""
