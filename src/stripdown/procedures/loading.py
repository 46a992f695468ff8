"""Read the procedures: the packaged description, and a technician's own steps for a model of gun."""

from __future__ import annotations

import functools
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from importlib.resources import files
from typing import Any

from stripdown.errors import CatalogueError
from stripdown.procedures.description import Procedures, step_patterns
from stripdown.procedures.entries import Entry, read_condition, read_entries, read_order
from stripdown.procedures.records import ACTION_FIELDS, CHECK_FIELDS, PART_FIELDS, read_action, read_check, read_part
from stripdown.procedures.steps import StepKind
from stripdown.procedures.tables import Table, checked_keys
from stripdown.procedures.variations import Choice, Feature
from stripdown.references import load_references

_FILES = ("features.toml", "parts.toml", "checks.toml", "actions.toml", "order.toml", "jobs.toml")
_SORTS = ("feature", "place", "part", "check", "action", "job")
_JOB_FIELDS = ("name", "for", "words", "work", "wanted", "as_found")


@functools.cache
def load_procedures() -> Procedures:
    """Read the packaged procedures.

    Returns
    -------
    Procedures
        One description for all variations.

    Raises
    ------
    CatalogueError
        With file, table and field.
    """
    folder = files("stripdown.procedures") / "data"
    return read_procedures({name: (folder / name).read_text(encoding="utf-8") for name in _FILES})


def add_own_steps(text: str, *, file: str) -> Procedures:
    """The packaged procedures with a technician's own parts, checks, actions, orders and jobs.

    Parameters
    ----------
    text
        TOML in the form of the packaged files; ``[[amend]]`` with ``entry = "check.closed_box_float"`` changes what is there.
    file
        Name of the file, for messages.

    Returns
    -------
    Procedures

    Raises
    ------
    CatalogueError
        With table and field; also for an entry that is there already.
    """
    folder = files("stripdown.procedures") / "data"
    return read_procedures({**{name: (folder / name).read_text(encoding="utf-8") for name in _FILES}, file: text})


def amended(procedures: Procedures, check: str, fields: Mapping[str, Any]) -> Procedures:
    """Procedures in which a check says something else, in every variation.

    Parameters
    ----------
    procedures
        All procedures.
    check
        Key of the check.
    fields
        What it says besides or instead, as in a procedures file.

    Returns
    -------
    Procedures
    """
    entry = procedures.checks[check]
    changed = replace(entry, amendments=(*entry.amendments, ({}, fields)))
    return replace(procedures, checks={**procedures.checks, check: changed})


def read_procedures(texts: Mapping[str, str]) -> Procedures:
    """Read procedures from TOML.

    Parameters
    ----------
    texts
        Text by name of file; what one file names another may hold.

    Returns
    -------
    Procedures

    Raises
    ------
    CatalogueError
        With file, table and field.
    """
    documents = {file: _document(file, text) for file, text in texts.items()}
    features = tuple(feature for file, one in documents.items() for feature in _features(file, one.get("feature", {})))
    sorts: dict[str, dict[str, Entry]] = {sort: {} for sort in ("part", "check", "action", "job")}
    for file, document in documents.items():
        for sort, found in sorts.items():
            for entry in read_entries(document.get(sort, {}), sort, file, features):
                if entry.key in found:
                    raise entry.table.wrong("key", entry.key, "is there already; to change it use [[amend]].")
                found[entry.key] = entry
    for file, document in documents.items():
        _amend(sorts, Table(file, "amend", document).tables("amend"), features)
    order = tuple(entry for file, one in documents.items() for entry in read_order(one.get("pair", []), file, features))
    places = {key: table.text("name") for file, one in documents.items() for key, table in _tables(file, one, "place")}
    _look_through(sorts, order, places)
    return Procedures(
        features=features,
        places=places,
        parts=sorts["part"],
        checks=sorts["check"],
        actions=sorts["action"],
        jobs=sorts["job"],
        order=order,
    )


def _document(file: str, text: str) -> dict[str, Any]:
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as reason:
        raise CatalogueError(f"is not readable: {reason}.", file=file) from reason
    for key in document:
        if key not in {*_SORTS, "pair", "amend"}:
            known = ", ".join((*_SORTS, "pair", "amend"))
            raise CatalogueError(f'"{key}" is nothing that procedures have. Known are {known}.', file=file, field=key)
    return document


def _tables(file: str, document: Mapping[str, Any], sort: str) -> Iterable[tuple[str, Table]]:
    whole = document.get(sort, {})
    if not isinstance(whole, dict):
        raise CatalogueError(f"must hold tables [{sort}.name].", file=file, field=sort)
    for key, raw in whole.items():
        if not isinstance(raw, dict):
            raise Table(file, sort, whole).wrong(key, raw, f"must be a table [{sort}.{key}].")
        yield key, Table(file, f"{sort}.{key}", raw)


