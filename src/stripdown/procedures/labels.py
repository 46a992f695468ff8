"""Where does each labelled part lie: which shim on which gear's which face?"""

from __future__ import annotations

import re
from collections.abc import Mapping

from stripdown.procedures.events import CLOSE_UP, PUT_BACK, TAKE_OFF, Event, wrong_event
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.touches import Touch

_PLACING = {Touch.REFIT.value, Touch.REPLACE.value, Touch.PLACE_LOST.value}


class Labels:
    """What lies where, as the log goes on."""

    def __init__(self, procedure: Procedure) -> None:
        self._procedure = procedure
        self._lying: dict[str, tuple[frozenset[str], int]] = {}
        self._came_out: dict[str, frozenset[str]] = {}
        self._moved: set[int] = set()

    @property
    def lying(self) -> Mapping[str, frozenset[str]]:
        """Labels by the part that holds them."""
        return {part: labels for part, (labels, _) in self._lying.items() if labels}

    def place(self, event: Event) -> None:
        """Take note of what an event puts where, or takes out.

        Parameters
        ----------
        event
            The next event.

        Raises
        ------
        InputError
            If a label would lie in two places.
        """
        part = event.part
        if part is None or not self._procedure.parts[part].is_labelled:
            return
        if event.action == TAKE_OFF:
            self._came_out[part] = self._lying.pop(part, (self._came_out.get(part, frozenset()), 0))[0]
        is_placing = event.action == PUT_BACK or (event.action is None and event.kind in _PLACING)
        if not is_placing or not isinstance(event.value, str):
            if event.action == PUT_BACK and self._came_out.get(part):
                self._put(event, part, self._came_out[part])
            return
        self._put(event, part, frozenset(label for label in re.split(r"[,;\s]+", event.value) if label))

    def kind(self, event: Event, kind: Touch) -> Touch:
        """How an event touched its part, once the labels are compared with those that came out.

        Parameters
        ----------
        event
            The event.
        kind
            What it says of itself.

        Returns
        -------
        Touch
            ``PLACE_LOST`` if other labels went in than came out.
        """
        return Touch.PLACE_LOST if kind is Touch.REFIT and event.number in self._moved and event.action != CLOSE_UP else kind

    def _put(self, event: Event, part: str, labels: frozenset[str]) -> None:
        for other, (lying, number) in self._lying.items():
            twice = sorted(labels & lying)
            if other != part and twice:
                here, there = self._procedure.parts[part].name, self._procedure.parts[other].name
                raise wrong_event(
                    event.number,
                    "value",
                    twice[0],
                    f"cannot lie in two places: it lies with the {there} since event {number}, and not with the {here}.",
                    "Enter first where it came out, or give the label of the other one.",
                )
        before = self._came_out.get(part, self._lying.get(part, (labels, 0))[0])
        if before and labels != before:
            self._moved.add(event.number)
        self._lying[part] = (labels, event.number)
        self._came_out.pop(part, None)
