"""What the parts of a gun are made of, so far as anybody can say without asking the part."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.catalogue.materials import load_materials
from stripdown.catalogue.spoken_names import SpokenNames
from stripdown.tables.table import Table

_FILE = "part_materials.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMaterials(CatalogueEntry):
    """One part, and the materials in which it is met.

    Parameters
    ----------
    key
        Stable name (``"hop_up_rubber"``).
    name
        Its name for people, as it stands in the middle of a sentence.
    also_called
        Other names that people use.
    materials
        Keys of the materials; a part of several makes has several, and a part of several pieces too.
    is_stressed
        Whether it is clamped, screwed, pressed or sprung where it sits.
    groups
        Words that ratings use for several parts, such as ``"running_steel"``.
    provenance
        Where this comes from.
    """

    materials: tuple[str, ...]
    is_stressed: bool
    groups: tuple[str, ...]


@functools.cache
def load_part_materials() -> Mapping[str, PartMaterials]:
    """Read what the parts of a gun are made of.

    Returns
    -------
    mapping
        Part by key, in the order of the file.

    Raises
    ------
    CatalogueError
        With entry and field.
    """
    return read_part_materials(packaged_text(_FILE), file=_FILE)


@functools.cache
def part_names() -> SpokenNames:
    """Names by which the packaged parts are known."""
    return SpokenNames({key: part.names for key, part in load_part_materials().items()}, file=_FILE)


def read_part_materials(text: str, *, file: str) -> Mapping[str, PartMaterials]:
    """Read parts and their materials from TOML."""
    return read_entries(text, file=file, noun="part", read=_part)


def _part(entry: Table) -> PartMaterials:
    materials = entry.texts("materials", least=1)
    entry.known("materials", materials, load_materials(), "is not in materials.toml.")
    return PartMaterials(
        **named(entry, "materials", "stressed", "groups"),
        materials=materials,
        is_stressed=entry.flag("stressed"),
        groups=entry.texts("groups"),
    )
