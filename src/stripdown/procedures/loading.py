"""Read the procedures: the packaged description, and a technician's own steps for a model of gun."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from stripdown.procedures.bodies import body_named
from stripdown.procedures.description import Procedures, step_patterns
from stripdown.procedures.documents import amend, optional_provenance, packaged_text
from stripdown.procedures.entries import Entry, checked_keys, read_condition, read_entries, read_order
from stripdown.procedures.records import ACTION_FIELDS, CHECK_FIELDS, PART_FIELDS, read_action, read_check, read_part
from stripdown.procedures.steps import StepKind
from stripdown.procedures.troubles import TROUBLE_FIELDS, read_trouble
from stripdown.procedures.variations import Choice, Feature
from stripdown.tables.table import Table, read_tables

_FILES = ("features.toml", "parts.toml", "checks.toml", "actions.toml", "order.toml", "jobs.toml", "troubles.toml")
_SORTS = ("feature", "place", "part", "check", "action", "job", "trouble")
_BESIDES = ("pair", "amend", "body")
_JOB_FIELDS = ("name", "for", "words", "work", "wanted", "as_found", "graded")


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
    return read_procedures({name: packaged_text(name) for name in _FILES})


def add_own_steps(text: str, *, file: str, body: str = "") -> Procedures:
    """The packaged procedures with a technician's own parts, checks, actions, orders and jobs.

    Parameters
    ----------
    text
        TOML in the form of the packaged files; ``[[amend]]`` with ``entry = "check.closed_box_float"`` changes what is there.
    file
        Name of the file, for messages.
    body
        Key or name of a body with ready steps to which these are added; empty for none.

    Returns
    -------
    Procedures

    Raises
    ------
    CatalogueError
        With table and field; also for an entry that is there already.
    InputError
        If no body is called so.
    """
    ready = {one.file: one.text for one in ([body_named(body)] if body else [])}
    return read_procedures({**{name: packaged_text(name) for name in _FILES}, **ready, file: text})


def amended(procedures: Procedures, check: str, fields: Mapping[str, Any]) -> Procedures:
    """Procedures in which a check says something else, in every variation."""
    entry = procedures.checks[check]
    changed = replace(entry, amendments=(*entry.amendments, ({}, fields)))
    return replace(procedures, checks={**procedures.checks, check: changed})


def read_procedures(texts: Mapping[str, str]) -> Procedures:
    """Read procedures from TOML."""
    wholes = [read_tables(text, file=file, known=(*_SORTS, *_BESIDES)) for file, text in texts.items()]
    features = tuple(feature for whole in wholes for feature in _features(whole))
    sorts: dict[str, dict[str, Entry]] = {sort: {} for sort in ("part", "check", "action", "job")}
    for whole in wholes:
        for sort, found in sorts.items():
            for entry in read_entries(whole, sort, features):
                if entry.key in found:
                    raise entry.table.wrong("key", entry.key, "is there already; to change it use [[amend]].")
                found[entry.key] = entry
    amended_tables = [one for whole in wholes for table in whole.tables("amend") for one in amend(sorts, table, features)]
    order = tuple(entry for whole in wholes for entry in read_order(whole, features))
    places = {table.key: table.text("name") for whole in wholes for table in whole.sort("place")}
    troubles = {table.key: read_trouble(table.key, table) for whole in wholes for table in whole.sort("trouble")}
    _look_through(sorts, order, places, amended_tables)
    _look_at_becoming(sorts["action"], features)
    _look_through_troubles([table for whole in wholes for table in whole.sort("trouble")], sorts)
    return Procedures(
        features=features,
        places=places,
        parts=sorts["part"],
        checks=sorts["check"],
        actions=sorts["action"],
        jobs=sorts["job"],
        order=order,
        troubles=troubles,
    )


def _features(whole: Table) -> tuple[Feature, ...]:
    found: list[Feature] = []
    for table in whole.sort("feature"):
        table.only("name", "choice", "default")
        choices = tuple(
            Choice(key=one.text("key"), name=one.text("name"), words=one.texts("words")) for one in table.tables("choice")
        )
        if not choices:
            raise table.wrong("choice", None, "is missing.")
        defaults = tuple((read_condition(one, "when", tuple(found)), one.text("choice")) for one in table.tables("default"))
        for _, choice in defaults:
            checked_keys(table, "default", (choice,), (one.key for one in choices), "choice")
        found.append(Feature(key=table.key, name=table.text("name"), choices=choices, defaults=defaults))
    return tuple(found)


def _look_through(
    sorts: Mapping[str, Mapping[str, Entry]],
    order: Iterable[Entry],
    places: Mapping[str, str],
    amended_tables: Iterable[tuple[str, str, Table]],
) -> None:
    """Every entry, with every amendment, names only what some variation knows."""
    for sort, key, table in amended_tables:  # first these, so that the file that amends is named and not the one that is amended
        _look_at(sorts, places, sort, key, table)
    for sort, entries in sorts.items():
        for key, entry in entries.items():
            for table in entry.versions():
                _look_at(sorts, places, sort, key, table)
    _look_through_order(order, {sort: sorts[sort] for sort in ("part", "check", "action")})


def _look_at(sorts: Mapping[str, Mapping[str, Entry]], places: Mapping[str, str], sort: str, key: str, table: Table) -> None:
    parts, checks, actions = sorts["part"], sorts["check"], sorts["action"]
    if sort == "part":
        table.only(*PART_FIELDS)
        part = read_part(key, table)
        checked_keys(table, "place", (part.place,), places, "place")
        checked_keys(table, "in_front", part.in_front, parts, "part")
        checked_keys(table, "carries", part.carries, parts, "part")
        checked_keys(table, "in_front_of", table.texts("in_front_of"), parts, "part")
        checked_keys(table, "needs", (*part.needs, *part.needs_back), checks, "check")
    elif sort == "check":
        table.only(*CHECK_FIELDS)
        check = read_check(key, table)
        touched = tuple(part for part, _ in check.touches)
        others = (*check.settings, *check.without, *(one.part for one in check.exempt))
        named = (*check.about, *check.off, *check.on, *check.dry, *touched, *others)
        checked_keys(table, "place", (check.place,), places, "place")
        checked_keys(table, "about, off, on, dry, touches, exempt, settings or without", named, parts, "part")
        checked_keys(
            table, "rests_on, needs or proved_first", (*check.rests_on, *check.needs, *check.proved_first), checks, "check"
        )
        for method in check.methods:
            checked_keys(table, "method.off or method.on", (*method.off, *method.on), parts, "part")
        checked_keys(table, "spared_back", check.spared_back, parts, "part")
        checked_keys(table, "remedies", check.remedies, actions, "action")
        optional_provenance(table)
    elif sort == "action":
        table.only(*ACTION_FIELDS)
        action = read_action(key, table)
        named = (*action.off, *action.on, *(part for part, _ in action.touches))
        checked_keys(table, "place", (action.place,) if action.place else (), places, "place")
        checked_keys(table, "off, on or touches", named, parts, "part")
        checked_keys(table, "needs", action.needs, checks, "check")
        checked_keys(table, "excludes or brings", (*action.excludes, *action.brings), actions, "action")
        optional_provenance(table)
    else:
        table.only(*_JOB_FIELDS)
        checked_keys(table, "work", table.texts("work"), actions, "action")
        checked_keys(table, "wanted or as_found", (*table.texts("wanted"), *table.texts("as_found")), checks, "check")


def _look_at_becoming(actions: Mapping[str, Entry], features: tuple[Feature, ...]) -> None:
    """What an action makes of a gun is one choice of each feature that it names."""
    for entry in actions.values():
        for table in entry.versions():
            for feature, choices in read_condition(table, "becomes", features).items():
                if len(choices) > 1:
                    raise table.wrong("becomes", sorted(choices), f"must be one choice of {feature}: a gun has one.")


def _look_through_troubles(tables: Iterable[Table], sorts: Mapping[str, Mapping[str, Entry]]) -> None:
    known = {StepKind.MAKE: sorts["check"], StepKind.DO: sorts["action"]}
    names = [f"{kind.value}:{key}" for kind, entries in known.items() for key in entries]
    for table in tables:
        table.only(*TROUBLE_FIELDS)
        checked_keys(table, "until", table.texts("until"), names, "step")
        checked_keys(table, "asked", table.texts("asked"), {**sorts["action"], **sorts["check"]}, "action or check")
        checked_keys(table, "failed", table.texts("failed"), sorts["check"], "check")


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
