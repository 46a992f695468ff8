"""When work makes another gun of a gun: which parts leave and arrive, and what must be proved on the new one."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step, StepKind
from stripdown.procedures.touches import PartTouch


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Becoming:
    """One gun becomes another.

    Parameters
    ----------
    before, after
        Procedures of the gun that it was, and of the gun that it is now.
    action
        Key of the work that made it so.
    """

    before: Procedure
    after: Procedure
    action: str

    @property
    def leaving(self) -> frozenset[str]:
        """Parts that the new gun does not have: they are off, and stay off."""
        return frozenset(self.before.parts.keys() - self.after.parts.keys())

    @property
    def arriving(self) -> frozenset[str]:
        """Parts that only the new gun has: they are in the hand, and have to go in."""
        return frozenset(self.after.parts.keys() - self.before.parts.keys())

    @property
    def touches(self) -> tuple[PartTouch, ...]:
        """What the work touches on either gun."""
        touched = self.before.actions[self.action].touches
        guns = (self.before, self.after)
        both = (gun.with_carried(touch for touch in touched if touch[0] in gun.parts) for gun in guns)
        return tuple(dict.fromkeys(itertools.chain(*both)))

    @property
    def another(self) -> frozenset[str]:
        """Checks that only the new gun knows, or that mean another fact on it."""
        before = self.before.checks
        return frozenset(key for key, one in self.after.checks.items() if key not in before or before[key].fact != one.fact)

    @property
    def spoiled(self) -> frozenset[str]:
        """Checks that do not hold on the new gun, whatever held on the old one."""
        direct = self.another | self.after.spoiled_by(self.touches)
        return direct.union(*(self.after.resting_on(check) for check in direct))

    @property
    def words(self) -> str:
        """What it is from now on, and what it was."""
        changed = [
            f"{choice.name} in place of {self.before.choices[feature].name}"
            for feature, choice in self.after.choices.items()
            if choice != self.before.choices[feature]
        ]
        return ", ".join(changed)

    def off(self, off: Iterable[str]) -> frozenset[str]:
        """The parts of the new gun that are off, from those of the old one."""
        return frozenset(off) - self.leaving | self.arriving


def becoming(procedure: Procedure, action: str) -> Becoming | None:
    """What an action makes of a gun; None if it stays the gun that it is."""
    after = procedure.after((action,))
    return None if after is procedure else Becoming(before=procedure, after=after, action=action)


def of_all(guns: Iterable[Procedure]) -> Procedure:
    """All that is spoken of while one gun becomes another: the last one, and what only those before have, not for release."""
    *before, last = dict.fromkeys(guns)
    if not before:
        return last
    checks = {key: replace(check, is_for_release=False) for gun in before for key, check in gun.checks.items()}
    return replace(
        last,
        parts={**{key: part for gun in before for key, part in gun.parts.items()}, **last.parts},
        checks={**checks, **last.checks},
        actions={**{key: action for gun in before for key, action in gun.actions.items()}, **last.actions},
    )


def flaws_of_becoming(procedure: Procedure) -> Iterator[str]:
    """What in the data would leave a gun that nobody can close, after work that makes another one of it."""
    for key in procedure.actions:
        one = becoming(procedure, key)
        if one is None:
            continue
        off = procedure.off(Step(StepKind.DO, key))
        for part in sorted(one.leaving - off):
            yield f"action {key} makes a gun without {part}, and does not need it off."
        new = ", ".join(sorted(one.arriving))
        for part in sorted(one.after.close(one.arriving) - one.arriving - off):
            yield f"action {key} makes a gun with {new}, and does not need {part} off, which is in front."
