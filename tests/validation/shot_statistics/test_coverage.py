"""Intervals cover, chances come true and alarms stay rare as often as stated: by simulation of strings with known truth."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

import pytest

from stripdown.core.shot_statistics import (
    Chronograph,
    EnergyLimit,
    MeasuredState,
    NextShot,
    analyse_string,
    compare_strings,
    limit_verdict,
    tolerance_factor,
)
from stripdown.core.shot_statistics.distributions import normal_below, normal_quantile
from tests.published import Published
from tests.validation.shot_statistics.beyond_assumptions import sections

numpy = pytest.importorskip("numpy")

PAGE = Path(__file__).parents[3] / "docs" / "validation-statistics.md"
BALL = 0.2e-3
MEAN, SCATTER, CALIBRATION = 97.0, 0.4, 0.3  # m/s: gun, shot to shot, chronograph
INSTRUMENT = Chronograph(standard_uncertainty=CALIBRATION)
LENGTHS = (3, 5, 10, 30)
FEW, MANY, BEYOND = 800, 10_000, 1500


@dataclass(frozen=True, kw_only=True)
class Claim:
    """One statement that the statistics make, and how often it must be true."""

    words: str
    stated: float
    sense: Literal["", "about ", "at most ", "at least "] = ""
    """Exactly; nearly, as Welch's approximation in short strings; or erring to the safe side."""


MEAN_IN = Claim(words="interval of the mean holds the true mean", stated=0.95)
SD_IN = Claim(words="interval of the standard deviation holds the true one", stated=0.95)
NEXT_IN = Claim(words="interval of the next shot holds it", stated=0.95)
TOLERANCE_IN = Claim(words="tolerance interval holds 95 % of all shots", stated=0.95)
UPPER_IN = Claim(words="one-sided tolerance bound has 95 % of all shots under it", stated=0.95)
MEAN_IN_TOO = Claim(words="interval of the mean, with a chronograph of ± 0.3 m/s", stated=0.95)
NEXT_IN_TOO = Claim(words="interval of the next shot, with that chronograph", stated=0.95, sense="at least ")
ENERGY_IN = Claim(words="interval of the mean energy, with that chronograph", stated=0.95)
EDGE = Claim(
    words="next shot exceeds a limit for which a chance of 2.5 % was stated, with that chronograph",
    stated=0.025,
    sense="at most ",
)
WELCH_IN = Claim(
    words="interval of before against after (scatter 1.5 and 0.4 m/s) holds the true difference", stated=0.95, sense="about "
)
WELCH_ENERGY = Claim(words="the same in energy", stated=0.95, sense="about ")
FALSE_UNDER = Claim(words='"under the limit" of a gun of whose shots 5 % exceed it', stated=0.05, sense="at most ")
OUTLIER = Claim(words="an outlier is named in a sound string", stated=0.06, sense="at most ")
DRIFT = Claim(words="drift is seen in a sound string", stated=0.02, sense="at most ")
HEAPS = Claim(words="two heaps are seen in a sound string", stated=0.01, sense="at most ")
FIRST = Claim(words="the first shot of a sound string is called low", stated=0.01, sense="at most ")
CLAIMS = (
    *(MEAN_IN, SD_IN, NEXT_IN, TOLERANCE_IN, UPPER_IN, MEAN_IN_TOO, NEXT_IN_TOO, ENERGY_IN, EDGE, WELCH_IN, WELCH_ENERGY),
    *(FALSE_UNDER, OUTLIER, DRIFT, HEAPS, FIRST),
)


def _one_string(generator: object, n: int) -> Iterator[tuple[Claim, bool]]:
    """Fire one sound string and more, and hold every statement against the truth."""
    shots = generator.normal(MEAN, SCATTER, n + 1)  # type: ignore[attr-defined]
    string, following = [float(shot) for shot in shots[:n]], float(shots[n])
    found = analyse_string(string, ball_mass=BALL)
    assert found.mean_interval is not None
    assert found.standard_deviation_interval is not None
    assert found.next_shot_interval is not None
    assert found.tolerance_interval is not None
    assert found.standard_deviation is not None
    yield MEAN_IN, MEAN in found.mean_interval
    yield SD_IN, SCATTER in found.standard_deviation_interval
    yield NEXT_IN, following in found.next_shot_interval
    low, high = ((end - MEAN) / SCATTER for end in found.tolerance_interval)
    yield TOLERANCE_IN, normal_below(high) - normal_below(low) >= 0.95
    upper = found.mean + found.standard_deviation * tolerance_factor(n, content=0.95, confidence=0.95, sides=1)
    yield UPPER_IN, normal_below((upper - MEAN) / SCATTER) >= 0.95
    yield OUTLIER, bool(found.outliers)
    yield DRIFT, found.has_drift
    yield HEAPS, found.has_two_heaps
    yield FIRST, found.has_low_first_shot

    shift = float(generator.normal(0.0, CALIBRATION))  # type: ignore[attr-defined]
    read = analyse_string([shot + shift for shot in string], ball_mass=BALL, chronograph=INSTRUMENT)
    assert read.mean_interval is not None
    assert read.next_shot_interval is not None
    assert read.standard_deviation is not None
    assert read.energy is not None
    assert read.energy.interval is not None
    yield MEAN_IN_TOO, MEAN in read.mean_interval
    yield NEXT_IN_TOO, following in read.next_shot_interval
    yield ENERGY_IN, 0.5 * BALL * (MEAN**2 + SCATTER**2) in read.energy.interval
    shot = NextShot(mean=read.mean, standard_deviation=read.standard_deviation, count=n, common_uncertainty=CALIBRATION)
    yield EDGE, following > read.mean + shot.offset(0.025)

    before = [float(speed) for speed in generator.normal(88.0, 1.5, n)]  # type: ignore[attr-defined]
    compared = compare_strings(before, string, ball_mass=BALL)
    assert compared.energy is not None
    yield WELCH_IN, MEAN - 88.0 in compared.interval
    yield WELCH_ENERGY, 0.5 * BALL * (MEAN**2 + SCATTER**2 - 88.0**2 - 1.5**2) in compared.energy.interval

    limit_speed = MEAN + SCATTER * normal_quantile(0.95)
    limit = EnergyLimit(name="5 % exceed it", energy=0.5 * BALL * limit_speed**2, measuring_distance=0.0)
    verdict = limit_verdict(string, ball_mass=BALL, limit=limit, distance=0.0)
    yield FALSE_UNDER, verdict.state is MeasuredState.UNDER