def _features(file: str, raw: Mapping[str, Any]) -> tuple[Feature, ...]:
    found: list[Feature] = []
    for key, table in _tables(file, {"feature": raw}, "feature"):
        table.only("name", "choice", "default")
        choices = tuple(
            Choice(key=one.text("key"), name=one.text("name"), words=one.texts("words")) for one in table.tables("choice")
        )
        if not choices:
            raise table.wrong("choice", None, "is missing.")
        defaults = tuple((read_condition(one, "when", tuple(found)), one.text("choice")) for one in table.tables("default"))
        for _, choice in defaults:
            checked_keys(table, "default", (choice,), (one.key for one in choices), "choice")
        found.append(Feature(key=key, name=table.text("name"), choices=choices, defaults=defaults))
    return tuple(found)


def _amend(sorts: Mapping[str, dict[str, Entry]], amendments: Iterable[Table], features: tuple[Feature, ...]) -> None:
    for table in amendments:
        sort, _, key = table.text("entry").partition(".")
        if key not in sorts.get(sort, {}):
            raise table.wrong("entry", f"{sort}.{key}", 'is no entry; name it as in "check.closed_box_float".')
        entry = sorts[sort][key]
        fields = {field: value for field, value in table.fields.items() if field not in {"entry", "when"}}
        condition = read_condition(table, "when", features)
        sorts[sort][key] = replace(entry, amendments=(*entry.amendments, (condition, fields)))


def _look_through(sorts: Mapping[str, Mapping[str, Entry]], order: Iterable[Entry], places: Mapping[str, str]) -> None:
    """Every entry, with every amendment, names only what some variation knows."""
    parts, checks, actions = sorts["part"], sorts["check"], sorts["action"]
    for key, entry in parts.items():
        for table in entry.versions():
            table.only(*PART_FIELDS)
            part = read_part(key, table)
            checked_keys(table, "place", (part.place,), places, "place")
            checked_keys(table, "in_front", part.in_front, parts, "part")
            checked_keys(table, "in_front_of", table.texts("in_front_of"), parts, "part")
            checked_keys(table, "needs", (*part.needs, *part.needs_back), checks, "check")
    for key, entry in checks.items():
        for table in entry.versions():
            table.only(*CHECK_FIELDS)
            check = read_check(key, table)
            touched = tuple(part for part, _ in check.touches)
            named = (*check.about, *check.off, *check.on, *check.dry, *touched, *(one.part for one in check.exempt))
            checked_keys(table, "place", (check.place,), places, "place")
            checked_keys(table, "about, off, on, dry, touches or exempt", named, parts, "part")
            checked_keys(table, "rests_on or needs", (*check.rests_on, *check.needs), checks, "check")
            checked_keys(table, "remedies", check.remedies, actions, "action")
            _check_source(table)
    for key, entry in actions.items():
        for table in entry.versions():
            table.only(*ACTION_FIELDS)
            action = read_action(key, table)
            named = (*action.off, *action.on, *(part for part, _ in action.touches))
            checked_keys(table, "place", (action.place,) if action.place else (), places, "place")
            checked_keys(table, "off, on or touches", named, parts, "part")
            checked_keys(table, "needs", action.needs, checks, "check")
            checked_keys(table, "excludes", action.excludes, actions, "action")
            _check_source(table)
    for entry in sorts["job"].values():
        for table in entry.versions():
            table.only(*_JOB_FIELDS)
            checked_keys(table, "work", table.texts("work"), actions, "action")
            checked_keys(table, "wanted or as_found", (*table.texts("wanted"), *table.texts("as_found")), checks, "check")
    _look_through_order(order, {"part": parts, "check": checks, "action": actions})


def _look_through_order(order: Iterable[Entry], sorts: Mapping[str, Mapping[str, Entry]]) -> None:
    keys_of = {StepKind.TAKE_OFF: "part", StepKind.PUT_BACK: "part", StepKind.DO: "action"}
    names = [f"{kind.value}:{key}" for kind in StepKind for key in sorts[keys_of.get(kind, "check")]]
    for entry in order:
        for table in entry.versions():
            table.only("first", "then", "why", "cure")
            for field in ("first", "then"):
                for pattern in step_patterns(table, field):
                    stem = pattern.removesuffix("*")
                    if not any(name.startswith(stem) if pattern.endswith("*") else name == stem for name in names):
                        raise table.wrong(field, pattern, "is no step of any variation.")


def _check_source(table: Table) -> None:
    provenance = table.provenance()
    if provenance is not None and provenance.source is not None and provenance.source not in load_references():
        raise table.wrong("source", provenance.source, "is no key of the register of references.")
