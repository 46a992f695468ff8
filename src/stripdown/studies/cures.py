"""How long does what was glued need, by the adhesive that the log names?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from stripdown.catalogue.fluids import fluid_names, load_fluids
from stripdown.procedures.events import Event


def cure_hours(events: Iterable[Event]) -> Mapping[int, float]:
    """Hours by number of the event, where it names an adhesive."""
    found = {}
    for event in events:
        said = [one.fluid for one in event.fluids]
        said += [event.value] if isinstance(event.value, str) and event.check is None else []
        hours = [
            one for words in said for key in fluid_names().named_in(words) if (one := load_fluids()[key].cure_hours) is not None
        ]
        if hours:
            found[event.number] = max(hours)
    return found
