"""What people call things leads to one entry, and only what they named."""

from __future__ import annotations

import pytest

from stripdown.catalogue.spoken_names import SpokenNames
from stripdown.errors import CatalogueError

NAMES = SpokenNames(
    {
        "pa66": ("polyamide 66", "PA66", "nylon 6.6"),
        "isopropyl_alcohol": ("isopropyl alcohol", "IPA"),
        "alcohol": ("alcohol of a kind not told",),
        "oil": ("oil of a kind not told",),
        "silicone_oil": ("silicone oil",),
    },
    file="names.toml",
)


@pytest.mark.parametrize("typed", ["pa66", "PA 66", "pa-66", "Polyamide 66", "NYLON 6.6", "nylon66"])
def test_case_and_spacing_do_not_matter(typed: str) -> None:
    """Blanks, hyphens and points are left out before names are compared."""
    assert NAMES.key_of(typed) == "pa66"


def test_a_stranger_has_no_key() -> None:
    """Nothing is guessed."""
    assert NAMES.key_of("pa") is None
    assert NAMES.key_of("") is None


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("wiped with IPA, then a film of silicone oil", ("isopropyl_alcohol", "silicone_oil")),
        ("isopropyl alcohol", ("isopropyl_alcohol",)),
        ("dry, no oil", ()),
        ("without silicone oil, with oil", ("oil",)),
        ("a drop of oil, and oil again", ("oil",)),
        ("spoiled", ()),
    ],
)
def test_a_sentence_names_what_it_names(text: str, keys: tuple[str, ...]) -> None:
    """Whole words only, the longest name first, and not what it denies."""
    assert NAMES.named_in(text) == keys


def test_a_mistyped_name_is_met_half_way() -> None:
    """Names are offered as they are written, one for each entry, the nearest first."""
    assert NAMES.near("isopropil alcohol")[0] == "isopropyl alcohol"
    assert NAMES.near("xxxxxxxx") == ()


def test_one_name_for_two_entries_is_refused() -> None:
    """Otherwise the order of the file would decide what a word means."""
    with pytest.raises(CatalogueError, match='"Grease" is a name of a and of b'):
        SpokenNames({"a": ("grease",), "b": ("Grease",)}, file="names.toml")
