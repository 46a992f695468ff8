"""The whole catalogue as one list, and what words find in it."""

from __future__ import annotations

import pytest

from stripdown.catalogue.index import catalogue_entries, kind_name
from stripdown.errors import InputError
from stripdown.references import load_references
from stripdown.references.provenance import NEEDS_SOURCE


def test_every_entry_of_every_kind_has_a_key_a_name_and_a_word_to_stand_on() -> None:
    """Seventeen kinds, no key twice in one, and whoever must name a source does."""
    entries = catalogue_entries()
    assert len({entry.kind for entry in entries}) == 17
    assert len({(entry.kind, entry.key) for entry in entries}) == len(entries)
    for entry in entries:
        assert entry.name.strip(), entry.key
        assert entry.names[0] == entry.name
        assert kind_name(entry.kind)
        assert entry.provenance.where
        source = entry.provenance.source
        assert source in load_references() if source else entry.provenance.footing not in NEEDS_SOURCE


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("m100", {("spring", "m100")}),
        ("SPRING  m-100", {("spring", "m100")}),
        ("0.25", {("ball", "g025")}),
        ("wire chrome", {("wire", "chrome_silicon")}),
        ("propan-2-ol", {("fluid", "isopropyl_alcohol")}),
        ("hnbr material", {("material", "hnbr")}),
    ],
)
def test_words_find_what_has_all_of_them_in_key_name_or_kind(words: str, found: set[tuple[str, str]]) -> None:
    """In any case, and whatever stands between the letters."""
    assert {(entry.kind, entry.key) for entry in catalogue_entries(words)} == found


def test_a_kind_finds_all_of_its_kind() -> None:
    """With the entries of other kinds in whose names the word stands."""
    assert {entry.key for entry in catalogue_entries("limit") if entry.kind == "limit"} >= {"italy", "uk_automatic"}


@pytest.mark.parametrize(("words", "hint"), [("nitryle", "Did you mean nitrile"), ("??? xyzzy", "Known are gun, ball, spring")])
def test_words_that_find_nothing_are_answered_with_the_nearest(words: str, hint: str) -> None:
    """Else with the kinds there are."""
    with pytest.raises(InputError, match="nothing in the catalogue") as caught:
        catalogue_entries(words)
    assert caught.value.hint is not None
    assert hint in caught.value.hint


def test_an_entry_keeps_what_its_file_says_with_units() -> None:
    """Nested figures by their dotted names; what only the program needs is left out."""
    [spring] = catalogue_entries("m100")
    assert spring.as_written["rate"] == "505 N/m"
    assert spring.as_written["uncertainty"] == "rate 50 N/m"
    [gun] = catalogue_entries("marksman")
    assert "piston.mass 26 g, piston.head_mass 12 g" in gun.as_written["differs"]
    [fault] = catalogue_entries("spring_weak")
    assert set(fault.as_written) == {"ordinary", "largest", "opens_box", "check"}
