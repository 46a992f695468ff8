"""Marks beside limits and figures that say how well they are known, and what the marks mean."""

from __future__ import annotations

from stripdown.procedures.plan import Plan, PlannedStep
from stripdown.procedures.steps import StepKind
from stripdown.references import Reference, load_references
from stripdown.references.provenance import Footing, Provenance
from stripdown.words.answer import Named

_LETTERS = {Footing.COMMON_PRACTICE: "†", Footing.ESTIMATE: "‡"}


class SourceMarks:
    """The marks of one plan: a dagger for what has no source, a number for each source, in the order of the steps."""

    def __init__(self, plan: Plan) -> None:
        self._letters: set[Footing] = set()
        self._places: dict[tuple[str, Footing], dict[str, None]] = {}
        self._provenance = {step.number: _provenance(plan, step) for step in plan.steps}
        for one in self._provenance.values():
            if one is None:
                continue
            if one.source is None:
                self._letters.add(one.footing)
            else:
                self._places.setdefault((one.source, one.footing), {})[one.where] = None

    def of(self, step: PlannedStep) -> str:
        """Mark of a step's figures."""
        one = self._provenance[step.number]
        if one is None:
            return ""
        if one.source is None:
            return _LETTERS.get(one.footing, "")
        return str(list(self._places).index((one.source, one.footing)) + 1)

    def explained(self) -> tuple[Named, ...]:
        """What the marks mean."""
        register = load_references()
        letters = tuple(
            Named(name=letter, text=footing.words) for footing, letter in _LETTERS.items() if footing in self._letters
        )
        numbers = tuple(
            Named(name=str(number), text=f"{footing.words}; {source_in_short(register[key])}{_where(places)}")
            for number, ((key, footing), places) in enumerate(self._places.items(), start=1)
        )
        return (*letters, *numbers)


def _provenance(plan: Plan, step: PlannedStep) -> Provenance | None:
    if step.kind is StepKind.DO:
        return plan.procedure.actions[step.key].provenance
    if step.kind in {StepKind.MAKE, StepKind.AS_FOUND}:
        return plan.procedure.checks[step.key].provenance
    return None


def _where(places: dict[str, None]) -> str:
    named = "; ".join(place for place in places if place)
    return f", {named}" if named else ""


def on_whose_word(provenance: Provenance) -> str:
    """Footing, source and place in one line: title and body, without whoever wrote it, for no maker is named at the bench."""
    place = "" if provenance.where in {"", provenance.footing.words} else provenance.where
    if provenance.source is None:
        return f"{provenance.footing.words}{': ' if place else ''}{place}"
    reference = load_references()[provenance.source]
    return f"{provenance.footing.words}: {reference.title} ({reference.published_in}){'; ' if place else ''}{place}"


def source_in_short(source: Reference) -> str:
    """Enough to find a source; the register has its title."""
    year = "" if source.year is None else f" ({source.year})"
    return f"{source.author}{year}: {source.published_in}"
