"""Spring wire: how stiff its steel is."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.catalogue.entries import Entry, packaged_text, read_entries
from stripdown.quantities import Q
from stripdown.references.provenance import Provenance

_FILE = "wires.toml"
_SHEAR_MODULUS = Q("Pa", low=1e9, high=2e11, usual=(70e9, 85e9), label="shear modulus", shown="GPa")
DEFAULT_WIRE = "music_wire"
"""Wire that is assumed when a gun's file gives coils and no material."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wire:
    """One wire material."""

    key: str
    name: str
    shear_modulus: float
    provenance: Provenance


@functools.cache
def load_wires() -> Mapping[str, Wire]:
    """Read the packaged wire materials."""
    return read_wires(packaged_text(_FILE), file=_FILE)


def read_wires(text: str, *, file: str) -> Mapping[str, Wire]:
    """Read wire materials from TOML."""
    found = (_wire(entry) for entry in read_entries(text, file=file, noun="wire"))
    return MappingProxyType({wire.key: wire for wire in found})


def _wire(entry: Entry) -> Wire:
    entry.only("name", "shear_modulus")
    return Wire(
        key=entry.key.partition(".")[2],
        name=entry.text("name"),
        shear_modulus=entry.number("shear_modulus", _SHEAR_MODULUS),
        provenance=entry.provenance(),
    )
