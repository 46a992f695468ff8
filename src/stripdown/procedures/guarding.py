"""What must be made safe, and proved, before the next step: in a plan, and in a log."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from copy import copy
from dataclasses import dataclass, field
from typing import Any

from stripdown.errors import ProcedureError
from stripdown.procedures.checks import Method
from stripdown.procedures.energy import (
    CHAMBER_CLEAR,
    Arrival,
    Energy,
    after_happening,
    after_step,
    energy_on_arrival,
)
from stripdown.procedures.happenings import Happening, steps_of
from stripdown.procedures.procedure import FIRST_POWER, ROD_THROUGH, Procedure
from stripdown.procedures.steps import Step, StepKind

_SAFE = Energy(has_run=False, is_not_yet_run=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Guarded:
    """Steps with their guards.

    Parameters
    ----------
    steps
        In order.
    methods
        For each step the way to make it that suits the gun at that moment and the tools at hand; None for what is no check.
    fresh
        Checks that are fresh at the end.
    behind
        Parts that have to come off so that a guard can be made, and that the steps do not take off: what to plan anew with.
    ahead
        Parts that came off here although a later stage takes them off.
    provided
        Checks that were made since something needed them: they are not made once more where they hold.
    lost
        Readings as found for which a part had to come off first: key of the check to that of the part.
    energy
        What is known of the gun at the end.
    """

    steps: tuple[Step, ...]
    methods: tuple[Method | None, ...]
    fresh: frozenset[str]
    behind: frozenset[str] = frozenset()
    ahead: frozenset[str] = frozenset()
    provided: frozenset[str] = frozenset()
    lost: Mapping[str, str] = field(default_factory=dict)
    energy: Energy = _SAFE


def with_guards(
    procedure: Procedure,
    fresh: Iterable[str],
    steps: Iterable[Step],
    *,
    off: Iterable[str] = (),
    energy: Energy = _SAFE,
    tools: frozenset[str] | None = None,
    later: frozenset[str] = frozenset(),
    ahead: frozenset[str] = frozenset(),
    provided: frozenset[str] = frozenset(),
    leaves: bool | None = False,
) -> Guarded:
    """Put the making of a guard before each step that needs it and would not find it, and let what was run end unloaded.

    What loads and drives the gun, magazine and battery, goes in when a step needs it in, and out when one needs it out; where the
    steps put it does not count. Parts that a `later` stage takes off may come off here; those that came off `ahead` in an earlier
    one do not come off again, and what was `provided` there and holds is not made again. It leaves the bench if it was moved or
    run, or as said; not at all if that is None.
    """
    moves = {StepKind.TAKE_OFF, StepKind.PUT_BACK}
    waiting = [step for step in steps if step.kind not in moves or step.key not in procedure.left_out]
    guard = _Guard(
        procedure, set(fresh), set(off), energy, waiting=waiting, tools=tools, later=later, ahead=ahead, provided=provided
    )
    while guard.waiting:
        guard.next_step()
    if leaves is not None:
        guard.leave(is_asked=leaves)
    return guard.done()


def guards_of(procedure: Procedure, state: Energy, step: Step) -> tuple[str, ...]:
    """Checks that must hold before a step: those that the data name, and those that the gun's energy asks for."""
    named = [*procedure.needs(step), *procedure.proved_first(step)]
    if procedure.fires(step):
        ends = [one.partition(":")[2] for trouble in state.troubles if trouble.keeps_from_running for one in trouble.until[:1]]
        named = [*(key for key in ends if _is_outside(procedure, key)), *named]
    is_clearing = step.kind is StepKind.MAKE and step.key == CHAMBER_CLEAR
    if state.needs_rod and (procedure.fires(step) or is_clearing) and ROD_THROUGH in procedure.checks:
        named = [ROD_THROUGH, *named]
    return tuple(dict.fromkeys(key for key in named if key != step.key))


def _is_outside(procedure: Procedure, check: str) -> bool:
    """Whether a check is made on the whole gun, and can be made when it is needed."""
    return check in procedure.guards or (
        check in procedure.checks and procedure.off(Step(StepKind.MAKE, check)) <= procedure.left_out
    )


