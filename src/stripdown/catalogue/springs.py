"""Springs by trade label: an assumption, never a measurement."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.core.parts.spring import Spring
from stripdown.quantities import Q, leaves
from stripdown.tables.table import Table

_FILE = "springs.toml"
_DECLARED: Mapping[str, Any] = {leaf.path: leaf.quantity for leaf in leaves(Spring, "spring.")}
FREE_LENGTH = Q(
    "m",
    low=0.01,
    high=1,
    usual=(0.130, 0.210),
    label="free length of the spring",
    shown="mm",
    explain="Length of the spring lying on the bench, pressed by nothing.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelledSpring(CatalogueEntry):
    """What a spring of some trade label is assumed to be."""

    spring: Spring
    free_length: float
    rate_uncertainty: float


@functools.cache
def load_springs() -> Mapping[str, LabelledSpring]:
    """Read the packaged springs."""
    return read_springs(packaged_text(_FILE), file=_FILE)


def read_springs(text: str, *, file: str) -> Mapping[str, LabelledSpring]:
    """Read springs from TOML."""
    return read_entries(text, file=file, noun="spring", read=_spring)


def _spring(entry: Table) -> LabelledSpring:
    return LabelledSpring(
        **named(entry, "rate", "preload", "mass", "free_length", "uncertainty"),
        spring=Spring(**{name: entry.quantity(name, _DECLARED[f"spring.{name}"]) for name in ("rate", "preload", "mass")}),
        free_length=entry.quantity("free_length", FREE_LENGTH),
        rate_uncertainty=entry.table("uncertainty").quantity("rate", _DECLARED["spring.rate"], difference=True),
    )
