"""At which energies published experiments saw harm to eye and skin: never to be sorted, nor joined by a line."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from stripdown.catalogue.entries import CatalogueEntry, named, packaged_text, read_entries
from stripdown.quantities import Q
from stripdown.tables.table import Table

_FILE = "injuries.toml"
_ENERGY: Final = Q("J", low=1e-4, high=100, label="energy")
_PER_AREA: Final = Q("J/m2", low=1, high=1e7, label="energy per area", shown="J/cm2")
_CHANCE: Final = Q("1", low=0, high=1, label="share that was harmed", shown="%")


@dataclass(frozen=True, slots=True, kw_only=True)
class CatalogueInjury(CatalogueEntry):
    """One harm that was seen.

    Parameters
    ----------
    of
        Eye or skin.
    energy
        In J; None if it is given by area.
    energy_per_area
        In J/m2; None if it is given as an energy.
    chance
        Share that was harmed; None if the source does not say.
    date
        Of the source.
    """

    of: str
    energy: float | None
    energy_per_area: float | None
    chance: float | None
    date: str

    def is_reached(self, *, energy: float, energy_per_area: float) -> bool:
        """Whether a ball has as much; less proves nothing.

        Parameters
        ----------
        energy
            Of the ball, in J.
        energy_per_area
            Of the ball, in J/m2.

        Returns
        -------
        bool
        """
        return energy >= self.energy if self.energy is not None else energy_per_area >= (self.energy_per_area or 0.0)


@functools.cache
def load_injuries() -> Mapping[str, CatalogueInjury]:
    """Read the packaged injury thresholds.

    Returns
    -------
    mapping
        Threshold by key, in the order of the file, which means nothing.
    """
    return read_entries(packaged_text(_FILE), file=_FILE, noun="injury", read=_injury)


def _injury(entry: Table) -> CatalogueInjury:
    if ("energy" in entry.fields) == ("energy_per_area" in entry.fields):
        raise entry.wrong("energy", entry.fields.get("energy"), "must stand alone: an energy, or an energy per area.")
    return CatalogueInjury(
        **named(entry, "of", "energy", "energy_per_area", "chance", "date"),
        of=entry.text("of"),
        energy=entry.quantity("energy", _ENERGY) if "energy" in entry.fields else None,
        energy_per_area=entry.quantity("energy_per_area", _PER_AREA) if "energy_per_area" in entry.fields else None,
        chance=entry.quantity("chance", _CHANCE) if "chance" in entry.fields else None,
        date=entry.text("date"),
    )