def holds(state: Energy, fresh: Iterable[str], guard: str) -> bool:
    """Whether a guard need not be made."""
    if any(f"make:{guard}" in trouble.until for trouble in state.troubles):
        return False
    if guard == FIRST_POWER:
        return not state.is_not_yet_run
    return not state.needs_rod if guard == ROD_THROUGH else guard in fresh


def ways(procedure: Procedure, state: Energy, off: Iterable[str], check: str) -> tuple[Method, ...]:
    """The ways to make a check that suit a gun in some state, with some parts off."""
    bare = set(off)
    return tuple(
        method
        for method in procedure.checks[check].methods
        if state.fits(method) and procedure.off_for(method) <= bare and not procedure.on_for(method) & bare
    )


def possible_ways(procedure: Procedure, state: Energy, off: Iterable[str], check: str) -> tuple[Method, ...]:
    """The same, and none if the check itself needs other parts off or on."""
    making, bare = Step(StepKind.MAKE, check), set(off)
    is_reached = procedure.off(making) <= bare and not procedure.on(making) & bare
    return ways(procedure, state, bare, check) if is_reached else ()


class _Guard:
    """The steps as they are done: parts off, checks fresh, what is known of the gun's energy."""

    def __init__(
        self,
        procedure: Procedure,
        fresh: set[str],
        off: set[str],
        energy: Energy,
        *,
        waiting: list[Step],
        tools: frozenset[str] | None,
        later: frozenset[str],
        ahead: frozenset[str],
        provided: frozenset[str],
    ) -> None:
        self._procedure, self._tools, self._later = procedure, tools, later
        self._fresh, self._off, self._energy = fresh, off, energy
        self._found: list[tuple[Step, Method | None]] = []
        self._behind: set[str] = set()
        self._lost: dict[str, str] = {}
        self._making: list[str] = []
        self._waived: set[str] = set()
        self._early: set[Step] = {Step(StepKind.TAKE_OFF, part) for part in ahead}
        self._ahead: set[str] = set()
        self._provided: set[str] = set(provided)
        self.waiting = waiting

    def next_step(self) -> None:
        """Do the next step, unless it was done earlier because a guard needed it."""
        step = self.waiting.pop(0)
        if step in self._early:
            self._early.discard(step)
            return
        if step.kind is StepKind.MAKE and step.key in self._provided & self._fresh and self._holds(step.key):
            return
        if step.kind is StepKind.AS_FOUND:
            self._read(step)
        else:
            self._add(step)

    def _read(self, step: Step) -> None:
        """Read as found, if nothing that the reading needs on has to come off for what must hold before it."""
        before = self._kept()
        try:
            self._add(step)
        except ProcedureError:
            gone = self._off - before["_off"] - self._procedure.left_out
            wanted = self._procedure.on(step) & (gone or self._off)
            self.__dict__.update(before)
            self._lost[step.key] = min(wanted or gone or self._procedure.on(step))

    def _kept(self) -> dict[str, Any]:
        """Everything as it is now, to come back to."""
        return {name: copy(value) if isinstance(value, set | list | dict) else value for name, value in vars(self).items()}

    def leave(self, *, is_asked: bool) -> None:
        """What was run, or moved, ends unloaded."""
        procedure = self._procedure
        self._waived.clear()
        moves = {StepKind.TAKE_OFF, StepKind.PUT_BACK}
        if is_asked or any(step.kind in moves or procedure.fires(step) for step, _ in self._found):
            for check in sorted(procedure.leaving - self._fresh):
                self._add(Step(StepKind.MAKE, check))

    def done(self) -> Guarded:
        """What was found."""
        return Guarded(
            steps=tuple(step for step, _ in self._found),
            methods=tuple(method for _, method in self._found),
            fresh=frozenset(self._fresh),
            behind=frozenset(self._behind),
            ahead=frozenset(self._ahead),
            provided=frozenset(self._provided),
            lost=self._lost,
            energy=self._energy,
        )

    def _holds(self, guard: str) -> bool:
        return holds(self._energy, self._fresh, guard)

    def _add(self, step: Step) -> None:
        """Do a step, after what must hold before it, with magazine and battery as it needs them."""
        for guard in guards_of(self._procedure, self._energy, step):
            self._provide(guard, step)
        # What a reading is taken without is out before and after alike.
        is_check = step.kind in {StepKind.MAKE, StepKind.AS_FOUND}
        without = frozenset(self._procedure.checks[step.key].without if is_check else ())
        self._reach((self._procedure.off(step) | without) & self._procedure.left_out, self._procedure.on(step))
        if step.kind is StepKind.AS_FOUND and (self._procedure.on(step) & self._off) - self._procedure.left_out:
            raise ProcedureError(f"The {self._procedure.checks[step.key].name} cannot be read any more.")
        if self._has_no_way(step):
            self._reach(self._procedure.off_for(self._best(step.key)), self._procedure.on_for(self._best(step.key)))
        self._do(step)
        for guard in sorted(self._waived - set(self._making)):
            if self._holds(guard) or self._is_next(guard):
                self._waived.discard(guard)
                self._provide(guard, step)

    def _provide(self, guard: str, step: Step) -> None:
        """Make a guard, unless it holds; a part that may go first goes without one that cannot be made yet."""
        if guard in self._making or self._holds(guard):
            return
        may_wait = step.kind is StepKind.TAKE_OFF and self._procedure.parts[step.key].may_go_first
        making, found = Step(StepKind.MAKE, guard), Step(StepKind.AS_FOUND, guard)
        self._making.append(guard)
        is_waived = may_wait and not self._is_possible(guard)
        if is_waived:
            self._waived.add(guard)
        for other in guards_of(self._procedure, self._energy, making):
            self._provide(other, step if is_waived else making)
        if not is_waived:
            method = self._best(guard)
            self._reach(
                self._procedure.off(making) | self._procedure.off_for(method),
                self._procedure.on(making) | self._procedure.on_for(method),
            )
            if found in self.waiting:
                self.waiting.remove(found)
                self._add(found)
            elif not self._holds(guard):
                self._add(making)
                self._provided.add(guard)
        self._making.pop()

    def _has_no_way(self, step: Step) -> bool:
        """Whether a check has ways to make it, and none suits the gun as it lies there."""
        is_check = step.kind in {StepKind.MAKE, StepKind.AS_FOUND}
        return (
            is_check
            and bool(self._procedure.checks[step.key].methods)
            and not ways(self._procedure, self._energy, self._off, step.key)
        )

    def _is_next(self, guard: str) -> bool:
        """Whether a guard that was waived can be made now, and nothing that is being made comes before it."""
        before = guards_of(self._procedure, self._energy, Step(StepKind.MAKE, guard))
        return self._is_possible(guard) and not any(one in self._making and not self._holds(one) for one in before)

    def _is_possible(self, guard: str) -> bool:
        """Whether a guard can be made with nothing taken off but magazine and battery, which may wait for it."""
        making = Step(StepKind.MAKE, guard)
        if not self._procedure.off(making) <= self._off or self._procedure.on(making) & self._off:
            return False
        return bool(ways(self._procedure, self._energy, self._off, guard))

    def _best(self, guard: str) -> Method:
        """The way to make a guard that needs the least, in the order of the data."""
        procedure, making = self._procedure, Step(StepKind.MAKE, guard)
        coming = {step.key for step in self.waiting if step.kind is StepKind.TAKE_OFF}
        coming |= self._off | procedure.left_out | self._later
        fitting = [
            one
            for one in procedure.checks[guard].methods
            if self._energy.fits(one) and (procedure.on(making) | procedure.on_for(one)) & self._off <= procedure.left_out
        ]
        if not fitting and not self._behind:  # with more to come off this is planned anew anyway
            raise ProcedureError(f"The {procedure.checks[guard].name} cannot be made on this gun as it lies there.")

        def cost(method: Method) -> tuple[int, int]:
            wanted = procedure.off(making) | procedure.off_for(method)
            return len(wanted - coming), len(wanted - self._off - procedure.left_out)

        return min(fitting or procedure.checks[guard].methods, key=cost)

    def _reach(self, off: frozenset[str], on: frozenset[str]) -> None:
        """Lay the gun so: what comes off anyway comes off now, and magazine and battery go in or out."""
        for part in _outside_in(self._procedure, off - self._off):
            if part not in self._off:
                self._take_off(part)
        wanted = (on & self._off) & self._procedure.left_out
        for part in reversed(_outside_in(self._procedure, wanted)):
            for front in _outside_in(self._procedure, self._procedure.front_of(part) - self._off):
                self._take_off(front)
            self._add(Step(StepKind.PUT_BACK, part))

    def _take_off(self, part: str) -> None:
        step = Step(StepKind.TAKE_OFF, part)
        if part not in self._procedure.left_out:
            if step in self.waiting and step not in self._early:
                self._early.add(step)
            elif part in self._later:
                self._ahead.add(part)
            else:
                self._behind.add(part)
        self._add(step)

    def _do(self, step: Step) -> None:
        procedure = self._procedure
        method = None
        if step.kind in {StepKind.MAKE, StepKind.AS_FOUND}:
            method = choose_method(
                ways(procedure, self._energy, self._off, step.key) or procedure.checks[step.key].methods, self._tools
            )
        self._found.append((step, method))
        if procedure.fires(step):
            self._waived.clear()
        self._fresh -= procedure.spoils(step) | procedure.spoiled_by_running(method.fires if method is not None else "")
        if step.kind in {StepKind.MAKE, StepKind.AS_FOUND} and self._fresh >= set(procedure.rests_on(step.key)):
            self._fresh.add(step.key)
        self._energy = after_step(procedure, self._energy, step, method)
        if step.kind is StepKind.TAKE_OFF:
            self._off.add(step.key)
        elif step.kind is StepKind.PUT_BACK:
            self._off.discard(step.key)


