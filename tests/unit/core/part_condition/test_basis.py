from __future__ import annotations

from typing import get_args

from stripdown.core.part_condition.basis import StandingWords
from stripdown.references.provenance import Standing


def test_standings_are_worded_as_in_the_catalogue() -> None:
    """The core cannot see the catalogue; what a reader sees is the same, but for what is derived here, and makers' claims."""
    worded = {standing.words for standing in Standing}
    assert set(get_args(StandingWords)) - {"derived"} <= worded
