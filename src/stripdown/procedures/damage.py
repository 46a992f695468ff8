"""From a pattern of damage to its likely cause, and to the work to ask for: the part is the witness, not the culprit."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from stripdown.procedures.description import Procedures
from stripdown.procedures.documents import needed_provenance, packaged_text
from stripdown.procedures.entries import Entry, checked_keys, read_entries
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.request import Request
from stripdown.procedures.variations import Variation
from stripdown.references.provenance import Provenance
from stripdown.tables.table import PROVENANCE, Table, read_tables

_FILE = "damage.toml"
_FIELDS = ("parts", "shots", "see", "causes", "tell", "work", "prove", *PROVENANCE)


@dataclass(frozen=True, slots=True, kw_only=True)
class DamagePattern:
    """A pattern of damage, what it likely comes from, and what to do about the cause.

    Parameters
    ----------
    key
        Stable name.
    see
        What one sees.
    parts
        Keys of the parts on which one sees it, or which make the shots look so.
    is_in_shots
        Whether one sees it in the shots rather than on a part.
    causes
        Likely causes, the likeliest first.
    tell
        How to tell which.
    work, prove
        Actions and checks to ask for.
    provenance
        Whose experience it is.
    """

    key: str
    see: str
    parts: tuple[str, ...]
    is_in_shots: bool
    causes: tuple[str, ...]
    tell: str
    work: tuple[str, ...]
    prove: tuple[str, ...]
    provenance: Provenance

    @property
    def request(self) -> Request:
        """What to ask the planner for."""
        return Request(work=self.work, wanted=self.prove)


@dataclass(frozen=True, kw_only=True, eq=False)
class Damage:
    """All patterns, before it is known which gun.

    Parameters
    ----------
    procedures
        All procedures.
    entries
        Patterns by key.
    """

    procedures: Procedures
    entries: Mapping[str, Entry]

    def patterns(
        self, variation: Variation | Mapping[str, str] | str | Iterable[str], *, part: str | None = None
    ) -> tuple[DamagePattern, ...]:
        """Patterns that a variation can show.

        Parameters
        ----------
        variation
            What gun it is: feature to choice, or choices alone; what is not said is assumed.
        part
            Key of a part; None for all.

        Returns
        -------
        tuple of DamagePattern
            In the order of the data: the piston first.

        Raises
        ------
        InputError
            If a feature or choice is unknown, or the part.
        """
        chosen = self.procedures.variation(variation)
        procedure = self.procedures.procedure(chosen)
        if part is not None:
            procedure.part(part)
        found = []
        for key, entry in self.entries.items():
            table = entry.fixed(chosen, {})
            if table is not None:
                pattern = _pattern(key, table, procedure)
                if pattern.parts and (part is None or part in pattern.parts):
                    found.append(pattern)
        return tuple(found)


@functools.cache
def load_damage() -> Damage:
    """Read the packaged patterns of damage.

    Returns
    -------
    Damage

    Raises
    ------
    CatalogueError
        With file, table and field.
    """
    return read_damage(packaged_text(_FILE), file=_FILE, procedures=load_procedures())


def read_damage(text: str, *, file: str, procedures: Procedures) -> Damage:
    """Read patterns of damage from TOML."""
    whole = read_tables(text, file=file, known=["damage"])
    entries = {entry.key: entry for entry in read_entries(whole, "damage", procedures.features)}
    for key, entry in entries.items():
        for table in entry.versions():
            table.only(*_FIELDS)
            checked_keys(table, "parts", table.texts("parts"), procedures.parts, "part")
            checked_keys(table, "work", table.texts("work"), procedures.actions, "action")
            checked_keys(table, "prove", table.texts("prove"), procedures.checks, "check")
            _pattern(key, table, None)
    return Damage(procedures=procedures, entries=entries)


def _pattern(key: str, table: Table, procedure: Procedure | None) -> DamagePattern:
    provenance = needed_provenance(table)
    parts, causes, work, prove = (table.texts(field) for field in ("parts", "causes", "work", "prove"))
    if not causes:
        raise table.wrong("causes", None, "is missing: a pattern without a cause helps nobody.")
    if not work and not prove:
        raise table.wrong("work", None, "is missing: ask for some work, or at least for a check.")
    if not parts:
        raise table.wrong("parts", None, "is missing: name the parts on which one sees it.")
    if procedure is not None:
        parts = tuple(one for one in parts if one in procedure.parts)
        work = tuple(one for one in work if one in procedure.actions)
        prove = tuple(one for one in prove if one in procedure.checks)
    return DamagePattern(
        key=key,
        see=table.text("see"),
        parts=parts,
        is_in_shots=table.flag("shots", default=False),
        causes=causes,
        tell=table.text("tell", default=""),
        work=work,
        prove=prove,
        provenance=provenance,
    )
