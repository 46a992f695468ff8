"""The pictures of an answer: for each kind of study what there is to draw, by the key that its words name."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stripdown.charts.ledger import ledger_at_a_glance
from stripdown.charts.sensitivity import speed_sensitivity
from stripdown.charts.shot import pressure_travel, speed_travel
from stripdown.charts.standing_graph import standing_graph
from stripdown.charts.sweep import joule_creep
from stripdown.charts.themes import SCREEN, Theme
from stripdown.studies.joule_creep import JouleCreep
from stripdown.studies.sensitivity import Sensitivity
from stripdown.studies.service_job import JobStudy
from stripdown.studies.shooting import FiredAlike
from stripdown.words.numbers import speed_unit

if TYPE_CHECKING:
    from stripdown.charts.render import AnyChart
    from stripdown.units import Scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How pictures are drawn: theme, and the scale in which their figures are written."""

    theme: Theme = SCREEN
    scale: Scale = "metric"


@functools.singledispatch
def pictures_of(study: object, look: Look) -> Mapping[str, AnyChart]:  # noqa: ARG001  each kind of study registers its own
    """Charts by key; of a study that has nothing to draw, none."""
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


@pictures_of.register(JobStudy)
def _of_a_job(study: JobStudy, look: Look) -> Mapping[str, AnyChart]:
    return {"standing": standing_graph(study.job.procedure, study.job.known, theme=look.theme)}
