"""The procedures of one variation of gun: parts, checks and actions, and what each step touches, needs and spoils."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from stripdown.errors import InputError
from stripdown.procedures.actions import Action
from stripdown.procedures.checks import Check, Method
from stripdown.procedures.parts import Part
from stripdown.procedures.steps import DeclaredOrder, Step, StepKind
from stripdown.procedures.touches import PartTouch, Touch
from stripdown.procedures.troubles import Trouble
from stripdown.procedures.variations import Choice
from stripdown.tables.nearest import nearest_entry

_Record = TypeVar("_Record", Part, Check, Action)
FIRST_POWER = "first_power"
"""Key of the check that says that the gun, closed or wired anew, has run."""
ROD_THROUGH = "rod_through"
"""Key of the guard that a gun's troubles ask for, and no step by itself: no ball is stuck in the barrel."""
SPRING = "main_spring"
"""Key of the part without which nothing can be shot."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Procedure:
    """Parts, checks and actions of one variation.

    Everything that follows from the data is derived once and kept: what is in front of what, and what each step spoils.

    Parameters
    ----------
    parts, checks, actions
        By key, in the order of the data. A key that one names and that is not here plays no part in this variation.
    order
        Steps whose order no rule gives.
    places
        Name of each place at the bench by its key, in the order of work.
    variation
        How the variation reads; empty for made-up procedures.
    choices
        The choice of each feature in which guns differ, by the feature's key.
    with_choices
        The procedures of a gun with other choices of some features, by their keys; None where work changes no gun.
    troubles
        What such a gun may bring with it, by key.
    """

    parts: Mapping[str, Part]
    checks: Mapping[str, Check]
    actions: Mapping[str, Action] = field(default_factory=dict)
    order: tuple[DeclaredOrder, ...] = ()
    places: Mapping[str, str] = field(default_factory=dict)
    variation: str = ""
    choices: Mapping[str, Choice] = field(default_factory=dict)
    with_choices: Callable[[Mapping[str, str]], Procedure] | None = field(default=None, repr=False)
    troubles: Mapping[str, Trouble] = field(default_factory=dict)

    def after(self, actions: Iterable[str]) -> Procedure:
        """The procedures of the gun that some work makes of this one.

        Parameters
        ----------
        actions
            Keys of actions; what is no action of this gun changes nothing.

        Returns
        -------
        Procedure
            Itself, if the gun stays the gun that it is.
        """
        becomes = {
            feature: choice
            for key in actions
            if key in self.actions
            for feature, choice in self.actions[key].becomes.items()
            if self.choices[feature].key != choice
        }
        return self.with_choices(becomes) if becomes and self.with_choices is not None else self

    def part(self, key: str) -> Part:
        """A part by its key.

        Parameters
        ----------
        key
            Its key.

        Returns
        -------
        Part

        Raises
        ------
        InputError
            If this variation has none, with the nearest keys.
        """
        return _known(self.parts, key, "part")

    def check(self, key: str) -> Check:
        """A check by its key.

        Parameters
        ----------
        key
            Its key.

        Returns
        -------
        Check

        Raises
        ------
        InputError
            If this variation has none, with the nearest keys.
        """
        return _known(self.checks, key, "check")

    def action(self, key: str) -> Action:
        """An action by its key.

        Parameters
        ----------
        key
            Its key.

        Returns
        -------
        Action

        Raises
        ------
        InputError
            If this variation has none, with the nearest keys.
        """
        return _known(self.actions, key, "action")

    @functools.cached_property
    def release_list(self) -> frozenset[str]:
        """Checks that must be fresh when the gun leaves, once spoiled."""
        return frozenset(key for key, check in self.checks.items() if check.is_for_release)

    @functools.cached_property
    def left_out(self) -> frozenset[str]:
        """Parts that are out when the gun leaves: what loads it and what drives it."""
        return frozenset(key for key, part in self.parts.items() if part.is_left_out)

    @functools.cached_property
    def leaving(self) -> frozenset[str]:
        """Checks that are made last, when nothing is to be run under power any more."""
        return frozenset(key for key, check in self.checks.items() if check.is_leaving)

    @functools.cached_property
    def until_run(self) -> frozenset[str]:
        """Checks that hold until the gun is run under power."""
        return frozenset(key for key, check in self.checks.items() if check.holds_until_run)

    @functools.cached_property
    def guards(self) -> frozenset[str]:
        """Checks that some step needs fresh: made when they are needed, and not proved again for release."""
        needy: tuple[Part | Check | Action, ...] = (*self.parts.values(), *self.checks.values(), *self.actions.values())
        named = {key for one in needy for key in one.needs}
        named |= {key for part in self.parts.values() for key in part.needs_back}
        return frozenset((named | {ROD_THROUGH}) & self.checks.keys())

    def front_of(self, part: str) -> frozenset[str]:
        """Parts that must be off while a part is taken off or put back.

        Parameters
        ----------
        part
            Key of the part.

        Returns
        -------
        frozenset of str
        """
        return self._in_front[part]

    def close(self, parts: Iterable[str]) -> frozenset[str]:
        """Parts together with everything in front of them.

        Parameters
        ----------
        parts
            Keys of parts.

        Returns
        -------
        frozenset of str
        """
        return frozenset().union(*(self._closed[part] for part in parts))

    def bases(self, check: str) -> frozenset[str]:
        """All checks on which a check rests, and on which these rest.

        Parameters
        ----------
        check
            Key of the check.

        Returns
        -------
        frozenset of str
        """
        return self._all_bases[check]

    def rests_on(self, check: str) -> tuple[str, ...]:
        """Checks on which a check rests directly.

        Parameters
        ----------
        check
            Key of the check.

        Returns
        -------
        tuple of str
        """
        return tuple(base for base in self.checks[check].rests_on if base in self.checks)

    def resting_on(self, check: str) -> frozenset[str]:
        """All checks that rest on a check, directly or not.

        Parameters
        ----------
        check
            Key of the check.

        Returns
        -------
        frozenset of str
        """
        return self._all_resting[check]

    def touches(self, step: Step) -> tuple[PartTouch, ...]:
        """What a step touches, and how.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        tuple of (str, Touch)
        """
        if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}:
            return ((step.key, Touch.REFIT),)
        if step.kind is StepKind.DO:
            return self.with_carried(touch for touch in self.actions[step.key].touches if touch[0] in self.parts)
        check = self.checks[step.key]
        dry = tuple((part, Touch.REFIT) for part in check.dry)
        return tuple(touch for touch in (*dry, *check.touches) if touch[0] in self.parts)

    def with_carried(self, touches: Iterable[PartTouch]) -> tuple[PartTouch, ...]:
        """Touches, and those of what rides on a part that is replaced: it moves over to the new one.

        Parameters
        ----------
        touches
            Parts and how they were touched.

        Returns
        -------
        tuple of (str, Touch)
        """
        own = tuple(touches)
        over = [rider for part, kind in own if kind is Touch.REPLACE for rider in self._riding.get(part, frozenset()) - {part}]
        return tuple(dict.fromkeys((*own, *((rider, Touch.REFIT) for rider in sorted({*over} - {part for part, _ in own})))))

    def with_riders(self, parts: Iterable[str]) -> frozenset[str]:
        """Parts, and what rides on them: off with them, whether anybody took it off them or not.

        Parameters
        ----------
        parts
            Keys of parts.

        Returns
        -------
        frozenset of str
        """
        return frozenset().union(*(self._riding[part] for part in parts))

    def with_brought(self, work: Iterable[str]) -> frozenset[str]:
        """Work, and what it brings along: a new rack in a gun that runs without a tooth is cut before it goes in.

        Parameters
        ----------
        work
            Keys of actions.

        Returns
        -------
        frozenset of str
        """
        asked = frozenset(work)
        brought = frozenset().union(*(self._bringing.get(action, frozenset()) for action in asked)) - asked
        barred = {other for action in asked & self.actions.keys() for other in self.actions[action].excludes}
        return asked | {action for action in brought - barred if asked.isdisjoint(self.actions[action].excludes)}

    def off(self, step: Step) -> frozenset[str]:
        """Parts that must be off while a step is done, with everything in front of them.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        frozenset of str
        """
        return self._off[step]

    def on(self, step: Step) -> frozenset[str]:
        """Parts that must be on before a step begins: those that it puts on itself are not among them.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        frozenset of str
        """
        return self._on[step]

    def off_for(self, method: Method) -> frozenset[str]:
        """Parts that must be off for a way to make a check, beside those of the check, with everything in front of them.

        Parameters
        ----------
        method
            A way to make a check.

        Returns
        -------
        frozenset of str
        """
        return self.close(part for part in method.off if part in self.parts)

    def on_for(self, method: Method) -> frozenset[str]:
        """Parts that must be on for a way to make a check, beside those of the check.

        Parameters
        ----------
        method
            A way to make a check.

        Returns
        -------
        frozenset of str
        """
        return self._with_what_is_before(frozenset(method.on) & self.parts.keys())

    def needs(self, step: Step) -> tuple[str, ...]:
        """Guards that must be fresh when a step is done.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        tuple of str
        """
        if step.kind is StepKind.TAKE_OFF:
            needed = self.parts[step.key].needs
        elif step.kind is StepKind.PUT_BACK:
            needed = self.parts[step.key].needs_back
        else:
            needed = self._doing(step).needs
        return tuple(key for key in needed if key in self.checks)

    def proved_first(self, step: Step) -> tuple[str, ...]:
        """Checks that must hold before a step is done, and are part of no guard: first power before anything is fired.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        tuple of str
        """
        if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}:
            return ()
        named = () if step.kind is StepKind.DO else self.checks[step.key].proved_first
        is_first = FIRST_POWER in {step.key, *named} or SPRING in self.off(step)
        first = (FIRST_POWER,) if self.fires(step) and not is_first else ()
        return tuple(key for key in (*named, *first) if key in self.checks)

    def fires(self, step: Step) -> str:
        """How a step runs the gun under power.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        str
            ``"shots"``, ``"cycles"``, or nothing for a step that does not.
        """
        return "" if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK} else self._doing(step).fires

    def spoils(self, step: Step) -> frozenset[str]:
        """Checks that a step makes stale: those about what it touches, and those that rest on them.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        frozenset of str
        """
        return self._spoiled[step]

    def spoiled_by(self, touches: Iterable[PartTouch], *, is_back: bool = False) -> frozenset[str]:
        """Checks that touches make stale, directly or through what they rest on.

        Parameters
        ----------
        touches
            Parts and how they were touched.
        is_back
            Whether the parts went back.

        Returns
        -------
        frozenset of str
        """
        direct = {key for touch in self.with_carried(touches) for key in self.about(touch, is_back=is_back)}
        return frozenset(direct).union(*(self.resting_on(key) for key in direct))

    def conditions(self, check: str) -> frozenset[str]:
        """Parts with which, or at whose setting, a check is read: when they change, readings before and after no longer compare.

        Parameters
        ----------
        check
            Key of the check.

        Returns
        -------
        frozenset of str
        """
        return self._conditions[check]

    def changes_found(self, step: Step, check: str) -> bool:
        """Whether a step would change what a check is read of as found: not its own way in, nor what it is read with.

        Parameters
        ----------
        step
            Any step of this procedure.
        check
            Key of the check.

        Returns
        -------
        bool
        """
        found = Step(StepKind.AS_FOUND, check)
        if step == found or check not in self._spoiled[step] or (step.kind is StepKind.TAKE_OFF and step.key in self._off[found]):
            return False
        return not self._changes_apparatus(step, check)

    def changes_reading(self, step: Step, check: str) -> bool:
        """Whether a step changes only that with which a check is read: a reading as found comes after it.

        Parameters
        ----------
        step
            Any step of this procedure.
        check
            Key of the check.

        Returns
        -------
        bool
        """
        return check in self._spoiled[step] and self._changes_apparatus(step, check)

    def _changes_apparatus(self, step: Step, check: str) -> bool:
        spoiling = [touch[0] for touch in self.touches(step) if check in self.spoiled_by((touch,))]
        return bool(spoiling) and all(self.parts[part].is_apparatus for part in spoiling)

    def spoiled_by_running(self, fires: str) -> frozenset[str]:
        """Checks that running the gun under power makes stale.

        Parameters
        ----------
        fires
            How it runs; nothing if it does not.

        Returns
        -------
        frozenset of str
        """
        return self.until_run.union(*(self.resting_on(key) for key in self.until_run)) if fires else frozenset()

    def about(self, touch: PartTouch, *, is_back: bool = False) -> frozenset[str]:
        """Checks that a touch makes stale by itself.

        Parameters
        ----------
        touch
            A part, and how it was touched.
        is_back
            Whether it went back: a check that is made while it is off may be spared.

        Returns
        -------
        frozenset of str
        """
        found = self._about.get(touch, frozenset())
        if not is_back or touch[1] is not Touch.REFIT:
            return found
        return frozenset(key for key in found if touch[0] not in self.checks[key].spared_back)

    def declared_before(self, step: Step) -> tuple[Step, ...]:
        """Steps that a declared order wants before a step.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        tuple of Step
        """
        return self._declared.get(step, ())

    def named(self, step: Step) -> str:
        """A step as a line of a plan.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        str
        """
        if step.kind is StepKind.TAKE_OFF:
            return f"take off the {self.parts[step.key].name}"
        if step.kind is StepKind.PUT_BACK:
            return f"put back the {self.parts[step.key].name}"
        if step.kind is StepKind.DO:
            return self.actions[step.key].name
        return f"{'as found: ' if step.kind is StepKind.AS_FOUND else 'prove: '}{self.checks[step.key].name}"

    def place_of(self, step: Step) -> str:
        """The place at the bench where a step is done.

        Parameters
        ----------
        step
            Any step of this procedure.

        Returns
        -------
        str
            Key of the place; empty if the data name none.
        """
        if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}:
            return self.parts[step.key].place
        doing = self._doing(step)
        if doing.place:
            return doing.place
        touched = self.touches(step)
        return self.parts[touched[0][0]].place if touched else ""

    def _doing(self, step: Step) -> Action | Check:
        return self.actions[step.key] if step.kind is StepKind.DO else self.checks[step.key]

    def all_steps(self) -> tuple[Step, ...]:
        """Every step that this procedure knows, in the order of the data.

        Returns
        -------
        tuple of Step
        """
        return self._steps

    @functools.cached_property
    def _steps(self) -> tuple[Step, ...]:
        return (
            *(Step(StepKind.AS_FOUND, key) for key in self.checks),
            *(Step(StepKind.TAKE_OFF, key) for key in self.parts),
            *(Step(StepKind.DO, key) for key in self.actions),
            *(Step(StepKind.MAKE, key) for key in self.checks),
            *(Step(StepKind.PUT_BACK, key) for key in self.parts),
        )

    @functools.cached_property
    def _in_front(self) -> Mapping[str, frozenset[str]]:
        return {key: frozenset(part.in_front) & self.parts.keys() for key, part in self.parts.items()}

    @functools.cached_property
    def _closed(self) -> Mapping[str, frozenset[str]]:
        return _reflexive_closure(self._in_front)

    @functools.cached_property
    def _riding(self) -> Mapping[str, frozenset[str]]:
        return _reflexive_closure({key: frozenset(part.carries) & self.parts.keys() for key, part in self.parts.items()})

    @functools.cached_property
    def _bringing(self) -> Mapping[str, frozenset[str]]:
        return _reflexive_closure({key: frozenset(one.brings) & self.actions.keys() for key, one in self.actions.items()})

    @functools.cached_property
    def _all_bases(self) -> Mapping[str, frozenset[str]]:
        direct = {key: frozenset(self.rests_on(key)) for key in self.checks}
        return {key: closed - {key} for key, closed in _reflexive_closure(direct).items()}

    @functools.cached_property
    def _all_resting(self) -> Mapping[str, frozenset[str]]:
        return {key: frozenset(other for other, bases in self._all_bases.items() if key in bases) for key in self.checks}

    @functools.cached_property
    def _conditions(self) -> Mapping[str, frozenset[str]]:
        apparatus = {key for key, part in self.parts.items() if part.is_apparatus}
        return {
            key: frozenset(apparatus).union(*(self.checks[one].settings for one in {key, *self._all_bases[key]}))
            for key in self.checks
        }

    @functools.cached_property
    def _about(self) -> Mapping[PartTouch, frozenset[str]]:
        found: dict[PartTouch, set[str]] = {}
        for key, check in self.checks.items():
            for part in check.about:
                for kind in Touch:
                    if check.is_spoiled_by((part, kind)):
                        found.setdefault((part, kind), set()).add(key)
        return {touch: frozenset(keys) for touch, keys in found.items()}

    @functools.cached_property
    def _off(self) -> Mapping[Step, frozenset[str]]:
        return {
            step: self._in_front[step.key]
            if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK}
            else self.close(part for part in (*self._doing(step).off, *self._moved_over(step)) if part in self.parts)
            for step in self._steps
        }

    def _moved_over(self, step: Step) -> Iterable[str]:
        """What comes off a part that a step replaces, since the new one takes it over."""
        touches = self.actions[step.key].touches if step.kind is StepKind.DO else ()
        replaced = {part for part, kind in touches if kind is Touch.REPLACE and part in self.parts}
        return frozenset().union(*(self.parts[part].carries for part in replaced))

    @functools.cached_property
    def _on(self) -> Mapping[Step, frozenset[str]]:
        return {
            step: frozenset() if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK} else self._in_place(step)
            for step in self._steps
        }

    def _in_place(self, step: Step) -> frozenset[str]:
        """What a step needs on before it begins: with a part that goes in last, the whole gun but what must be off."""
        doing = self._doing(step)
        wanted = frozenset(doing.on) & self.parts.keys()
        wanted |= self._with_what_is_before(wanted) - self.off(step)
        return wanted - (frozenset() if isinstance(doing, Action) else frozenset(doing.dry))

    def _with_what_is_before(self, parts: frozenset[str]) -> frozenset[str]:
        """Parts, and the whole gun if one of them goes in last."""
        last = {key for key in parts if self.parts[key].is_last}
        return parts | (self.parts.keys() - self.close(last)) if last else parts

    @functools.cached_property
    def _declared(self) -> Mapping[Step, tuple[Step, ...]]:
        found: dict[Step, list[Step]] = {}
        for order in self.order:
            found.setdefault(order.then, []).append(order.first)
        return {then: tuple(firsts) for then, firsts in found.items()}

    @functools.cached_property
    def _spoiled(self) -> Mapping[Step, frozenset[str]]:
        return {
            step: self.spoiled_by(self.touches(step), is_back=step.kind is StepKind.PUT_BACK)
            | self.spoiled_by_running(self.fires(step))
            for step in self._steps
        }


def _reflexive_closure(direct: Mapping[str, frozenset[str]]) -> dict[str, frozenset[str]]:
    """Each key with all that is reached from it; a circle ends, so that the contract can name it."""
    closed: dict[str, frozenset[str]] = {}
    for start in direct:
        reached, front = {start}, [start]
        while front:
            for key in direct[front.pop()]:
                if key not in reached:
                    reached.add(key)
                    front.append(key)
        closed[start] = frozenset(reached)
    return closed


def _known(records: Mapping[str, _Record], key: str, noun: str) -> _Record:
    found = records.get(key)
    if found is None:
        raise InputError(
            f'"{key}" is no {noun} of this gun.',
            field=noun,
            value=key,
            hint=nearest_entry(key, {one: found.name for one, found in records.items()}),
        )
    return found
