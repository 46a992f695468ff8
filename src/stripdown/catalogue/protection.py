"""Classes of eye protection, by the test that they pass."""

from __future__ import annotations

import enum
import functools
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.quantities import Q
from stripdown.tables.table import Table

_FILE = "protection.toml"
_MASS: Final = Q("kg", low=1e-5, high=1, label="mass of the test ball", shown="g")
_DIAMETER: Final = Q("m", low=1e-3, high=0.1, label="diameter of the test ball", shown="mm")
_SPEED: Final = Q("m/s", low=0.1, high=500, label="speed of the test")


class ImpactTest(enum.Enum):
    """What hits the lens in a test."""

    FAST_BALL = "light ball at speed"
    FALLING_MASS = "heavy and slow"


_TESTS: Final = {test.name.lower(): test for test in ImpactTest}


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueProtection(CatalogueEntry):
    """One class of eye protection.

    Parameters
    ----------
    standard
        Number of the standard.
    mark
        What stands on lens and frame.
    test
        What hits the lens.
    mass
        Of the test ball, in kg.
    diameter
        Of the test ball, in m.
    speed
        Of the test, in m/s.
    worn_as
        Spectacles, goggles or face shields.
    date
        Of the standard.
    """

    standard: str
    mark: str
    test: ImpactTest
    mass: float
    diameter: float
    speed: float
    worn_as: str
    date: str

    @property
    def energy(self) -> float:
        """Energy of the test in J."""
        return 0.5 * self.mass * self.speed**2

    @property
    def energy_per_area(self) -> float:
        """Energy of the test over the cross-section of its ball, in J/m2."""
        return self.energy / (0.25 * math.pi * self.diameter**2)


@functools.cache
def load_protection() -> Mapping[str, CatalogueProtection]:
    """Read the packaged classes of eye protection.

    Returns
    -------
    mapping
        Class by key.
    """
    return read_entries(packaged_text(_FILE), file=_FILE, noun="protection", read=_protection)


def _protection(entry: Table) -> CatalogueProtection:
    return CatalogueProtection(
        **named(entry, "standard", "mark", "sort", "mass", "diameter", "speed", "worn_as", "date"),
        standard=entry.text("standard"),
        mark=entry.text("mark"),
        test=entry.choice("sort", _TESTS),
        mass=entry.quantity("mass", _MASS),
        diameter=entry.quantity("diameter", _DIAMETER),
        speed=entry.quantity("speed", _SPEED),
        worn_as=entry.text("worn_as"),
        date=entry.text("date"),
    )
