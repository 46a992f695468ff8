"""What may have cost the velocity: causes that the strings leave, with amounts and what to look at; and what cannot be told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from stripdown.bench.strings import USUAL_BETWEEN_DAYS
from stripdown.catalogue.faults import load_faults
from stripdown.studies.loss_causes import Plausibility
from stripdown.units import Scale
from stripdown.words.answer import Answer, Caption, Cell, Column, FigureFooting, Sentence, Table
from stripdown.words.gun import PREDICTION, assumed_sentence
from stripdown.words.numbers import amount_of_fault, grams, joules_gained, per_cent, range_of_fault, share_changed_to_a_tenth
from stripdown.words.strings import change_part, session_notes

if TYPE_CHECKING:
    from stripdown.quantities import Q
    from stripdown.studies.loss_causes import Cause, LossExplanation, TellingTest
    from stripdown.studies.session_answers import SessionExplanation

_LOOKED_AT = 3  # causes of which it is said what to look at
_NOTHING = 0.01  # of the ordinary amount, or of a loss
_MORE = 1.1  # of a loss
_COLUMNS = (
    Column(head="cause, taken alone"),
    Column(head="how much would do it", footing=FigureFooting.ESTIMATE, is_figure=True),
    Column(head="believable?"),
    Column(head="repair returns", footing=FigureFooting.ESTIMATE, is_figure=True),
)


def explanation_answer(study: SessionExplanation, *, scale: Scale) -> Answer:
    """Say what lies between the strings of a session before and after."""
    assumed = assumed_sentence(study.assumed)
    rest = Answer(
        key="rests_on",
        title="What this rests on",
        notes=(*session_notes(study.session), *(() if assumed is None else (assumed,)), PREDICTION),
    )
    parts = [change_part(study.pairs, study.strings, scale=scale), cause_part(study.explanation, scale=scale)]
    if not study.explanation.is_certain:
        parts.reverse()  # that there is nothing to explain comes first
    return Answer(key="explanation", title=study.gun.shown_name, parts=(*parts, rest))


def cause_part(explanation: LossExplanation, *, scale: Scale) -> Answer:
    """Single faults that would do it, and which of them to look at first; or that there is nothing to explain."""
    if not explanation.is_certain:
        return Answer(key="causes", title="Did anything change?", lead=(Sentence(full=no_change(explanation), key="no_change"),))
    standing = explanation.standing
    return Answer(
        key="causes",
        title="What explains it",
        lead=(Sentence(full=_loss(explanation), key="loss"),),
        tables=(Table(key="causes", columns=_COLUMNS, rows=tuple(_row(cause, scale) for cause in standing)),) if standing else (),
        notes=(
            *_checks(standing[:_LOOKED_AT]),
            *_as_found(explanation, scale),
            *_others(explanation),
            *(Sentence(full=note, key="explanation") for note in explanation.notes),
            *_tests(explanation.tests, explanation.causes[0].fault.key),
        ),
        pictures=("causes", "where-it-went"),
    )


def cause_in_short(explanation: LossExplanation, *, scale: Scale) -> str:
    """The causes that fit best, of an ordinary amount if there are such, in one line."""
    standing = explanation.leading
    if not standing:
        return "No single fault of the catalogue explains the loss."
    if all(cause.fit is None for cause in standing):
        return f"{len(standing)} single faults would do it, and one ball mass puts none of them before another."
    ordinary = [cause for cause in standing if cause.plausibility is Plausibility.ORDINARY]
    if not ordinary:
        return "No fault explains the loss alone by an ordinary amount: several small ones together, or one large one."
    words = "; ".join(_named_amount(cause, scale) for cause in ordinary[:2])
    rest = len(standing) - len(ordinary[:2])
    return f"{words}." if not rest else f"{words}. {rest} other {'cause' if rest == 1 else 'causes'} cannot be ruled out."


def no_change(explanation: LossExplanation) -> str:
    """That the strings show no change, how large one could hide, and what two days count for."""
    change = explanation.change
    share, low, high = (share_changed_to_a_tenth(value) for value in (change.share, change.low, change.high))
    days = f"what two days differ by in themselves counts with {change.between_days * 100:.2g} % for each day"
    return (
        f"No change is shown: all strings together moved by {share} (95 % interval {low} to {high}; {days}, "
        f"{'an estimate' if change.between_days == USUAL_BETWEEN_DAYS else 'as given'}). "
        "So there is no loss to explain, and no repair to name."
    )


def causes_caption(explanation: LossExplanation, causes: Sequence[Cause], *, scale: Scale) -> Caption:
    """Losses below the title; the causes, which stand in the picture, for who hears it read out."""
    title = "What would explain the loss"
    lost = f"speed lost: {_losses(explanation)}; each cause taken alone, estimated with the model"
    spoken = (f"{cause.fault.name}: {needed_words(cause, scale=scale)}, {cause.plausibility.value}" for cause in causes)
    return Caption(title=title, lines=(lost, "grey: what is ordinary"), description=". ".join([title, lost, *spoken]))


def needed_words(cause: Cause, *, scale: Scale, apart: str = ", ") -> str:
    """How much of a cause explains the loss, or how much of the loss it explains; then what is counted."""
    quantity = cause.fault.amount
    amount = amount_of_fault(cause.amount, quantity, scale)
    if not cause.stands and cause.amount < _NOTHING * cause.fault.ordinary:
        said = "no amount fits" if cause.plausibility is Plausibility.CONTRADICTED else "explains nothing of it"
    elif cause.plausibility is Plausibility.NOT_ALONE:
        said = f"{amount} explains {per_cent(cause.share_explained)} of it"
    elif cause.plausibility is Plausibility.CONTRADICTED:
        said = f"no amount fits; nearest {amount}"
    else:
        reach = _reach(cause, scale)
        said = f"{amount} ({reach})" if reach else amount
    return f"{said}{apart}{quantity.label}"


def _named_amount(cause: Cause, scale: Scale) -> str:
    return f"{cause.fault.name} ({cause.fault.amount.label}: {amount_of_fault(cause.amount, cause.fault.amount, scale)})"


def _loss(explanation: LossExplanation) -> str:
    when = "before the work" if explanation.was_gained else "after the work"
    change = explanation.change
    share, low, high = (share_changed_to_a_tenth(value) for value in (change.share, change.low, change.high))
    joint = f"From before to after all strings together changed by {share} (95 % interval {low} to {high})."
    order = "those that fit best first" if len(explanation.loss) > 1 else "in no order"
    return f"The gun was slower {when}, by {_losses(explanation)}. {joint} Single faults that would do it, {order}:"


def _as_found(explanation: LossExplanation, scale: Scale) -> Iterator[Sentence]:
    """What was measured before the work, held against what the causes that stand would need."""
    for read in explanation.held:

        def shown(value: float, quantity: Q = read.quantity) -> str:
            return amount_of_fault(value, quantity, scale)

        alone = "nothing" if read.share < _NOTHING else per_cent(min(read.share, 1.0))
        more = ", and more than was lost" if read.share > _MORE else ""
        yield Sentence(
            full=f"As found, {read.quantity.label}: {shown(read.found)} instead of {shown(read.sound)}. "
            f"By itself that explains {alone} of the loss{more}.",
            key="as_found",
            about=(read.key,),
        )
        for need in read.needs:
            less = "more than it needs" if need.found_is_more else "too little"
            said = "which agrees" if need.agrees else f"{less}, so it is not this alone"
            yield Sentence(
                full=f"{need.fault.name} would need {shown(need.needed)}; found {shown(read.found)}, {said}.",
                key="as_found",
                about=(read.key, need.fault.key),
            )


def _losses(explanation: LossExplanation) -> str:
    return ", ".join(f"{per_cent(share)} with {grams(mass)}" for mass, share in explanation.loss)


def _row(cause: Cause, scale: Scale) -> tuple[Cell, ...]:
    quantity = cause.fault.amount
    ordinary = f"ordinary: up to {amount_of_fault(cause.fault.ordinary, quantity, scale)}"
    return (
        Cell(text=cause.fault.name, small=quantity.label, key=cause.fault.key),
        Cell(text=amount_of_fault(cause.amount, quantity, scale), small=_reach(cause, scale)),
        Cell(text=cause.plausibility.value, small=ordinary, is_strong=True),
        Cell(text=joules_gained(cause.returned)),
    )


def _reach(cause: Cause, scale: Scale) -> str:
    if cause.low is None or cause.high is None:
        return ""
    return range_of_fault(cause.low, cause.high, cause.fault.amount, scale)


def _checks(causes: Sequence[Cause]) -> Iterator[Sentence]:
    for cause in causes:
        where = " (box open)" if cause.fault.opens_box else ""
        yield Sentence(full=f"{cause.fault.name}{where}: {cause.fault.check}", key="check", about=(cause.fault.key,))


def _others(explanation: LossExplanation) -> Iterator[Sentence]:
    for plausibility in (Plausibility.NOT_ALONE, Plausibility.CONTRADICTED):
        found = [cause for cause in explanation.causes if cause.plausibility is plausibility]
        if found:
            word = plausibility.value
            names = "; ".join(f"{cause.fault.name[:1].lower()}{cause.fault.name[1:]}" for cause in found)
            full = f"{word[:1].upper()}{word[1:]}: {names}."
            yield Sentence(full=full, key=plausibility.name.lower(), about=tuple(cause.fault.key for cause in found))


def _tests(tests: Sequence[TellingTest], leader: str) -> Iterator[Sentence]:
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
        yield Sentence(full=f"{how} would tell {count} apart{from_leader}.", key="telling_test", about=(leader,))


def _partners(names: Mapping[str, str], pairs: Sequence[tuple[str, str]], leader: str) -> str:
    """Short names of what stands beside the leader in these pairs."""
    return ", ".join(names[one if two == leader else two] for one, two in pairs if leader in (one, two))


def _balls(masses: Sequence[float]) -> str:
    return f"Strings with {' and '.join(grams(mass) for mass in masses)}, before and after,"
