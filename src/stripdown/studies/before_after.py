"""Which string before belongs to which string after, and what changed between them."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable, Sequence

from stripdown.bench.strings import ChronographSession
from stripdown.core.shot_statistics import DayFactor, StringComparison, StringConditions, StringStatistics, compare_strings
from stripdown.core.shot_statistics.conditions import comparison_cautions, comparison_obstacles
from stripdown.errors import InputError, OutsideValidity
from stripdown.studies.case_strings import at_muzzle
from stripdown.studies.reference_days import ReferenceDays, as_on_day_before, reference_days
from stripdown.studies.service_case import ComparisonOfCase, StringOfCase

_FIELDS = ("ball_mass", "hop", "fire_mode", "distance")


def compare_occasions(
    before: Sequence[StringOfCase], after: Sequence[StringOfCase], session: ChronographSession
) -> tuple[ComparisonOfCase, ...]:
    """Hold each string before against its partner after."""
    days = reference_days(session)
    alike = _pair(before, after, lambda one, two: not _differences(one, two, days))
    left_before = [one for one in before if all(one is not other for other, _ in alike)]
    left_after = [two for two in after if all(two is not other for _, other in alike)]
    unlike = _pair(left_before, left_after, lambda _one, _two: True)
    return tuple(_compare(one, two, session, days) for one, two in (*alike, *unlike))


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


def _differences(before: StringOfCase, after: StringOfCase, days: ReferenceDays | None) -> tuple[str, ...]:
    """Why two strings do not compare, the distance left aside: speeds can be moved along their way.

    What a reference gun was read on as well, it takes out.
    """
    one, two = (dataclasses.replace(string.reading.conditions, distance=None) for string in (before, after))
    if days is not None and days.factor is not None:
        one, two = (dataclasses.replace(conditions, chronograph=None) for conditions in (one, two))
    return comparison_obstacles(one, two)


def _compare(
    before: StringOfCase, after: StringOfCase, session: ChronographSession, days: ReferenceDays | None
) -> ComparisonOfCase:
    one, two = before.reading.conditions, after.reading.conditions
    obstacles = [*_differences(before, after, days), *_too_few(before, after)]
    cautions = list(comparison_cautions(one, two))
    factor = None if days is None else days.factor
    places = [StringConditions(distance=conditions.distance) for conditions in (one, two)]
    to_muzzle = bool(comparison_obstacles(*places))
    mass = one.ball_mass if one.ball_mass is not None else two.ball_mass
    if to_muzzle and mass is None:
        obstacles.append("The chronograph stood at different distances, and without the mass of the ball no speed can be moved.")
    comparison, moved = None, None
    if not obstacles:
        try:
            comparison, moved = _comparison(before, after, session, factor, ball_mass=mass if to_muzzle else None)
        except (InputError, OutsideValidity) as reason:
            obstacles.append(
                f"The chronograph stood at different distances, and a string cannot be brought to the muzzle. {reason}"
            )
    if to_muzzle and comparison is not None:
        cautions.append("The chronograph stood at different distances: both strings were brought to the muzzle.")
    if days is not None and factor is None:
        cautions.append("The reference gun was not fired alike on both days, so nothing is taken out by it.")
    return ComparisonOfCase(
        before=before,
        after=after,
        comparison=comparison,
        obstacles=tuple(obstacles),
        cautions=tuple(cautions),
        moved=moved if to_muzzle or factor is not None else None,
        is_at_muzzle=to_muzzle and comparison is not None,
        reference=factor if comparison is not None else None,
        between_days=session.between_days if factor is None else factor.left_between_days,
    )


def _too_few(before: StringOfCase, after: StringOfCase) -> list[str]:
    return [
        f"One shot {occasion} shows no scatter, so no difference can be judged by it."
        for occasion, string in (("before", before), ("after", after))
        if string.statistics.count == 1
    ]


def _comparison(
    before: StringOfCase,
    after: StringOfCase,
    session: ChronographSession,
    factor: DayFactor | None,
    *,
    ball_mass: float | None,
) -> tuple[StringComparison, tuple[StringStatistics, StringStatistics]]:
    """Compare two strings, at the muzzle if there is a mass to move them with, on one day if there is a factor to do so."""
    one, two = before.statistics, after.statistics
    middle = 0.5 * (one.mean + two.mean)
    setup = math.hypot(session.setup_uncertainty, session.between_days * middle)
    if ball_mass is not None:
        one, two = at_muzzle(before, session, ball_mass), at_muzzle(after, session, ball_mass)
        # The drag errs alike for both, by how much more one string was moved than the other; shared between the two.
        logs = [math.log(moved.mean / string.statistics.mean) for moved, string in zip((one, two), (before, after), strict=True)]
        drag = abs(logs[0] - logs[1]) * session.flight.drag_uncertainty * after.statistics.mean
        setup = math.hypot(setup, drag / math.sqrt(2.0))
    if factor is not None:
        two = as_on_day_before(two, after, session, factor)
        # The reference gun was read on both days and set-ups: what is left is what no other gun tells.
        setup = factor.left_between_days * 0.5 * (one.mean + two.mean)
    mass = before.reading.conditions.ball_mass or after.reading.conditions.ball_mass
    return compare_strings(one.readings, two.readings, ball_mass=mass, setup_uncertainty=setup), (one, two)
