"""For each part: keep, watch or replace, on what look or measurement, by whose limits?"""

from __future__ import annotations

import functools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from stripdown.errors import CatalogueError, InputError
from stripdown.procedures.description import Procedures
from stripdown.procedures.documents import amend, needed_provenance, optional_provenance, packaged_text, plain_words
from stripdown.procedures.entries import Entry, checked_keys, filled, read_entries
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.look_tables import LOOK_FIELDS, SPEAKING_FIELDS, TERM_FIELDS, read_look, read_term
from stripdown.procedures.looks import AppearanceTerm, Look, Vocabulary
from stripdown.procedures.new_part_grids import NewPartGrid, read_grid
from stripdown.procedures.parts import Part
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.variations import Variation
from stripdown.tables.nearest import nearest_entry, nearest_name
from stripdown.tables.table import PROVENANCE, Table, read_tables

_FILE = "inspection.toml"
_SORTS = ("limit_set", "care", "group", "vocabulary", "term", "grid", "look", "amend")


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitSet:
    """A named and numbered document of limits."""

    name: str
    version: int
    note: str = ""

    @property
    def words(self) -> str:
        """Name and version."""
        return f"{self.name}, version {self.version}"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartGroup:
    """Parts that a technician speaks of in one word: gears, seals."""

    key: str
    name: str
    words: tuple[str, ...]
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class InspectionSheet:
    """What to look at on one variation of gun.

    Parameters
    ----------
    variation
        Choice for each feature.
    procedure
        Procedures of that variation.
    groups
        Groups of parts that have looks here.
    looks
        Looks by key of the part, in the order of work.
    grids
        Tables for new parts, by key.
    limit_sets
        Whose limits they are: the packaged set, then those that amend it.
    care
        What can hurt while one looks.
    """

    variation: Variation
    procedure: Procedure
    groups: tuple[PartGroup, ...]
    looks: Mapping[str, tuple[Look, ...]]
    grids: Mapping[str, NewPartGrid]
    limit_sets: tuple[LimitSet, ...]
    care: tuple[str, ...] = ()

    def look(self, part: str, key: str) -> Look:
        """One look at one part.

        Parameters
        ----------
        part
            Key of the part.
        key
            Key of the look.

        Returns
        -------
        Look

        Raises
        ------
        InputError
            If there is no such part or look here, with the nearest ones.
        """
        self.procedure.part(part)
        for one in self.looks.get(part, ()):
            if one.key == key:
                return one
        hint = nearest_entry(key, {one.key: one.name for one in self.looks.get(part, ())} or {one: one for one in self.looks})
        raise InputError(f'"{key}" is no look at the {self.procedure.parts[part].name}.', field="look", value=key, hint=hint)

    def parts_named(self, words: str) -> tuple[Part, ...]:
        """Parts that some words mean: one part, or the parts of a group.

        Parameters
        ----------
        words
            Key or name of a part; key, name or other word of a group.

        Returns
        -------
        tuple of Part

        Raises
        ------
        InputError
            If nothing is called so, or nothing is looked at there, with the nearest names.
        """
        wanted = plain_words(words)
        parts = self.procedure.parts
        for key in self.looks:
            if wanted in {plain_words(key), plain_words(parts[key].name)}:
                return (parts[key],)
        for group in self.groups:
            if wanted in {plain_words(one) for one in (group.key, group.name, *group.words)}:
                return tuple(parts[key] for key in group.parts)
        known = [*self.looks, *(name for group in self.groups for name in (group.key, *group.words))]
        hint = nearest_name(words, [plain_words(one).replace(" ", "_") for one in known])
        is_part = any(wanted in {plain_words(key), plain_words(one.name)} for key, one in parts.items())
        what = "has nothing to look at of its own" if is_part else "is no part of this gun that is looked at"
        raise InputError(f'"{words}" {what}.', field="part", value=words, hint=hint)


