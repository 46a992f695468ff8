"""What holds for every material, part and fluid of the catalogue, whatever it says of them."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stripdown.catalogue.fluids import load_fluids
from stripdown.catalogue.kinds import members
from stripdown.catalogue.materials import load_materials
from stripdown.catalogue.part_materials import load_part_materials
from stripdown.core.part_condition.lubricants import penetration_grade
from stripdown.references.provenance import Footing
from stripdown.studies.ratings import EYES, rating

MATERIALS = st.sampled_from(sorted(load_materials()))
PARTS = st.sampled_from(sorted(load_part_materials()))
THINGS = MATERIALS | PARTS
FLUIDS = st.sampled_from(sorted(load_fluids()))
STRESSED = st.sampled_from([True, False, None])


@given(THINGS, FLUIDS, STRESSED, st.booleans())
def test_every_pair_has_a_whole_answer(thing: str, fluid: str, stressed: bool | None, soaked: bool) -> None:  # noqa: FBT001  drawn
    """Verdict, reason, footing, source and cautions; what claims to be published names its source."""
    answer = rating(thing, fluid, stressed=stressed, soaked=soaked)
    assert answer.reason.strip()
    assert answer.source.strip()
    assert EYES in answer.cautions
    assert (answer.source_key is not None) or answer.footing not in {
        Footing.PUBLISHED,
        Footing.MEASURED,
        Footing.MAKERS_CLAIM,
    }
    assert answer.verdict == max((ground.verdict for ground in answer.grounds), key=lambda verdict: verdict.severity)


@given(THINGS, FLUIDS)
def test_what_is_not_told_is_taken_at_its_worst(thing: str, fluid: str) -> None:
    """Stress not told is never milder than a free piece; stress never helps."""
    stressed, free = (rating(thing, fluid, stressed=told).verdict.severity for told in (True, False))
    not_told = rating(thing, fluid).verdict.severity
    assert free <= not_told <= stressed
    assert not_told == stressed or thing in load_part_materials()


@given(THINGS, FLUIDS)
def test_soaking_never_helps(thing: str, fluid: str) -> None:
    """A soak is rated as a wipe is, or worse."""
    assert rating(thing, fluid, soaked=True).verdict.severity >= rating(thing, fluid).verdict.severity


@given(MATERIALS, FLUIDS)
def test_a_wider_kind_is_as_bad_as_the_worst_in_it(thing: str, fluid: str) -> None:
    """No more and no less, for materials and fluids."""
    each = [
        rating(material.key, one.key).verdict.severity
        for material in members(load_materials(), thing)
        for one in members(load_fluids(), fluid)
    ]
    assert rating(thing, fluid).verdict.severity == max(each)


@given(PARTS, FLUIDS)
def test_a_part_is_never_better_off_than_any_of_its_materials(part: str, fluid: str) -> None:
    """And knowing the material never makes the answer worse."""
    whole = rating(part, fluid).verdict.severity
    told = [rating(part, fluid, made_of=key).verdict.severity for key in load_part_materials()[part].materials]
    assert whole == max(told)


@given(THINGS, FLUIDS, st.sampled_from([str.upper, str.title, str.swapcase]))
def test_case_does_not_matter(thing: str, fluid: str, spelling: object) -> None:
    """Keys and names lead to the same answer however they are typed."""
    spell = spelling if callable(spelling) else str
    name = load_materials()[thing].name if thing in load_materials() else load_part_materials()[thing].name
    assert rating(spell(name), spell(load_fluids()[fluid].name)) == rating(thing, fluid)


@given(st.floats(min_value=48, max_value=1000))
def test_a_penetration_has_one_class_or_none(penetration: float) -> None:
    """And a grease that is softer by less than a gap never has a stiffer class."""
    order = ["6", "5", "4", "3", "2", "1", "0", "00", "000"]
    here, softer = penetration_grade(penetration), penetration_grade(min(penetration + 10.0, 1000.0))
    if here is not None and softer is not None:
        assert order.index(softer) >= order.index(here)
