"""The whole catalogue, to be listed and searched: every kind of entry, by key, name, other names and kind."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from stripdown.catalogue.balls import load_balls
from stripdown.catalogue.defaults import load_defaults
from stripdown.catalogue.engagement import load_engagement
from stripdown.catalogue.entries import CatalogueEntry
from stripdown.catalogue.faults import load_faults
from stripdown.catalogue.fluids import load_fluids
from stripdown.catalogue.guns import load_guns
from stripdown.catalogue.injuries import load_injuries
from stripdown.catalogue.limits import load_limits
from stripdown.catalogue.materials import load_materials
from stripdown.catalogue.part_materials import load_part_materials
from stripdown.catalogue.protection import load_protection
from stripdown.catalogue.ratings import load_ratings
from stripdown.catalogue.screw_classes import load_screw_classes
from stripdown.catalogue.shell_materials import load_shell_materials
from stripdown.catalogue.springs import load_springs
from stripdown.catalogue.threads import load_threads
from stripdown.catalogue.wires import load_wires
from stripdown.errors import InputError
from stripdown.tables.nearest import letters, near_names, nearest_name

_KINDS: Final[Mapping[str, tuple[str, Callable[[], Mapping[str, CatalogueEntry]]]]] = MappingProxyType(
    {
        "gun": ("Typical guns", load_guns),
        "ball": ("Balls", load_balls),
        "spring": ("Springs by trade label", load_springs),
        "wire": ("Spring wire", load_wires),
        "default": ("What is assumed of what nobody measured", load_defaults),
        "fault": ("Faults that cost velocity", load_faults),
        "limit": ("Energy limits", load_limits),
        "protection": ("Eye protection, by its test", load_protection),
        "injury": ("Energies at which harm was seen: not to be sorted", load_injuries),
        "engagement": ("Least distances between players", load_engagement),
        "material": ("Materials", load_materials),
        "fluid": ("Cleaners, lubricants and adhesives", load_fluids),
        "part": ("Parts, and what they are made of", load_part_materials),
        "rating": ("What may touch what", load_ratings),
        "thread": ("Threads", load_threads),
        "screw_class": ("Property classes of screws", load_screw_classes),
        "shell_material": ("What bosses and shells are made of", load_shell_materials),
    }
)


def kind_name(kind: str) -> str:
    """What a kind of entry is called."""
    return _KINDS[kind][0]


def catalogue_entries(words: str = "") -> tuple[CatalogueEntry, ...]:
    """Entries of the catalogue that some words name.

    Parameters
    ----------
    words
        Words or parts of words, in any case, each of which must stand in the key, a name or the kind of an entry
        (``"spring M100"``, ``"nitrile"``, ``"limit"``); empty for the whole catalogue.

    Returns
    -------
    tuple of CatalogueEntry
        By kind, in the order of its file; each with key, name, other names and provenance, and with what is particular to its
        kind (a `Fluid` has cautions).

    Raises
    ------
    InputError
        If nothing is named so, with the nearest names.
    """
    wanted = [letters(word) for word in words.split() if letters(word)]
    every = [entry for _, load in _KINDS.values() for entry in load().values()]
    found = tuple(entry for entry in every if all(_is_in(word, entry) for word in wanted))
    if found:
        return found
    names = [name for entry in every for name in entry.names]
    known = [*names, *re.findall(r"[^\W\d_]{3,}", " ".join(names)), *_KINDS]
    hint = nearest_name(words, known if near_names(words, known) else _KINDS)
    raise InputError(f'nothing in the catalogue is called "{words}".', field="words", value=words, hint=hint)


def _is_in(word: str, entry: CatalogueEntry) -> bool:
    return any(word in letters(said) for said in (entry.kind, kind_name(entry.kind), entry.key, *entry.names))
