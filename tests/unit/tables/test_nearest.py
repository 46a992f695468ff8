"""What is offered for a mistyped key."""

from __future__ import annotations

import pytest

from stripdown.tables.nearest import near_names, nearest_name

_MANY = [f"replace_part_{number}" for number in range(40)]


@pytest.mark.parametrize(
    ("name", "known", "offered"),
    [
        ("cylindr seal", ["cylinder_seal", "lip_seal", "polarity"], "Did you mean cylinder_seal?"),
        ("seal", ["cylinder_seal", "polarity"], "Did you mean cylinder_seal?"),
        ("banana", ["fixed", "quick"], "Known are fixed, quick."),
        ("zamac_3", ["zamak_3", "zamak_5"], "Did you mean zamak_3?"),
        ("seel", ["seal", "seat", "reel"], "Did you mean seal or reel?"),
        ("Paly", ["PLAY", "float"], "Did you mean PLAY?"),
        ("banana", ["fixed"], "Known is fixed."),
    ],
)
def test_what_is_near_is_offered_and_else_all_of_a_few(name: str, known: list[str], offered: str) -> None:
    """Letters first, then words in common, then the whole list."""
    assert nearest_name(name, known) == offered


def test_a_name_that_is_like_none_of_many_still_gets_an_offer() -> None:
    """Three of many say at least how such names read."""
    assert near_names("??", _MANY) == ()
    assert nearest_name("??", _MANY).startswith("Known are replace_part_")
