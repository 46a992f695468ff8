"""A service log held against what may touch what: which entries put a fluid where it does harm."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from stripdown.catalogue.compatibility import Compatibility
from stripdown.catalogue.fluids import fluid_names, load_fluids
from stripdown.catalogue.kinds import rated_as
from stripdown.catalogue.materials import material_names
from stripdown.catalogue.part_materials import part_names
from stripdown.errors import InputError
from stripdown.studies.ratings import Rating, rating

_LUBRICANT = "lubricant"


class TouchLevel(enum.StrEnum):
    """How much a finding weighs."""

    ERROR = "error"
    """The pair is forbidden."""
    CAUTION = "caution"
    """It is allowed with care, or nobody knows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TouchFinding:
    """One entry of a log that puts a fluid where it should not be, or should be with care.

    Parameters
    ----------
    level
        Error for a forbidden pair, caution for what needs care or is not known.
    event
        Number of the event in the log.
    part
        Part or material as the log names it.
    fluid
        Name of the fluid; as the log names it where it is not known.
    sentence
        What is wrong and why, for people.
    rating
        The whole answer; None where part or fluid is not known.
    """

    level: TouchLevel
    event: int
    part: str
    fluid: str
    sentence: str
    rating: Rating | None


def forbidden_touches(log: Iterable[Mapping[str, Any]]) -> tuple[TouchFinding, ...]:
    """Find the entries of a service log in which a fluid touched what it must not touch.

    Parameters
    ----------
    log
        Events with ``number``, ``part`` and ``kind`` (clean, lubricate, bond …). The fluid stands in ``fluid``, or is named in
        the text of ``value``, where a cleaning counts cleaners only. ``made_of`` may tell the part's material, ``stressed``
        whether it was clamped. Other entries are ignored; so are inspections, and events that a later one ``supersedes``.

    Returns
    -------
    tuple of TouchFinding
        In the order of the log; empty if all is well.

    Raises
    ------
    InputError
        If an event that names a fluid has no number.

    Notes
    -----
    A part or fluid that is not known is a caution and no failure: the rest of the log is still read.
    """
    events = list(log)
    superseded = {event["supersedes"] for event in events if event.get("supersedes") is not None}
    return tuple(found for event in events if event.get("number") not in superseded for found in _findings(event))


def _findings(event: Mapping[str, Any]) -> Iterator[TouchFinding]:
    part = _subject(event)
    for typed in _fluids(event):
        number = event.get("number")
        if not isinstance(number, int):
            raise InputError(
                f"An event that names {typed} has no number.", field="number", value=number, hint="Number the events."
            )
        answer: Rating | None
        try:
            answer = rating(part, typed, stressed=event.get("stressed"), made_of=event.get("made_of"))
        except InputError as reason:
            answer, level, said = None, TouchLevel.CAUTION, f"cannot be judged. {reason}"
        else:
            if answer.verdict is Compatibility.SUITABLE:
                continue
            level = TouchLevel.ERROR if answer.verdict is Compatibility.AVOID else TouchLevel.CAUTION
            said = f"{answer.fluid} on {answer.subject}: {answer.verdict.words}. {' '.join([answer.reason, *answer.assumed])}"
        yield TouchFinding(
            level=level,
            event=number,
            part=str(event.get("part") or part),
            fluid=typed if answer is None else answer.fluid,
            sentence=f"Event {number}: {said}",
            rating=answer,
        )


def _subject(event: Mapping[str, Any]) -> str:
    """What was touched: as it is written, or the part or material that its name holds ("bevel_bearing_left" is a bearing)."""
    typed = str(event.get("part") or event.get("material") or "")
    if part_names().key_of(typed) or material_names().key_of(typed):
        return typed
    named = (*part_names().named_in(typed), *material_names().named_in(typed))
    return named[0] if named else typed


def _fluids(event: Mapping[str, Any]) -> tuple[str, ...]:
    """Fluids that an event names: those of ``fluid`` as written, else those in the words of ``value``."""
    told, kind = event.get("fluid"), event.get("kind")
    if isinstance(told, str) and told.strip():
        known = fluid_names().key_of(told)
        return (known,) if known is not None else fluid_names().named_in(told) or (told,)
    words = event.get("value")
    if not isinstance(words, str) or kind in {None, "inspect"}:
        return ()
    named = fluid_names().named_in(words)
    if kind == "clean":  # "wiped the old grease off": what was wiped off is no finding
        return tuple(key for key in named if _LUBRICANT not in rated_as(load_fluids(), key))
    return named
