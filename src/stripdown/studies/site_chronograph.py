"""How the site's chronograph reads against the bench's, by guns read on both; and strings as the site would read them."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stripdown.bench.strings import ChronographSession, ReadingString
from stripdown.core.shot_statistics import Chronograph, ChronographOffset, StringStatistics, chronograph_offset
from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ
from stripdown.core.shot_statistics.conditions import comparison_obstacles
from stripdown.errors import InputError
from stripdown.studies.case_strings import at_muzzle, statistics_of
from stripdown.studies.service_case import StringOfCase
from stripdown.studies.verdict import FiredString

_SITE = "site"
_TWO = 2
_HINT = 'Name both above the readings or in a column, "chronograph: bench" and "chronograph: site", and the gun of each string.'


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class GunOnBoth:
    """One gun that was read on both chronographs.

    Parameters
    ----------
    own, site
        Its strings.
    compared
        Statistics of both where they compare: as read, or at the muzzle.
    """

    own: StringOfCase
    site: StringOfCase
    compared: tuple[StringStatistics, StringStatistics]

    @property
    def ratio(self) -> float:
        """Reading of the site's chronograph over that of the bench's."""
        return self.compared[1].mean / self.compared[0].mean


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class SiteChronograph:
    """The site's chronograph against the bench's.

    Parameters
    ----------
    own_name, site_name
        What they are called in the readings.
    guns
        Those that were read on both.
    offset
        What they teach.
    alone
        Strings that have no partner on the other.
    """

    own_name: str
    site_name: str
    guns: tuple[GunOnBoth, ...]
    offset: ChronographOffset
    alone: tuple[StringOfCase, ...]


def study_site_chronograph(session: ChronographSession) -> SiteChronograph:
    """Learn how the site's chronograph reads against the bench's.

    Parameters
    ----------
    session
        Strings that say their chronograph and their gun; one that says it neither of the visit's own is passed over.

    Returns
    -------
    SiteChronograph

    Raises
    ------
    InputError
        If there are not two chronographs, or no gun was fired alike on both.
    """
    strings = [*session.read_on_both] or [*session.reference, *session.strings]
    names = list(dict.fromkeys(_plain(string.conditions.chronograph) for string in strings if string.conditions.chronograph))
    if len(names) != _TWO:
        what = f"The readings name {len(names)} chronographs" + (f" ({', '.join(names)})." if names else ".")
        raise InputError(f"{what} Two are compared, the bench's and the site's.", field="chronograph", hint=_HINT)
    site = next((name for name in names if name.startswith(_SITE)), names[1])
    # what each has of its own, bias too, is what is learned
    plain_session = dataclasses.replace(session, chronograph=CHRONOGRAPH_AS_READ)
    cases = [
        StringOfCase(reading=string, statistics=statistics_of(string, plain_session), key=f"{string.file or 'string'}:{number}")
        for number, string in enumerate(strings, start=1)
        if string.conditions.chronograph
    ]
    owns, sites = (
        [one for one in cases if (_plain(one.reading.conditions.chronograph) == site) is told] for told in (False, True)
    )
    guns = tuple(_on_both(owns, sites, plain_session))
    if not guns:
        raise InputError("No gun was fired alike on both chronographs.", field="gun", hint=_HINT)
    used = [string for gun in guns for string in (gun.own, gun.site)]
    return SiteChronograph(
        own_name=next(name for name in names if name != site),
        site_name=site,
        guns=guns,
        offset=chronograph_offset([gun.compared for gun in guns]),
        alone=tuple(string for string in cases if all(string is not other for other in used)),
    )


def as_the_site_reads(
    strings: Sequence[FiredString], chronograph: Chronograph, offset: ChronographOffset
) -> tuple[list[FiredString], Chronograph]:
    """Strings as the site's chronograph would read them, and how sure that is: what the bench's has of its own is in it."""
    moved = [
        dataclasses.replace(
            string, speeds=tuple(speed * offset.ratio for speed in string.speeds), resolution=string.resolution * offset.ratio
        )
        for string in strings
    ]
    instrument = dataclasses.replace(
        chronograph,
        bias=0.0,
        standard_uncertainty=0.0,
        relative_uncertainty=offset.of_next_gun(),
        resolution=chronograph.resolution * offset.ratio,
    )
    return moved, instrument


def _on_both(own: Sequence[StringOfCase], site: Sequence[StringOfCase], session: ChronographSession) -> Iterator[GunOnBoth]:
    """Guns with a string on each, the first that was fired alike; one string serves once."""
    free = list(site)
    for one in own:
        two = next((other for other in free if _alike(one.reading, other.reading)), None)
        if two is not None and min(one.statistics.count, two.statistics.count) > 1:
            free.remove(two)
            yield GunOnBoth(own=one, site=two, compared=_compared(one, two, session))


def _alike(one: ReadingString, two: ReadingString) -> bool:
    """Whether two strings are of one gun, fired alike: the place can be moved to the muzzle, where the ball is known."""
    said, other = one.conditions, two.conditions
    places = {} if None in (said.ball_mass, said.distance, other.distance) else {"distance": None}
    told = [dataclasses.replace(conditions, chronograph=None, day=None, **places) for conditions in (said, other)]
    return _gun(one) == _gun(two) and not comparison_obstacles(*told)


def _gun(string: ReadingString) -> str:
    return _plain(string.conditions.gun or string.label)


def _compared(one: StringOfCase, two: StringOfCase, session: ChronographSession) -> tuple[StringStatistics, StringStatistics]:
    said, other = one.reading.conditions, two.reading.conditions
    if said.ball_mass is None or said.distance == other.distance:
        return one.statistics, two.statistics
    return at_muzzle(one, session, said.ball_mass), at_muzzle(two, session, said.ball_mass)


def _plain(name: str | None) -> str:
    return " ".join((name or "").casefold().split())
