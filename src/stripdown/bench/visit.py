"""The visit: one gun on the bench, from what was complained of to how it leaves. A case and a job are two looks at it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import PurePath

from stripdown.bench.as_found import AS_FOUND_READINGS
from stripdown.bench.calculators import Asked
from stripdown.bench.gun import Gun
from stripdown.bench.strings import ChronographSession, ReadingString
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.limits import EnergyLimit
from stripdown.procedures.becoming import of_all
from stripdown.procedures.description import Procedures
from stripdown.procedures.energy import Arrival, Energy, energy_after, trouble_called, troubles_of
from stripdown.procedures.events import AS_FOUND, MOVES, Event, wrong_event
from stripdown.procedures.found import befores
from stripdown.procedures.grading import GradeRecord, StandingGrade, standing_grades, without_withdrawn
from stripdown.procedures.happenings import Happening, action_key, gun_after, happenings
from stripdown.procedures.inspection import Inspection
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request, check_request
from stripdown.procedures.standing import CheckStanding, standings
from stripdown.procedures.variations import Variation
from stripdown.units import to_si


@dataclass(frozen=True, kw_only=True)  # no slots: what follows from the log is worked out once and kept
class Visit:
    """One gun on the bench.

    Parameters
    ----------
    title
        What the visit is called.
    gun_name
        What the gun is called.
    invented
        Whether gun or figures are made up.
    gun
        As written, after the work; None if nobody wrote it down.
    complaint, finding
        Keys of what was complained of, and of what was found in the tree of that complaint; empty if nobody said.
    session
        Strings before and after, with the instrument and the balls.
    limit
        The limit; None if none was named.
    limit_source
        Key of its source in the register; None for a site's own rule.
    can_fire_automatic
        Whether the gun can fire more than one shot for one pull; None if not said.
    ball_masses
        That a player may bring, in kg; None for the usual ones.
    day
        Air of the day; None for what the strings say, else a workshop at 20 °C.
    as_found
        What was measured before the work, SI, by the keys of `AS_FOUND_READINGS`.
    found, done
        Free text, one paragraph each.
    inspection
        Looks and limits, with all procedures, the technician's own among them.
    variation
        What gun it was on arrival, before the first event.
    request
        What is asked for.
    after
        Number of the last event before this visit: what came before does not count as done.
    arrival
        How the gun arrived; None if nobody said anything of it.
    events
        The log.
    graded
        Grades as they were entered.
    tools
        Tools at hand; None if nobody said.
    asked
        What the calculators are asked.
    notes
        What was assumed, or amended.
    origin, digest
        Where all this was written down, to be shown, and SHA-256 of it, hexadecimal, to be printed.
    """

    title: str
    gun_name: str = ""
    invented: bool = False
    gun: Gun | None = None
    complaint: str = ""
    finding: str = ""
    session: ChronographSession = field(default_factory=lambda: ChronographSession(strings=()))
    limit: EnergyLimit | None = None
    limit_source: str | None = None
    can_fire_automatic: bool | None = None
    ball_masses: tuple[float, ...] | None = None
    day: Conditions | None = None
    as_found: Mapping[str, float] = field(default_factory=dict)
    found: tuple[str, ...] = ()
    done: tuple[str, ...] = ()
    inspection: Inspection
    variation: Variation
    request: Request = field(default_factory=Request)
    after: int = 0
    arrival: Arrival | None = None
    events: tuple[Event, ...] = ()
    graded: tuple[GradeRecord, ...] = ()
    tools: tuple[str, ...] | None = None
    asked: tuple[Asked, ...] = ()
    notes: tuple[str, ...] = ()
    origin: str = ""
    digest: str = ""

    @property
    def procedures(self) -> Procedures:
        """All procedures, with the technician's own steps and limits."""
        return self.inspection.procedures

    @cached_property
    def procedure_on_arrival(self) -> Procedure:
        """Procedures of the gun as it arrived."""
        return self.procedures.procedure(self.variation)

    @property
    def procedure(self) -> Procedure:
        """Procedures of the gun as it is now, after whatever in the log made another one of it."""
        return gun_after(self.procedure_on_arrival, self.log)

    @property
    def parts_off_first(self) -> tuple[str, ...]:
        """Parts that were off before the first event."""
        return () if self.arrival is None else self.arrival.off

    @cached_property
    def energy(self) -> Energy:
        """What is known now of the gun as a store of energy."""
        return energy_after(self.procedure_on_arrival, self.log, self.arrival, implied=self.implied_troubles, after=self.after)

    @property
    def implied_troubles(self) -> tuple[str, ...]:
        """Troubles that the request and the rejects imply."""
        rejects = {one.look.key for one in self.grades if one.blocks_release}
        graded = (key for key, one in self.procedure.troubles.items() if rejects & set(one.rejects))
        return tuple(dict.fromkeys((*troubles_of(self.procedure, self.request), *graded)))

    @cached_property
    def procedure_of_log(self) -> Procedure:
        """The same, with the parts, checks and work that only the gun had as it was before: all that the log speaks of."""
        return of_all((self.procedure_on_arrival, *(one.procedure_after for one in self.log)))

    @cached_property
    def log(self) -> tuple[Happening, ...]:
        """What has happened, in order."""
        _, events = without_withdrawn(self.graded, self.events)
        return happenings(self.procedure_on_arrival, events, parts_off=self.parts_off_first, procedures=self.procedures)

    @property
    def parts_off(self) -> frozenset[str]:
        """Parts that are off now."""
        return self.log[-1].off_after if self.log else frozenset(self.parts_off_first)

    @cached_property
    def known(self) -> Mapping[str, CheckStanding]:
        """How each check stands."""
        return standings(self.procedure_on_arrival, self.log)

    @cached_property
    def grades(self) -> tuple[StandingGrade, ...]:
        """The last grade of each look at each part, and what became of it."""
        graded, events = without_withdrawn(self.graded, self.events)
        sheet = self.inspection.sheet(self.variation)
        return standing_grades(self.inspection, sheet, graded, self.log, events)

    @property
    def read_as_found(self) -> Mapping[str, float]:
        """What was measured before the work, in the visit's own table or, where that is silent, in its log."""
        logged = [happening.event for happening in self.log if happening.event.kind == AS_FOUND]
        return {
            event.check: to_si(event.value, event.unit or "")
            for event in logged
            if event.check is not None and event.check in AS_FOUND_READINGS and isinstance(event.value, int | float)
        } | dict(self.as_found)

    @property
    def remaining(self) -> Request:
        """What of the request the log does not have yet."""
        since = [happening for happening in self.log if happening.event.number > self.after]
        done = {
            action_key(one.procedure, one.event)
            for one in since
            if one.event.action is not None and one.event.action not in MOVES
        }
        read = {one.event.check for one in since if one.event.kind == AS_FOUND}
        brought = self.procedure.with_brought(done & {*self.request.work}) - {*self.request.work}
        return replace(
            self.request,
            work=tuple(action for action in (*self.request.work, *sorted(brought)) if action not in done),
            as_found=tuple(check for check in self.request.as_found if check not in read),
        ).of_gun(self.procedure)

    def proof(self, event: Event) -> ReadingString | None:
        """The string that an event names as what proves its check.

        Parameters
        ----------
        event
            Of this visit's log.

        Returns
        -------
        ReadingString or None
            None if the event names none.

        Raises
        ------
        InputError
            If no string of this visit is called so, or several are.
        """
        if event.string is None:
            return None
        strings = self.session.strings
        named = [string for string in strings if event.string in _names(string, strings)]
        if len(named) == 1:
            return named[0]
        what = f"names {len(named)} strings of this visit." if named else "is no string of this visit."
        known = [f'"{string.file}: {string.words}"' for string in named] or [f'"{string.words}"' for string in strings]
        hint = f"Write one of {'; '.join(dict.fromkeys(known))}." if known else "Lay the file of its readings into the folder."
        raise wrong_event(event.number, "string", event.string, what, hint)

    def check_request(self) -> None:
        """Refuse a request that this gun cannot be asked for."""
        before = [happening for happening in self.log if happening.event.number <= self.after]
        check_request(gun_after(self.procedure_on_arrival, before), self.request, self.procedures)

    def check_log(self) -> None:
        """Refuse a log that cannot have happened, strings nobody fired, impossible grades, and readings that came too late."""
        for part in self.parts_off_first:
            self.procedure_on_arrival.part(part)
        for trouble in () if self.arrival is None else self.arrival.troubles:
            trouble_called(self.procedure_on_arrival, trouble)
        for event in self.events:
            self.proof(event)
        self.grades  # noqa: B018  worked out from the log, which is worked out first
        befores(self.procedure, self.log, after=self.after)


def _names(string: ReadingString, strings: Sequence[ReadingString]) -> tuple[str, ...]:
    """What a string may be called in the log: in words, with its file before them or without; by its file, if alone in it."""
    is_alone = bool(string.file) and sum(other.file == string.file for other in strings) == 1
    alone = (string.file, PurePath(string.file).stem) if is_alone else ()
    return (string.words, f"{string.file}: {string.words}", *alone)
