"""Looks and limits from files: the packaged set, a technician's own, and what is refused."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from stripdown.errors import CatalogueError, InputError, OutsideValidity
from stripdown.procedures.inspection import Inspection, add_own_limits, load_inspection, read_inspection
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.looks import Grade, grade_value
from stripdown.references.provenance import Footing

_SET = '[limit_set]\nname = "rack rules"\nversion = 3\n'
_LOOK = """
[look.{key}]
parts = ["piston"]
name = "colour"
see = "Colour of the body."
sound = "As bought."
reject = "White."
work = ["replace_piston"]
footing = "common_practice"
"""


def _own(text: str) -> Inspection:
    return add_own_limits(_SET + text, file="rack.toml")


def test_a_variation_has_its_own_looks() -> None:
    """Parts, looks and limits that a gun does not have are not asked for."""
    inspection = load_inspection()
    plain, other = inspection.sheet("version 2"), inspection.sheet("version 3, bushings, latch deleted, second tooth off, ported")
    assert "anti_reversal_latch" in plain.looks
    assert "anti_reversal_latch" not in other.looks
    assert [look.key for look in plain.looks["cylinder"]] == ["bore", "roundness"]
    assert [look.key for look in other.looks["cylinder"]] == ["bore", "roundness", "port"]
    assert plain.look("spur_bearing_left", "radial_play").limits != other.look("spur_bearing_left", "radial_play").limits
    assert "second_tooth_cut" in {look.key for look in other.looks["piston"]}


@pytest.mark.parametrize(
    ("words", "parts"),
    [
        ("piston", ["piston"]),
        ("Piston head's ring", ["piston_ring"]),
        ("bevel_gear", ["bevel_gear"]),
        ("shims", [f"{gear}_shims_{side}" for gear in ("sector", "spur", "bevel") for side in ("left", "right")]),
        ("O-rings", ["piston_ring", "cylinder_head_rings", "nozzle_ring", "hop_up_rubber"]),
    ],
)
def test_parts_are_found_by_key_name_or_word(words: str, parts: list[str]) -> None:
    """One part, or all that a technician means by one word."""
    assert [part.key for part in load_inspection().sheet("").parts_named(words)] == parts


@pytest.mark.parametrize(
    ("words", "complaint"),
    [("nozel", "Did you mean nozzle"), ("stock", "has nothing to look at of its own"), ("", "is no part")],
)
def test_an_unknown_part_names_the_nearest(words: str, complaint: str) -> None:
    """A slip is answered with what was probably meant."""
    with pytest.raises(InputError, match=complaint):
        load_inspection().sheet("").parts_named(words)


def test_an_unknown_look_names_the_nearest() -> None:
    """Of that part."""
    with pytest.raises(InputError, match=r'"coil" is no look at the main spring. Did you mean coils'):
        load_inspection().sheet("").look("main_spring", "coil")


def test_an_amended_limit_speaks_for_itself() -> None:
    """The new limit, its footing and its set of limits; what was not amended stays, with its own."""
    sheet = _own(
        '[[amend]]\nentry = "look.pick_up_tooth"\nmeasure = { reject_above = 0.3 }\nfooting = "measured"\n'
        'source = "tm_10_3930_653"\nwhere = "invented"\n'
    ).sheet("")
    look, other = sheet.look("piston", "pick_up_tooth"), sheet.look("piston", "body")
    assert grade_value(look, "0.35 mm") is Grade.REJECT
    assert look.limits is not None
    assert look.limits.watch_above == 0.2
    assert (look.provenance.footing, look.provenance.source, look.set_by) == (
        Footing.MEASURED,
        "tm_10_3930_653",
        "rack rules, version 3",
    )
    assert other.set_by == "common bench limits, version 1"
    assert [one.words for one in sheet.limit_sets] == ["common bench limits, version 1", "rack rules, version 3"]


def test_an_amendment_no_longer_cites_what_it_amends() -> None:
    """A published limit that somebody changes is no longer published."""
    sheet = _own(
        '[[amend]]\nentry = "look.head_rings_set"\nmeasure = { reject_above = 30 }\nfooting = "common_practice"\n'
    ).sheet("")
    provenance = sheet.look("cylinder_head_rings", "head_rings_set").provenance
    assert (provenance.footing, provenance.source, provenance.where) == (
        Footing.COMMON_PRACTICE,
        None,
        "common practice, no source",
    )


def test_an_amendment_for_some_guns_is_not_held_against_others() -> None:
    """A limit for ball bearings may lie below what bushings are watched from."""
    sheet = _own(
        '[[amend]]\nentry = "look.radial_play"\nwhen = { supports = "bearings" }\nmeasure = { reject_above = 0.05 }\n'
        'footing = "common_practice"\n'
    ).sheet("bearings")
    assert grade_value(sheet.look("bevel_bearing_left", "radial_play"), 0.055) is Grade.REJECT


def test_a_word_of_the_standard_may_be_graded_anew_on_one_variation() -> None:
    """Manuals disagree about initial pitting: a bench may be strict, here on version 3 only."""
    own = _own(
        '[[amend]]\nentry = "term.initial_pitting"\nwhen = { layout = "version_3" }\ngrade = "reject"\n'
        'footing = "common_practice"\n'
    )
    assert grade_value(own.sheet("version 3").look("bevel_gear", "teeth"), "initial pitting") is Grade.REJECT
    assert grade_value(own.sheet("version 2").look("bevel_gear", "teeth"), "initial pitting") is Grade.WATCH


def test_the_example_on_the_page_is_read() -> None:
    """What docs/models/inspection.md shows can be typed as it stands."""
    page = Path(__file__).parents[3] / "docs" / "models" / "inspection.md"
    [example] = re.findall(r"```toml\n(.*?)```", page.read_text(encoding="utf-8"), flags=re.DOTALL)
    sheet = add_own_limits(example, file="rack_rules.toml").sheet("version 3")
    assert grade_value(sheet.look("piston", "pick_up_tooth"), "0.4 mm") is Grade.REJECT
    assert sheet.look("shell", "rail_colour").work == ("dress_rails",)


def test_a_look_of_ones_own_stands_beside_the_packaged_ones() -> None:
    """With the name of its set."""
    sheet = _own(_LOOK.format(key="colour")).sheet("")
    assert sheet.look("piston", "colour").set_by == "rack rules, version 3"


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        (
            '[[amend]]\nentry = "look.pick_up_toth"\nwatch = "x"\nfooting = "common_practice"\n',
            "Did you mean look.pick_up_tooth",
        ),
        ('[[amend]]\nentry = "look.body"\nreject = "White."\n', "a changed limit says on whose word"),
        ('[[amend]]\nentry = "look.body"\nfooting = "published"\nreject = "White."\n', "names its source"),
        (
            '[[amend]]\nentry = "look.body"\nfooting = "published"\nsource = "hearsay"\nreject = "White."\n',
            "is not in the register of sources",
        ),
        (
            '[[amend]]\nentry = "look.pick_up_tooth"\nmeasure = { watch_above = 0.9 }\nfooting = "common_practice"\n',
            "must grow",
        ),
        (
            '[[amend]]\nentry = "look.radial_play"\nmeasure = { reject_above = 0.05 }\nfooting = "common_practice"\n',
            r"\[0.06, 0.05\] must grow",  # with bushings, whose own limit to watch lies higher
        ),
        (_LOOK.format(key="body"), "is there already"),
        (_LOOK.format(key="colour").replace('"piston"', '"pistol"'), "'pistol' is no part of any variation"),
        (_LOOK.format(key="colour").replace("replace_piston", "replace_pistol"), "is no action of any variation"),
        (_LOOK.format(key="colour").replace('footing = "common_practice"', ""), "every limit says on whose word"),
        (_LOOK.format(key="colour").replace('work = ["replace_piston"]', ""), "a reject asks for some work"),
        (_LOOK.format(key="colour") + 'vocabulary = "colours"\n', "is no vocabulary of any variation"),
        (_LOOK.format(key="colour") + 'grids = ["paint"]\n', "is no grid of any variation"),
        (_LOOK.format(key="colour") + 'when = { layout = "version_9" }\n', "is no choice of layout"),
        (_LOOK.format(key="colour") + 'hue = "red"\n', "means nothing here"),
        (_LOOK.format(key="colour") + 'measure = { label = "gloss", unit = "gloss", watch_above = 1 }\n', "is not a unit"),
        (_LOOK.format(key="colour") + 'measure = { label = "gap", unit = "mm" }\n', "has at least one limit"),
        ("[looks.colour]\n", '"looks" means nothing here'),
        ("[look\n", "this is not TOML"),
    ],
)
def test_a_mistake_in_an_own_file_is_named_with_table_and_field(text: str, complaint: str) -> None:
    """One message: the file, where, and what would be right."""
    with pytest.raises(CatalogueError, match=complaint) as caught:
        _own(text)
    assert "rack.toml" in str(caught.value)


@pytest.mark.parametrize("text", ["", '[limit_set]\nname = "x"\nversion = 0\n', "[limit_set]\nversion = 1\n"])
def test_limits_without_name_or_number_are_refused(text: str) -> None:
    """A set of limits is a document that one can cite."""
    with pytest.raises(CatalogueError, match=r"limit_set|version|name"):
        add_own_limits(text, file="rack.toml")


def test_a_grid_has_a_row_for_each_size_and_no_other() -> None:
    """The upper end of a row belongs to it; outside the table there is nothing."""
    grid = load_inspection().grids["new_o_rings"]
    assert grid.row(2.25).limits[0] == 0.08
    assert grid.row(2.26).limits[0] == 0.10
    with pytest.raises(OutsideValidity, match="is in no row"):
        grid.row(0.8)


@pytest.mark.parametrize(
    ("row", "complaint"),
    [
        ("{ above = 1, up_to = 2, limits = [0.1] }", "list of 2 numbers"),
        ("{ above = 2, up_to = 2, limits = [0.1, 0.2] }", "must lie beyond 2"),
        ("{ above = 1, up_to = 3, limits = [1, 2] }, { above = 2, up_to = 4, limits = [1, 2] }", "without overlap"),
    ],
)
def test_a_grid_that_does_not_fit_is_refused(row: str, complaint: str) -> None:
    """One number per column, rows in order."""
    text = (
        f'{_SET}[grid.x]\nname = "x"\nnote = "x"\nsize = "bore"\nsize_unit = "mm"\nunit = "mm"\ncolumns = ["a", "b"]\n'
        f'row = [{row}]\nfooting = "published"\nsource = "iso_3601_3"\n'
    )
    with pytest.raises(CatalogueError, match=complaint):
        read_inspection({"x.toml": text}, load_procedures())
