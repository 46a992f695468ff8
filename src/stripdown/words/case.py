"""A whole case: the answers in short, what cannot be said, what was found and done, then each part with its figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING

from stripdown.core.shot_statistics import FireMode
from stripdown.references import load_references
from stripdown.studies.service_case import UnsaidKind
from stripdown.units import Scale
from stripdown.words.answer import Answer, FigureFooting, Named, Sentence
from stripdown.words.causes import cause_in_short, cause_part, no_change
from stripdown.words.gun import INVENTED, PREDICTION, assumed_sentence
from stripdown.words.limit import limit_part, proved_in_short, unfired_in_short
from stripdown.words.sources import source_in_short
from stripdown.words.strings import change_part, changes_in_short, left_out_notes, not_counted

if TYPE_CHECKING:
    from stripdown.studies.service_case import CaseStudy, StringOfCase, Unsaid

_SHORT_CHANGES = 2  # lines; the others stand in their table
_UNSAID = {
    UnsaidKind.NO_STRING_BEFORE: "No string was fired before the work, so what the work changed cannot be said.",
    UnsaidKind.NO_STRING_AFTER: (
        "No string was fired after the work, so whether the gun may be used cannot be said: it stays on the rack."
    ),
    UnsaidKind.NO_OCCASION: "{string} does not say whether it was fired before or after the work, and is not used.",
    UnsaidKind.NOTHING_COMPARES: "No string before compares with one after, so how much was gained cannot be said.",
    UnsaidKind.NO_PARTNER: "{string} has no partner from the other side of the work, and is not compared.",
    UnsaidKind.NO_BALL: "{string} does not say its ball, so nothing can be said of its energy: write it beside the string.",
    UnsaidKind.NO_LIMIT: "No limit was named, so whether the gun may be used where it is played cannot be said.",
    UnsaidKind.NO_CAUSE: "What cost the velocity cannot be said. {reason}",
    UnsaidKind.NO_VERDICT: "Whether the gun keeps to the limit cannot be said. {reason}",
}
_EYES = "Wear eye protection rated for impact, you and whoever stands near, whenever the gun is fired or its spring is drawn."
_OVER = (
    "A clean and reseal alone, without a stronger spring, may put a gun over the law and not only over the site's limit: "
    "no gun leaves the bench without a string on the chronograph."
)
_POWER = (
    "First power after closing: turn one cycle by hand, then the pack with a fuse in the line, single cycles without a "
    "magazine; feel motor and grip, and stop at any smell or noise."
)
_OPENING = (
    "Before the box is opened again: magazine out, chamber cleared into a trap, battery out, spring relaxed. "
    "A drawn spring throws parts."
)
_PACKS = "Lithium packs burn: a puffed one is waste, none is drawn below 3.0 V a cell, and they are kept in a fire-proof place."
_SETTLE = "New rings, rubber and springs settle: fire another string after the first few hundred shots."
_MARSHAL = "The site's own chronograph and marshal, and local law, decide whether the gun may be used."


def case_answer(study: CaseStudy, *, scale: Scale) -> Answer:
    """Say all that a case holds."""
    return Answer(
        key="case",
        title=study.title,
        lead=(
            *((INVENTED,) if study.invented or study.gun.invented else ()),
            *not_counted((*study.before, *study.after), study.left_out),
        ),
        named=tuple(_gun(study)),
        parts=tuple(_parts(study, scale)),
    )


def unsaid_sentences(study: CaseStudy) -> tuple[Sentence, ...]:
    """What cannot be said of a case, and why."""
    return tuple(map(_unsaid, study.unsaid))


def case_cautions(study: CaseStudy) -> tuple[Sentence, ...]:
    """What must be heeded with a gun that comes from the bench."""
    was_gained = study.explanation is not None and study.explanation.was_gained
    said = {"eyes": _EYES, "over_the_law": _OVER, "first_power": _POWER, "opening": _OPENING, "packs": _PACKS}
    said |= {"settling": _SETTLE} if was_gained else {}
    return tuple(Sentence(full=full, key=key) for key, full in {**said, "marshal": _MARSHAL}.items())


def _gun(study: CaseStudy) -> Iterator[Named]:
    yield Named(name="gun", text=study.gun.name, key="gun")
    if study.gun.note:
        yield Named(name="its file", text=study.gun.note, key="gun_note")


def _parts(study: CaseStudy, scale: Scale) -> Iterator[Answer]:
    yield Answer(key="short", title="", named=tuple(_short(study, scale)))
    for key, title, sentences in (
        ("unsaid", "What cannot be said", unsaid_sentences(study)),
        ("found", "Found", _typed(study.found)),
        ("done", "Done", _typed(study.done)),
    ):
        if sentences:
            yield Answer(key=key, title=title, notes=sentences)
    strings = (*study.before, *study.after)
    if strings:
        yield change_part(study.comparisons, strings, scale=scale)
    if study.limit is not None:
        yield limit_part(study.verdict, study.limit, scale=scale)
    if study.explanation is not None and study.explanation.is_certain:
        yield cause_part(study.explanation, scale=scale)
    yield Answer(key="cautions", title="", cautions=case_cautions(study))
    yield _rests_on(study)


def _short(study: CaseStudy, scale: Scale) -> Iterator[Named]:
    is_nothing = study.explanation is not None and not study.explanation.is_certain
    if study.explanation is not None and is_nothing:
        yield Named(name="change", text=no_change(study.explanation), key="no_change", footing=FigureFooting.COMPUTED)
    if study.verdict is not None:
        proved, unfired = proved_in_short(study.verdict), unfired_in_short(study.verdict)
        if proved:
            yield Named(name="limit", text=proved, key="limit", footing=FigureFooting.MEASURED)
        if unfired:
            yield Named(name="not fired", text=unfired, key="not_fired", footing=FigureFooting.ESTIMATE)
    for line in islice(changes_in_short(study.comparisons, scale=scale), _SHORT_CHANGES):
        yield Named(name="change", text=line, key="change", footing=FigureFooting.COMPUTED)
    if study.explanation is not None and not is_nothing:
        text = cause_in_short(study.explanation, scale=scale)
        yield Named(name="cause", text=text, key="cause", footing=FigureFooting.ESTIMATE)


def _typed(paragraphs: Sequence[str]) -> tuple[Sentence, ...]:
    return tuple(Sentence(full=words) for words in paragraphs)


def _unsaid(one: Unsaid) -> Sentence:
    string = "" if one.string is None else _named(one.string)
    # Replaced by name, one by one: what a person typed may hold braces.
    full = _UNSAID[one.kind].replace("{string}", string).replace("{reason}", one.reason)
    return Sentence(full=full, key=one.kind.name.lower(), about=() if one.string is None else (one.string.key,))


def _named(string: StringOfCase) -> str:
    mode = string.reading.conditions.fire_mode
    words = string.reading.words
    more = f", {mode.value}" if mode is FireMode.AUTOMATIC and mode.value not in words else ""
    where = f" ({string.file})" if string.file else ""
    return f"The string {words!r}{more}{where}"


def _rests_on(study: CaseStudy) -> Answer:
    register = load_references()
    assumed = assumed_sentence(study.assumed)
    rests_on = [
        Named(name="How the case was understood", text=" ".join(study.notes), key="understood") if study.notes else None,
        Named(name="Sources", text=" · ".join(source_in_short(register[key]) for key in study.sources), key="sources")
        if study.sources
        else None,
        Named(name="Program and input", text=f"stripdown {study.program_version}, {study.input_digest}", key="digest"),
    ]
    is_predicted = study.explanation is not None or study.verdict is not None
    return Answer(
        key="rests_on",
        title="What this rests on",
        notes=(
            *left_out_notes(study.left_out),
            *(() if assumed is None else (assumed,)),
            *((PREDICTION,) if is_predicted else ()),
        ),
        rests_on=tuple(one for one in rests_on if one is not None),
    )
