"""What was read before the work, what can still be read, and what is lost?"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from stripdown.procedures.events import AS_FOUND, OPEN_UP, TAKE_OFF, Event, wrong_event
from stripdown.procedures.happenings import Deed, Happening
from stripdown.procedures.moments import day_of
from stripdown.procedures.needed import Situation, needed_steps
from stripdown.procedures.order import around_circles, order_of
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import TooLate
from stripdown.procedures.stages import find_stages
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.touches import Touch


@dataclass(frozen=True, slots=True, kw_only=True)
class Disturbance:
    """What came between a check and its reading: in words, part, event, and the number of the event before it."""

    words: str
    part: str
    event: Event
    previous: int

    @property
    def told(self) -> str:
        """What happened, and when."""
        day = f" on {day_of(self.event.when, with_year=False)}" if self.event.when is not None else ""
        return f"{self.words}{day} (event {self.event.number})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Before:
    """What a visit has of one check as it was before the work.

    Parameters
    ----------
    read
        Number of the event that read it last; None if none did.
    disturbed
        What changed the gun first since it was read, or since the visit began.
    unlike
        What changed first since it was read of that with which it is read: balls, chronograph, a setting.
    """

    read: int | None = None
    disturbed: Disturbance | None = None
    unlike: Disturbance | None = None

    @property
    def holds(self) -> bool:
        """Whether there is a reading with which one after the work can be compared."""
        return self.read is not None and self.unlike is None


@dataclass(frozen=True, slots=True, kw_only=True)
class ToRead:
    """Readings as found that can be taken, what is put back for them first, and those for which it is too late."""

    checks: tuple[str, ...] = ()
    put_back: tuple[Step, ...] = ()
    too_late: tuple[TooLate, ...] = ()


def befores(procedure: Procedure, log: Iterable[Happening], *, after: int = 0) -> Mapping[str, Before]:
    """What a visit that began after an event has of each check as it was found; refuses a reading that came too late."""
    found: dict[str, Before] = {}
    previous = after
    for happening in log:
        event = happening.event
        if happening.place > after or (happening.place == after and event.number > after):
            if event.kind == AS_FOUND and event.check is not None:
                _refuse_late(happening.procedure, found.get(event.check, Before()), event)
            for deed in happening.deeds:
                _disturb(happening, found, deed, previous)
            if event.check is not None:
                found[event.check] = Before(read=event.number)
        previous = event.number
    return {key: found.get(key, Before()) for key in procedure.checks}


def _disturb(happening: Happening, found: dict[str, Before], deed: Deed, previous: int) -> None:
    """What a touch means for readings: the way in to one does it no harm."""
    procedure, (part, kind) = happening.procedure, deed.touch
    what = Disturbance(words=deed.words, part=part, event=happening.event, previous=previous)
    is_way_in = happening.event.action in {TAKE_OFF, OPEN_UP} and kind is Touch.REFIT
    another = happening.becoming.spoiled if happening.becoming is not None else frozenset()
    for check in procedure.spoiled_by((deed.touch,)) | another:
        before = found.get(check, Before())
        if check in procedure.checks and part in procedure.conditions(check):
            if before.unlike is None and before.read is not None:
                found[check] = replace(before, unlike=what)
        elif before.disturbed is None and not (is_way_in and part in procedure.off(Step(StepKind.AS_FOUND, check))):
            found[check] = replace(before, disturbed=what)


def _refuse_late(procedure: Procedure, before: Before, event: Event) -> None:
    if before.disturbed is not None:
        changed = before.disturbed
        name = procedure.checks[str(event.check)].name
        mistake = f"cannot be the {name} as it was found: {changed.told} before it."
        hint = f"If it was read before that, write after = {changed.previous}; if it was read after the work, leave out the kind."
        raise wrong_event(event.number, "check", event.check, mistake, hint)


def readings_to_take(
    procedure: Procedure,
    asked: Iterable[str],
    situation: Situation,
    *,
    known: Mapping[str, Before] | None,
    owed: Collection[str],
    unread: Mapping[str, str],
) -> ToRead:
    """Readings as found that are asked for, and those of what compares, is disturbed and is proved afterwards.

    `known` is what the visit has already; with None nothing but what is asked for is read. `owed` are checks that the log has
    disturbed and nobody proved, `unread` says of a check why it is not read as found.
    """

    def lost(key: str) -> TooLate | None:
        if key in unread:
            return TooLate(check=key, reason=f"the {procedure.checks[key].name} is not read as found: {unread[key]}.", part="")
        reason, part = _lost(procedure, key, (known or {}).get(key, Before()), situation.off, owed)
        return TooLate(check=key, reason=reason, part=part) if reason else None

    wanted = tuple(dict.fromkeys(asked))
    late = {key: lost(key) for key in wanted}
    kept = [key for key in wanted if late[key] is None]
    due = () if known is None else _due(procedure, replace(situation, as_found=frozenset(kept)), known)
    late |= {key: lost(key) for key in due if key not in wanted}
    derived = [key for key in due if key not in wanted and late[key] is None]
    off = situation.off - _absent(procedure, situation, (*kept, *derived))
    for key in _unfit(procedure, replace(situation, off=off), kept, derived):
        reason = f"the {procedure.checks[key].name} cannot be read as found: the way to it would disturb what is read before."
        late[key] = TooLate(check=key, reason=reason, part="")
    checks = tuple(key for key, one in late.items() if one is None)
    inner_first = sorted(_absent(procedure, situation, checks), key=lambda part: (-len(procedure.close((part,))), part))
    return ToRead(
        checks=checks,
        put_back=tuple(Step(StepKind.PUT_BACK, part) for part in inner_first),
        too_late=tuple(one for one in late.values() if one is not None),
    )


def _absent(procedure: Procedure, situation: Situation, checks: Iterable[str]) -> frozenset[str]:
    """Parts that must be on for readings, and are off."""
    return frozenset(part for key in checks for part in procedure.on(Step(StepKind.AS_FOUND, key)) & situation.off)


def _due(procedure: Procedure, situation: Situation, known: Mapping[str, Before]) -> tuple[str, ...]:
    """What compares, is disturbed and is proved afterwards, and has no reading that holds."""
    if procedure.after(situation.work) is procedure:
        needed = needed_steps(procedure, situation)
        made, spoiled = needed.made, frozenset[str]().union(*(procedure.spoils(step) for step in needed.steps))
    else:
        stages = find_stages(procedure, situation)
        made = frozenset(step.key for stage in stages for step in stage.steps if step.kind is StepKind.MAKE)
        spoiled = frozenset[str]().union(*(stage.spoils(step) for stage in stages for step in stage.steps))
    return tuple(
        key
        for key, check in procedure.checks.items()
        if check.compares and key in made and not known[key].holds and (key in spoiled or known[key].disturbed is not None)
    )


def _lost(procedure: Procedure, key: str, before: Before, off: frozenset[str], owed: Collection[str]) -> tuple[str, str]:
    """Why a check cannot be read as found, in one sentence, and the part that is at fault; empty if it can."""
    name = procedure.checks[key].name
    if before.disturbed is not None and before.unlike is not None:
        said = f"the {name} before and after no longer compare: {before.unlike.told}, and {before.disturbed.told}"
        return f"{said}: it cannot be read again.", before.unlike.part
    too_late = f"the {name} can no longer be read as found"
    if before.disturbed is not None:
        return f"{too_late}: {before.disturbed.told}.", before.disturbed.part
    absent = sorted(procedure.on(Step(StepKind.AS_FOUND, key)) & off)
    if absent and not _goes_back(procedure, off, owed):
        part = procedure.parts[absent[0]]
        return f"{too_late}: the {part.name} {part.was} taken off already.", part.key
    return "", ""


def _goes_back(procedure: Procedure, off: frozenset[str], owed: Collection[str]) -> bool:
    """Whether all that is off, a pack or a magazine, goes back without anything to be proved for it or before it."""
    backs = [Step(StepKind.PUT_BACK, part) for part in off]
    first = {one.key for step in backs for one in procedure.declared_before(step) if one.kind is StepKind.MAKE}
    spoils = any(procedure.spoils(step) & procedure.release_list or procedure.off(step) - off for step in backs)
    return not spoils and first.isdisjoint(owed)


def _unfit(procedure: Procedure, situation: Situation, asked: Iterable[str], derived: Iterable[str]) -> Iterator[str]:
    """Of readings that nobody asked for, those that would ask for a second opening."""
    work, wanted = situation.work.intersection(procedure.actions), situation.wanted.intersection(procedure.checks)
    own = replace(situation, work=work, wanted=wanted)  # what is only the new gun's comes after all readings

    def is_round(found: Iterable[str]) -> bool:
        needed = needed_steps(procedure, replace(own, as_found=frozenset(found)))
        return bool(around_circles(order_of(procedure, needed))[0])

    kept = tuple(asked)
    if not is_round((*kept, *derived)) or is_round(kept):
        return
    for key in derived:
        if is_round((*kept, key)):
            yield key
        else:
            kept = (*kept, key)
