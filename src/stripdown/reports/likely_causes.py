"""The part "why": causes that the strings leave, with amounts and what to look at; and what cannot be told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from stripdown.catalogue.faults import load_faults
from stripdown.reports.content import CausePart, Cell, Column, FigureFooting, Table
from stripdown.studies.loss_causes import Cause, LossExplanation, Plausibility, TellingTest
from stripdown.units import Scale
from stripdown.words.numbers import amount_of_fault, grams, joules_gained, per_cent, range_of_fault

_SHOWN = 3  # causes in the table; a longer one is no help to who holds the gun


def cause_part(explanation: LossExplanation, *, scale: Scale) -> CausePart:
    """Say what may have cost the velocity."""
    standing = [cause for cause in explanation.causes if cause.stands]
    return CausePart(
        loss=_loss(explanation),
        table=_table(standing[:_SHOWN], scale) if standing else None,
        others=tuple(_others(explanation, standing[_SHOWN:])),
        notes=(*explanation.notes, *_tests(explanation.tests, explanation.causes[0].fault.key)),
    )


def cause_in_short(explanation: LossExplanation, *, scale: Scale) -> str:
    """The likeliest cause in one line."""
    standing = [cause for cause in explanation.causes if cause.stands]
    if not standing:
        return "No single fault of the catalogue explains the loss."
    ordinary = [cause for cause in standing if cause.plausibility is Plausibility.ORDINARY]
    if not ordinary:
        return "No fault explains the loss alone by an ordinary amount: several small ones together, or one large one."
    words = "; ".join(_named_amount(cause, scale) for cause in ordinary[:2])
    rest = len(standing) - len(ordinary[:2])
    return f"{words}." if not rest else f"{words}. {rest} other {'cause' if rest == 1 else 'causes'} cannot be ruled out."


def _named_amount(cause: Cause, scale: Scale) -> str:
    return f"{cause.fault.name} ({cause.fault.amount.label}: {amount_of_fault(cause.amount, cause.fault.amount, scale)})"


def _loss(explanation: LossExplanation) -> str:
    parts = [f"{per_cent(share)} with {grams(mass)}" for mass, share in explanation.loss]
    when = "before the work" if explanation.was_gained else "after the work"
    return f"The gun was slower {when}, by {', '.join(parts)}. Single faults that would do it:"


def _table(causes: Sequence[Cause], scale: Scale) -> Table:
    columns = (
        Column(head="cause, taken alone, and what to look at"),
        Column(head="how much of it would do it", footing=FigureFooting.ESTIMATE),
        Column(head="believable?"),
        Column(head="repair returns", footing=FigureFooting.ESTIMATE),
    )
    return Table(columns=columns, rows=tuple(_row(cause, scale) for cause in causes))


def _row(cause: Cause, scale: Scale) -> tuple[Cell, ...]:
    quantity = cause.fault.amount
    reach = "" if cause.low is None or cause.high is None else range_of_fault(cause.low, cause.high, quantity, scale)
    ordinary = f"ordinary: up to {amount_of_fault(cause.fault.ordinary, quantity, scale)}"
    return (
        Cell(text=cause.fault.name, small=cause.fault.check),
        Cell(
            text=amount_of_fault(cause.amount, quantity, scale), small=f"{reach}: {quantity.label}" if reach else quantity.label
        ),
        Cell(text=cause.plausibility.value, small=ordinary, is_strong=True),
        Cell(text=joules_gained(cause.returned)),
    )


def _others(explanation: LossExplanation, farther: Sequence[Cause]) -> Iterator[str]:
    if farther:
        yield f"Cannot be ruled out either: {_names(farther)}."
    for plausibility in (Plausibility.NOT_ALONE, Plausibility.CONTRADICTED):
        found = [cause for cause in explanation.causes if cause.plausibility is plausibility]
        if found:
            word = plausibility.value
            yield f"{word[:1].upper()}{word[1:]}: {_names(found)}."


def _names(causes: Sequence[Cause]) -> str:
    return "; ".join(_lower(cause.fault.name) for cause in causes)


def _tests(tests: Sequence[TellingTest], leader: str) -> Iterator[str]:
    """The two tests that tell most apart, each with what it would do for the cause that stands first."""
    names = {key: fault.short for key, fault in load_faults().items()}
    for test in tests[:2]:
        if not test.separated:
            continue
        how = "The sound of the shot, before and after," if not test.ball_masses else _balls(test.ball_masses)
        whole = len(test.separated) + len(test.undecided)
        count = f"{len(test.separated)} of {whole} pairs of causes" if test.undecided else "all of these causes"
        apart = _partners(names, test.separated, leader)
        together = _partners(names, test.undecided, leader)
        from_leader = f"; it would part the {names[leader]} from {apart}, but not from {together}" if apart and together else ""
        yield f"{how} would tell {count} apart{from_leader}."


def _partners(names: Mapping[str, str], pairs: Sequence[tuple[str, str]], leader: str) -> str:
    """Short names of what stands beside the leader in these pairs."""
    return ", ".join(names[one if two == leader else two] for one, two in pairs if leader in (one, two))


def _balls(masses: Sequence[float]) -> str:
    return f"Strings with {' and '.join(grams(mass) for mass in masses)}, before and after,"


def _lower(name: str) -> str:
    return f"{name[:1].lower()}{name[1:]}"
