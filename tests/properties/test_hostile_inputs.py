"""No made-up input gets a traceback, steers the terminal or fills it, and no absurd gun gets a number that cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.hostile_inputs import COMMANDS, fired, sent

SEEDS = st.integers(0, 10**9)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the inputs of this module are written, one over the other."""
    return tmp_path_factory.mktemp("hostile")


@pytest.mark.parametrize("kind", COMMANDS)
@given(seed=SEEDS)
def test_a_hostile_input_ends_a_command_as_any_mistake_does(kind: str, seed: int, folder: Path) -> None:
    """One of the exit codes, words that steer nothing, none of them longer than a line or two."""
    sent(kind, seed, folder)


@given(seed=SEEDS)
def test_an_absurd_gun_keeps_every_rule_or_is_refused(seed: int) -> None:
    """Every number anywhere in its limits: air stays positive, piston and ball stay in their ways, the ledger closes."""
    fired(seed)
