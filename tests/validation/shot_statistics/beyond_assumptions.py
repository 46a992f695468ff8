"""Strings, days and chronographs that are not what the formulas suppose: how often what is said of them comes true."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from stripdown.bench.strings import ChronographSession, ReadingString
from stripdown.core.shot_statistics import (
    Chronograph,
    EnergyLimit,
    LimitVerdict,
    MeasuredState,
    Occasion,
    StringConditions,
    analyse_string,
    chronograph_offset,
    limit_verdict,
)
from stripdown.core.shot_statistics.distributions import t_quantile
from stripdown.studies.before_after import compare_occasions
from stripdown.studies.case_strings import strings_of

BALL = 0.2e-3
MEAN, SCATTER = 97.0, 0.4  # m/s
LENGTHS = (5, 10, 20, 30)
Array = np.ndarray[Any, Any]

# Each fires `strings` rows of `n` shots in standard deviations, from shot `start` on: what comes after the string is drawn alike.
FEATURES: dict[str, Callable[[np.random.Generator, int, int, int], Array]] = {
    "climbing by an eighth of the scatter a shot": lambda g, strings, n, start: (
        _noise(g, strings, n) + 0.125 * np.arange(start, start + n)
    ),
    "climbing by a quarter of the scatter a shot": lambda g, strings, n, start: (
        _noise(g, strings, n) + 0.25 * np.arange(start, start + n)
    ),
    "climbing by half the scatter a shot": lambda g, strings, n, start: _noise(g, strings, n) + 0.5 * np.arange(start, start + n),
    "a third of the shots 4 sd slow": lambda g, strings, n, _: _noise(g, strings, n) - 4.0 * (g.random((strings, n)) < 1 / 3),
    "a fifth of the shots 4 sd fast": lambda g, strings, n, _: _noise(g, strings, n) + 4.0 * (g.random((strings, n)) < 1 / 5),
    "a tenth of the shots 4 sd fast": lambda g, strings, n, _: _noise(g, strings, n) + 4.0 * (g.random((strings, n)) < 1 / 10),
    "exponential scatter (long fast tail)": lambda g, strings, n, _: g.exponential(1.0, (strings, n)) - 1.0,
    "log-normal scatter (fast tail)": lambda g, strings, n, _: 2.0 * np.exp(0.5 * g.standard_normal((strings, n))),
}
STEADY = "steady: normal scatter"


def _noise(generator: np.random.Generator, strings: int, n: int) -> Array:
    return generator.standard_normal((strings, n))


def false_unders(n: int, strings: int) -> Iterator[tuple[str, float, float, float]]:
    """How often a gun of whose coming shots 5 % exceed is under by its numbers, is called so, and shows a sign."""
    for number, (words, fire) in enumerate({STEADY: _steady, **FEATURES}.items()):
        generator = np.random.default_rng((20_261_130, n, number))
        limit_speed = MEAN + SCATTER * float(np.quantile(fire(generator, 400_000 // n, n, n), 0.95))
        limit = EnergyLimit(name="5 % exceed it", energy=0.5 * BALL * limit_speed**2, measuring_distance=0.0)
        found = [
            limit_verdict(MEAN + SCATTER * shots, ball_mass=BALL, limit=limit, distance=0.0)
            for shots in fire(generator, strings, n, 0)
        ]
        yield (
            words,
            sum(map(_by_numbers, found)) / strings,
            sum(one.state is MeasuredState.UNDER for one in found) / strings,
            sum(bool(one.unsteady) for one in found) / strings,
        )


def _steady(generator: np.random.Generator, strings: int, n: int, start: int) -> Array:
    del start
    return _noise(generator, strings, n)


def _by_numbers(found: LimitVerdict) -> bool:
    """Whether the three numbers alone would put a string under, as they did once."""
    assert found.chance_next_exceeds is not None
    assert found.tolerance_speed is not None
    is_accepted = found.chance_next_exceeds <= found.rule.accepted_chance and found.tolerance_speed <= found.limit_speed
    return is_accepted and found.shots_over == 0


STEPS = (0.3, 0.5, 0.8, 1.2, 2.0, 6.0, math.inf)  # scatter in steps of the display


def seen_on_a_display(n: int, scatter: float, strings: int) -> dict[str, float]:
    """False alarms of each look at sound strings, and how often a third of the shots 4 sd slow are seen as two heaps."""
    generator = np.random.default_rng((20_261_201, n, 0 if math.isinf(scatter) else round(10 * scatter)))
    noise = _noise(generator, strings, n)
    slow = noise - 4.0 * (np.arange(n) % 3 == 1)
    sound, heaps = ([_shown(row, scatter, generator) for row in rows] for rows in (noise, slow))
    return {
        "two heaps in a sound string": sum(one.has_two_heaps for one in sound) / strings,
        "an outlier in a sound string": sum(bool(one.outliers) for one in sound) / strings,
        "a fast tail in a sound string": sum(bool(one.signs.fast_tail and one.signs.fast_tail.has_fast_tail) for one in sound)
        / strings,
        "a third of the shots 4 sd slow: two heaps seen": sum(one.has_two_heaps for one in heaps) / strings,
    }


def _shown(row: Array, scatter: float, generator: np.random.Generator) -> Any:
    if math.isinf(scatter):
        return analyse_string(300.0 + row, ball_mass=None)
    return analyse_string(
        np.round(300.0 + generator.uniform() + scatter * row), ball_mass=None, chronograph=Chronograph(resolution=1.0)
    )


LIKENESS = (0.0, 0.3, 0.5, 0.7, 0.85)


def alike_neighbours(n: int, likeness: float, strings: int) -> tuple[float, float, float]:
    """How often it is found, and of those how often the mean lies in the interval, counted as n shots and as it is made."""
    generator = np.random.default_rng((20_261_202, n, round(100 * likeness)))
    found, narrow, wide = 0, 0, 0
    for _ in range(strings):
        shots = generator.standard_normal(n)
        for place in range(1, n):
            shots[place] = likeness * shots[place - 1] + math.sqrt(1.0 - likeness**2) * shots[place]
        string = analyse_string(shots, ball_mass=None)
        assert string.mean_interval is not None
        assert string.signs.drift is not None
        if string.signs.drift.is_wandering:
            found += 1
            assert string.standard_deviation is not None
            wide += 0.0 in string.mean_interval
            narrow += abs(string.mean) <= t_quantile(0.975, n - 1) * string.standard_deviation / math.sqrt(n)
    return found / strings, narrow / max(found, 1), wide / max(found, 1)


DAYS = ((0.004, 0.002), (0.008, 0.002), (0.002, 0.002), (0.004, 0.004))
"""What a day changes alike for all guns, and what it changes for one gun alone; standard deviations, share of the speed."""


def changes_between_days(day: float, own: float, strings: int) -> dict[str, tuple[float, float]]:
    """How often the interval of a change that is none holds zero, and its median half-width in per cent of the speed.

    Ten shots of 0.4 % scatter before and after, without a term for the day, with it, and with a reference gun.
    """
    generator = np.random.default_rng((20_261_203, round(1e4 * day), round(1e4 * own)))
    held: dict[str, list[tuple[bool, float]]] = {"no term for the day": [], "0.5 % a day": [], "a reference gun": []}
    for _ in range(strings):
        common = day * generator.standard_normal(2)
        guns = {
            name: [
                mean * (1.0 + common[when] + own * generator.standard_normal() + 0.004 * generator.standard_normal(10))
                for when in (0, 1)
            ]
            for name, mean in (("", MEAN), ("reference gun", 91.0))
        }
        strings_read = {
            name: tuple(
                ReadingString(
                    label="",
                    conditions=StringConditions(occasion=occasion, gun=name),
                    speeds=tuple(map(float, shots)),
                    resolution=0.0,
                )
                for occasion, shots in zip(Occasion, read, strict=True)
            )
            for name, read in guns.items()
        }
        for words, settings in (
            ("no term for the day", {"between_days": 0.0}),
            ("0.5 % a day", {}),
            ("a reference gun", {"reference": strings_read["reference gun"]}),
        ):
            session = ChronographSession(strings=strings_read[""], **settings)
            before, after = strings_of(session)
            (pair,) = compare_occasions([before], [after], session)
            assert pair.comparison is not None
            low, high = pair.comparison.interval
            held[words].append((low <= 0.0 <= high, 0.5 * (high - low) / MEAN))
    return {
        words: (sum(one[0] for one in some) / strings, float(np.median([one[1] for one in some]))) for words, some in held.items()
    }


GUNS = (1, 2, 3, 5, 10)
BETWEEN_GUNS = (0.0025, 0.005, 0.01)


def offsets_learned(guns: int, between: float, sessions: int) -> tuple[float, float, float]:
    """How often the interval of the offset holds it, that of the next gun its ratio; and the latter's median half-width."""
    generator = np.random.default_rng((20_261_204, guns, round(1e4 * between)))
    held, next_held, widths = 0, 0, []
    for _ in range(sessions):
        true = 0.01 * generator.standard_normal()
        ratios = true + between * generator.standard_normal(guns + 1)
        read = [
            tuple(
                analyse_string(mean * (1.0 + 0.004 * generator.standard_normal(10)), ball_mass=None)
                for mean in (95.0, 95.0 * math.exp(ratio))
            )
            for ratio in ratios[:guns]
        ]
        found = chronograph_offset(read)  # type: ignore[arg-type]
        low, high = map(math.log, found.interval())
        held += low <= true <= high
        reach = 1.959964 * found.of_next_gun()
        next_held += abs(ratios[guns] - math.log(found.ratio)) <= reach
        widths.append(reach)
    return held / sessions, next_held / sessions, float(np.median(widths))


