"""What a person says of a gun, and the variation that is meant."""

from __future__ import annotations

import pytest

from stripdown.errors import InputError
from stripdown.procedures.variations import Variation
from tests.small_box import small_box

_BOX = small_box()


@pytest.mark.parametrize(
    "said",
    [
        {"guide": "quick_guide", "latch": "latch_present"},
        {"guide": "Quick-change guide", "latch": "latch present"},
        "quick-change guide, latch present",
        ["latch_present", "QUICK GUIDE"],
    ],
)
def test_a_variation_is_understood_however_it_is_said(said: object) -> None:
    """Keys, names, any case, blanks for underscores; by feature or as choices alone."""
    assert dict(_BOX.variation(said).choices) == {"guide": "quick_guide", "latch": "latch_present"}  # type: ignore[arg-type]


def test_what_is_not_said_is_assumed() -> None:
    """The first choice, unless a default depends on another feature."""
    assert dict(_BOX.variation("").choices) == {"guide": "fixed_guide", "latch": "latch_present"}
    assert _BOX.variation("quick guide").choices["latch"] == "latch_deleted"
    assert _BOX.variation("fixed").name == "fixed guide, latch present"


def test_a_variation_is_itself_understood() -> None:
    """What was chosen once can be handed on."""
    chosen = _BOX.variation("quick guide")
    assert _BOX.variation(chosen) == chosen
    assert _BOX.procedure(chosen) is _BOX.procedure("quick-change guide")


def test_every_combination_is_a_variation() -> None:
    """Two features of two choices make four variations, all different."""
    assert len(set(_BOX.variations())) == 4
    assert all(isinstance(one, Variation) for one in _BOX.variations())


@pytest.mark.parametrize(
    ("said", "complaint"),
    [
        ("quick gide", r'"quick gide" is no variation of a gun\. Did you mean quick_guide'),
        ("fixed guide, quick guide", "cannot be both fixed guide and quick-change guide"),
        ({"gide": "fixed_guide"}, r'"gide" is no feature .* Did you mean guide'),
        ({"guide": "latch_present"}, r'"latch_present" is no variation'),
    ],
)
def test_a_slip_is_named(said: object, complaint: str) -> None:
    """An unknown word with the nearest known one; two choices of one feature by both."""
    with pytest.raises(InputError, match=complaint):
        _BOX.variation(said)  # type: ignore[arg-type]


def test_a_part_of_another_variation_plays_no_part() -> None:
    """Without a latch there is no latch, no work on it, and nothing that names it is left dangling."""
    with_latch, without = _BOX.procedure("latch present"), _BOX.procedure("latch deleted")
    assert "latch" in with_latch.parts
    assert "latch" not in without.parts
    assert "replace_latch" not in without.actions
    assert without.front_of("spring") == {"battery", "shell"}
    assert _BOX.procedure("quick guide").front_of("shell") == {"battery", "spring"}
