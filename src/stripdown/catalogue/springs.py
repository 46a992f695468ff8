"""Springs by trade label: an assumption, never a measurement."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from stripdown.catalogue.entries import Entry, packaged_text, read_entries
from stripdown.core.parts.spring import Spring
from stripdown.quantities import Q, leaves
from stripdown.references.provenance import Provenance

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
class LabelledSpring:
    """What a spring of some trade label is assumed to be."""

    key: str
    label: str
    spring: Spring
    free_length: float
    rate_uncertainty: float
    provenance: Provenance


@functools.cache
def load_springs() -> Mapping[str, LabelledSpring]:
    """Read the packaged springs."""
    return read_springs(packaged_text(_FILE), file=_FILE)


def read_springs(text: str, *, file: str) -> Mapping[str, LabelledSpring]:
    """Read springs from TOML."""
    found = (_spring(entry) for entry in read_entries(text, file=file, noun="spring"))
    return MappingProxyType({spring.key: spring for spring in found})


def _spring(entry: Entry) -> LabelledSpring:
    entry.only("label", "rate", "preload", "mass", "free_length", "uncertainty")
    uncertainty = Entry(entry.file, f"{entry.key}.uncertainty", entry.fields.get("uncertainty", {}))
    return LabelledSpring(
        key=entry.key.partition(".")[2],
        label=entry.text("label"),
        spring=Spring(**{name: entry.number(name, _DECLARED[f"spring.{name}"]) for name in ("rate", "preload", "mass")}),
        free_length=entry.number("free_length", FREE_LENGTH),
        rate_uncertainty=uncertainty.number("rate", _DECLARED["spring.rate"], difference=True),
        provenance=entry.provenance(),
    )
