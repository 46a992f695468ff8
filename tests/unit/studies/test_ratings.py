"""May this touch that? The rules of the bench, one by one, and what is said when something was not told."""

from __future__ import annotations

import pytest

from stripdown.errors import InputError
from stripdown.references.provenance import Footing
from stripdown.studies.rating_survey import survey_ratings
from stripdown.studies.ratings import EYES, rating


@pytest.mark.parametrize(
    ("thing", "fluid", "verdict"),
    [
        ("steel", "isopropyl alcohol", "suitable"),
        ("zinc alloy", "IPA", "suitable"),
        ("NBR", "isopropyl alcohol", "with_care"),
        ("VMQ", "isopropyl alcohol", "suitable"),
        ("polyurethane", "isopropyl alcohol", "avoid"),
        ("polycarbonate", "isopropyl alcohol", "avoid"),
        ("ABS", "isopropyl alcohol", "avoid"),
        ("piston", "isopropyl alcohol", "avoid"),
        ("nozzle", "isopropyl alcohol", "avoid"),
        ("hop-up unit", "isopropyl alcohol", "avoid"),
        ("rubber", "lukewarm water with a drop of washing-up liquid", "suitable"),
        ("silicone rubber", "petroleum oil", "avoid"),
        ("EPDM", "petroleum grease", "avoid"),
        ("natural rubber", "mineral oil", "avoid"),
        ("polycarbonate", "lithium grease", "avoid"),
        ("nitrile", "petroleum grease", "suitable"),
        ("unknown black O-ring", "petroleum oil", "avoid"),
        ("unknown black O-ring", "silicone oil", "suitable"),
        ("silicone rubber", "silicone grease", "avoid"),
        ("piston-head O-ring", "silicone oil", "suitable"),
        ("sector gear", "silicone oil", "avoid"),
        ("trigger contacts", "silicone spray", "avoid"),
        ("commutator", "silicone oil", "avoid"),
        ("motor brushes", "silicone grease", "avoid"),
        ("gear", "tacky synthetic grease declared safe for polycarbonate", "suitable"),
        ("piston rack", "plastic-safe grease", "suitable"),
        ("shims", "plastic-safe grease", "suitable"),
        ("piston head ring", "plastic-safe grease", "avoid"),
        ("cylinder", "plastic-safe grease", "avoid"),
        ("brass", "EP grease", "with_care"),
        ("hop-up rubber", "silicone oil", "avoid"),
        ("inner barrel", "PTFE spray", "avoid"),
        ("inner barrel", "water", "with_care"),
        ("screws", "thread-locker", "suitable"),
        ("PC", "threadlocker", "avoid"),
        ("ABS", "thread locker", "avoid"),
        ("motor commutator", "contact cleaner", "with_care"),
        ("bearing", "retaining compound", "with_care"),
        ("zinc alloy", "strong alkaline cleaner", "avoid"),
    ],
)
def test_the_rules_of_the_bench_hold(thing: str, fluid: str, verdict: str) -> None:
    """Each rule that the trade goes by, for the material or the part it speaks of."""
    answer = rating(thing, fluid)
    assert answer.verdict == verdict
    assert answer.reason
    assert answer.source
    assert EYES in answer.cautions


@pytest.mark.parametrize("typed", ["nbr", "NBR", "Nitrile", "nitrile rubber", " nitrile-rubber "])
@pytest.mark.parametrize("fluid", ["IPA", "isopropanol", "Isopropyl Alcohol", "isopropyl_alcohol"])
def test_names_keys_and_codes_are_one(typed: str, fluid: str) -> None:
    """In any case, however they are spaced."""
    assert rating(typed, fluid) == rating("nbr", "isopropyl_alcohol")


def test_polycarbonate_takes_the_worse_of_chart_and_stress_list() -> None:
    """Clamped: avoid, by the published list. Free: a wipe with care. Not told: as clamped, and that is said."""
    assert rating("PC", "IPA", stressed=True).verdict == "avoid"
    assert rating("PC", "IPA", stressed=True).assumed == ()
    assert rating("PC", "IPA", stressed=False).verdict == "with_care"
    not_told = rating("PC", "IPA")
    assert not_told.verdict == "avoid"
    assert not_told.footing is Footing.PUBLISHED
    assert not_told.source_key == "mould_design_note"
    assert any("taken as stressed" in sentence for sentence in not_told.assumed)


def test_stress_is_not_mentioned_where_it_changes_nothing() -> None:
    """Neither for rubber and metal, nor where the answer is the same for a free piece."""
    assert rating("NBR", "IPA").assumed == ()
    assert rating("steel", "IPA").assumed == ()
    assert rating("PC", "acetone").assumed == ()


def test_a_part_that_sits_free_is_taken_as_free() -> None:
    """A trigger's polycarbonate is neither clamped nor sprung; a nozzle's is."""
    assert rating("trigger", "IPA", made_of="PC").verdict == "with_care"
    assert rating("nozzle", "IPA", made_of="PC").verdict == "avoid"


