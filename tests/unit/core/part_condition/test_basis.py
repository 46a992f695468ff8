from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator
from typing import get_args

import pytest

import stripdown.core.part_condition as room
from stripdown.core.part_condition.band import Band
from stripdown.core.part_condition.basis import Basis, FootingWords
from stripdown.references import load_references
from stripdown.references.provenance import Footing
from stripdown.studies import drag_cost, leak_cost, pad_cost


def _bases() -> Iterator[tuple[str, Basis]]:
    modules = [importlib.import_module(f"{room.__name__}.{found.name}") for found in pkgutil.iter_modules(room.__path__)]
    for module in (*modules, drag_cost, leak_cost, pad_cost):
        for name, thing in vars(module).items():
            basis = thing.basis if isinstance(thing, Band) else thing
            if isinstance(basis, Basis):
                yield f"{module.__name__}.{name}", basis


def test_standings_are_worded_as_in_the_catalogue() -> None:
    """What a reader sees is the same, but for what is derived here."""
    assert set(get_args(FootingWords)) - {"derived"} <= {footing.words for footing in Footing}


def test_the_bases_are_found() -> None:
    """The search itself works."""
    assert len(dict(_bases())) > 10


@pytest.mark.parametrize(("name", "basis"), list(_bases()))
def test_a_basis_is_whole(name: str, basis: Basis) -> None:
    """Whatever is published has a source in the register; every answer has a place or reason, a range and a caution."""
    assert basis.footing != "published" or basis.source, name
    assert not basis.source or basis.source in load_references()
    assert basis.place
    assert basis.holds_for
    assert basis.caution