def sections(strings: int) -> Iterator[str]:
    """The pages of what happens beyond the assumptions, line by line, with the sizes."""
    yield from _of_limits(strings)
    yield from _of_displays(strings)
    yield from _of_neighbours(strings)
    yield from _of_days(strings)
    yield from _of_chronographs(strings)


def _said(heading: str, text: str) -> Iterator[str]:
    """A paragraph, under a heading if it has one."""
    yield from ((heading, "") if heading else ())
    yield from textwrap.wrap(text, 132, break_on_hyphens=False)
    yield ""


def _table(heads: list[str], rows: Iterator[list[str]]) -> Iterator[str]:
    yield f"| {' | '.join(heads)} |"
    yield "|" + "---|" * len(heads)
    for row in rows:
        yield f"| {' | '.join(row)} |"
    yield ""


def _of_limits(strings: int) -> Iterator[str]:
    found = {n: list(false_unders(n, strings)) for n in LENGTHS}
    yield from _said(
        "## What is under a limit although its shots do not belong together",
        f"Guns of whose coming shots (as many as the string has) 5 % exceed the limit; {strings} strings of each. First "
        "the share that the three numbers alone put under it, as all were before drift, heaps and fast tails kept a "
        "string from that; then the share that is called under now. What a string hides, no look finds: short strings of "
        "such guns stay dangerous, and two that agree are the remedy.",
    )
    yield from _table(
        ["the gun", *(f"n = {n}" for n in LENGTHS)],
        (
            [words, *(f"{rows[place][1]:.1%} → {rows[place][2]:.1%}" for rows in found.values())]
            for place, (words, *_) in enumerate(found[LENGTHS[0]])
        ),
    )
    yield from _said(
        "",
        "How often a sign keeps a string from being under (for a steady gun: how often ten more shots are asked for in vain):",
    )
    yield from _table(
        ["the gun", *(f"n = {n}" for n in LENGTHS)],
        ([words, *(f"{rows[place][3]:.0%}" for rows in found.values())] for place, (words, *_) in enumerate(found[LENGTHS[0]])),
    )


