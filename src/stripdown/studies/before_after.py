"""Which string before belongs to which string after, and what changed between them."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable, Sequence

import numpy as np

from stripdown.bench.strings import ChronographSession
from stripdown.core.shot_statistics import StringComparison, StringConditions, compare_strings
from stripdown.core.shot_statistics.conditions import comparison_cautions, comparison_obstacles
from stripdown.core.shot_statistics.reading import move_speeds
from stripdown.errors import InputError, OutsideValidity
from stripdown.studies.observation import instrument_for
from stripdown.studies.service_case import ComparisonOfCase, StringOfCase

_FIELDS = ("ball_mass", "hop", "fire_mode", "distance")


def compare_occasions(
    before: Sequence[StringOfCase], after: Sequence[StringOfCase], session: ChronographSession
) -> tuple[ComparisonOfCase, ...]:
    """Hold each string before against its partner after."""
    alike = _pair(before, after, lambda one, two: not _differences(one, two))
    left_before = [one for one in before if all(one is not other for other, _ in alike)]
    left_after = [two for two in after if all(two is not other for _, other in alike)]
    unlike = _pair(left_before, left_after, lambda _one, _two: True)
    return tuple(_compare(one, two, session) for one, two in (*alike, *unlike))


def _pair(
    before: Sequence[StringOfCase],
    after: Sequence[StringOfCase],
    may: Callable[[StringOfCase, StringOfCase], bool],
) -> list[tuple[StringOfCase, StringOfCase]]:
    """Pairs of strings, those that agree in most first; in the order of the strings before."""
    choices = [(one, two) for one in range(len(before)) for two in range(len(after)) if may(before[one], after[two])]
    choices.sort(key=lambda pair: -_agreement(before[pair[0]], after[pair[1]]))
    chosen: list[tuple[int, int]] = []
    for one, two in choices:
        if all(one != first and two != second for first, second in chosen):
            chosen.append((one, two))
    return [(before[one], after[two]) for one, two in sorted(chosen)]


def _agreement(before: StringOfCase, after: StringOfCase) -> int:
    """How much two strings share: what both say alike counts most, what neither says a little."""
    one, two = before.reading.conditions, after.reading.conditions
    differences = len(comparison_obstacles(one, two))
    said = [(getattr(one, name), getattr(two, name)) for name in _FIELDS]
    return -4 * differences + 2 * sum(None not in pair for pair in said) + sum(pair == (None, None) for pair in said)


def _differences(before: StringOfCase, after: StringOfCase) -> tuple[str, ...]:
    """Why two strings do not compare, the distance left aside: speeds can be moved along their way, nothing else can."""
    one, two = (dataclasses.replace(string.reading.conditions, distance=None) for string in (before, after))
    return comparison_obstacles(one, two)


def _compare(before: StringOfCase, after: StringOfCase, session: ChronographSession) -> ComparisonOfCase:
    one, two = before.reading.conditions, after.reading.conditions
    obstacles = [*_differences(before, after), *_too_few(before, after)]
    cautions = list(comparison_cautions(one, two))
    to_muzzle = len(comparison_obstacles(one, two)) > len(_differences(before, after))
    mass = one.ball_mass if one.ball_mass is not None else two.ball_mass
    if to_muzzle and mass is None:
        obstacles.append("The chronograph stood at different distances, and without the mass of the ball no speed can be moved.")
    comparison = None
    if not obstacles:
        try:
            comparison = _comparison(before, after, session, to_muzzle=to_muzzle, ball_mass=mass)
        except (InputError, OutsideValidity) as reason:
            obstacles.append(
                f"The chronograph stood at different distances, and a string cannot be brought to the muzzle. {reason}"
            )
    if to_muzzle and comparison is not None:
        cautions.append("The chronograph stood at different distances: both strings were brought to the muzzle.")
    return ComparisonOfCase(
        before=before, after=after, comparison=comparison, obstacles=tuple(obstacles), cautions=tuple(cautions)
    )


def _too_few(before: StringOfCase, after: StringOfCase) -> list[str]:
    return [
        f"One shot {occasion} shows no scatter, so no difference can be judged by it."
        for occasion, string in (("before", before), ("after", after))
        if string.statistics.count == 1
    ]


def _comparison(
    before: StringOfCase, after: StringOfCase, session: ChronographSession, *, to_muzzle: bool, ball_mass: float | None
) -> StringComparison:
    setup = session.setup_uncertainty
    speeds = [before.statistics.readings, after.statistics.readings]
    if to_muzzle:
        assert ball_mass is not None  # noqa: S101  narrows: without it this is an obstacle
        moved = [_at_muzzle(string, session, ball_mass) for string in (before, after)]
        # The drag errs alike for both, by how much more one string was moved than the other; shared between the two.
        logs = [math.log(found[0] / string.statistics.mean) for found, string in zip(moved, (before, after), strict=True)]
        drag = abs(logs[0] - logs[1]) * session.flight.drag_uncertainty * after.statistics.mean
        setup = math.hypot(setup, drag / math.sqrt(2.0))
        speeds = [found[1] for found in moved]
    return compare_strings(speeds[0], speeds[1], ball_mass=ball_mass, setup_uncertainty=setup)


def _at_muzzle(string: StringOfCase, session: ChronographSession, ball_mass: float) -> tuple[float, tuple[float, ...]]:
    """Mean and readings of a string, bias off, at the muzzle."""
    conditions: StringConditions = string.reading.conditions
    readings = (string.statistics.mean, *string.statistics.readings)
    mean, *speeds = move_speeds(
        np.array(readings),
        ball_mass=ball_mass,
        start=conditions.distance or 0.0,
        end=0.0,
        chronograph=instrument_for(session.chronograph, string.reading.resolution),
        flight=session.flight,
    )
    return float(mean), tuple(float(speed) for speed in speeds)
