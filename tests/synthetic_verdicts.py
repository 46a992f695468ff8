"""Strings, verdicts and explanations made up by hand, so that what a picture shows of them is derived in the test."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Sequence

from stripdown.bench.gun import Assumed, Gun
from stripdown.bench.strings import LeftOut, ReadingString
from stripdown.catalogue.faults import load_faults
from stripdown.core.shot_statistics import (
    EnergyLimit,
    FireMode,
    HopState,
    Occasion,
    StringConditions,
    analyse_string,
    compare_strings,
    limit_forecast,
    limit_verdict,
)
from stripdown.references.provenance import Footing
from stripdown.studies.loss_causes import Cause, JointChange, LossExplanation, Plausibility, Signature
from stripdown.studies.service_case import CaseStudy, ComparisonOfCase, StringOfCase, Unsaid, UnsaidKind
from stripdown.studies.verdict import BallVerdict, GunVerdict
from tests.synthetic_shots import AS_FOUND_LEDGER, LEDGER, PARAMETERS

BEFORE = (80.0, 81.0, 79.0, 80.5, 79.5)  # mean 80
AFTER = (100.0, 100.5, 99.5, 100.2, 99.8)  # mean 100, so 1 J with 0.20 g
LIMIT = EnergyLimit(name="made-up rule", energy=1.1, measuring_distance=0.0, source="made up", was_read=True)


def make_string(
    speeds: Sequence[float], *, ball_mass: float | None = 0.20e-3, occasion: Occasion = Occasion.AFTER, label: str = ""
) -> StringOfCase:
    """A string fired on semi with the hop-up off, read at the muzzle."""
    conditions = StringConditions(occasion=occasion, ball_mass=ball_mass, hop=HopState.OFF, fire_mode=FireMode.SEMI, distance=0.0)
    reading = ReadingString(
        label=label, conditions=conditions, speeds=tuple(speeds), lines=tuple(range(1, len(speeds) + 1)), resolution=0.1
    )
    return StringOfCase(reading=reading, statistics=analyse_string(speeds, ball_mass=ball_mass))


def make_pair(*, ball_mass: float | None = 0.20e-3, obstacles: tuple[str, ...] = ()) -> ComparisonOfCase:
    """A gun that gained 20 m/s."""
    return ComparisonOfCase(
        before=make_string(BEFORE, ball_mass=ball_mass, occasion=Occasion.BEFORE),
        after=make_string(AFTER, ball_mass=ball_mass),
        comparison=None if obstacles else compare_strings(BEFORE, AFTER, ball_mass=ball_mass),
        obstacles=obstacles,
        cautions=(),
    )


def measured(ball_mass: float = 0.20e-3, *, speeds: Sequence[float] = AFTER, fire_mode: FireMode = FireMode.SEMI) -> BallVerdict:
    """A ball that was fired."""
    verdict = limit_verdict(speeds, ball_mass=ball_mass, limit=LIMIT, distance=0.0, fire_mode=fire_mode)
    return BallVerdict(ball_mass=ball_mass, fire_mode=fire_mode, measured=verdict, predicted=None)


def predicted(ball_mass: float, speed: float, *, fire_mode: FireMode = FireMode.SEMI) -> BallVerdict:
    """A ball that only the model speaks of: 0.5 m/s uncertain, 0.3 m/s scatter."""
    forecast = limit_forecast(speed, standard_uncertainty=0.5, scatter=0.3, ball_mass=ball_mass, limit=LIMIT)
    return BallVerdict(ball_mass=ball_mass, fire_mode=fire_mode, measured=None, predicted=forecast)


def make_verdict(*balls: BallVerdict) -> GunVerdict:
    """A gun against the made-up rule."""
    worth = tuple(ball.ball_mass for ball in balls if ball.predicted is not None)
    return GunVerdict(limit=LIMIT, balls=balls, worth_firing=worth, match=None, notes=("Made up.",))


def make_cause(
    key: str, multiple: float, plausibility: Plausibility, *, carried_off: float = 0.5, returned: float = 0.3
) -> Cause:
    """A fault of the catalogue, at a multiple of its ordinary amount, known to a tenth."""
    fault = load_faults()[key]
    amount = multiple * fault.ordinary
    alone = plausibility is not Plausibility.NOT_ALONE
    return Cause(
        fault=fault,
        amount=amount,
        low=0.9 * amount if alone else None,
        high=1.1 * amount if alone else None,
        plausibility=plausibility,
        share_explained=1.0 if alone else 0.4,
        fit=0.5,
        signature=Signature(light_loss=0.2, heavy_loss=0.2, piston_home_shift=None, muzzle_to_slam=None),
        ledger=AS_FOUND_LEDGER,
        carried_off=carried_off,
        returned=returned,
    )


def make_explanation(*, was_gained: bool = True) -> LossExplanation:
    """A fifth of the speed lost: four causes, one of each plausibility."""
    return LossExplanation(
        sound_gun=PARAMETERS,
        was_gained=was_gained,
        loss=((0.20e-3, 0.20),),
        change=JointChange(share=0.25, low=0.23, high=0.27, chance=0.0, degrees_of_freedom=18.0, between_days=0.005),
        causes=(
            make_cause("seal_drag", 0.5, Plausibility.ORDINARY, carried_off=0.2, returned=0.15),
            make_cause("cylinder_leak", 2.0, Plausibility.LARGE, carried_off=0.7, returned=0.36),
            make_cause("worn_bore", 4.0, Plausibility.NOT_ALONE),
            make_cause("choked_nozzle", 1.5, Plausibility.CONTRADICTED),
        ),
        sound_signature=Signature(light_loss=0.0, heavy_loss=0.0, piston_home_shift=0.0, muzzle_to_slam=0.0043),
        sound_ledger=LEDGER,
        held=(),
        tests=(),
        notes=("Made up.",),
    )


def make_no_change() -> LossExplanation:
    """Two days on which nothing was done: a tenth of a per cent between them, known to one and a half."""
    change = JointChange(share=-0.001, low=-0.015, high=0.013, chance=0.9, degrees_of_freedom=math.inf, between_days=0.005)
    return dataclasses.replace(make_explanation(), loss=((0.20e-3, 0.001),), change=change, causes=(), notes=())


def make_case(gun: Gun) -> CaseStudy:
    """A whole case of which no figure comes from the model of the shot."""
    pair = make_pair()
    verdict = make_verdict(measured(), predicted(0.28e-3, 85.0), predicted(0.40e-3, 76.0))
    return CaseStudy(
        title="made-up case",
        gun=gun,
        assumed=(
            Assumed(
                path="piston.vent_area",
                value=6e-6,
                text="6 mm²",
                footing=Footing.COMMON_PRACTICE,
                source=None,
                reason="made up",
            ),
            Assumed(path="laws.gas_inertia", value=0.5, text="0.5", footing=Footing.ESTIMATE, source=None, reason="made up"),
        ),
        found=("Dry ring.",),
        done=("New ring.",),
        before=(pair.before,),
        after=(pair.after,),
        comparisons=(pair,),
        explanation=make_explanation(),
        verdict=verdict,
        limit=LIMIT,
        shot_before=None,
        shot_after=None,
        unsaid=(Unsaid(kind=UnsaidKind.NO_LIMIT),),
        left_out=(LeftOut(line=4, text="Err", reason="there is no number in it.", file="after.csv"),),
        sources=("jcgm_106", "welch_1947"),
        program_version="1.2.3",
        input_digest="0123456789abcdef",
        notes=("Understood so.",),
        invented=True,
    )