def _of_displays(strings: int) -> Iterator[str]:
    lengths = (10, 15, 30)
    found = {(n, scatter): seen_on_a_display(n, scatter, strings) for n in lengths for scatter in STEPS}
    yield from _said(
        "## Displays with coarse steps",
        f"Scatter in steps of the display (∞: it does not round); {strings} strings of each. Promised of sound strings: "
        "two heaps at most 1 %, an outlier at most 6 %, a fast tail at most 2.5 %. By chance alone a share of 5 % moves "
        f"by up to {100 * 2 * math.sqrt(0.05 * 0.95 / strings):.1f} points.",
    )
    for words in found[lengths[0], STEPS[0]]:
        yield from _table(
            [words, *(f"{scatter} steps" if math.isfinite(scatter) else "∞" for scatter in STEPS)],
            ([f"n = {n}", *(f"{found[n, scatter][words]:.1%}" for scatter in STEPS)] for n in lengths),
        )


def _of_neighbours(strings: int) -> Iterator[str]:
    yield from _said(
        "## Neighbouring shots alike",
        f"Strings whose neighbours correlate ({strings} of each). How often it is found; and where it is, how often the "
        "interval of the mean (stated: 95 %) holds the true mean, as if all shots were independent → as it is made. Where "
        "it is not found, the interval is too narrow and nobody can know; ten shots find it seldom.",
    )
    lengths = (10, 20, 30)
    found = {(n, likeness): alike_neighbours(n, likeness, strings) for n in lengths for likeness in LIKENESS}
    yield from _table(
        ["correlation", *(f"n = {n}: found" for n in lengths), *(f"n = {n}: mean held" for n in lengths)],
        (
            [
                f"{likeness}",
                *(f"{found[n, likeness][0]:.0%}" for n in lengths),
                *(f"{found[n, likeness][1]:.0%} → {found[n, likeness][2]:.0%}" for n in lengths),
            ]
            for likeness in LIKENESS
        ),
    )


