"""The catalogue loads, and what was released stays: files of technicians refer to its keys."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from pathlib import Path

import pytest

from stripdown import catalogue
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.quantities import leaves

_FILES = sorted(entry.name for entry in files("stripdown.catalogue").joinpath("data").iterdir() if entry.name.endswith(".toml"))
_LOADERS = {
    "balls.toml": catalogue.load_balls,
    "defaults.toml": catalogue.load_defaults,
    "guns.toml": catalogue.load_guns,
    "springs.toml": catalogue.load_springs,
    "wires.toml": catalogue.load_wires,
}


def test_every_file_has_a_loader() -> None:
    """A data file that nobody reads would be a file that nobody checks."""
    assert sorted(_LOADERS) == _FILES


@pytest.mark.parametrize("file", sorted(_LOADERS))
def test_a_file_loads_with_all_its_entries(file: str) -> None:
    """Every entry arrives, with units, standing and source in order."""
    assert len(_LOADERS[file]()) > 0


def test_every_parameter_of_a_shot_has_a_default() -> None:
    """A gun's file may leave out anything: what it leaves out is assumed, and said to be assumed."""
    assert set(catalogue.load_defaults()) == {leaf.path for leaf in leaves(ShotParameters)}


def test_no_released_key_is_missing() -> None:
    """The list may grow and not shrink."""
    released = tomllib.loads(Path(__file__).with_name("released_keys.toml").read_text(encoding="utf-8"))
    missing = {file: sorted(set(keys) - set(map(str, _LOADERS[file]()))) for file, keys in released.items()}
    assert not any(missing.values()), missing