def _measure(n: int, strings: int) -> dict[Claim, float]:
    """How often each statement was true."""
    generator = numpy.random.default_rng((20_251_125, n))
    hits = dict.fromkeys(CLAIMS, 0)
    for _ in range(strings):
        for claim, is_true in _one_string(generator, n):
            hits[claim] += is_true
    return {claim: hit / strings for claim, hit in hits.items()}


def _hold(published: Published, n: int, strings: int, found: dict[Claim, float]) -> None:
    for claim, rate in found.items():
        slack = 4.5 * math.sqrt(claim.stated * (1.0 - claim.stated) / strings) + (0.01 if claim.sense == "about " else 0.0)
        low = 0.0 if claim.sense == "at most " else claim.stated - slack
        high = 1.0 if claim.sense == "at least " else claim.stated + slack
        published.within(f"n = {n}: {claim.words}", found=rate, low=low, high=high, unit="1")


@pytest.mark.source("derived", "800 simulated strings with known truth", because="binomial scatter, 4.5 standard errors")
@pytest.mark.parametrize("n", [5, 10])
def test_statements_come_true(published: Published, n: int) -> None:
    """Each statement is true as often as stated, within the scatter of a small simulation."""
    _hold(published, n, FEW, _measure(n, FEW))


@pytest.mark.slow
@pytest.mark.source("derived", "10 000 simulated strings with known truth", because="binomial scatter, 4.5 standard errors")
def test_statements_come_true_in_large(published: Published) -> None:
    """The same for ten thousand strings of each length; docs/validation-statistics.md is written, with what lies beyond."""
    found = {n: _measure(n, MANY) for n in LENGTHS}
    page = _page(found, {n: _powers(n) for n in LENGTHS})
    PAGE.write_text("\n".join([page, *sections(BEYOND)]), encoding="utf-8")
    for n, rates in found.items():
        _hold(published, n, MANY, rates)


def _powers(n: int, strings: int = 2000) -> dict[str, float]:
    """How often what is there is seen."""
    generator = numpy.random.default_rng((20_251_126, n))
    noise = generator.normal(MEAN, SCATTER, (strings, n))
    cases = {
        "two heaps, a third of the shots 4 m/s slow: two heaps seen": noise - 4.0 * (generator.random((strings, n)) < 1 / 3),
        "climbing by 0.2 m/s a shot: drift seen": noise + 0.2 * numpy.arange(n),
        "first shot 3 m/s slow: seen": noise - 3.0 * (numpy.arange(n) == 0),
        "one shot 3 m/s slow: named": noise - 3.0 * (numpy.arange(n) == n // 2),
    }
    seen = dict.fromkeys(cases, 0)
    for words, draws in cases.items():
        for string in draws:
            found = analyse_string(string, ball_mass=None)
            named = any(outlier.index == n // 2 for outlier in found.outliers)
            signs = {"two": found.has_two_heaps, "cli": found.has_drift, "fir": found.has_low_first_shot, "one": named}
            seen[words] += signs[words[:3]]
    return {words: count / strings for words, count in seen.items()}


def _page(found: dict[int, dict[Claim, float]], powers: dict[int, dict[str, float]]) -> str:
    heads = " | ".join(f"n = {n}" for n in LENGTHS)
    rule = "|---|---|" + "---|" * len(LENGTHS)
    rows = [
        f"| {claim.words} | {claim.sense}{claim.stated:.1%} | " + " | ".join(f"{found[n][claim]:.2%}" for n in LENGTHS) + " |"
        for claim in CLAIMS
    ]
    seen = [f"| {words} | " + " | ".join(f"{powers[n][words]:.0%}" for n in LENGTHS) + " |" for words in powers[LENGTHS[0]]]
    chance = 100 * 2 * math.sqrt(0.05 * 0.95 / MANY)
    return "\n".join(
        [
            "# How often the statistics are right",
            "",
            "Made by `make validate` (tests/validation/shot_statistics/test_coverage.py): simulated strings with known truth,",
            f"normal scatter of {SCATTER} m/s about {MEAN} m/s, {MANY} strings of each length. Each line is a statement that the",
            "program makes, and the share of strings for which it was true. By chance alone a share of 95 % moves by up to",
            f"{chance:.1f} points.",
            "",
            f"| statement | stated | {heads} |",
            rule,
            *rows,
            "",
            "What is there and how often it is seen (2000 strings each). Short strings hide much:",
            "",
            f"| what is there | {heads} |",
            rule.replace("|---|---|", "|---|", 1),
            *seen,
            "",
        ]
    )
