"""What is offered for a mistyped key."""

from __future__ import annotations

import pytest

from stripdown.procedures.nearest_key import near_keys, nearest_key

_MANY = [f"replace_part_{number}" for number in range(40)]


@pytest.mark.parametrize(
    ("name", "known", "offered"),
    [
        ("cylindr seal", ["cylinder_seal", "lip_seal", "polarity"], "Nearest known: cylinder_seal, lip_seal."),
        ("seal", ["cylinder_seal", "polarity"], "Nearest known: cylinder_seal."),
        ("banana", ["fixed", "quick"], "Known are fixed, quick."),
    ],
)
def test_what_is_near_is_offered_and_else_all_of_a_few(name: str, known: list[str], offered: str) -> None:
    """Letters first, then words in common, then the whole list."""
    assert nearest_key(name, known) == offered


def test_a_name_that_is_like_none_of_many_still_gets_an_offer() -> None:
    """Three of many say at least how such names read."""
    assert near_keys("??", _MANY) == ()
    assert nearest_key("??", _MANY).startswith("Nearest known: replace_part_")
