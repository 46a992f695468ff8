"""What the workshop's reference gun says of the days of a session: taken out of what lies between before and after."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from stripdown.bench.strings import ChronographSession
from stripdown.core.shot_statistics import DayFactor, Occasion, StringStatistics, day_factor
from stripdown.core.shot_statistics.conditions import comparison_obstacles
from stripdown.studies.case_strings import at_muzzle, statistics_of
from stripdown.studies.service_case import StringOfCase


@dataclass(frozen=True, slots=True, kw_only=True)
class ReferenceDays:
    """A reference gun that was read before and after.

    Parameters
    ----------
    before, after
        Its strings of each day.
    factor
        What lies between the days; None if no string before compares with one after, then nothing is taken out.
    """

    before: tuple[StringOfCase, ...]
    after: tuple[StringOfCase, ...]
    factor: DayFactor | None


def reference_days(session: ChronographSession) -> ReferenceDays | None:
    """What a session's reference gun says of its days; None if it was not fired."""
    if not session.reference:
        return None
    strings = [
        StringOfCase(reading=string, statistics=statistics_of(string, session), key=f"reference:{number}")
        for number, string in enumerate(session.reference, start=1)
    ]
    before, after = (
        tuple(string for string in strings if string.reading.conditions.occasion is occasion)
        for occasion in (Occasion.BEFORE, Occasion.AFTER)
    )
    pairs = [(one, two) for one in before for two in after if _compare(one, two)]
    factor = day_factor([_where_alike(one, two, session) for one, two in pairs], own_day=session.own_day) if pairs else None
    return ReferenceDays(before=before, after=after, factor=factor)


def as_on_day_before(
    found: StringStatistics, string: StringOfCase, session: ChronographSession, factor: DayFactor
) -> StringStatistics:
    """Statistics of a string after the work as they would have been on the day before it."""
    instrument = dataclasses.replace(session.chronograph, bias=0.0, resolution=string.reading.resolution / factor.ratio)
    return statistics_of(
        dataclasses.replace(string.reading, speeds=tuple(speed / factor.ratio for speed in found.readings), set_aside={}),
        dataclasses.replace(session, chronograph=instrument),
    )


def _compare(before: StringOfCase, after: StringOfCase) -> bool:
    """Whether two strings of the reference gun were fired alike; where each was read may differ, and on what as well."""
    one, two = (
        dataclasses.replace(string.reading.conditions, distance=None, chronograph=None, gun=None) for string in (before, after)
    )
    return min(before.statistics.count, after.statistics.count) > 1 and not comparison_obstacles(one, two)


def _where_alike(
    before: StringOfCase, after: StringOfCase, session: ChronographSession
) -> tuple[StringStatistics, StringStatistics]:
    """Both strings as read, or at the muzzle if they were read at different distances with a ball that was said."""
    one, two = before.reading.conditions, after.reading.conditions
    if one.ball_mass is None or one.distance == two.distance:
        return before.statistics, after.statistics
    return at_muzzle(before, session, one.ball_mass), at_muzzle(after, session, one.ball_mass)
