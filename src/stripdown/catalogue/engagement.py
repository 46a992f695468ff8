"""Least distances between players that sites ask for, by the energy of the gun: common practice, the site's own rule counts."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.quantities import Q
from stripdown.tables.table import Table

_FILE = "engagement.toml"
_ENERGY: Final = Q("J", low=0, high=100, label="energy at the muzzle")
_DISTANCE: Final = Q("m", low=0, high=200, label="least distance")


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueEngagement(CatalogueEntry):
    """One band of energies.

    Parameters
    ----------
    over
        Energy at the muzzle from which it is for, in J.
    up_to
        Energy to which it is for, in J.
    distance
        Least distance that sites ask for, in m.
    usual_to
        The most that they ask for, in m.
    place
        Whose rules.
    date
        When they were read.
    remark
        What else they say.
    """

    over: float
    up_to: float
    distance: float
    usual_to: float
    place: str
    date: str
    remark: str


@functools.cache
def load_engagement() -> Mapping[str, CatalogueEngagement]:
    """Read the packaged least distances.

    Returns
    -------
    mapping
        Band by key, by energy.
    """
    return read_entries(packaged_text(_FILE), file=_FILE, noun="engagement", read=_band)


def _band(entry: Table) -> CatalogueEngagement:
    return CatalogueEngagement(
        **named(entry, "over", "up_to", "distance", "usual_to", "place", "date", "remark"),
        over=entry.quantity("over", _ENERGY),
        up_to=entry.quantity("up_to", _ENERGY),
        distance=entry.quantity("distance", _DISTANCE),
        usual_to=entry.quantity("usual_to", _DISTANCE),
        place=entry.text("place"),
        date=entry.text("date"),
        remark=entry.text("remark"),
    )