def test_how_long_matters() -> None:
    """A wipe is one thing, a soak another, for rubber, sintered bushings and free polycarbonate."""
    for thing in ("NBR", "bronze", "VMQ"):
        wiped, soaked = rating(thing, "IPA"), rating(thing, "IPA", soaked=True)
        assert soaked.verdict.severity > wiped.verdict.severity
    assert "soaking draws plasticiser out" in rating("NBR", "IPA").reason


def test_a_part_of_several_materials_takes_the_worst_unless_told() -> None:
    """An acetal nozzle may be wiped with alcohol; a nozzle that nobody has looked at may not."""
    assert rating("nozzle", "IPA", made_of="POM").verdict == "suitable"
    unknown = rating("nozzle", "IPA")
    assert unknown.verdict == "avoid"
    assert "polycarbonate (PC)" in unknown.assumed[0]
    assert unknown.reason.startswith("Polycarbonate with isopropyl alcohol: ")


def test_the_place_of_a_part_counts_whatever_it_is_made_of() -> None:
    """Silicone oil does EPDM no harm, and still never belongs on a hop-up rubber."""
    answer = rating("hop-up rubber", "silicone oil", made_of="EPDM")
    assert answer.verdict == "avoid"
    assert "Dry and clean" in answer.reason


def test_a_wider_kind_stands_for_all_in_it() -> None:
    """Grease of a kind not told is the worst of all greases; and the answer says which they are."""
    answer = rating("EPDM", "grease")
    assert answer.verdict == "avoid"
    assert rating("EPDM", "silicone grease").verdict == "suitable"
    assert "petroleum grease" in answer.assumed[-1]


def test_what_nobody_has_rated_is_unknown_and_kept_off() -> None:
    """The cautious answer, said to be one, with a footing and a source that claim nothing."""
    answer = rating("FVMQ", "white spirit")
    assert answer.verdict == "unknown"
    assert "Nobody has rated" in answer.reason
    assert "keep it off" in answer.reason
    assert answer.source_key is None
    assert answer.footing is Footing.COMMON_PRACTICE


def test_a_published_word_stands_before_an_estimate_that_says_the_same() -> None:
    """Of equally bad words the best known decides what the answer rests on."""
    answer = rating("EPDM", "petroleum oil")
    assert answer.footing is Footing.PUBLISHED
    assert answer.source_key == "moulder_rubber_table"
    assert "never on silicone, EPDM" in answer.reason


@pytest.mark.parametrize(
    ("thing", "fluid", "complaint"),
    [
        ("", "IPA", "material is empty"),
        ("  -- ", "IPA", "material is empty"),
        ("NBR", "", "fluid is empty"),
        ("nitril", "IPA", 'Nearest known: "nitrile"'),
        ("NBR", "isopropil alcohol", 'Nearest known: "isopropyl alcohol"'),
        ("IPA", "NBR", "is a fluid"),
        ("NBR", "EPDM", "is a material or a part"),
        ("NBR", "nozzle", "is a material or a part"),
        ("qqqqqq", "IPA", 'Name the wider kind: "rubber"'),
        (7, "IPA", "is no name"),
    ],
)
def test_a_name_that_cannot_be_meant_is_refused(thing: str, fluid: str, complaint: str) -> None:
    """One message: which name, what is wrong, what would be right."""
    with pytest.raises(InputError, match=complaint):
        rating(thing, fluid)


@pytest.mark.parametrize(
    ("thing", "made_of", "complaint"),
    [
        ("NBR", "EPDM", "a material already"),
        ("nozzle", "piston", "is a part"),
        ("nozzle", "IPA", "is a fluid"),
        ("nozzle", "", "empty"),
    ],
)
def test_the_material_of_a_part_is_a_material(thing: str, made_of: str, complaint: str) -> None:
    """And a material has none."""
    with pytest.raises(InputError, match=complaint):
        rating(thing, "water", made_of=made_of)


def test_one_thing_is_held_against_everything() -> None:
    """A material or part against all fluids; a fluid against all materials and parts; wider kinds left out."""
    of_rubber = survey_ratings("EPDM")
    assert {one.fluid: one.verdict for one in of_rubber.fluids}["silicone oil"] == "suitable"
    assert not any("of a kind not told" in one.fluid for one in of_rubber.fluids)
    of_fluid = survey_ratings("silicone oil")
    assert of_fluid.fluids == ()
    assert {one.subject: one.verdict for one in of_fluid.materials}["silicone rubber (VMQ)"] == "avoid"
    assert {one.subject: one.verdict for one in of_fluid.parts}["hop-up rubber"] == "avoid"
    assert survey_ratings("nozzle", made_of="POM").fluids != survey_ratings("nozzle").fluids


@pytest.mark.parametrize(("name", "made_of"), [("silicone", None), ("IPA", "NBR"), ("nothing like it", None)])
def test_a_survey_of_what_is_not_clear_is_refused(name: str, made_of: str | None) -> None:
    """Silicone is a rubber and an oil; a fluid is made of nothing here."""
    with pytest.raises(InputError):
        survey_ratings(name, made_of=made_of)
