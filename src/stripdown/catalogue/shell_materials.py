"""What bosses and shells are made of: how much shear a thread in them bears."""

from __future__ import annotations

import enum
import functools
from collections.abc import Mapping
from dataclasses import dataclass

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.core.part_condition.screws import SHEAR_STRENGTH
from stripdown.tables.table import Table

_FILE = "shell_materials.toml"


class Family(enum.Enum):
    """What a material behaves like under a screw."""

    ZINC = "zinc"
    ALUMINIUM = "aluminium"
    PLASTIC = "plastic"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShellMaterial(CatalogueEntry):
    """One material of bosses."""

    family: Family
    shear_strength: float


@functools.cache
def load_shell_materials() -> Mapping[str, ShellMaterial]:
    """Read the packaged materials of bosses."""
    return read_shell_materials(packaged_text(_FILE), file=_FILE)


def read_shell_materials(text: str, *, file: str) -> Mapping[str, ShellMaterial]:
    """Read materials of bosses from TOML."""
    return read_entries(text, file=file, noun="shell_material", read=_material)


def _material(entry: Table) -> ShellMaterial:
    return ShellMaterial(
        **named(entry, "family", "shear_strength"),
        family=entry.choice("family", {one.value: one for one in Family}),
        shear_strength=entry.quantity("shear_strength", SHEAR_STRENGTH),
    )
