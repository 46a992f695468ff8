"""Balls by the mass printed on the bag."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from stripdown.catalogue.entries import Entry, packaged_text, read_entries
from stripdown.core.parts.ball import Ball
from stripdown.quantities import leaves
from stripdown.references.provenance import Provenance

_FILE = "balls.toml"
_DECLARED: Mapping[str, Any] = {leaf.path: leaf.quantity for leaf in leaves(Ball)}


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueBall:
    """One weight of ball."""

    key: str
    name: str
    ball: Ball
    mass_uncertainty: float
    provenance: Provenance


@functools.cache
def load_balls() -> Mapping[str, CatalogueBall]:
    """Read the packaged balls."""
    return read_balls(packaged_text(_FILE), file=_FILE)


def read_balls(text: str, *, file: str) -> Mapping[str, CatalogueBall]:
    """Read balls from TOML."""
    found = sorted((_ball(entry) for entry in read_entries(text, file=file, noun="ball")), key=lambda ball: ball.ball.mass)
    return MappingProxyType({ball.key: ball for ball in found})


def _ball(entry: Entry) -> CatalogueBall:
    entry.only("name", "mass", "diameter", "uncertainty")
    uncertainty = Entry(entry.file, f"{entry.key}.uncertainty", entry.fields.get("uncertainty", {}))
    return CatalogueBall(
        key=entry.key.partition(".")[2],
        name=entry.text("name"),
        ball=Ball(mass=entry.number("mass", _DECLARED["mass"]), diameter=entry.number("diameter", _DECLARED["diameter"])),
        mass_uncertainty=uncertainty.number("mass", _DECLARED["mass"], difference=True),
        provenance=entry.provenance(),
    )
