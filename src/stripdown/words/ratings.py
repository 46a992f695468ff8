"""What is said of a fluid on a material or part: may it, why, and on whose word."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING, Final

from stripdown.catalogue.compatibility import Compatibility
from stripdown.studies.ratings import Rating
from stripdown.words.answer import Answer, Named, Sentence

if TYPE_CHECKING:
    from stripdown.studies.calculators import Answered
    from stripdown.studies.rating_survey import RatingSurvey
    from stripdown.units import Scale

_HEADINGS = {
    Compatibility.AVOID: "Avoid",
    Compatibility.UNKNOWN: "Unknown: nobody has rated it, so keep it off",
    Compatibility.WITH_CARE: "With care",
    Compatibility.SUITABLE: "Suitable",
}


def rating_answer(answered: Answered, _: Scale) -> Answer:
    """One pair, or one thing against everything."""
    return _pair(answered.found) if isinstance(answered.found, Rating) else _survey(answered.found)


def _pair(rating: Rating) -> Answer:
    """Verdict, reason, what was assumed, on whose word, cautions."""
    others = [one for one in rating.grounds if one.verdict is not rating.verdict]
    also = [f"{one.fluid} on {one.subject}: {one.verdict.words}. {one.reason} ({one.source})" for one in others]
    source = () if rating.source == rating.footing.words else (Named(key="source", name="Source", text=rating.source),)
    return Answer(
        key="rating",
        title="",
        lead=tuple(
            Sentence(full=text)
            for text in (f"{rating.fluid} on {rating.subject}: {rating.verdict.words.upper()}.", rating.reason, *rating.assumed)
        ),
        parts=(_listed("less_strict", "Also said, and less strict", also),) if also else (),
        cautions=tuple(Sentence(full=text) for text in rating.cautions),
        rests_on=(Named(key="footing", name="Footing", text=rating.footing.words), *source),
    )


def _survey(survey: RatingSurvey) -> Answer:
    """By verdict, the worst first."""
    every = (*survey.fluids, *survey.materials, *survey.parts)
    assumed = [sentence for one in every for sentence in one.assumed if "stress" in sentence][:1]
    how = (
        *(Sentence(full=text) for text in assumed),
        Sentence(full="Name both for the reason, its footing and source.", act="name_both"),
    )
    return Answer(
        key="rating",
        title=survey.name,
        lead=(Sentence(full=survey.remark),) if survey.remark else (),
        parts=(
            *_groups(survey.fluids, "", lambda one: one.fluid),
            *_groups(survey.materials, " (materials)", lambda one: one.subject),
            *_groups(survey.parts, " (parts)", lambda one: one.subject),
            Answer(key="how_asked", title="How it was asked", notes=how),
        ),
        cautions=tuple(Sentence(full=text) for text in dict.fromkeys(caution for one in every for caution in one.cautions)),
    )


def _groups(ratings: Sequence[Rating], kind: str, name: Callable[[Rating], str]) -> Iterator[Answer]:
    for verdict, heading in _HEADINGS.items():
        names = [name(one) for one in ratings if one.verdict is verdict]
        if names:
            yield Answer(key=verdict.name.lower(), title=f"{heading}{kind}", lead=(Sentence(full=", ".join(names)),))


def _listed(key: str, title: str, sentences: Sequence[str]) -> Answer:
    return Answer(key=key, title=title, notes=tuple(Sentence(full=text) for text in sentences))


OF_RATINGS: Final = {"rating": rating_answer}
