"""Shots that a technician takes out of a string, each with the reason."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from stripdown.errors import OutOfRange


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAside:
    """One shot that is not counted.

    Parameters
    ----------
    index
        Its place in the string, counted from 0.
    value
        Its reading, in m/s.
    reason
        Why, in the technician's words.
    """

    index: int
    value: float
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A string after shots were set aside.

    Parameters
    ----------
    values
        Readings that count, in order.
    places
        Place of each in the whole string, counted from 0.
    set_aside
        The others.
    """

    values: tuple[float, ...]
    places: tuple[int, ...]
    set_aside: tuple[SetAside, ...]


def keep(values: tuple[float, ...], reasons: Mapping[int, str] | None) -> Kept:
    """Part a string into what counts and what does not.

    Parameters
    ----------
    values
        All readings, any numbers in the same unit.
    reasons
        Reason by place, counted from 0.

    Returns
    -------
    Kept

    Raises
    ------
    OutOfRange
        If there is no such shot, no reason is given, or nothing is left.
    """
    chosen = dict(reasons or {})
    for place, reason in chosen.items():
        if not 0 <= place < len(values):
            raise OutOfRange(
                f"There is no shot at place {place} to set aside.",
                field="set_aside",
                value=place,
                limits=(0, len(values) - 1),
                hint="Places count from 0 for the first shot.",
            )
        if not reason.strip():
            raise OutOfRange(
                f"The shot at place {place} is set aside without a reason.",
                field="set_aside",
                value=place,
                hint="Say why, for example: two balls at once.",
            )
    if len(chosen) == len(values):
        raise OutOfRange("Every shot was set aside.", field="set_aside", value=len(chosen), hint="Fire another string.")
    places = tuple(place for place in range(len(values)) if place not in chosen)
    return Kept(
        values=tuple(values[place] for place in places),
        places=places,
        set_aside=tuple(SetAside(index=place, value=values[place], reason=chosen[place]) for place in sorted(chosen)),
    )
