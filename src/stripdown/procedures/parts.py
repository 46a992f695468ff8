"""What comes off a gun, and what is in front of it."""

from __future__ import annotations

from dataclasses import dataclass

from stripdown.procedures.cautions import Caution


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part that is taken off, put back or touched.

    What it `carries` comes off with it, and moves over to a new one. What `is_last` goes in when all else is in. As apparatus it
    is no part of the gun, but what the gun is read with.
    """

    key: str
    name: str
    place: str = ""
    in_front: tuple[str, ...] = ()
    carries: tuple[str, ...] = ()
    off: str = ""
    back: str = ""
    short_off: str = ""
    short_back: str = ""
    care: tuple[Caution, ...] = ()
    care_back: tuple[Caution, ...] = ()
    tools: tuple[str, ...] = ()
    minutes: float = 0.0
    needs: tuple[str, ...] = ()
    needs_back: tuple[str, ...] = ()
    is_plural: bool = False
    is_labelled: bool = False
    is_last: bool = False
    is_apparatus: bool = False
    may_go_first: bool = False
    is_left_out: bool = False

    @property
    def was(self) -> str:
        """The verb that its name asks for: was, or were."""
        return "were" if self.is_plural else "was"
