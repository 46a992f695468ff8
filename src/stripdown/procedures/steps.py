"""A step of a plan: what kind it is, and of what."""

from __future__ import annotations

import enum
from dataclasses import dataclass


class StepKind(enum.Enum):
    """The five kinds of step."""

    AS_FOUND = "as_found"
    TAKE_OFF = "take_off"
    DO = "do"
    MAKE = "make"
    PUT_BACK = "put_back"

    __hash__ = object.__hash__  # there is one of each, and plans look up millions of steps


@dataclass(frozen=True, slots=True)
class Step:
    """One step, by kind and key.

    Parameters
    ----------
    kind
        What kind of step.
    key
        Key of its part, action or check.
    """

    kind: StepKind
    key: str

    @property
    def name(self) -> str:
        """Its name in data, commands and JSON: ``"make:cylinder_seal"``."""
        return f"{self.kind.value}:{self.key}"

    def __str__(self) -> str:
        """Its name."""
        return self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class DeclaredOrder:
    """Two steps whose order no other rule gives."""

    first: Step
    then: Step
    why: str
    is_cure: bool = False
