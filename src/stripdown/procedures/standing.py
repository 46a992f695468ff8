"""Which checks still hold, from the log alone?"""

from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from stripdown.procedures.checks import Check
from stripdown.procedures.description import Procedures
from stripdown.procedures.energy import Arrival, read_arrival
from stripdown.procedures.events import Event, read_events
from stripdown.procedures.happenings import Deed, Happening, gun_after, happenings
from stripdown.procedures.moments import When, day_of, is_later
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.variations import Variation


class Standing(enum.Enum):
    """How a check stands."""

    NEVER = "never"
    FAILED = "failed"
    STALE = "stale"
    FRESH = "fresh"


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckStanding:
    """How one check stands, and why.

    Parameters
    ----------
    check
        Key of the check.
    standing
        How it stands.
    reason
        Why, in one sentence.
    made
        Number of the event that made it last; None if none did.
    since
        Number of the event that made it stand so; of a check that was never made, of the first that disturbed what it is about.
    touched
        Key of the part that was touched, if that undid it; empty otherwise.
    base
        Key of the check on which it rests, if it was undone through that; empty otherwise.
    when
        Day or moment since which it stands so, if the log says it.
    """

    check: str
    standing: Standing
    reason: str
    made: int | None = None
    since: int | None = None
    touched: str = ""
    base: str = ""
    when: When | None = None

    @property
    def is_owed(self) -> bool:
        """Whether it does not hold, or was disturbed before anybody made it; what nobody ever touched owes nothing."""
        return self.standing is not Standing.FRESH and (self.standing is not Standing.NEVER or self.since is not None)


def standing(
    procedures: Procedures,
    events: Iterable[Event | Mapping[str, Any]],
    *,
    variation: Variation | Mapping[str, str] | str | Iterable[str],
    parts_off: Iterable[str] = (),
    arrival: Arrival | Mapping[str, Any] | None = None,
) -> Mapping[str, CheckStanding]:
    """How every check of a gun stands, from its log alone.

    Parameters
    ----------
    procedures
        All procedures.
    events
        The log: events, or mappings with their fields, in the order of their numbers.
    variation
        What gun it was before the first event: feature to choice, or choices alone; what is not said is assumed. Work in the
        log that makes another gun of it is followed.
    parts_off
        Parts that were off before the first event.
    arrival
        How the gun arrived; its parts that were off count with the others.

    Returns
    -------
    mapping of str to CheckStanding
        By key of the check of the gun that it is now, in the order of the data.

    Raises
    ------
    InputError
        With the number of the event: a name that is unknown or belongs to another variation, numbers that do not grow, a part
        that cannot be reached, an outcome that is missing.
    """
    procedure = procedures.procedure(variation)
    off = read_arrival(arrival, parts_off=parts_off).off
    return standings(procedure, happenings(procedure, read_events(events), parts_off=off, procedures=procedures))


def standings(procedure: Procedure, log: Iterable[Happening]) -> Mapping[str, CheckStanding]:
    """How every check stands after what has happened."""
    everything = tuple(log)
    book = _Book(procedure, {happening.event.when.year for happening in everything if happening.event.when is not None})
    for happening in everything:
        book.enter(happening)
    checks = gun_after(procedure, everything).checks
    return MappingProxyType({key: book.standing_of(check) for key, check in checks.items()})


@dataclass(frozen=True, slots=True)
class _Spoiling:
    """What made a check stale: what happened, when, and what else that undid; part and base by their keys."""

    words: str
    happening: Happening
    then: str = ""
    part: str = ""
    base: str = ""


