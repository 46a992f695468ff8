"""Patterns of damage: what a variation can show, what they ask for, and what is refused."""

from __future__ import annotations

import pytest

from stripdown.errors import CatalogueError, InputError
from stripdown.procedures.damage import load_damage, read_damage
from stripdown.procedures.loading import load_procedures

_PATTERN = """
[damage.faded]
parts = ["piston"]
see = "The piston has faded."
causes = ["Light."]
work = ["replace_piston"]
footing = "common_practice"
"""


def test_the_piston_is_read_first() -> None:
    """It has met everything else in the box."""
    first, *_ = load_damage().patterns("")
    assert "piston" in first.parts


@pytest.mark.parametrize(
    ("pattern", "work", "prove"),
    [
        ("pick_up_tooth_alone", "fit_pad", "engagement_angle"),
        ("middle_teeth_chewed", "replace_piston", "pre_engagement"),
        ("last_teeth_melted", "replace_piston", "spring_free_length"),
        ("one_flank_side", "choose_sector_shims", "rack_mesh"),
        ("second_tooth_struck", "remove_second_tooth", "pick_up_clearance"),
        ("front_corners_cracked", "replace_shell", "pad_seat"),
        ("hooks_to_one_side", "align_hop_up", "hop_alignment"),
        ("first_shot_low", "clean_cylinder_group", "piston_drag"),
        ("two_heaps", "replace_tappet_spring", "feeding"),
    ],
)
def test_a_pattern_of_the_trade_asks_for_the_work_on_its_cause(pattern: str, work: str, prove: str) -> None:
    """Common practice, no source: each pattern that technicians read, with the cause that they name."""
    found = {one.key: one for one in load_damage().patterns("")}[pattern]
    assert work in found.request.work
    assert prove in found.request.wanted


def test_hooks_are_no_matter_of_the_box() -> None:
    """One sees them in the shots, and they ask for nothing inside."""
    found = {one.key: one for one in load_damage().patterns("")}["hooks_to_one_side"]
    assert found.is_in_shots
    assert set(found.parts) == {"nub", "hop_up_rubber", "inner_barrel", "hop_arm"}


def test_a_variation_shows_only_what_it_has() -> None:
    """No second tooth, no clash; no contacts, none burnt; no key of a part, action or check that is not there."""
    gun = "electronic, second tooth off, latch deleted"
    keys = {one.key for one in load_damage().patterns(gun)}
    assert not keys & {"second_tooth_struck", "contacts_burnt", "latch_broken", "ratchet_rounded"}
    procedure = load_procedures().procedure(gun)
    for one in load_damage().patterns(gun):
        assert set(one.parts) <= procedure.parts.keys()
        assert set(one.work) <= procedure.actions.keys()


def test_a_part_has_its_patterns() -> None:
    """And an unknown one names the nearest."""
    assert {one.key for one in load_damage().patterns("", part="fuse")} == {"insulation_melted", "fuse_blows"}
    with pytest.raises(InputError, match="Did you mean fuse"):
        load_damage().patterns("", part="fusee")


@pytest.mark.parametrize(
    ("change", "complaint"),
    [
        (('"piston"]', '"pistol"]'), "is no part of any variation"),
        (("replace_piston", "replace_pistol"), "is no action of any variation"),
        (('work = ["replace_piston"]', 'prove = ["colour"]'), "is no check of any variation"),
        (('work = ["replace_piston"]', ""), "ask for some work"),
        (('causes = ["Light."]', ""), "a pattern without a cause"),
        (('parts = ["piston"]', ""), "name the parts"),
        (('footing = "common_practice"', ""), "on whose word"),
        (("[damage.faded]", "[damages.faded]"), "means nothing here"),
        (("see =", "sea ="), "means nothing here"),
    ],
)
def test_a_mistake_is_named_with_table_and_field(change: tuple[str, str], complaint: str) -> None:
    """One message that says where."""
    with pytest.raises(CatalogueError, match=complaint):
        read_damage(_PATTERN.replace(*change), file="own.toml", procedures=load_procedures())