@dataclass(frozen=True, kw_only=True, eq=False)
class Inspection:
    """All looks at all parts, before it is known which gun.

    Parameters
    ----------
    procedures
        All procedures: parts, and the work that a reject asks for.
    limit_sets
        Whose limits they are.
    groups, vocabularies, grids
        Tables by key.
    terms, looks
        Entries by key.
    care
        What can hurt while one looks.
    """

    procedures: Procedures
    limit_sets: tuple[LimitSet, ...]
    groups: Mapping[str, PartGroup]
    vocabularies: Mapping[str, Table]
    grids: Mapping[str, NewPartGrid]
    terms: Mapping[str, Entry]
    looks: Mapping[str, Entry]
    care: tuple[str, ...] = ()

    def sheet(self, variation: Variation | Mapping[str, str] | str | Iterable[str]) -> InspectionSheet:
        """What to look at on one variation.

        Parameters
        ----------
        variation
            What gun it is: feature to choice, or choices alone; what is not said is assumed.

        Returns
        -------
        InspectionSheet

        Raises
        ------
        InputError
            If a feature or choice is unknown.
        """
        return _fixed(self, self.procedures.variation(variation))


@functools.cache
def load_inspection() -> Inspection:
    """Read the packaged looks and limits.

    Returns
    -------
    Inspection

    Raises
    ------
    CatalogueError
        With file, table and field.
    """
    return read_inspection({_FILE: packaged_text(_FILE)}, load_procedures())


def add_own_limits(text: str, *, file: str, procedures: Procedures | None = None) -> Inspection:
    """The packaged looks with a technician's own looks and limits.

    Parameters
    ----------
    text
        TOML in the form of the packaged file, with a ``[limit_set]`` of its own; ``[[amend]]`` with ``entry = "look.rack_teeth"``
        changes what is there, and says on whose word.
    file
        Name of the file, for messages.
    procedures
        All procedures; None for the packaged ones.

    Returns
    -------
    Inspection

    Raises
    ------
    CatalogueError
        With file, table and field.
    """
    return read_inspection({_FILE: packaged_text(_FILE), file: text}, procedures or load_procedures())


def read_inspection(texts: Mapping[str, str], procedures: Procedures) -> Inspection:
    """Read looks and limits from TOML."""
    wholes = [read_tables(text, file=file, known=_SORTS) for file, text in texts.items()]
    sorts: dict[str, dict[str, Entry]] = {"term": {}, "look": {}}
    limit_sets = {whole.file: _limit_set(whole) for whole in wholes}
    for whole in wholes:
        for sort, found in sorts.items():
            for entry in read_entries(whole, sort, procedures.features):
                if entry.key in found:
                    raise entry.table.wrong("key", entry.key, "is there already; to change it use [[amend]].")
                fields = {**entry.table.fields, "set_by": limit_sets[whole.file].words}
                found[entry.key] = replace(entry, table=replace(entry.table, fields=fields))
    amended: list[tuple[str, str, Table]] = []
    for whole in wholes:
        for table in whole.tables("amend"):
            if not table.fields.keys().isdisjoint(SPEAKING_FIELDS) and "footing" not in table.fields:
                raise table.wrong("footing", None, 'is missing: a changed limit says on whose word, as "common_practice".')
            besides = {"set_by": limit_sets[whole.file].words, **_own_word(table)}
            amended += amend(sorts, table, procedures.features, besides=besides)
    inspection = Inspection(
        procedures=procedures,
        limit_sets=tuple(limit_sets.values()),
        groups={one.key: _group(one, procedures) for whole in wholes for one in whole.sort("group")},
        vocabularies={one.key: one for whole in wholes for one in whole.sort("vocabulary")},
        grids={one.key: read_grid(one) for whole in wholes for one in whole.sort("grid")},
        terms=sorts["term"],
        looks=sorts["look"],
        care=tuple(line for whole in wholes for line in whole.texts("care")),
    )
    _look_through(inspection, amended)
    return inspection


def _own_word(table: Table) -> Mapping[str, object]:
    """An amendment that speaks for itself no longer cites what it amends."""
    provenance = optional_provenance(table)
    return {} if provenance is None else {"source": provenance.source or "", "where": provenance.where}


