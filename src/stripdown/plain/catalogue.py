"""Entries of the catalogue as plain values for ``--json``: their figures as the catalogue writes them, with their units."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stripdown.catalogue.entries import CatalogueEntry


def entry_fields(entries: Iterable[CatalogueEntry]) -> dict[str, Any]:
    """Turn entries into plain values."""
    return {
        "entries": [
            {
                "kind": entry.kind,
                "key": entry.key,
                "name": entry.name,
                "names": list(entry.names),
                "as_written": dict(entry.as_written),
                "footing": entry.provenance.footing.value,
                "source": entry.provenance.source,
                "where": entry.provenance.where,
            }
            for entry in entries
        ]
    }
