"""Materials of a gun: rubbers, plastics, metals, with the codes of ISO 1629 and ISO 1043."""

from __future__ import annotations

import functools
from collections.abc import Mapping

from stripdown.catalogue.entries import packaged_text, read_entries
from stripdown.catalogue.kinds import Kind, check_kinds, kind_fields
from stripdown.catalogue.spoken_names import SpokenNames

_FILE = "materials.toml"


@functools.cache
def load_materials() -> Mapping[str, Kind]:
    """Read the packaged materials.

    Returns
    -------
    mapping
        Material or wider kind of material by key.

    Raises
    ------
    CatalogueError
        With entry and field.
    """
    return read_materials(packaged_text(_FILE), file=_FILE)


@functools.cache
def material_names() -> SpokenNames:
    """Names by which the packaged materials are known."""
    return SpokenNames({key: kind.names for key, kind in load_materials().items()}, file=_FILE)


def read_materials(text: str, *, file: str) -> Mapping[str, Kind]:
    """Read materials from TOML."""
    found = read_entries(text, file=file, noun="material", read=lambda entry: Kind(**kind_fields(entry)))
    check_kinds(found, file=file)
    return found
