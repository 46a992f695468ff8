"""What is said of the catalogue."""

from __future__ import annotations

from stripdown.catalogue.fluids import load_fluids
from stripdown.catalogue.index import catalogue_entries
from stripdown.references import load_references
from stripdown.words.catalogue import catalogue_answer
from stripdown.words.sources import on_whose_word


def test_of_few_entries_all_is_said_and_of_many_a_table_for_each_kind() -> None:
    """Every entry is there, by its key."""
    every = catalogue_entries()
    answer = catalogue_answer(every)
    keys = {(part.key, row[0].key) for part in answer.parts for table in part.tables for row in table.rows}
    assert keys == {(entry.kind, entry.key) for entry in every}
    [only] = catalogue_answer(catalogue_entries("m100")).parts
    assert {one.name: one.text for one in only.named}["free length"] == "170 mm"


def test_what_can_hurt_is_said_with_the_fluid_and_no_limit_is_advice() -> None:
    """Also what holds for all of the wider kind."""
    [fluid] = catalogue_answer(catalogue_entries("propan-2-ol")).parts
    assert tuple(one.full for one in fluid.cautions) == load_fluids()["isopropyl_alcohol"].cautions != ()
    assert [one.key for one in catalogue_answer(catalogue_entries("italy")).cautions] == ["no_advice"]


def test_nobody_is_named() -> None:
    """A source is told by title and body, and not by who wrote it."""
    authors = {reference.author for reference in load_references().values() if reference.author not in reference.published_in} - {
        ""
    }
    words = [on_whose_word(entry.provenance) for entry in catalogue_entries() if entry.provenance.source is not None]
    titles = " ".join(f"{one.title} {one.published_in}" for one in load_references().values())
    assert [word for word in words for author in authors if author in word and author not in titles] == []