def _limit_set(whole: Table) -> LimitSet:
    if not isinstance(whole.fields.get("limit_set"), dict):
        hint = 'Write [limit_set] with name = "..." and version = 1: limits are a document that has a name and a number.'
        raise CatalogueError("has no [limit_set].", file=whole.file, field="limit_set", hint=hint)
    table = whole.table("limit_set")
    table.only("name", "version", "note")
    version = table.fields.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise table.wrong("version", version, "must be a whole number from 1; add one with every change.")
    return LimitSet(name=table.text("name"), version=version, note=table.text("note", default=""))


def _group(table: Table, procedures: Procedures) -> PartGroup:
    table.only("name", "words", "parts")
    checked_keys(table, "parts", table.texts("parts"), procedures.parts, "part")
    return PartGroup(key=table.key, name=table.text("name"), words=table.texts("words"), parts=table.texts("parts"))


def _look_through(inspection: Inspection, amended: Iterable[tuple[str, str, Table]]) -> None:
    """Every look, with every amendment, names only what some variation knows, and says on whose word."""
    for table in inspection.vocabularies.values():
        table.only("name", "note", *PROVENANCE)
        needed_provenance(table)
    for sort, key, table in amended:  # first these, so that the file that amends is named and not the one that is amended
        _check(inspection, sort, key, table)
    for sort, entries in (("term", inspection.terms), ("look", inspection.looks)):
        for key, entry in entries.items():
            for table in entry.versions():
                _check(inspection, sort, key, table)


def _check(inspection: Inspection, sort: str, key: str, table: Table) -> None:
    known = inspection.procedures
    table.only(*(TERM_FIELDS if sort == "term" else LOOK_FIELDS))
    needed_provenance(table)
    if sort == "term":
        checked_keys(table, "vocabulary", (read_term(key, table)[0],), inspection.vocabularies, "vocabulary")
        return
    named = table.text("vocabulary", default="")
    checked_keys(table, "parts", table.texts("parts"), known.parts, "part")
    checked_keys(table, "grids", table.texts("grids"), inspection.grids, "grid")
    checked_keys(table, "vocabulary", (named,) if named else (), inspection.vocabularies, "vocabulary")
    for part in table.texts("parts"):
        own = replace(table, fields=filled(table.fields, {"part": part, "name": part}))
        look = read_look(key, part, own, None)
        checked_keys(own, "work", look.work, known.actions, "action")
        checked_keys(own, "prove", look.prove, known.checks, "check")


@functools.lru_cache(maxsize=64)
def _fixed(inspection: Inspection, variation: Variation) -> InspectionSheet:
    procedure = inspection.procedures.procedure(variation)
    vocabularies = _vocabularies(inspection, variation)
    found: dict[str, list[Look]] = {part: [] for part in procedure.parts}
    for key, entry in inspection.looks.items():
        table = entry.fixed(variation, {})
        if table is None:
            continue
        for part in table.texts("parts"):
            if part in found:
                words = {"part": part, "name": procedure.parts[part].name}
                own = replace(table, fields=filled(table.fields, words))
                look = read_look(key, part, own, vocabularies.get(own.text("vocabulary", default="")))
                here = tuple(one for one in look.work if one in procedure.actions)
                prove = tuple(one for one in look.prove if one in procedure.checks)
                found[part].append(replace(look, work=here, prove=prove))
    looks = {part: tuple(one) for part, one in found.items() if one}
    groups = [replace(group, parts=tuple(part for part in group.parts if part in looks)) for group in inspection.groups.values()]
    return InspectionSheet(
        variation=variation,
        procedure=procedure,
        groups=tuple(group for group in groups if group.parts),
        looks=looks,
        grids=inspection.grids,
        limit_sets=inspection.limit_sets,
        care=inspection.care,
    )


def _vocabularies(inspection: Inspection, variation: Variation) -> Mapping[str, Vocabulary]:
    terms: dict[str, list[AppearanceTerm]] = {key: [] for key in inspection.vocabularies}
    for key, entry in inspection.terms.items():
        table = entry.fixed(variation, {})
        if table is not None:
            vocabulary, term = read_term(key, table)
            terms[vocabulary].append(term)
    found = {}
    for key, table in inspection.vocabularies.items():
        found[key] = Vocabulary(
            key=key,
            name=table.text("name"),
            note=table.text("note"),
            terms=tuple(terms[key]),
            provenance=needed_provenance(table),
        )
    return found
