"""Property classes of screws: what the number on the head promises."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.core.part_condition.screws import YIELD_STRENGTH
from stripdown.quantities import Q
from stripdown.tables.table import Table

_FILE = "screw_classes.toml"
_TENSILE_STRENGTH = Q("Pa", low=1e6, high=3e9, usual=(300e6, 1300e6), label="tensile strength", shown="MPa")


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewClass(CatalogueEntry):
    """One property class."""

    tensile_strength: float
    yield_strength: float


@functools.cache
def load_screw_classes() -> Mapping[str, ScrewClass]:
    """Read the packaged property classes."""
    return read_screw_classes(packaged_text(_FILE), file=_FILE)


def read_screw_classes(text: str, *, file: str) -> Mapping[str, ScrewClass]:
    """Read property classes from TOML."""
    return read_entries(text, file=file, noun="screw_class", read=_screw_class)


def _screw_class(entry: Table) -> ScrewClass:
    return ScrewClass(
        **named(entry, "tensile_strength", "yield_strength"),
        tensile_strength=entry.quantity("tensile_strength", _TENSILE_STRENGTH),
        yield_strength=entry.quantity("yield_strength", YIELD_STRENGTH),
    )
