"""What the parts of a gun are made of, so far as anybody can say without asking the part."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.catalogue.entries import Entry, packaged_text, read_entries
from stripdown.catalogue.kinds import texts
from stripdown.catalogue.materials import load_materials
from stripdown.catalogue.spoken_names import SpokenNames
from stripdown.references.provenance import Provenance

_FILE = "part_materials.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMaterials:
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

    key: str
    name: str
    also_called: tuple[str, ...]
    materials: tuple[str, ...]
    is_stressed: bool
    groups: tuple[str, ...]
    provenance: Provenance


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
    names = {key: (part.name, *part.also_called) for key, part in load_part_materials().items()}
    return SpokenNames(names, file=_FILE)


def read_part_materials(text: str, *, file: str) -> Mapping[str, PartMaterials]:
    """Read parts and their materials from TOML."""
    found = (_part(entry) for entry in read_entries(text, file=file, noun="part"))
    return MappingProxyType({part.key: part for part in found})


def _part(entry: Entry) -> PartMaterials:
    entry.only("name", "also_called", "materials", "stressed", "groups")
    materials = texts(entry, "materials", least=1)
    for key in materials:
        if key not in load_materials():
            raise entry.wrong("materials", key, "is not in materials.toml.")
    stressed = entry.fields.get("stressed")
    if not isinstance(stressed, bool):
        raise entry.wrong("stressed", stressed, "must be true or false.")
    return PartMaterials(
        key=entry.key.partition(".")[2],
        name=entry.text("name"),
        also_called=texts(entry, "also_called"),
        materials=materials,
        is_stressed=stressed,
        groups=texts(entry, "groups"),
        provenance=entry.provenance(),
    )
