"""Procedures as text: what is refused, and a technician's own steps."""

from __future__ import annotations

import pytest

from stripdown.errors import CatalogueError
from stripdown.procedures.contract import flaws
from stripdown.procedures.loading import add_own_steps, read_procedures
from tests.small_box import SMALL_BOX, small_box


def test_the_small_box_keeps_the_contract() -> None:
    """In every variation."""
    box = small_box()
    assert [flaws(box.procedure(one)) for one in box.variations()] == [()] * 4


@pytest.mark.parametrize(
    ("more", "complaint"),
    [
        (
            '[part.sling]\nname = "sling"\nplace = "mat"\noff = "o"\nback = "b"\nin_front = ["shel"]',
            "in_front = 'shel' is no part of any",
        ),
        ('[part.sling]\nname = "sling"\nplace = "roof"\noff = "o"\nback = "b"', "place = 'roof' is no place"),
        ('[part.sling]\nname = "sling"\nplace = "mat"\noff = "o"', "back must be a text"),
        ('[part.sling]\nname = "sling"\nplace = "mat"\noff = "o"\nback = "b"\nheight = 3', "height = 3 means nothing here"),
        ('[part.Sling]\nname = "sling"', "must be written as small letters"),
        ('[part.shell]\nname = "shell"\nplace = "mat"\noff = "o"\nback = "b"', "is there already; to change it use"),
        ('[action.polish]\nname = "polish"\ntouches = [["gear", "polish"]]\nhow = "h"', "is no kind of touch"),
        ('[action.polish]\nname = "polish"\ntouches = [["gear"]]\nhow = "h"', "must be a pair"),
        ('[action.polish]\nname = "polish"\ntouches = []\nhow = "h"\nwait = "soon"', "must be a time such as"),
        ('[action.polish]\nname = "p"\ntouches = []\nhow = "h"\nwhen = { guide = "none" }', "is no choice of guide"),
        ('[action.polish]\nname = "p"\ntouches = []\nhow = "h"\nwhen = { gide = "none" }', "is no feature"),
        ('[[pair]]\nfirst = "do:polish"\nthen = "make:seal"\nwhy = "w"', "first = 'do:polish' is no step of any variation"),
        ('[[pair]]\nfirst = "polish"\nthen = "make:seal"\nwhy = "w"', "must begin with one of"),
        ('[job.x]\nname = "x"\nfor = "f"\nwork = ["polish"]', "work = 'polish' is no action"),
        ('[[amend]]\nentry = "check.sael"', "is no entry"),
        ('[tool.hammer]\nname = "hammer"', '"tool" means nothing here'),
        ("[part.sling", "this is not TOML"),
        (
            (
                '[check.x]\nname = "x"\nfact = "f"\nplace = "mat"\nexpect = "e"\nfooting = "published"\n'
                '[[check.x.method]]\nname = "m"\nhow = "h"'
            ),
            "source is missing",
        ),
        ('[check.x]\nname = "x"\nfact = "f"\nplace = "mat"\nexpect = "e"\nfooting = "common_practice"', "method is missing"),
    ],
)
def test_data_that_break_their_rules_are_named(more: str, complaint: str) -> None:
    """File, table, field, and what would be right."""
    with pytest.raises(CatalogueError, match=complaint) as caught:
        read_procedures({"small.toml": SMALL_BOX, "own.toml": more})
    assert caught.value.file == "own.toml"


_OWN = """
[part.sling_mount]
name = "sling mount"
place = "mat"
in_front_of = ["shell"]
off = "Two screws."
back = "Two screws, hand-tight."

[[amend]]
entry = "check.shim_pack"
reading = { high = 0.2 }
"""


def test_own_parts_stand_in_front_of_packaged_ones() -> None:
    """A part says of itself what it is in front of, and a limit is amended without touching the rest."""
    procedure = read_procedures({"small.toml": SMALL_BOX, "own.toml": _OWN}).procedure("fixed guide")
    assert procedure.front_of("shell") == {"battery", "sling_mount"}
    reading = procedure.check("shim_pack").reading
    assert reading is not None
    assert (reading.low, reading.high) == (0.05, 0.2)


def test_a_named_job_is_found_by_any_of_its_words() -> None:
    """Key, name or another word; what this gun lacks is left out."""
    box = small_box()
    for words in ("service", "Whole service", "everything"):
        assert box.named_job(words, "fixed guide").work == ("bond_bearing", "replace_latch")
    assert box.named_job("service", "latch deleted").work == ("bond_bearing",)


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ('words = ["mine"]', r"^mine\.toml, line 3: \[check\.closed_box_float\] words .* means nothing here"),
        (
            'place = "hall"',
            r"^mine\.toml, line 3: \[check\.closed_box_float\] place = 'hall' is no place of any variation\. Did you mean shell",
        ),
        ('remedies = ["prey"]', r"^mine\.toml, line 3: .* is no action of any variation\. Known are .* and others"),
    ],
)
def test_a_slip_in_an_amendment_is_blamed_on_the_file_that_amends(text: str, complaint: str) -> None:
    """Not on the packaged file, which nobody touched; and what would be right is offered."""
    with pytest.raises(CatalogueError, match=complaint):
        add_own_steps(f'[[amend]]\nentry = "check.closed_box_float"\n{text}\n', file="mine.toml")


@pytest.mark.parametrize("sort", ["part", "check", "action", "job"])
def test_a_list_in_place_of_tables_is_refused(sort: str) -> None:
    """Two brackets instead of one."""
    with pytest.raises(CatalogueError, match=rf"must hold tables \[{sort}\.name\]"):
        add_own_steps(f'[[{sort}]]\nname = "x"\n', file="mine.toml")
