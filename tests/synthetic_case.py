"""A whole case of the invented rack gun: real studies on strings that are seeded, so that every figure of a sheet is real.

The strings scatter about what the model says of the two example guns, as found and healthy.
"""

from __future__ import annotations

import dataclasses
import functools
from pathlib import Path

import numpy as np

from stripdown.catalogue.limits import own_site_rule
from stripdown.core.interior_ballistics.simulate import integrate_shot
from stripdown.core.shot_statistics import (
    Chronograph,
    EnergyLimit,
    FireMode,
    HopState,
    Occasion,
    StringConditions,
    analyse_string,
    compare_strings,
    comparison_cautions,
    comparison_obstacles,
    reading_from_muzzle,
)
from stripdown.files.gun import Gun, load_gun
from stripdown.files.readings_records import LeftOut, ReadingString
from stripdown.studies.completion import complete
from stripdown.studies.explain_loss import explain_loss
from stripdown.studies.faulty_gun import with_fault
from stripdown.studies.observation import Observation, observe
from stripdown.studies.service_case import CaseStudy, ComparisonOfCase, StringOfCase
from stripdown.studies.verdict import FiredString, GunVerdict, gun_verdict
from stripdown.studies.whole_gun import simulate_shots

_EXAMPLES = Path(__file__).parents[1] / "examples"
_DISTANCE = 0.3
_SCATTER = {Occasion.BEFORE: 0.009, Occasion.AFTER: 0.004}
_SHOTS = 10
CHRONOGRAPH = Chronograph(standard_uncertainty=0.3, resolution=0.1)
BALLS = (0.20e-3, 0.28e-3)


@functools.cache
def example(name: str) -> Gun:
    """One of the example guns, ``"healthy"`` or ``"as-found"``."""
    return load_gun(_EXAMPLES / f"brackenmoor-07-{name}.toml")


def site_rule(energy: str = "1.14 J") -> EnergyLimit:
    """The invented club's own rule."""
    return own_site_rule(energy=energy, measured_at="0 m", place="Brackenmoor Woodland Club (invented)", date="March 2025")


def make_string(
    occasion: Occasion, ball_mass: float, *, fire_mode: FireMode = FireMode.SEMI, factor: float = 1.0, seed: int = 7
) -> StringOfCase:
    """Ten readings that scatter about the model's speed."""
    gun = example("as-found" if occasion is Occasion.BEFORE else "healthy")
    muzzle = float(simulate_shots(gun, variations={"ball.mass": np.array([ball_mass])}).muzzle_speed[0]) * factor
    shown = reading_from_muzzle(muzzle, ball_mass=ball_mass, distance=_DISTANCE).speed
    rng = np.random.default_rng([seed, round(ball_mass * 1e6), list(Occasion).index(occasion)])
    speeds = tuple(float(value) for value in np.round(shown * (1 + _SCATTER[occasion] * rng.standard_normal(_SHOTS)), 1))
    conditions = StringConditions(
        occasion=occasion, ball_mass=ball_mass, hop=HopState.OFF, fire_mode=fire_mode, distance=_DISTANCE, temperature=292.15
    )
    reading = ReadingString(label="", conditions=conditions, speeds=speeds, lines=tuple(range(2, 2 + _SHOTS)), resolution=0.1)
    return StringOfCase(reading=reading, statistics=analyse_string(speeds, ball_mass=ball_mass, chronograph=CHRONOGRAPH))


def compare(before: StringOfCase, after: StringOfCase) -> ComparisonOfCase:
    """One string before beside one after."""
    one, two = before.reading.conditions, after.reading.conditions
    obstacles = comparison_obstacles(one, two)
    comparison = compare_strings(before.reading.speeds, after.reading.speeds, ball_mass=one.ball_mass)
    return ComparisonOfCase(
        before=before,
        after=after,
        comparison=None if obstacles else comparison,
        obstacles=obstacles,
        cautions=comparison_cautions(one, two),
    )


def judge(after: tuple[StringOfCase, ...], limit: EnergyLimit) -> GunVerdict:
    """The healthy gun against a limit."""
    fired = [FiredString(speeds=string.reading.speeds, conditions=string.reading.conditions) for string in after]
    return gun_verdict(example("healthy"), strings=fired, limit=limit, chronograph=CHRONOGRAPH)


@functools.cache
def whole_case() -> CaseStudy:
    """Two balls before and after, a site's rule, an explanation, findings: nothing is missing."""
    before = tuple(make_string(Occasion.BEFORE, ball) for ball in BALLS)
    after = tuple(make_string(Occasion.AFTER, ball) for ball in BALLS)
    gun = example("healthy")
    explanation = explain_loss(gun, before=[_observed(s) for s in before], after=[_observed(s) for s in after])
    likeliest = explanation.causes[0]
    limit = site_rule()
    return CaseStudy(
        title="Rack gun 7: dull shots, range gone",
        gun=gun,
        assumed=complete(gun).assumed,
        found=(
            "Piston ring flattened and dry, black paste in the cylinder. Lips of the hop-up rubber open on one side.",
            "Nozzle and tappet plate sound; spring free length 170 mm as recorded.",
        ),
        done=(
            "Cylinder, head and piston washed and dried; new ring, film of silicone grease.",
            "New hop-up rubber, barrel patched clean and dry, 100 balls of run-in before the proving strings.",
        ),
        before=before,
        after=after,
        comparisons=tuple(compare(one, two) for one, two in zip(before, after, strict=True)),
        explanation=explanation,
        verdict=judge(after, limit),
        limit=limit,
        shot_before=integrate_shot(with_fault(explanation.sound_gun, likeliest.fault, likeliest.amount)),
        shot_after=integrate_shot(explanation.sound_gun),
        unsaid=(),
        left_out=(LeftOut(line=14, text="error", reason="no number: the chronograph missed this shot."),),
        cautions=(
            "Eye protection rated for impact for everybody near whenever the gun is fired.",
            "A new ring beds in: fire a second proving string after 500 shots.",
        ),
        sources=("jcgm_106", "welch_1947", "nist_handbook", "clift_gauvin_1970"),
        program_version="0.1.0",
        input_digest="5f2b8c0e9d1a47336b1f0c2d8e7a9b3c4d5e6f708192a3b4c5d6e7f8091a2b3c",
    )


def without(**gaps: object) -> CaseStudy:
    """The whole case with fields replaced."""
    return dataclasses.replace(whole_case(), **gaps)  # type: ignore[arg-type]


def _observed(string: StringOfCase) -> Observation:
    conditions = string.reading.conditions
    assert conditions.ball_mass is not None
    return observe(
        string.reading.speeds,
        ball_mass=conditions.ball_mass,
        distance=_DISTANCE,
        chronograph=CHRONOGRAPH,
        hop=conditions.hop,
        fire_mode=conditions.fire_mode,
    )
