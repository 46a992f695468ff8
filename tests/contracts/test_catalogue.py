"""The catalogue loads, and what was released stays: files of technicians refer to its keys."""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping
from importlib.resources import files
from pathlib import Path

import pytest

from stripdown import catalogue
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.quantities import leaves

_FILES = sorted(entry.name for entry in files("stripdown.catalogue").joinpath("data").iterdir() if entry.name.endswith(".toml"))


def _load(file: str) -> Mapping[str, object]:
    loader: Callable[[], Mapping[str, object]] = getattr(catalogue, f"load_{file.removesuffix('.toml')}")
    return loader()


@pytest.mark.parametrize("file", _FILES)
def test_a_file_loads_with_all_its_entries(file: str) -> None:
    """Every data file has the loader named for it, and arrives with units, footing and source in order."""
    assert len(_load(file)) > 0


def test_every_parameter_of_a_shot_has_a_default() -> None:
    """A gun's file may leave out anything: what it leaves out is assumed, and said to be assumed."""
    assert set(catalogue.load_defaults()) == {leaf.path for leaf in leaves(ShotParameters)}


def test_no_released_key_is_missing() -> None:
    """The list may grow and not shrink."""
    released = tomllib.loads(Path(__file__).with_name("released_keys.toml").read_text(encoding="utf-8"))
    missing = {file: sorted(set(keys) - set(_load(file))) for file, keys in released.items()}
    assert not any(missing.values()), missing
