"""Spring wire: how stiff its steel is."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.quantities import Q
from stripdown.tables.table import Table

_FILE = "wires.toml"
_SHEAR_MODULUS = Q("Pa", low=1e9, high=2e11, usual=(70e9, 85e9), label="shear modulus", shown="GPa")
DEFAULT_WIRE = "music_wire"
"""Wire that is assumed when a gun's file gives coils and no material."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wire(CatalogueEntry):
    """One wire material."""

    shear_modulus: float


@functools.cache
def load_wires() -> Mapping[str, Wire]:
    """Read the packaged wire materials."""
    return read_wires(packaged_text(_FILE), file=_FILE)


def read_wires(text: str, *, file: str) -> Mapping[str, Wire]:
    """Read wire materials from TOML."""
    return read_entries(text, file=file, noun="wire", read=_wire)


def _wire(entry: Table) -> Wire:
    return Wire(
        **named(entry, "shear_modulus"),
        shear_modulus=entry.quantity("shear_modulus", _SHEAR_MODULUS),
    )
