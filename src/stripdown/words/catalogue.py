"""What is said of the catalogue: a table for each kind of entry, or, of a few entries, all that it holds."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Final

from stripdown.catalogue.fluids import Fluid
from stripdown.catalogue.index import kind_name
from stripdown.words.answer import Answer, Cell, Column, Named, Sentence, Table
from stripdown.words.limit import NO_ADVICE
from stripdown.words.sources import on_whose_word

if TYPE_CHECKING:
    from stripdown.catalogue.entries import CatalogueEntry

_BY_LAW: Final = frozenset({"limit", "protection", "injury", "engagement"})
_WHOLE: Final = 12  # entries of which all is said
_COLUMNS = (Column(head="Key"), Column(head="Name"), Column(head="Also called"), Column(head="How known"))


def catalogue_answer(entries: Sequence[CatalogueEntry]) -> Answer:
    """Say what the catalogue holds of some entries."""
    parts = (
        tuple(map(_entry, entries)) if len(entries) <= _WHOLE else tuple(_kind(kind, some) for kind, some in _by_kind(entries))
    )
    count = "One entry" if len(entries) == 1 else f"{len(entries)} entries"
    return Answer(
        key="catalogue",
        title="Catalogue",
        lead=(Sentence(key="count", full=f"{count}.", act="search_catalogue" if len(entries) > _WHOLE else ""),),
        parts=parts,
        cautions=(NO_ADVICE,) if any(entry.kind in _BY_LAW for entry in entries) else (),
    )


def _by_kind(entries: Sequence[CatalogueEntry]) -> list[tuple[str, list[CatalogueEntry]]]:
    return [(kind, list(some)) for kind, some in groupby(entries, key=lambda entry: entry.kind)]


def _kind(kind: str, entries: Sequence[CatalogueEntry]) -> Answer:
    rows = tuple(
        (
            Cell(text=entry.key, key=entry.key),
            Cell(text=entry.name),
            Cell(text=", ".join(entry.names[1:])),
            Cell(text=entry.provenance.footing.words),
        )
        for entry in entries
    )
    return Answer(key=kind, title=kind_name(kind), tables=(Table(key=kind, columns=_COLUMNS, rows=rows),))


def _entry(entry: CatalogueEntry) -> Answer:
    others = ", ".join(entry.names[1:])
    return Answer(
        key=f"{entry.kind}.{entry.key}",
        title=f"{entry.name} [{entry.key}]: {kind_name(entry.kind)}",
        named=(
            *([Named(key="names", name="also called", text=others)] if others else ()),
            *(
                Named(key=field, name=field.replace("_", " "), text=said.replace("_", " "))
                for field, said in entry.as_written.items()
                if field != "cautions"
            ),
            Named(key="provenance", name="on whose word", text=on_whose_word(entry.provenance)),
        ),
        cautions=tuple(Sentence(full=said) for said in entry.cautions) if isinstance(entry, Fluid) else (),
    )
