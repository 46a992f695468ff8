"""What `stripdown case` prints for people: the answers in short, then each part with its figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from stripdown.cli.harmless_text import harmless
from stripdown.cli.printed_causes import print_causes
from stripdown.cli.printed_limit import print_verdict
from stripdown.cli.printed_notes import PREDICTION, assumed_words
from stripdown.cli.printed_sheet import print_heading, print_named, print_sentences
from stripdown.cli.printed_strings import left_out_words, notes_of, pair_notes, print_pairs, print_strings
from stripdown.reports.against_limit import limit_in_short, limit_part
from stripdown.reports.before_after import change_in_short
from stripdown.reports.likely_causes import cause_in_short
from stripdown.units import Scale

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.studies.service_case import CaseStudy


def print_case(console: Console, study: CaseStudy, *, speed_unit: str) -> None:
    """Print a whole case."""
    scale: Scale = "imperial" if speed_unit == "ft/s" else "metric"
    title = f"{study.title} (invented)" if study.invented or study.gun.invented else study.title
    console.print(harmless(title), style="bold", soft_wrap=True)
    print_sentences(console, _short(study, speed_unit=speed_unit, scale=scale))
    _print_words(console, "What cannot be said", study.unsaid)
    _print_words(console, "Found", study.found)
    _print_words(console, "Done", study.done)
    _print_strings(console, study, speed_unit=speed_unit)
    _print_limit(console, study, speed_unit=speed_unit)
    if study.explanation is not None:
        print_heading(console, "What explains it")
        print_causes(console, study.explanation, scale=scale)
    _print_words(console, "Cautions", study.cautions)
    print_heading(console, "What this rests on")
    print_sentences(console, _footing(study))


def _short(study: CaseStudy, *, speed_unit: str, scale: Scale) -> Iterator[str]:
    yield from change_in_short(study, unit=speed_unit)
    if study.verdict is not None:
        yield limit_in_short(study.verdict)
    if study.explanation is not None:
        yield f"Cause: {cause_in_short(study.explanation, scale=scale)}"


def _print_words(console: Console, heading: str, sentences: Sequence[str]) -> None:
    if sentences:
        print_heading(console, heading)
        print_sentences(console, sentences)


def _print_strings(console: Console, study: CaseStudy, *, speed_unit: str) -> None:
    strings = (*study.before, *study.after)
    if study.comparisons:
        print_heading(console, "Before and after")
        print_pairs(console, study.comparisons, speed_unit=speed_unit)
        lines = [*pair_notes(study.comparisons), *notes_of((*study.before, *study.after)), *left_out_words(study.left_out)]
        if lines:
            console.print()
            print_sentences(console, lines)
    elif strings:
        print_heading(console, "Strings")
        print_strings(console, strings, speed_unit=speed_unit)
        print_sentences(console, left_out_words(study.left_out))


def _print_limit(console: Console, study: CaseStudy, *, speed_unit: str) -> None:
    if study.limit is None:
        return
    print_heading(console, "Against the limit")
    if study.verdict is None:
        print_named(console, limit_part(None, study.limit, unit=speed_unit, picture=None).limit)
    else:
        print_verdict(console, study.verdict, speed_unit=speed_unit)


def _footing(study: CaseStudy) -> Iterator[str]:
    yield from study.notes
    assumed = assumed_words(study.assumed)
    if assumed:
        yield assumed
    if study.explanation is not None or study.verdict is not None:
        yield PREDICTION
    if study.sources:
        yield f"Sources: {', '.join(study.sources)}; the sheet names author and place."
    yield f"Program: stripdown {study.program_version}; digest of the case's files: {study.input_digest[:16]}."
