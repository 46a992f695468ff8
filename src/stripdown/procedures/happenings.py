"""What the log says has happened: events in the order in which they count, with what each touched and proved."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from stripdown.errors import InputError
from stripdown.procedures.becoming import Becoming, becoming
from stripdown.procedures.description import Procedures
from stripdown.procedures.events import CLOSE_UP, MOVES, OPEN_UP, PUT_BACK, TAKE_OFF, Event, WrongEvent, touch_of, wrong_event
from stripdown.procedures.key_lists import key_list
from stripdown.procedures.labels import Labels
from stripdown.procedures.names import with_keys
from stripdown.procedures.outcomes import Outcome, outcome_of
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.touches import PartTouch, Touch
from stripdown.tables.nearest import nearest_entry


@dataclass(frozen=True, slots=True, kw_only=True)
class Deed:
    """One touch, as it reads."""

    touch: PartTouch
    words: str
    is_back: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Happening:
    """One event that counts, and the gun that it happened to; its place is that of the event that it corrects or comes after."""

    event: Event
    place: int
    deeds: tuple[Deed, ...]
    outcome: Outcome | None
    off_after: frozenset[str]
    procedure: Procedure
    becoming: Becoming | None = None
    fires: str = ""

    @property
    def procedure_after(self) -> Procedure:
        """Procedures of the gun that it is from then on."""
        return self.procedure if self.becoming is None else self.becoming.after

    @property
    def spoiled(self) -> frozenset[str]:
        """Checks that it made stale: by what it touched, by running the gun, by making another gun of it."""
        touched = (self.procedure.spoiled_by((deed.touch,), is_back=deed.is_back) for deed in self.deeds)
        changed = frozenset[str]() if self.becoming is None else self.becoming.spoiled
        return changed.union(self.procedure.spoiled_by_running(self.fires), *touched)


def gun_after(procedure: Procedure, log: Iterable[Happening]) -> Procedure:
    """Procedures of the gun that a log has made of one."""
    last = tuple(log)[-1:]
    return last[0].procedure_after if last else procedure


def happenings(
    procedure: Procedure, events: Iterable[Event], *, parts_off: Iterable[str] = (), procedures: Procedures | None = None
) -> tuple[Happening, ...]:
    """Go through a log, and refuse what cannot have happened."""
    before = key_list("parts_off", parts_off)
    for part in before:
        procedure.part(part)
    entered = tuple(events)
    try:
        return _gone_through(procedure, _in_place(entered), set(before), procedures)
    except WrongEvent as reason:
        raise _blamed(procedure, entered, before, reason) from None


def _gone_through(
    procedure: Procedure, events: Iterable[tuple[int, Event]], off: set[str], procedures: Procedures | None
) -> tuple[Happening, ...]:
    labels = Labels(procedure)
    found = []
    for place, written in events:
        event = with_keys(procedure, written)
        _known(procedure, event, procedures)
        labels.place(event)
        deeds = tuple(_deeds(procedure, event, off, labels))
        outcome = outcome_of(procedure.checks[event.check], event) if event.check is not None else None
        new = None if event.action is None or event.action in MOVES else becoming(procedure, action_key(procedure, event))
        if new is not None:
            off = set(new.off(off))
            deeds = tuple(_deed(new.after if touch[0] in new.after.parts else procedure, touch) for touch in new.touches)
        found.append(
            Happening(
                event=event,
                place=place,
                deeds=deeds,
                outcome=outcome,
                off_after=frozenset(off),
                procedure=procedure,
                becoming=new,
                fires=_fires(procedure, event),
            )
        )
        procedure = labels.procedure = found[-1].procedure_after
    return tuple(found)


def _fires(procedure: Procedure, event: Event) -> str:
    """How an event ran the gun under power; nothing if it did not."""
    if event.check is not None:
        return procedure.fires(Step(StepKind.MAKE, event.check))
    return (
        "" if event.action is None or event.action in MOVES else procedure.fires(Step(StepKind.DO, action_key(procedure, event)))
    )


def _blamed(procedure: Procedure, entered: tuple[Event, ...], before: Iterable[str], reason: WrongEvent) -> WrongEvent:
    """What is wrong with an event, or with a later correction without which it could have happened."""

    def impossible(log: tuple[Event, ...]) -> int | None:
        try:
            _gone_through(procedure, _in_place(log), set(before), None)
        except WrongEvent as wrong:
            return wrong.number
        return None

    for position, event in enumerate(entered):
        is_later = event.supersedes is not None and event.number > reason.number
        if is_later and impossible(entered[: position + 1]) == reason.number:
            if impossible(entered[:position]) is not None:
                return reason
            what = f"cannot be, for what came after it: {reason.message}"
            hint = f"Correct event {reason.number} first, or say otherwise what happened in place of event {event.supersedes}."
            return wrong_event(event.number, "supersedes", event.supersedes, what, hint)
    return reason


def in_order(events: Iterable[Event]) -> tuple[Event, ...]:
    """Events in the order in which they count: a correction where the corrected one stood, a late one behind what it names."""
    return tuple(event for _, event in _in_place(events))


def _in_place(events: Iterable[Event]) -> list[tuple[int, Event]]:
    """Events in the order in which they count, each with the number at whose place it stands."""
    at_place: dict[tuple[int, int], Event | None] = {}
    place_of: dict[int, tuple[int, int]] = {0: (0, 0)}
    corrected: dict[int, int] = {}
    for event in events:
        number, older = event.number, event.supersedes
        if older is None:
            if event.after is not None and event.after not in place_of:
                hint = "Name the event after which it happened; 0 is before the first."
                raise wrong_event(number, "after", event.after, "is no event before it.", hint)
            place_of[number] = (number, 0) if event.after is None else (place_of[event.after][0], number)
            at_place[place_of[number]] = event
            continue
        if older not in place_of or not older:
            raise wrong_event(
                number, "supersedes", older, "is no event before it.", "A correction names an earlier event by its number."
            )
        if older in corrected:
            later = corrected[older]
            raise wrong_event(number, "supersedes", older, f"was corrected by event {later}.", f"Correct {later}.")
        corrected[older] = number
        place = place_of[number] = place_of[older]
        at_place[place] = None if event.is_withdrawal else event
    return [(place[0], event) for place, event in sorted(at_place.items(), key=lambda one: one[0]) if event is not None]


def steps_of(procedure: Procedure, happening: Happening) -> Iterator[Step]:
    """The steps of a plan that an event was."""
    event = happening.event
    if event.check is not None:
        yield Step(StepKind.MAKE, event.check)
    elif event.action in MOVES:
        kind = StepKind.PUT_BACK if event.action in {PUT_BACK, CLOSE_UP} else StepKind.TAKE_OFF
        yield from (Step(kind, deed.touch[0]) for deed in happening.deeds)
    elif event.action is not None:
        yield Step(StepKind.DO, action_key(procedure, event))


def _deeds(procedure: Procedure, event: Event, off: set[str], labels: Labels) -> Iterator[Deed]:
    if event.action in MOVES:
        yield from _moves(procedure, event, off, labels)
        return
    if event.is_remark:
        return
    if event.check is not None:
        step = Step(StepKind.MAKE, event.check)
        yield from _loaded(procedure, step, off)
        _possible(procedure, event, step, off)
        name = procedure.checks[event.check].name
        for part, kind in procedure.touches(step):
            one = procedure.parts[part]
            how = "put on and taken off" if part in procedure.checks[event.check].dry else kind.happened
            yield Deed(touch=(part, kind), words=f"the {one.name} {one.was} {how} while the {name} was made")
        return
    if event.action is not None:
        key = action_key(procedure, event)
        step = Step(StepKind.DO, key)
        yield from _loaded(procedure, step, off)
        _possible(procedure, event, step, off)
        touches = procedure.touches(step)
    else:
        part = str(event.part)
        kind = labels.kind(event, part, touch_of(event))
        _reachable(procedure, event, part, off, kind)
        touches = procedure.with_carried(((part, kind),))
    for touch in touches:
        yield _deed(procedure, touch)


def _deed(procedure: Procedure, touch: PartTouch) -> Deed:
    part, kind = procedure.parts[touch[0]], touch[1]
    return Deed(touch=touch, words=f"the {part.name} {part.was} {kind.happened}")


def _loaded(procedure: Procedure, step: Step, off: set[str]) -> Iterator[Deed]:
    """What loads and drives the gun was put in by whoever did what needs it in: nobody enters that."""
    wanted = procedure.on(step) & off & procedure.left_out
    for part in sorted(wanted, key=lambda one: len(procedure.close((one,))), reverse=True):
        if not procedure.front_of(part) <= off:
            return
        off.discard(part)
        one = procedure.parts[part]
        yield Deed(touch=(part, Touch.REFIT), words=f"the {one.name} {one.was} put back", is_back=True)


def _moves(procedure: Procedure, event: Event, off: set[str], labels: Labels) -> Iterator[Deed]:
    if event.action == CLOSE_UP:
        parts = [part for part in reversed(_outside_in(procedure)) if part in off]
    elif event.action == OPEN_UP:
        wanted = procedure.close((str(event.part),))
        parts = [part for part in _outside_in(procedure) if part in wanted and part not in off]
    else:
        parts = [str(event.part)]
    is_back = event.action in {PUT_BACK, CLOSE_UP}
    for part in parts:
        _movable(procedure, event, part, off, is_back=is_back)
        (off.discard if is_back else off.add)(part)
        one = procedure.parts[part]
        kind = labels.move(event, part, is_back=is_back)
        words = f"the {one.name} {one.was} {'put back' if is_back else 'taken off'}"
        said = words if kind is Touch.REFIT else f"the {one.name} {one.was} {kind.happened}"
        yield Deed(touch=(part, kind), words=said, is_back=is_back)


def _outside_in(procedure: Procedure) -> list[str]:
    """Parts in an order in which they can come off."""
    return sorted(procedure.parts, key=lambda part: (len(procedure.close((part,))), part))


def _movable(procedure: Procedure, event: Event, part: str, off: set[str], *, is_back: bool) -> None:
    one = procedure.parts[part]
    if is_back and part not in off:
        raise wrong_event(event.number, "part", part, f"cannot be put back: the {one.name} {one.was} not off.")
    if not is_back and part in off:
        raise wrong_event(event.number, "part", part, f"cannot be taken off: the {one.name} {one.was} off already.")
    in_front = sorted(procedure.front_of(part) - off)
    if in_front:
        front = procedure.parts[in_front[0]]
        what = "put back" if is_back else "taken off"
        hint = f"Enter the taking off of {', '.join(in_front)} first" + ("." if is_back else f', or action = "{OPEN_UP}".')
        raise wrong_event(
            event.number, "part", part, f"cannot have been {what}: the {front.name} {front.was} in front of it.", hint
        )


def _possible(procedure: Procedure, event: Event, step: Step, off: set[str]) -> None:
    """What a step needs off is off, and what it needs on is on."""
    field = "check" if event.check is not None else "action"
    late = " If it was read earlier, write after = the event before it." if field == "check" and event.after is None else ""
    missing = sorted(procedure.off(step) - procedure.with_riders(off))
    if missing:
        wanted = procedure.checks[step.key].off if field == "check" else procedure.actions[step.key].off
        inner = next((part for part in wanted if part in procedure.parts and part not in off), missing[0])
        one = procedure.parts[inner]
        hint = f'Enter the opening first: action = "{OPEN_UP}", part = "{inner}".{late}'
        mistake = f"cannot have been done: the {one.name} {one.was} still on, or covered."
        raise wrong_event(event.number, field, step.key, mistake, hint)
    absent = sorted(procedure.on(step) & off, key=lambda part: (-len(procedure.close((part,))), part))
    if absent:
        one = procedure.parts[absent[0]]
        hint = f'Enter the putting back first: action = "{PUT_BACK}", part = "{absent[0]}".{late}'
        raise wrong_event(event.number, field, step.key, f"cannot have been done: the {one.name} {one.was} off.", hint)


def _reachable(procedure: Procedure, event: Event, part: str, off: set[str], kind: Touch) -> None:
    covered = sorted(procedure.front_of(part) - off)
    if covered and part not in off and kind is not Touch.INSPECT:
        front = procedure.parts[covered[0]]
        hint = f'Enter the opening first: action = "{OPEN_UP}", part = "{part}".'
        mistake = f"cannot have been touched: the {front.name} {front.was} still in front of it."
        raise wrong_event(event.number, "part", part, mistake, hint)


def action_key(procedure: Procedure, event: Event) -> str:
    """The action of an event: by its key, or by its verb with the part ("bond", "bevel_bearing_left")."""
    key = str(event.action)
    whole = f"{key}_{event.part}"
    return whole if key not in procedure.actions and whole in procedure.actions else key


def _known(procedure: Procedure, event: Event, procedures: Procedures | None) -> None:
    for part in (event.part, *(part for one in event.fluids for part in one.parts)):
        if part is not None and part not in procedure.parts:
            names = {key: one.name for key, one in procedure.parts.items()}
            raise _unknown(event, ("part", part), names, procedures.parts if procedures else {}, procedure)
    if event.check is not None and event.check not in procedure.checks:
        names = {key: one.name for key, one in procedure.checks.items()}
        raise _unknown(event, ("check", event.check), names, procedures.checks if procedures else {}, procedure)
    if event.action in {TAKE_OFF, PUT_BACK, OPEN_UP} and event.part is None:
        raise wrong_event(event.number, "part", None, f'is missing: say of what, for action = "{event.action}".')
    if event.action is not None and event.action not in MOVES:
        key = action_key(procedure, event)
        if key not in procedure.actions:
            names = {**{move: move for move in MOVES}, **{key: one.name for key, one in procedure.actions.items()}}
            raise _unknown(event, ("action", key), names, procedures.actions if procedures else {}, procedure)
        _touching(procedure, event, key)
    for part in (part for one in event.fluids for part in one.parts):
        touched = dict.fromkeys(part for part, _ in _touched(procedure, event))
        if part not in touched:
            raise wrong_event(
                event.number, "fluids", part, "is not what this event touches.", f"It touches {', '.join(touched)}."
            )


def _touched(procedure: Procedure, event: Event) -> tuple[PartTouch, ...]:
    """What an event other than a move touches, by its own data."""
    if event.action is not None and event.action not in MOVES:
        return procedure.touches(Step(StepKind.DO, action_key(procedure, event)))
    return ((event.part, touch_of(event)),) if event.part is not None and event.action is None else ()


def _touching(procedure: Procedure, event: Event, key: str) -> None:
    """What stands beside an action agrees with it."""
    touches = procedure.touches(Step(StepKind.DO, key))
    touched = [part for part, _ in touches]
    if event.part is not None and event.part not in touched:
        hint = f"It touches {', '.join(touched)}."
        raise wrong_event(event.number, "part", event.part, f'is not what "{key}" touches.', hint)
    kinds = [kind.value for part, kind in touches if event.part in {None, part}]
    if event.kind is not None and event.kind not in kinds:
        hint = f"Leave it out, or write {' or '.join(dict.fromkeys(kinds))}; what else was done is an event of its own."
        raise wrong_event(event.number, "kind", event.kind, f'is not how "{key}" touches.', hint)


def _unknown(
    event: Event, named: tuple[str, str], here: Mapping[str, str], anywhere: Iterable[str], procedure: Procedure
) -> InputError:
    field, key = named
    if key in anywhere:
        mistake = f"belongs to another variation; this gun is: {procedure.variation}."
        return wrong_event(event.number, field, key, mistake, "Correct the variation of the job, or the event.")
    return wrong_event(event.number, field, key, f"is no {field} that is known.", nearest_entry(key, here))
