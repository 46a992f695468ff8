"""What can be hurt, and how: a person, a part, or a reading."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from stripdown.tables.table import Table


class Harm(enum.StrEnum):
    """Whom or what a caution concerns."""

    PERSON = "person"
    PART = "part"
    READING = "reading"


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution, and whom it concerns."""

    words: str
    harm: Harm = Harm.PERSON

    def __str__(self) -> str:
        """Its words."""
        return self.words


def read_cautions(table: Table, field: str) -> tuple[Caution, ...]:
    """Read cautions; one of which nobody says whom it concerns is taken to concern a person."""
    written = table.fields.get(field, [])
    return tuple(_caution(table, field, one) for one in (written if isinstance(written, list) else [written]))


def _caution(table: Table, field: str, written: object) -> Caution:
    if isinstance(written, str):
        return Caution(written)
    if isinstance(written, dict) and len(written) == 1:
        [(harm, words)] = written.items()
        table.known(field, [harm], [one.value for one in Harm], "is nobody that a caution can concern.")
        if isinstance(words, str):
            return Caution(words, Harm(harm))
    raise table.wrong(field, written, 'must be cautions, as in { person = "Eye protection." }.')
