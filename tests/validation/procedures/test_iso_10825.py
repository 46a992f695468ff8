"""The words for gear teeth against the classes and words of ISO 10825."""

from __future__ import annotations

import pytest

from stripdown.procedures.inspection import load_inspection
from stripdown.procedures.looks import Grade
from tests.published import Published

# Words in each class, as pages list them that quote the edition of 1995.
_WORDS = {
    "1.1 sliding wear": 8,  # normal, moderate, polishing, abrasive, excessive, scratching, severe scratching, interference
    "1 surface disturbance": 4,  # corrosion, overheating, erosion, electric
    "2 scuffing": 1,
    "3 permanent deformation": 6,  # indentation, rolling, hammer, rippling, ridging, burrs
    "4 surface fatigue": 6,  # pitting initial, progressive, micro; flake; spalling; case crushing
    "5 cracks": 3,  # quench, grinding, fatigue
    "6 breakage": 6,  # overload brittle, ductile, semi-brittle; shear; smeared; fatigue
}
_SPOKEN = (
    "normal", "moderate", "polishing", "abrasive", "excessive", "scratching", "severe scratching", "interference", "corrosion",
    "overheating", "erosion", "electric", "scuffing", "indentation", "rolling", "hammer", "rippling", "ridging", "burrs",
    "initial", "progressive", "micro", "flake", "spalling", "case crushing", "quench", "grinding", "fatigue", "brittle",
    "ductile", "semi-brittle", "shear", "smeared",
)  # fmt: skip

pytestmark = pytest.mark.source(
    "iso_10825", "edition of 1995, classes 1 to 6 and their words", rtol=1e-12, because="counts of words"
)


def test_iso_10825_classes_and_words(published: Published) -> None:
    """Every class has as many words as the standard gives it, and every word of the standard is there."""
    [vocabulary] = {look.vocabulary for look in load_inspection().sheet("").looks["bevel_gear"] if look.vocabulary is not None}
    families = [term.family for term in vocabulary.terms]
    for family, count in _WORDS.items():
        published(f"words of class {family}", found=families.count(family), expected=count, unit="1")
    assert set(families) == set(_WORDS)
    said = " ".join(f"{term.key.replace('_', ' ')} {term.name}" for term in vocabulary.terms)
    assert [word for word in _SPOKEN if word not in said] == []


def test_iso_10825_gives_no_limit(published: Published) -> None:
    """The standard grades nothing, and every word says that its grade is this bench's: no grade cites the standard."""
    citing = [
        key
        for key, entry in load_inspection().terms.items()
        for table in entry.versions()
        if table.provenance(needs_place=False).source == "iso_10825"
    ]
    published("grades that cite the standard", found=len(citing), expected=0, unit="1", atol=0.0)
    [vocabulary] = {look.vocabulary for look in load_inspection().sheet("").looks["bevel_gear"] if look.vocabulary is not None}
    assert "no limit" in vocabulary.note
    assert {term.grade for term in vocabulary.terms if term.family == "5 cracks"} == {Grade.REJECT}
