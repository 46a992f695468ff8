"""What may touch what against published charts and lists: each grade as it is printed, and no answer milder than it."""

from __future__ import annotations

import pytest

from stripdown.studies.ratings import Rating, rating
from tests.published import Published

# How bad a verdict is, and how a reader of the charts would take their letters: written here a second time on purpose.
BADNESS = {"suitable": 0, "with_care": 1, "unknown": 2, "avoid": 3}
LETTERS = {"E": 0, "G": 0, "F": 1, "P": 3}
AVOID = 3

RUBBERS = ("NBR", "VMQ", "FKM", "EPDM", "AU/EU")
MOULDER = {
    "petroleum oil": ("G-E", "P-F", "E", "P", "G-E"),
    "petrol": ("G-E", "P-F", "E", "P", "G-E"),
    "ethanol": ("F-G", "G", "F-E", "F-G", "F-G"),
    "white spirit": ("E", "P-F", "E", "P", "G"),
    "toluene": ("F-G", "P-F", "E", "P", "P-F"),
    "acetone": ("P", "F", "P", "G-E", "P"),
}
_WORSE_END = "of a range over several fluids the worse end counts"


def _of_source(answer: Rating, key: str) -> int:
    """The worst that one source says, as the answer holds it."""
    return max(BADNESS[ground.verdict] for ground in answer.grounds if ground.provenance.source == key)


@pytest.mark.source("moulder_rubber_table", "rows of the table", atol=0, because=_WORSE_END)
@pytest.mark.parametrize("fluid", MOULDER)
def test_moulder_rubber_table(published: Published, fluid: str) -> None:
    """Each of five rubbers is graded with each class of fluid as printed, and the answer is never milder."""
    for rubber, grade in zip(RUBBERS, MOULDER[fluid], strict=True):
        printed = max(LETTERS[end] for end in grade.split("-"))
        answer = rating(rubber, fluid)
        found = _of_source(answer, "moulder_rubber_table")
        published(f"{rubber} with {fluid}, badness of {grade}", found=found, expected=printed, unit="1", rtol=0, atol=0)
        published.within(f"{rubber} with {fluid}, the answer", found=BADNESS[answer.verdict], low=printed, high=AVOID, unit="1")


@pytest.mark.source(
    "seal_maker_grades", "oil and grease", atol=0, because="A and B are read as good, C as fair, E is not recommended"
)
def test_seal_maker_oil_and_grease(published: Published) -> None:
    """B, C, A, E, B for the five rubbers."""
    for rubber, grade, printed in zip(RUBBERS, "BCAEB", (0, 1, 0, 3, 0), strict=True):
        answer = rating(rubber, "petroleum grease")
        found = _of_source(answer, "seal_maker_grades")
        published(f"{rubber} with oil and grease, badness of {grade}", found=found, expected=printed, unit="1", rtol=0, atol=0)


@pytest.mark.source("mould_design_note", "polycarbonate", atol=0, because="a list, no figures")
@pytest.mark.parametrize(
    "fluid",
    [
        *("isopropyl alcohol", "ethanol", "acetone", "ethyl acetate", "chlorinated brake cleaner", "toluene", "petrol"),
        *("kerosene", "inorganic acid", "strong alkaline cleaner"),
    ],
)
def test_fluids_that_crack_polycarbonate(published: Published, fluid: str) -> None:
    """What the list names is avoided under stress, and when nobody says; of free pieces the list does not speak."""
    for stressed in (True, None):
        answer = rating("PC", fluid, stressed=stressed)
        published(f"PC with {fluid}, stressed {stressed}", found=BADNESS[answer.verdict], expected=AVOID, unit="1")
        assert answer.source_key == "mould_design_note"
    free = rating("PC", fluid, stressed=False)
    assert not any(ground.provenance.source == "mould_design_note" for ground in free.grounds)


@pytest.mark.source("mould_design_note", "polyamide 66 and polyacetal", atol=0, because="a list, no figures")
def test_fluids_that_crack_polyamide_and_acetal(published: Published) -> None:
    """Polyamide: acids and alkalis; acetal: acids, and nothing else on the list."""
    for material, fluid, badness in (
        ("PA66", "inorganic acid", AVOID),
        ("PA66", "strong alkaline cleaner", AVOID),
        ("POM", "inorganic acid", AVOID),
        ("POM", "isopropyl alcohol", 0),
        ("POM", "petrol", 0),
        ("POM", "kerosene", 0),
    ):
        found = BADNESS[rating(material, fluid, stressed=True).verdict]
        published(f"{material} with {fluid}, stressed", found=found, expected=badness, unit="1")


@pytest.mark.source("car_maker_stress_cracking", "scope", because="it asks for a test of every pair: none may be called suitable")
def test_amorphous_plastics_are_never_simply_suitable(published: Published) -> None:
    """PC, PC/ABS, ABS and PMMA under stress with any grease, oil or solvent: care at least."""
    for material in ("PC", "PC/ABS", "ABS", "PMMA"):
        for fluid in ("petroleum oil", "petroleum grease", "silicone oil", "silicone grease", "white spirit", "contact cleaner"):
            found = BADNESS[rating(material, fluid, stressed=True).verdict]
            published.within(f"{material} with {fluid}, stressed", found=found, low=1, high=AVOID, unit="1")


@pytest.mark.source("polyamide_resistance", "oils and greases; polar solvents", atol=0, because="words, no figures")
def test_polyamide(published: Published) -> None:
    """Good with oils and greases; polar solvents are taken up."""
    for fluid, badness in (("petroleum oil", 0), ("petroleum grease", 0), ("isopropyl alcohol", 1), ("acetone", 1)):
        published(f"PA66 with {fluid}", found=BADNESS[rating("PA66", fluid).verdict], expected=badness, unit="1")


@pytest.mark.source("gasket_maker_acetone", "acetone", atol=0, because="words, no figures")
def test_acetone(published: Published) -> None:
    """Swells NBR and FKM, and leaves EPDM alone."""
    for rubber, badness in (("NBR", AVOID), ("FKM", AVOID), ("EPDM", 0)):
        published(f"{rubber} with acetone", found=BADNESS[rating(rubber, "acetone").verdict], expected=badness, unit="1")


@pytest.mark.source("workshop_note_threadlocker", "polycarbonate", atol=0, because="words, no figures")
def test_thread_locker_on_polycarbonate(published: Published) -> None:
    """Never, stressed or not."""
    for stressed in (True, False, None):
        found = BADNESS[rating("PC", "thread-locker", stressed=stressed).verdict]
        published(f"PC with thread-locker, stressed {stressed}", found=found, expected=AVOID, unit="1")


@pytest.mark.source("iso_1629", "codes of rubbers", atol=0, because="a code is known or it is not")
def test_codes_of_rubbers(published: Published) -> None:
    """Every code that was read leads to one rubber, in any case."""
    codes = ("NBR", "HNBR", "CR", "EPDM", "VMQ", "FVMQ", "FKM", "AU", "EU")
    found = {code: rating(code.lower(), "water").subject for code in codes}
    published("rubbers found by nine codes, AU and EU being one", found=len(set(found.values())), expected=8, unit="1")
    assert found["AU"] == found["EU"]
