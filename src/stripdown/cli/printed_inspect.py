"""What `stripdown inspect` prints for people."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from stripdown.cli.hanging import print_hanging
from stripdown.cli.harmless_text import harmless
from stripdown.cli.printed_requests import asked_words
from stripdown.cli.printed_sheet import print_heading, print_sentences, print_title
from stripdown.cli.terminal import print_paragraph
from stripdown.procedures.looks import Grade, Look, Vocabulary
from stripdown.procedures.request import Request
from stripdown.references import load_references
from stripdown.units import unit_named

if TYPE_CHECKING:
    from rich.console import Console

    from stripdown.procedures.damage import DamagePattern
    from stripdown.procedures.inspection import InspectionSheet
    from stripdown.procedures.new_part_grids import NewPartGrid
    from stripdown.procedures.parts import Part
    from stripdown.references.provenance import Provenance

_OWN = "Limits of your own: --limits FILE.toml; docs/models/inspection.md shows its form."


def print_parts(console: Console, sheet: InspectionSheet) -> None:
    """Print which parts have something to look at, by group."""
    print_title(console, "Parts with something to look at")
    print_paragraph(console, f"Gun: {sheet.procedure.variation}.")
    console.print()
    for group in sheet.groups:
        names = (f"{sheet.procedure.parts[key].name} ({len(sheet.looks[key])})" for key in group.parts)
        print_hanging(console, f"{group.name}: ", ", ".join(names))
    print_heading(console, "How to ask")
    print_paragraph(
        console,
        'A part or one of these words: stripdown inspect "piston head", stripdown inspect seals. In brackets: how many looks.',
    )
    print_paragraph(console, f"Limits: {_whose_limits(sheet)}. {_OWN}")


def print_inspection(console: Console, sheet: InspectionSheet, parts: Sequence[Part], patterns: Iterable[DamagePattern]) -> None:
    """Print what to look at on some parts, grade by grade, and what damage on them comes from."""
    print_title(console, ", ".join(one.name for one in parts))
    print_paragraph(console, f"Gun: {sheet.procedure.variation}.")
    print_paragraph(console, f"Limits: {_whose_limits(sheet)}. {_OWN}")
    print_paragraph(console, "; ".join(f"{grade.value.upper()}: {grade.meaning}" for grade in Grade) + ".")
    looks = [look for part in parts for look in sheet.looks[part.key]]
    for same in _alike(looks):
        _print_look(console, sheet, same, of=len(parts))
    for vocabulary in {look.vocabulary.key: look.vocabulary for look in looks if look.vocabulary is not None}.values():
        _print_vocabulary(console, vocabulary)
    for key in dict.fromkeys(key for look in looks for key in look.grids):
        _print_grid(console, sheet.grids[key])
    _print_damage(console, sheet, patterns)
    print_heading(console, "Cautions")
    print_sentences(console, sheet.care)


def _whose_limits(sheet: InspectionSheet) -> str:
    first, *others = sheet.limit_sets
    return harmless(first.words + "".join(f", amended by {one.words}" for one in others))


def _alike(looks: Iterable[Look]) -> list[list[Look]]:
    """Looks that say the same of several parts, together."""
    found: dict[Look, list[Look]] = {}
    for look in looks:
        found.setdefault(replace(look, part="", work=(), prove=(), vocabulary=None), []).append(look)
    return list(found.values())


def _print_look(console: Console, sheet: InspectionSheet, same: Sequence[Look], *, of: int) -> None:
    look, procedure = same[0], sheet.procedure
    names = ", ".join(procedure.parts[one.part].name for one in same)
    print_heading(
        console, look.name if of == 1 else f"{look.name} ({names})" if len(same) < of else f"{look.name} (each of them)"
    )
    lines = [("Look", look.see), ("How", look.how), ("With", ", ".join(look.tools))]
    if look.limits is not None:
        lines.append(("Measure", look.limits.label))
    lines += [(grade.value.upper(), look.words(grade)) for grade in Grade]
    likewise = "; likewise for the others" if any(one.work != look.work for one in same) else ""
    request = Request(work=look.work, wanted=look.prove)
    lines += [("Then", asked_words(procedure, request, is_choice=True) + likewise)]
    lines += [("Source", f"{_word_of(look.provenance)}; {look.set_by}")]
    for lead, text in lines:
        if text:
            print_hanging(console, f"  {lead + ':':<9} ", harmless(text))


def _word_of(provenance: Provenance) -> str:
    place = "" if provenance.where in {"", provenance.footing.words} else provenance.where
    if provenance.source is None:
        return f"{provenance.footing.words}{': ' if place else ''}{place}"
    reference = load_references()[provenance.source]  # title and body, without whoever wrote it: no maker's name at the bench
    return f"{provenance.footing.words}: {reference.title} ({reference.published_in}){'; ' if place else ''}{place}"


def _print_vocabulary(console: Console, vocabulary: Vocabulary) -> None:
    print_heading(console, f"Words of {vocabulary.name}, with the grades of this bench")
    print_paragraph(console, f"{vocabulary.note} ({_word_of(vocabulary.provenance)}.)")
    for family in dict.fromkeys(term.family for term in vocabulary.terms):
        console.print(f"  {family}", soft_wrap=True)
        for term in vocabulary.terms:
            if term.family == family:
                print_hanging(
                    console,
                    f"    {term.grade.value.upper():<6} ",
                    harmless(f"{term.name}: {term.note}" if term.note else term.name),
                )


def _print_grid(console: Console, grid: NewPartGrid) -> None:
    print_heading(console, f"NEW parts only: {grid.name}")
    print_paragraph(console, f"{grid.note} ({_word_of(grid.provenance)}.) Limits in {unit_named(grid.unit).shown}.")
    for row in grid.rows:
        limits = "; ".join(f"{column} {limit:g}" for column, limit in zip(grid.columns, row.limits, strict=True))
        print_hanging(console, f"  {grid.size} above {row.above:g} to {row.up_to:g} {grid.size_unit}: ", limits)


def _print_damage(console: Console, sheet: InspectionSheet, patterns: Iterable[DamagePattern]) -> None:
    every = list(patterns)
    if not every:
        return
    print_heading(console, "Damage, and what it likely comes from")
    print_paragraph(console, "The part that shows it is the witness, not the culprit. Common practice, no source.")
    for pattern in every:
        print_hanging(console, "- ", pattern.see)
        for cause in pattern.causes:
            print_hanging(console, "  likely: ", cause)
        if pattern.tell:
            print_hanging(console, "  to tell: ", pattern.tell)
        print_hanging(console, "  then: ", asked_words(sheet.procedure, pattern.request))
