"""Balls by the mass printed on the bag."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.core.parts.ball import Ball
from stripdown.quantities import leaves
from stripdown.tables.table import Table

_FILE = "balls.toml"
_DECLARED: Mapping[str, Any] = {leaf.path: leaf.quantity for leaf in leaves(Ball)}


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueBall(CatalogueEntry):
    """One weight of ball."""

    ball: Ball
    mass_uncertainty: float


@functools.cache
def load_balls() -> Mapping[str, CatalogueBall]:
    """Read the packaged balls."""
    return read_balls(packaged_text(_FILE), file=_FILE)


def read_balls(text: str, *, file: str) -> Mapping[str, CatalogueBall]:
    """Read balls from TOML."""
    found = read_entries(text, file=file, noun="ball", read=_ball)
    return MappingProxyType(dict(sorted(found.items(), key=lambda one: one[1].ball.mass)))


def _ball(entry: Table) -> CatalogueBall:
    return CatalogueBall(
        **named(entry, "mass", "diameter", "uncertainty"),
        ball=Ball(**{name: entry.quantity(name, _DECLARED[name]) for name in ("mass", "diameter")}),
        mass_uncertainty=entry.table("uncertainty").quantity("mass", _DECLARED["mass"], difference=True),
    )