def choose_method(methods: tuple[Method, ...], at_hand: frozenset[str] | None) -> Method | None:
    """The first method that the tools at hand allow."""
    if at_hand is not None:
        for method in methods:
            if set(method.tools) <= at_hand:
                return method
        return min(methods, key=lambda method: len(set(method.tools) - at_hand), default=None)
    return methods[0] if methods else None


def _outside_in(procedure: Procedure, parts: Iterable[str]) -> list[str]:
    """Parts in an order in which they can come off."""
    return sorted(parts, key=lambda part: (len(procedure.close((part,))), part))


@dataclass(frozen=True, slots=True, kw_only=True)
class Unguarded:
    """An event that the log has, without what should have been made sure of before it."""

    event: int
    step: Step
    guards: tuple[str, ...]


def unguarded(
    procedure: Procedure,
    log: Iterable[Happening],
    arrival: Arrival | None = None,
    *,
    implied: Iterable[str] = (),
    after: int = 0,
) -> tuple[Unguarded, ...]:
    """Events of a visit whose guards did not hold: it happened, and it should not have."""
    fresh: set[str] = set()
    off = frozenset(arrival.off if arrival is not None else ())
    state = energy_on_arrival(procedure, arrival or Arrival(), implied=implied)
    found = []
    for happening in log:
        if happening.event.number <= after and arrival is not None:
            off = happening.off_after
            continue
        missing: dict[str, Step] = {}
        procedure = happening.procedure
        for step in steps_of(procedure, happening):
            for guard in _lacking(procedure, state, fresh, off, step):
                missing.setdefault(guard, step)
            fresh -= procedure.spoils(step)
            off = off | {step.key} if step.kind is StepKind.TAKE_OFF else off
        if missing:
            step = next(iter(missing.values()))
            found.append(Unguarded(event=happening.event.number, step=step, guards=tuple(missing)))
        fresh -= happening.spoiled
        off = happening.off_after
        state = after_happening(state, happening)
        if happening.outcome is not None and happening.outcome.has_passed:
            fresh.add(str(happening.event.check))
    return tuple(found)


def _lacking(procedure: Procedure, state: Energy, fresh: set[str], off: frozenset[str], step: Step) -> Iterator[str]:
    """What must hold before a step and does not; a part that may go first goes without what cannot be made yet."""
    may_wait = step.kind is StepKind.TAKE_OFF and procedure.parts[step.key].may_go_first
    for guard in guards_of(procedure, state, step):
        if holds(state, fresh, guard):
            continue
        if may_wait and not possible_ways(procedure, state, off, guard):
            deeper = guards_of(procedure, state, Step(StepKind.MAKE, guard))
            yield from (one for one in deeper if not holds(state, fresh, one) and possible_ways(procedure, state, off, one))
        elif guard in procedure.guards or guard == FIRST_POWER:
            yield guard