def _of_days(strings: int) -> Iterator[str]:
    yield from _said(
        "## A change that is none, on two days",
        f"Nothing was done to the gun; ten shots of 0.4 % scatter on each day, {strings} services. How often the 95 % "
        "interval of the change holds zero, and its median half-width in per cent of the speed. Standard deviations of a "
        "day are those that all guns share (air, chronograph, light) and that each gun has alone (0.2 % is the estimate "
        "that a reference gun is judged by).",
    )

    def rows() -> Iterator[list[str]]:
        for day, own in DAYS:
            found = changes_between_days(day, own, strings)
            yield [f"{day:.1%} shared, {own:.1%} alone", *(f"{held:.1%}, ± {width:.2%}" for held, width in found.values())]

    yield from _table(
        ["what a day changes", "no term for the day (once)", "0.5 % a day (usual)", "a reference gun, ten shots"], rows()
    )


def _of_chronographs(strings: int) -> Iterator[str]:
    yield from _said(
        "## The site's chronograph, learned from guns read on both",
        f"Ten shots of 0.4 % scatter on each ({strings} sessions). How often the 95 % interval of the offset holds the "
        "true one / that of one gun more holds its ratio; in brackets the median half-width of the latter. The estimate "
        "that it starts from is 0.5 %.",
    )

    def rows() -> Iterator[list[str]]:
        for between in BETWEEN_GUNS:
            found = [offsets_learned(guns, between, strings) for guns in GUNS]
            yield [f"{between:.2%}", *(f"{held:.0%} / {one:.0%} (± {width:.1%})" for held, one, width in found)]

    yield from _table(["scatter from gun to gun", *(f"{guns} {'gun' if guns == 1 else 'guns'}" for guns in GUNS)], rows())
