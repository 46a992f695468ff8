"""What `stripdown rating` prints for people."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from stripdown.catalogue.compatibility import Compatibility
from stripdown.cli.printed_sheet import print_heading, print_sentences, print_title
from stripdown.cli.terminal import print_paragraph

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.studies.rating_survey import RatingSurvey
    from stripdown.studies.ratings import Rating

_HEADINGS = {
    Compatibility.AVOID: "Avoid",
    Compatibility.UNKNOWN: "Unknown: nobody has rated it, so keep it off",
    Compatibility.WITH_CARE: "With care",
    Compatibility.SUITABLE: "Suitable",
}
_HOW_TO_ASK = "Name both for the reason, its standing and source: stripdown rating MATERIAL FLUID."


def print_rating(console: Console, rating: Rating) -> None:
    """Print one answer: verdict, reason, what was assumed, on whose word, cautions."""
    print_title(console, f"{rating.fluid} on {rating.subject}: {rating.verdict.words.upper()}")
    print_paragraph(console, rating.reason)
    for sentence in rating.assumed:
        print_paragraph(console, sentence)
    console.print()
    print_paragraph(console, f"Standing: {rating.footing.words}")
    if rating.source != rating.footing.words:
        print_paragraph(console, f"Source: {rating.source}")
    others = [one for one in rating.grounds if one.verdict is not rating.verdict]
    if others:
        print_heading(console, "Also said, and less strict")
        print_sentences(
            console, (f"{one.fluid} on {one.subject}: {one.verdict.words}. {one.reason} ({one.source})" for one in others)
        )
    print_heading(console, "Cautions")
    print_sentences(console, rating.cautions)


def print_survey(console: Console, survey: RatingSurvey) -> None:
    """Print one thing against everything, by verdict, the worst first."""
    print_title(console, survey.name)
    if survey.remark:
        print_paragraph(console, survey.remark)
    _print_groups(console, survey.fluids, "", lambda one: one.fluid)
    _print_groups(console, survey.materials, " (materials)", lambda one: one.subject)
    _print_groups(console, survey.parts, " (parts)", lambda one: one.subject)
    every = (*survey.fluids, *survey.materials, *survey.parts)
    print_heading(console, "How it was asked")
    assumed = [sentence for one in every for sentence in one.assumed if "stress" in sentence]
    print_sentences(console, [*assumed[:1], _HOW_TO_ASK])
    print_heading(console, "Cautions")
    print_sentences(console, (caution for one in every for caution in one.cautions))


def _print_groups(console: Console, ratings: Sequence[Rating], kind: str, name: Callable[[Rating], str]) -> None:
    for verdict, heading in _HEADINGS.items():
        names = [name(one) for one in ratings if one.verdict is verdict]
        if names:
            print_heading(console, f"{heading}{kind}")
            print_paragraph(console, ", ".join(names))
