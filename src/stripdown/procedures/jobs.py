"""Jobs that have a name: what one asks for in a word."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedJob:
    """A request with a name.

    Parameters
    ----------
    key
        Stable name (``"full_service"``).
    name
        How it reads.
    purpose
        When one asks for it.
    words
        Other words for it.
    work
        Actions that it asks for.
    wanted
        Checks that are to be fresh at its end.
    as_found
        Checks that are read before anything disturbs them.
    is_graded
        Whether each part is graded while it is in the hand.
    """

    key: str
    name: str
    purpose: str = ""
    words: tuple[str, ...] = ()
    work: tuple[str, ...] = ()
    wanted: tuple[str, ...] = ()
    as_found: tuple[str, ...] = ()
    is_graded: bool = False
