"""The catalogue of what may touch what is whole, and says no more than it knows."""

from __future__ import annotations

import pytest

from stripdown.catalogue.fluids import fluid_names, load_fluids
from stripdown.catalogue.kinds import members
from stripdown.catalogue.materials import load_materials, material_names
from stripdown.catalogue.part_materials import load_part_materials, part_names
from stripdown.catalogue.ratings import load_ratings
from stripdown.references import load_references
from stripdown.references.provenance import Footing
from stripdown.studies.ratings import rating

# Parts that a technician may name; the plan's own keys hold these words ("bevel_bearing_left").
PARTS = [
    "shell",
    "bearing",
    "gear",
    "pinion",
    "shims",
    "piston",
    "piston_rack",
    "piston_head",
    "piston_head_ring",
    "cylinder",
    "cylinder_head",
    "cylinder_head_rings",
    "nozzle",
    "tappet_plate",
    "main_spring",
    "spring_guide",
    "anti_reversal_latch",
    "hop_up_unit",
    "hop_up_rubber",
    "hop_up_nub",
    "inner_barrel",
    "trigger_contacts",
    "electronic_trigger",
    "selector_plate",
    "wires",
    "motor",
    "motor_commutator",
    "motor_brushes",
    "screws",
]


@pytest.mark.parametrize("part", PARTS)
def test_a_part_of_the_gun_has_its_materials(part: str) -> None:
    """Nobody has to know what a part is made of to get the cautious answer."""
    assert load_part_materials()[part].materials


def test_a_name_means_one_thing() -> None:
    """Names lead to one entry of their file, and no key is a material and a part."""
    assert material_names().key_of("NBR") == "nbr"
    assert part_names().key_of("bucking") == "hop_up_rubber"
    assert fluid_names().key_of("IPA") == "isopropyl_alcohol"
    groups = {group for part in load_part_materials().values() for group in part.groups}
    assert not set(load_materials()) & (set(load_part_materials()) | groups)
    assert not groups & set(load_part_materials())


def test_nothing_is_called_published_that_was_not_read() -> None:
    """A published rating names a source that somebody has read or seen quoted; what is from memory is an estimate."""
    references = load_references()
    for row in load_ratings().values():
        provenance = row.provenance
        if provenance.footing is Footing.PUBLISHED:
            assert provenance.source is not None
            assert references[provenance.source].may_gate, row.key
        assert provenance.where, row.key


def test_grades_of_a_chart_are_a_charts() -> None:
    """Only rows of charts carry grades: published ones, or estimates that say so."""
    for row in load_ratings().values():
        if row.grades:
            assert row.provenance.footing in {Footing.PUBLISHED, Footing.ESTIMATE}, row.key


def test_every_rubber_is_rated_with_oil_silicone_and_water() -> None:
    """What every technician asks has an answer for every rubber."""
    asked = [members(load_fluids(), key)[0].key for key in ("petroleum_oil", "silicone_oil", "water_and_soap")]
    for rubber in members(load_materials(), "rubber"):
        for fluid in asked:
            assert rating(rubber.key, fluid).verdict != "unknown", (rubber.key, fluid)