class _Book:
    """The last making of each check, and the first thing that spoiled it since."""

    def __init__(self, procedure: Procedure, years: set[int]) -> None:
        self._procedure = procedure
        self._has_years = len(years) > 1
        self._made: dict[str, Happening] = {}
        self._spoiled: dict[str, _Spoiling] = {}
        self._last: dict[str, _Spoiling] = {}
        self._late: dict[str, _Spoiling] = {}

    def enter(self, happening: Happening) -> None:
        self._touched(happening)
        if happening.becoming is not None:
            self._procedure = happening.becoming.after
            self._touched(happening)
            words = f"the gun became another one, by the work to {happening.procedure.actions[happening.becoming.action].name},"
            for check in happening.becoming.spoiled:
                self._mark(check, _Spoiling(words, happening))
        if happening.outcome is not None and happening.event.check is not None:
            self._record(happening.event.check, happening)

    def _touched(self, happening: Happening) -> None:
        about = self._procedure.about
        spoiled = [(check, deed) for deed in happening.deeds for check in about(deed.touch, is_back=deed.is_back)]
        for check, deed in spoiled:
            self._mark(check, _Spoiling(deed.words, happening, part=deed.touch[0]))
        for check, deed in spoiled:
            self._undo_what_rests_on(check, deed, happening)
        for check in self._procedure.spoiled_by_running(happening.fires):
            self._mark(check, _Spoiling("the gun was run under power", happening))

    def is_fresh(self, check: str) -> bool:
        made = self._made.get(check)
        return made is not None and made.outcome is not None and made.outcome.has_passed and check not in self._spoiled

    def _record(self, check: str, happening: Happening) -> None:
        self._made[check] = happening
        self._late.pop(check, None)
        if check in self._last and is_later(self._last[check].happening.event.when, happening.event.when):
            self._late[check] = self._last[check]
        self._spoiled.pop(check, None)
        if happening.outcome is not None and not happening.outcome.has_passed:
            words = f"the {self._procedure.checks[check].name}, on which it rests, failed"
            for other in self._procedure.resting_on(check):
                self._mark(other, _Spoiling(words, happening, base=check))
            return
        unproved = [base for base in self._procedure.rests_on(check) if not self.is_fresh(base)]
        if unproved:
            words = f"the {self._procedure.checks[unproved[0]].name}, on which it rests, was not fresh when it was made"
            self._mark(check, _Spoiling(words, happening, base=unproved[0]))

    def _undo_what_rests_on(self, check: str, deed: Deed, happening: Happening) -> None:
        name = self._procedure.checks[check].name
        then = f", which undid the {name}, on which it rests" if check in self._made else ""
        for other in self._procedure.resting_on(check):
            self._mark(other, _Spoiling(deed.words, happening, then, part=deed.touch[0], base=check))

    def _mark(self, check: str, spoiling: _Spoiling) -> None:
        """Keep the first thing that spoiled a check since it was made, or at all."""
        self._spoiled.setdefault(check, spoiling)
        self._last[check] = spoiling

    def _told(self, spoiling: _Spoiling) -> str:
        return f"{spoiling.words}{self._on(spoiling.happening.event)}{spoiling.then}"

    def standing_of(self, check: Check) -> CheckStanding:
        made = self._made.get(check.key)
        if made is None:
            return self._never(check)
        number, day = made.event.number, self._on(made.event)
        if check.key in self._spoiled:
            spoiling = self._spoiled[check.key]
            at_once = "" if spoiling.happening is made else f"; the {check.name} was {check.proved}{day}"
            return CheckStanding(
                check=check.key,
                standing=Standing.STALE,
                reason=f"stale since {self._told(spoiling)}{at_once}{_due(check)}.",
                made=number,
                since=spoiling.happening.event.number,
                when=spoiling.happening.event.when,
                touched=spoiling.part,
                base=spoiling.base,
            )
        outcome = made.outcome
        read = f" ({outcome.words})" if outcome is not None and outcome.words else ""
        if outcome is not None and not outcome.has_passed:
            reason = f"the {check.name} did not pass{day}{read}."
            return CheckStanding(
                check=check.key, standing=Standing.FAILED, reason=reason, made=number, since=number, when=made.event.when
            )
        since = "nothing that it is about was disturbed since"
        if check.key in self._late:
            since = f"entered late, after {self._told(self._late[check.key])}: it counts by its number, and is better made again"
        reason = f"the {check.name} was {check.proved}{day}{read}, and {since}."
        return CheckStanding(
            check=check.key, standing=Standing.FRESH, reason=reason, made=number, since=number, when=made.event.when
        )

    def _never(self, check: Check) -> CheckStanding:
        reason = f"the {check.name} was never {check.proved}"
        if check.key not in self._spoiled:
            return CheckStanding(check=check.key, standing=Standing.NEVER, reason=f"{reason}.")
        spoiling = self._spoiled[check.key]
        told = f"{reason}, and {self._told(spoiling)}{_due(check)}."
        return CheckStanding(
            check=check.key,
            standing=Standing.NEVER,
            reason=told,
            since=spoiling.happening.event.number,
            touched=spoiling.part,
            base=spoiling.base,
            when=spoiling.happening.event.when,
        )

    def _on(self, event: Event) -> str:
        if event.when is None:
            return f" (event {event.number})"
        return f" on {day_of(event.when, with_year=self._has_years)}"


def _due(check: Check) -> str:
    """After how much use it falls due."""
    return f"; it falls due after {check.follow_up.words}" if check.follow_up is not None else ""
