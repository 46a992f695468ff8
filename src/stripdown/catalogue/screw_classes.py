"""Property classes of screws: what the number on the head promises."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.catalogue.entries import Entry, packaged_text, read_entries
from stripdown.core.part_condition.screws import YIELD_STRENGTH
from stripdown.quantities import Q
from stripdown.references.provenance import Provenance

_FILE = "screw_classes.toml"
_TENSILE_STRENGTH = Q("Pa", low=1e6, high=3e9, usual=(300e6, 1300e6), label="tensile strength", shown="MPa")


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewClass:
    """One property class."""

    key: str
    name: str
    tensile_strength: float
    yield_strength: float
    provenance: Provenance


@functools.cache
def load_screw_classes() -> Mapping[str, ScrewClass]:
    """Read the packaged property classes."""
    return read_screw_classes(packaged_text(_FILE), file=_FILE)


def read_screw_classes(text: str, *, file: str) -> Mapping[str, ScrewClass]:
    """Read property classes from TOML."""
    found = (_screw_class(entry) for entry in read_entries(text, file=file, noun="screw_class"))
    return MappingProxyType({one.key: one for one in found})


def _screw_class(entry: Entry) -> ScrewClass:
    entry.only("name", "tensile_strength", "yield_strength")
    return ScrewClass(
        key=entry.key.partition(".")[2],
        name=entry.text("name"),
        tensile_strength=entry.number("tensile_strength", _TENSILE_STRENGTH),
        yield_strength=entry.number("yield_strength", YIELD_STRENGTH),
        provenance=entry.provenance(),
    )
