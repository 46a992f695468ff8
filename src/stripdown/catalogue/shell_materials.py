"""What bosses and shells are made of: how much shear a thread in them bears."""

from __future__ import annotations

import enum
import functools
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.catalogue.entries import Entry, packaged_text, read_entries
from stripdown.core.part_condition.screws import SHEAR_STRENGTH
from stripdown.references.provenance import Provenance

_FILE = "shell_materials.toml"


class Family(enum.Enum):
    """What a material behaves like under a screw."""

    ZINC = "zinc"
    ALUMINIUM = "aluminium"
    PLASTIC = "plastic"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShellMaterial:
    """One material of bosses."""

    key: str
    name: str
    family: Family
    shear_strength: float
    provenance: Provenance


@functools.cache
def load_shell_materials() -> Mapping[str, ShellMaterial]:
    """Read the packaged materials of bosses."""
    return read_shell_materials(packaged_text(_FILE), file=_FILE)


def read_shell_materials(text: str, *, file: str) -> Mapping[str, ShellMaterial]:
    """Read materials of bosses from TOML."""
    found = (_material(entry) for entry in read_entries(text, file=file, noun="shell_material"))
    return MappingProxyType({material.key: material for material in found})


def _material(entry: Entry) -> ShellMaterial:
    entry.only("name", "family", "shear_strength")
    return ShellMaterial(
        key=entry.key.partition(".")[2],
        name=entry.text("name"),
        family=_family(entry),
        shear_strength=entry.number("shear_strength", SHEAR_STRENGTH),
        provenance=entry.provenance(),
    )


def _family(entry: Entry) -> Family:
    said = entry.text("family")
    try:
        return Family(said)
    except ValueError:
        raise entry.wrong("family", said, f"must be one of {', '.join(member.value for member in Family)}.") from None
