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
    """

    cautions: tuple[str, ...] = ()


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
    return MappingProxyType({key: dataclasses.replace(fluid, cautions=_cautions(found, key)) for key, fluid in found.items()})


def _fluid(entry: Table) -> Fluid:
    return Fluid(**kind_fields(entry, "cautions"), cautions=entry.texts("cautions"))


def _cautions(fluids: Mapping[str, Fluid], key: str) -> tuple[str, ...]:
    holding = rated_as(fluids, key) - {key}
    wider = [caution for name, fluid in fluids.items() if name in holding for caution in fluid.cautions]
    return tuple(dict.fromkeys([*wider, *fluids[key].cautions]))
