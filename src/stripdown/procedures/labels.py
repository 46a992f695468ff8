"""Where does each labelled part lie: which shim on which gear's which face?"""

from __future__ import annotations

import re
from collections.abc import Mapping

from stripdown.procedures.events import Event, is_misplacing, wrong_event
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.touches import Touch

_PLACING = {Touch.REFIT.value, Touch.REPLACE.value, Touch.PLACE_LOST.value}


class Labels:
    """What lies where, as the log goes on."""

    def __init__(self, procedure: Procedure) -> None:
        self.procedure = procedure
        self._lying: dict[str, tuple[frozenset[str], int]] = {}
        self._came_out: dict[str, frozenset[str]] = {}
        self._misplaced: set[tuple[int, str]] = set()

    @property
    def lying(self) -> Mapping[str, frozenset[str]]:
        """Labels by the part that holds them."""
        return {part: labels for part, (labels, _) in self._lying.items() if labels}

    def place(self, event: Event) -> None:
        """Take note of what an event that moves no part puts where."""
        if event.action is None and event.part is not None and event.kind in _PLACING:
            labels = self._labels(event, event.part)
            if labels is not None:
                self._put(event, event.part, labels)

    def move(self, event: Event, part: str, *, is_back: bool) -> Touch:
        """Take note of a part that comes off or goes back, and of what it holds."""
        if self.procedure.parts[part].is_labelled:
            held = self._came_out.get(part, frozenset())
            if not is_back:
                self._came_out[part] = self._lying.pop(part, (held, 0))[0]
            else:
                labels = self._labels(event, part)
                if labels is not None or held:
                    self._put(event, part, held if labels is None else labels)
        return Touch.PLACE_LOST if is_misplacing(event) else self.kind(event, part, Touch.REFIT)

    def kind(self, event: Event, part: str, kind: Touch) -> Touch:
        """How an event touched a part, once the labels are compared with those that came out."""
        return Touch.PLACE_LOST if kind is Touch.REFIT and (event.number, part) in self._misplaced else kind

    def _labels(self, event: Event, part: str) -> frozenset[str] | None:
        """The labels that an event gives for a part; None for none."""
        if part != event.part or not isinstance(event.value, str) or not self.procedure.parts[part].is_labelled:
            return None
        return frozenset(label for label in re.split(r"[,;\s]+", event.value) if label)

    def _put(self, event: Event, part: str, labels: frozenset[str]) -> None:
        for other, (lying, number) in self._lying.items():
            twice = sorted(labels & lying)
            if other != part and twice:
                here, there = self.procedure.parts[part].name, self.procedure.parts[other].name
                raise wrong_event(
                    event.number,
                    "value",
                    twice[0],
                    f"cannot lie in two places: it lies with the {there} since event {number}, and not with the {here}.",
                    "Enter first where it came out, or give the label of the other one.",
                )
        before = self._came_out.get(part, self._lying.get(part, (labels, 0))[0])
        if before and labels != before:
            self._misplaced.add((event.number, part))
        self._lying[part] = (labels, event.number)
        self._came_out.pop(part, None)
