"""What is said of looks: which parts have some; for a part what to look at, how it is graded, what its damage comes from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from stripdown.procedures.damage import DamagePattern
from stripdown.procedures.inspection import InspectionSheet
from stripdown.procedures.looks import Grade, Look, Vocabulary
from stripdown.procedures.new_part_grids import NewPartGrid
from stripdown.procedures.request import Request
from stripdown.studies.looks import InspectedParts
from stripdown.units import unit_named
from stripdown.words.answer import Answer, Cell, Column, Named, Sentence, Table
from stripdown.words.requests import asked_words
from stripdown.words.sentences import caution_sentence
from stripdown.words.sources import on_whose_word

_COLUMNS = (Column(head=""), Column(head=""))


def part_list_answer(found: InspectedParts) -> Answer:
    """Say which parts have something to look at, by group."""
    sheet = found.sheet
    groups = tuple(
        Named(
            key=group.key,
            name=group.name,
            text=", ".join(f"{sheet.procedure.parts[key].name} ({len(sheet.looks[key])})" for key in group.parts),
        )
        for group in sheet.groups
    )
    return Answer(
        key="parts",
        title="Parts with something to look at",
        lead=(_gun(sheet),),
        named=groups,
        notes=(
            Sentence(key="how_to_ask", full="A part or one of these words; in brackets how many looks.", act="inspect_part"),
            _whose_limits(sheet),
        ),
    )


def inspection_answer(found: InspectedParts) -> Answer:
    """Say what to look at on some parts, grade by grade, and what damage on them comes from."""
    sheet = found.sheet
    looks = [look for part in found.parts for look in sheet.looks[part.key]]
    vocabularies = {look.vocabulary.key: look.vocabulary for look in looks if look.vocabulary is not None}
    grids = dict.fromkeys(key for look in looks for key in look.grids)
    grades = "; ".join(f"{grade.value.upper()}: {grade.meaning}" for grade in Grade)
    return Answer(
        key="inspection",
        title=", ".join(one.name for one in found.parts),
        lead=(_gun(sheet), _whose_limits(sheet), Sentence(key="grades", full=f"{grades}.")),
        parts=(
            *(_look(sheet, same, of=len(found.parts)) for same in _alike(looks)),
            *map(_vocabulary, vocabularies.values()),
            *(_grid(sheet.grids[key]) for key in grids),
            *_damage(sheet, found.patterns),
        ),
        cautions=tuple(caution_sentence(words) for words in sheet.care),
    )


def _gun(sheet: InspectionSheet) -> Sentence:
    return Sentence(key="gun", full=f"Gun: {sheet.procedure.variation}.")


def _whose_limits(sheet: InspectionSheet) -> Sentence:
    first, *others = sheet.limit_sets
    whose = first.words + "".join(f", amended by {one.words}" for one in others)
    return Sentence(key="limits", full=f"Limits: {whose}.", act="own_limits")


def _alike(looks: Iterable[Look]) -> list[list[Look]]:
    """Looks that say the same of several parts, together."""
    found: dict[Look, list[Look]] = {}
    for look in looks:
        found.setdefault(replace(look, part="", work=(), prove=(), vocabulary=None), []).append(look)
    return list(found.values())


def _look(sheet: InspectionSheet, same: Sequence[Look], *, of: int) -> Answer:
    look, procedure = same[0], sheet.procedure
    names = ", ".join(procedure.parts[one.part].name for one in same)
    of_which = "" if of == 1 else f" ({names})" if len(same) < of else " (each of them)"
    likewise = "; likewise for the others" if any(one.work != look.work for one in same) else ""
    request = Request(work=look.work, wanted=look.prove)
    lines = {
        "see": ("Look", look.see),
        "how": ("How", look.how),
        "tools": ("With", ", ".join(look.tools)),
        "measure": ("Measure", "" if look.limits is None else look.limits.label),
        **{grade.value: (grade.value.upper(), look.words(grade)) for grade in Grade},
        "then": ("Then", asked_words(procedure, request, is_choice=True) + likewise),
        "source": ("Source", f"{on_whose_word(look.provenance)}; {look.set_by}"),
    }
    rows = tuple((Cell(text=f"  {name}:"), Cell(text=text, key=key)) for key, (name, text) in lines.items() if text)
    return Answer(key=look.key, title=f"{look.name}{of_which}", tables=(Table(key="look", columns=_COLUMNS, rows=rows),))


def _vocabulary(vocabulary: Vocabulary) -> Answer:
    rows = []
    for family in dict.fromkeys(term.family for term in vocabulary.terms):
        rows.append((Cell(text=""), Cell(text=family, is_strong=True)))
        for term in vocabulary.terms:
            if term.family == family:
                words = f"{term.name}: {term.note}" if term.note else term.name
                rows.append((Cell(text=f"  {term.grade.value.upper()}", key=term.grade.value), Cell(text=words, key=term.key)))
    return Answer(
        key=vocabulary.key,
        title=f"Words of {vocabulary.name}, with the grades of this bench",
        lead=(Sentence(full=f"{vocabulary.note} ({on_whose_word(vocabulary.provenance)}.)"),),
        tables=(Table(key="vocabulary", columns=_COLUMNS, rows=tuple(rows)),),
    )


def _grid(grid: NewPartGrid) -> Answer:
    rows = tuple(
        (
            Cell(text=f"{grid.size} above {row.above:g} to {row.up_to:g} {grid.size_unit}:"),
            Cell(text="; ".join(f"{column} {limit:g}" for column, limit in zip(grid.columns, row.limits, strict=True))),
        )
        for row in grid.rows
    )
    note = f"{grid.note} ({on_whose_word(grid.provenance)}.) Limits in {unit_named(grid.unit).shown}."
    return Answer(
        key=grid.key,
        title=f"NEW parts only: {grid.name}",
        lead=(Sentence(full=note),),
        tables=(Table(key="grid", columns=_COLUMNS, rows=rows),),
    )


def _damage(sheet: InspectionSheet, patterns: Sequence[DamagePattern]) -> Iterator[Answer]:
    if not patterns:
        return
    rows = []
    for pattern in patterns:
        lines = [("-", pattern.see), *(("likely:", cause) for cause in pattern.causes)]
        lines += [("to tell:", pattern.tell), ("then:", asked_words(sheet.procedure, pattern.request))]
        rows += [(Cell(text=lead, key=pattern.key), Cell(text=text)) for lead, text in lines if text]
    witness = "The part that shows it is the witness, not the culprit. Common practice, no source."
    yield Answer(
        key="damage",
        title="Damage, and what it likely comes from",
        lead=(Sentence(full=witness),),
        tables=(Table(key="damage", columns=_COLUMNS, rows=tuple(rows)),),
    )
