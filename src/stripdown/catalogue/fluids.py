"""What a gun is cleaned, greased and glued with, and what to beware of with each."""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.catalogue.entries import packaged_text, read_entries
from stripdown.catalogue.kinds import Kind, check_kinds, kind_fields, rated_as
from stripdown.catalogue.spoken_names import SpokenNames
from stripdown.tables.table import Table

_FILE = "fluids.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fluid(Kind):
    """One cleaner, lubricant or adhesive, or a wider kind of them.

    Parameters
    ----------
    cautions
        What can do harm to people or gun, one sentence each; what holds for a wider kind holds for all in it.
    cure_hours
        Of an adhesive, how long until it carries load, in h; None if nothing is said of its kind.
    """

    cautions: tuple[str, ...] = ()
    cure_hours: float | None = None


@functools.cache
def load_fluids() -> Mapping[str, Fluid]:
    """Read the packaged fluids.

    Returns
    -------
    mapping
        Fluid or wider kind of fluid by key.

    Raises
    ------
    CatalogueError
        With entry and field.
    """
    return read_fluids(packaged_text(_FILE), file=_FILE)


@functools.cache
def fluid_names() -> SpokenNames:
    """Names by which the packaged fluids are known."""
    return SpokenNames({key: fluid.names for key, fluid in load_fluids().items()}, file=_FILE)


def read_fluids(text: str, *, file: str) -> Mapping[str, Fluid]:
    """Read fluids from TOML."""
    found = read_entries(text, file=file, noun="fluid", read=_fluid)
    check_kinds(found, file=file)
    return MappingProxyType(
        {
            key: dataclasses.replace(fluid, cautions=_cautions(found, key), cure_hours=_cure_hours(found, key))
            for key, fluid in found.items()
        }
    )


def _fluid(entry: Table) -> Fluid:
    fields = kind_fields(entry, "cautions", "cure_hours")
    return Fluid(**fields, cautions=entry.texts("cautions"), cure_hours=entry.number("cure_hours"))


def _cure_hours(fluids: Mapping[str, Fluid], key: str) -> float | None:
    """Its own, or the longest of the kinds to which it belongs."""
    own = fluids[key].cure_hours
    wider = [hours for kind in fluids[key].kind_of if (hours := _cure_hours(fluids, kind)) is not None]
    return own if own is not None else max(wider, default=None)


def _cautions(fluids: Mapping[str, Fluid], key: str) -> tuple[str, ...]:
    holding = rated_as(fluids, key) - {key}
    wider = [caution for name, fluid in fluids.items() if name in holding for caution in fluid.cautions]
    return tuple(dict.fromkeys([*wider, *fluids[key].cautions]))
