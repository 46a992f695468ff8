"""What the log has begun: where one stands, what cures, what was read before the work."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from stripdown.procedures.curing import Curing, still_curing
from stripdown.procedures.found import Before, befores
from stripdown.procedures.happenings import Happening, steps_of
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.steps import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """What a plan goes on from.

    Parameters
    ----------
    place
        Key of the place of the last step; empty if nothing was begun.
    curing
        Steps that wait for what was done.
    befores
        What was read of each check before the work; None if nothing is to be read but what is asked for.
    """

    place: str = ""
    curing: Mapping[Step, Curing] = field(default_factory=dict)
    befores: Mapping[str, Before] | None = None


NOTHING_BEGUN = Begun()


def begun_by(
    procedure: Procedure, log: Iterable[Happening], *, after: int = 0, hours: Mapping[int, float] | None = None
) -> Begun:
    """What a log has begun in a visit that began after an event; `hours` by event are those of an adhesive that it names."""
    everything = tuple(log)
    return Begun(
        place=_last_place(everything),
        curing=still_curing(procedure, everything, hours=hours),
        befores=befores(procedure, everything, after=after),
    )


def _last_place(log: Iterable[Happening]) -> str:
    """Where the last step was done; what is made, put in or taken out on the way, for safety or to run, moves nobody."""
    place = ""
    for happening in log:
        procedure = happening.procedure
        on_the_way = procedure.guards | procedure.leaving | procedure.left_out
        for step in steps_of(procedure, happening):
            if step.key not in on_the_way:
                place = procedure.place_of(step)
    return place
